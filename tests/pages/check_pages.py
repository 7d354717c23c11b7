"""Reads the sample books back with qpdf, poppler, libxml2 and librsvg.

What each checks and why it may be trusted:
- qpdf --check: the structure of the file (qpdf is not what wrote it).
- pdftotext -bbox-layout: words with their boxes as a reader's tool finds them, so that names, findings and lines are
  really extractable and really inside the page.
- pdffonts: every face embedded and subset.
- pdfinfo: tagged, page size, titles.
- xmllint, rsvg-convert: the SVG is well formed and draws.
"""

import hashlib
import pathlib
import re
import shutil
import subprocess
import sys
import unittest
import xml.etree.ElementTree as ET

SAMPLES = pathlib.Path()
OUT = pathlib.Path()

MM = 72 / 25.4
# The sheet is A4; Letter is 215.9 by 279.4 mm (ANSI/ASME Y14.1, size A). Content in a middle field of 190 by 254 mm
# survives both at 100 %.
FIELD = (10, 21.5, 200, 275.5)


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def need(tool):
    if shutil.which(tool) is None:
        raise AssertionError(f"{tool} is not installed; it is listed under [test] in .ci/packages")


def make(directory):
    directory.mkdir(parents=True, exist_ok=True)
    subprocess.run([str(SAMPLES), str(directory)], check=True)


def words_of(path):
    """(page, word, left, top, right, bottom) in mm."""
    xml = run("pdftotext", "-bbox", str(path), "-")
    found = []
    for page, body in enumerate(re.findall(r"<page.*?</page>", xml, re.S), 1):
        for match in re.finditer(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>', body):
            left, top, right, bottom = (float(value) / MM for value in match.groups()[:4])
            found.append((page, match.group(5), left, top, right, bottom))
    return found


def text_of(path):
    text = run("pdftotext", "-layout", str(path), "-").replace("\ufb01", "fi").replace("\ufb00", "ff")
    return re.sub(r"\s+", " ", text.replace("\ufb02", "fl").replace("\ufb03", "ffi"))


BOOKS = ("kitchen", "crowd", "hall", "nobody", "empty")


class Printed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        for tool in ("qpdf", "pdftotext", "pdffonts", "pdfinfo", "xmllint", "rsvg-convert"):
            need(tool)
        make(OUT / "first")
        make(OUT / "second")

    def test_two_runs_give_the_same_bytes(self):
        names = sorted(path.name for path in (OUT / "first").iterdir())
        self.assertGreaterEqual(len(names), 9)
        for name in names:
            first, second = (hashlib.sha256((OUT / run_ / name).read_bytes()).hexdigest() for run_ in ("first", "second"))
            self.assertEqual(first, second, name)

    def test_every_pdf_is_sound(self):
        for name in BOOKS + ("floor",):
            result = subprocess.run(["qpdf", "--check", str(OUT / "first" / f"{name}.pdf")], capture_output=True, text=True)
            self.assertEqual(result.returncode, 0, name + result.stdout + result.stderr)

    def test_the_book_is_tagged_and_titled(self):
        info = run("pdfinfo", str(OUT / "first/kitchen.pdf"))
        self.assertRegex(info, r"Tagged:\s+yes")
        self.assertIn("Last night of the season", info)
        self.assertRegex(info, r"Page size:\s+595\.27\d? x 841\.8")

    def test_faces_are_embedded_subsets(self):
        for row in run("pdffonts", str(OUT / "first/kitchen.pdf")).splitlines()[2:]:
            self.assertRegex(row, r"^[A-Z]{6}\+Lin(Biolinum|Libertine)")
            self.assertRegex(row, r"\byes yes yes\b")

    def test_names_lines_and_findings_can_be_read_out(self):
        text = text_of(OUT / "first/kitchen.pdf")
        for words in ("Oda", "Tobias", "Wren", "Jun", "Pell", "Yard Door", "Leave the pan. I signed",
                      "Sorry. Is there a cook?", "Tobias has the eye at 0:08.6 where Pell is asked for",
                      "Jun is 62 % hidden by Wren", "he is the turned back in this group", "favour Oda",
                      "Taken for granted", "page 1 of"):
            self.assertIn(words, text)

    def test_all_80_lines_of_a_long_beat_are_there(self):
        text = text_of(OUT / "first/crowd.pdf")
        self.assertEqual(text.count("This is what I have"), 80)

    def test_all_64_long_names_are_on_the_cover(self):
        pages = [text for text in run("pdftotext", str(OUT / "first/crowd.pdf"), "-").split("\f")]
        cover = re.sub(r"\s+", " ", " ".join(pages[:3]))
        for number in range(1, 65):
            self.assertRegex(cover, rf"\bP{number} of the Lower")

    def test_no_word_leaves_the_field_that_both_papers_print(self):
        for name in BOOKS:
            for page, word, left, top, right, bottom in words_of(OUT / "first" / f"{name}.pdf"):
                # A box spans ascender to descender; the ink keeps a fifth of its height away from either edge.
                air = (bottom - top) / 5
                inside = (left >= FIELD[0] - 0.1 and top + air >= FIELD[1] and right <= FIELD[2] + 0.1
                          and bottom - air <= FIELD[3])
                self.assertTrue(inside, f"{name} page {page}: {word} at {left:.1f} {top:.1f} {right:.1f} {bottom:.1f}")

    def test_no_word_covers_another(self):
        # Boxes span ascender to descender, so lines set solid touch; ink is what counts: the middle 45 % of the height.
        for name in BOOKS:
            by_page = {}
            for page, word, left, top, right, bottom in words_of(OUT / "first" / f"{name}.pdf"):
                middle, half = (top + bottom) / 2, (bottom - top) * 0.225
                by_page.setdefault(page, []).append((word, left + 0.1, middle - half, right - 0.1, middle + half))
            for page, words in by_page.items():
                words.sort(key=lambda entry: entry[1])
                for i, (word, left, top, right, bottom) in enumerate(words):
                    for other, left2, top2, right2, bottom2 in words[i + 1:]:
                        if left2 >= right:
                            break
                        self.assertFalse(top < bottom2 and top2 < bottom,
                                         f"{name} page {page}: {word!r} over {other!r} at {left:.1f}, {top:.1f}")

    def test_links_lead_to_pages(self):
        command = ["qpdf", "--qdf", "--object-streams=disable", str(OUT / "first/kitchen.pdf"), "-"]
        text = subprocess.run(command, capture_output=True, check=True).stdout.decode("latin-1")
        self.assertGreaterEqual(text.count("/Subtype /Link"), 4)
        self.assertGreaterEqual(text.count("/Title ("), 4)

    def test_svg_is_well_formed_and_draws(self):
        for name in ("floor", "frame"):
            path = OUT / "first" / f"{name}.svg"
            run("xmllint", "--noout", str(path))
            subprocess.run(["rsvg-convert", str(path), "-o", str(OUT / f"{name}-from-svg.png")], check=True)
        ids = [element.get("id") for element in ET.parse(OUT / "first/floor.svg").iter() if element.get("id")]
        self.assertEqual(len(ids), len(set(ids)))
        self.assertIn("floor-stranger.person-tobias", ids)


if __name__ == "__main__":
    SAMPLES, OUT = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    unittest.main(argv=[sys.argv[0]] + sys.argv[3:])
