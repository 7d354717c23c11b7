"""Ways out of findings, taken at their word: each is written into a copy of the scene, and the copy is checked anew.

Usage: mend_test.py PROGRAM [unittest options]
"""

import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

PROGRAM = ""
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"

# Oda has the line, the lens and the light; Tobias, who is asked for, stands behind her with his back to us.
BACK_TO_US = """staging 1.0 scene
scene Parting "The last tram"
people Oda, Tobias, Wren
room 6 m by 5 m
furniture Table, centre

beat Answer
  Oda is at (2.4, 1.6) m, three-quarter
  Tobias is at (3.5, 1.7) m, back to lens
  Wren is at (4.6, 3) m, facing Oda
  favour Tobias
  Tobias to Oda: "There is no late one on a Sunday, and you know it as well as I do."
"""

# What a pencil slip hides comes to light with it.
SLIP = """staging 1.0 scene
scene Parting "The last tram"
people Oda, Tobias
room 6 m by 5 m
furniture Table, centre

beat Answer
  Oda is at the Tabel
  favour Tobias
  Tobias to Oda: "There is no late one on a Sunday."
"""

FINDING = re.compile(r"^[^:]+:\d+:\d+: (error|warning): (.*) \[([a-z.-]+)\]$")
WAY = re.compile(r"^  (\d+[a-c])  ")


# Each wish can be mended, but what mends the one undoes what mends the other.
AGAINST_EACH_OTHER = """staging 1.0 scene
scene Parting "The last tram"
people Oda, Tobias
room 6 m by 5 m
furniture Table, centre

beat Answer
  Oda is at (2.21, 1.43) m, three-quarter
  Tobias is at (3.91, 1.87) m, profile to Oda
  favour Tobias
  Oda to Tobias: "There is no late one."

beat Silence
  favour Oda
  Tobias to Oda: "You know it as well as I do."
"""

# Words that only look like a cue, in a comment.
CUE_IN_COMMENT = BACK_TO_US.replace("  favour Tobias\n", "  favour Tobias, after \"late\" -- not so, on the night\n")


def run(*arguments, status=None, stdin=None):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True, input=stdin, timeout=300)
    if status is not None:
        assert done.returncode == status, (arguments, done.returncode, done.stdout, done.stderr)
    return done


# Measured values change with every step anybody takes; a finding is its rule and the names it speaks of.
def findings(path):
    counted = collections.Counter()
    for line in run("check", path, "--as", "lines").stdout.splitlines():
        match = FINDING.match(line)
        if match:
            counted[match[3]] += 1
    return counted


# Whether a wish comes late is asked only when it does not fail.
def may_come_late(before, path):
    def results(data):
        return [verdict["result"] for verdict in json.loads(data)["verdicts"]]

    now = results(run("dump", "emphasis", path, "--as", "json").stdout)
    rises = sum(was == "fails" and result != "fails" for was, result in zip(results(before), now))
    return collections.Counter({"slow-landing": rises})


def ways(path):
    """Which rule each way out is for."""
    offered, rule = {}, None
    for line in run("mend", path).stdout.splitlines():
        if FINDING.match(line):
            rule = FINDING.match(line)[3]
        elif WAY.match(line):
            offered[WAY.match(line)[1]] = rule
    return offered


class EveryWay(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def copy(self, text):
        path = pathlib.Path(self.folder.name) / "scene.staging"
        path.write_text(text)
        return path

    def take_each(self, text, least):
        path = self.copy(text)
        before = findings(path)
        tidy = run("tidy", path, "--check").returncode
        verdicts = run("dump", "emphasis", path, "--as", "json").stdout
        offered = ways(path)
        self.assertGreaterEqual(len(offered), least)
        for name, rule in offered.items():
            with self.subTest(way=name, rule=rule):
                path.write_text(text)
                run("mend", path, "--take", name, "--write", status=0)
                self.assertNotEqual(path.read_text(), text)
                after = findings(path)
                self.assertLess(after[rule], before[rule])
                self.assertEqual(after - before - may_come_late(verdicts, path), collections.Counter(),
                                 "a finding that was not there before")
                self.assertEqual(run("tidy", path, "--check").returncode, tidy)

    def test_of_a_turned_back(self):
        self.take_each(BACK_TO_US, 1)

    def test_of_the_first_draft(self):
        self.take_each((EXAMPLES / "monday.staging").read_text(), 2)

    def test_of_a_full_scene(self):
        self.take_each((EXAMPLES / "one-vote.staging").read_text(), 4)

    def test_a_slip_of_the_pen_is_spelt_right(self):
        path = self.copy(SLIP)
        offered = ways(path)
        self.assertIn("1a", offered)
        run("mend", path, "--take", "1a", "--write", status=0)
        self.assertEqual(path.read_text(), SLIP.replace("Tabel", "Table"))


class WhatIsTold(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.path = pathlib.Path(self.folder.name) / "scene.staging"

    def mending(self, text, *options):
        self.path.write_text(text)
        return run("mend", self.path, *options)

    def blocks(self, text, *options):
        """By the line of the text: the errors and warnings that have ways out, with these."""
        found = collections.defaultdict(list)
        for block in self.mending(text, *options).stdout.split("\n\n"):
            if FINDING.match(block.splitlines()[0]) and re.search(WAY.pattern, block, re.M):
                found[int(block.split(":")[1])].append(block)
        return found

    def test_a_name_is_the_same_when_one_line_is_asked_for(self):
        for text in (BACK_TO_US, (EXAMPLES / "monday.staging").read_text(), AGAINST_EACH_OTHER):
            whole = self.blocks(text)
            self.assertGreaterEqual(sum(map(len, whole.values())), 2)
            for line, blocks in whole.items():
                self.assertEqual(self.blocks(text, "--line", line)[line], blocks)

    def test_what_no_longer_holds_with_the_others_is_told(self):
        both = self.mending(AGAINST_EACH_OTHER, "--take", "3a,6a", "--write")
        self.assertEqual(both.returncode, 0)
        self.assertIn("3a no longer holds with the others: line 10 is still open\n", both.stderr)
        self.assertIn("6a no longer holds with the others: line 14 is still open\n", both.stderr)
        self.assertNotEqual(self.path.read_text(), AGAINST_EACH_OTHER)
        self.assertNotIn("no longer holds", self.mending(AGAINST_EACH_OTHER, "--take", "3a").stderr)

    def test_a_way_that_lets_somebody_come_late_says_so(self):
        text = (EXAMPLES / "monday.staging").read_text()
        told = self.mending(text).stdout
        self.assertRegex(told, "4a  lens: .*; then `Pell` comes late \\(slow-landing\\)\n")
        before = findings(self.path)
        run("mend", self.path, "--take", "4a", "--write", status=0)
        self.assertGreater(findings(self.path)["slow-landing"], before["slow-landing"])

    def test_a_way_that_takes_somebody_out_of_the_picture_says_so(self):
        told = self.mending(BACK_TO_US).stdout
        self.assertRegex(told, "2c  lens: .*; `Oda` is out of the picture for 6.3 s\n")
        self.assertNotRegex(told, "2a  floor: .*out of the picture")

    def test_every_way_says_something(self):
        told = self.mending(BACK_TO_US).stdout
        self.assertIn("  1a  floor: mends it\n", told)
        self.assertIn("in line 8: `Oda is at (2.4, 1.6) m, three-quarter` becomes `Oda is at (2.11, 1.53) m, "
                      "three-quarter`\n", told)
        slip = self.mending(SLIP).stdout
        self.assertIn("  1a  spelling: mends 1 other finding too\n        in line 8: `Tabel` becomes `Table`\n", slip)

    def test_a_line_that_is_not_there_cannot_be_asked_for(self):
        for line in (999, 0, -3, 13):
            done = self.mending(BACK_TO_US, "--line", line)
            self.assertEqual(done.returncode, 2)
            self.assertIn(f"there is no line {line} in {self.path}, which has 12 lines", done.stderr)
        done = self.mending(BACK_TO_US, "--line", 12)
        self.assertEqual((done.returncode, done.stdout), (0, "nothing to mend\n"))

    def test_a_comment_gives_no_cue(self):
        told = self.mending(CUE_IN_COMMENT).stdout
        self.assertIn("        below line 11: Tobias turns three-quarter, after \"late\"\n", told)
        self.assertNotIn(", on the night", told)


class TakingThem(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.path = pathlib.Path(self.folder.name) / "scene.staging"
        self.path.write_text(BACK_TO_US)

    def test_listing_and_showing_write_nothing(self):
        run("mend", self.path, status=1)
        shown = run("mend", self.path, "--take", "1a", status=0)
        self.assertEqual(self.path.read_text(), BACK_TO_US)
        run("mend", self.path, "--take", "1a", "--write", status=0)
        added = [line[1:] for line in shown.stdout.splitlines() if re.match(r"\+(?!\+\+ )", line)]
        new = self.path.read_text().splitlines()
        self.assertTrue(added)
        self.assertEqual([line for line in new if line not in added], BACK_TO_US.splitlines(),
                         "the diff is what is written")

    def test_json_says_what_the_text_says(self):
        told = json.loads(run("mend", self.path, "--as", "json").stdout)
        text = run("mend", self.path).stdout
        self.assertEqual(told["schema"], "lensward/mending/1")
        names = re.findall(r"^  (\d+[a-z])  ", text, re.M)
        self.assertEqual([way["name"] for finding in told["findings"] for way in finding["ways"]], names)
        self.assertTrue(names)
        for finding in told["findings"]:
            self.assertIn(f":{finding['line']}:{finding['column']}: {finding['severity']}: {finding['message']}", text)
        # The edits are the change that `--take` makes.
        way = told["findings"][0]["ways"][0]
        whole = BACK_TO_US.encode()
        for edit in sorted(way["edits"], key=lambda one: one["begin"], reverse=True):
            whole = whole[:edit["begin"]] + edit["text"].encode() + whole[edit["end"]:]
        run("mend", self.path, "--take", way["name"], "--write", status=0)
        self.assertEqual(self.path.read_bytes(), whole)

    def test_frame_and_floor_before_and_after(self):
        pages = pathlib.Path(self.folder.name) / "both.pdf"
        run("mend", self.path, "--take", "1a", "-o", pages, status=0)
        words = subprocess.run(["pdftotext", "-layout", pages, "-"], capture_output=True, check=True, text=True).stdout
        self.assertIn("as it is", words)
        self.assertIn("with the change", words)
        self.assertEqual(self.path.read_text(), BACK_TO_US)
        run("mend", self.path, "-o", pages, status=2)
        run("mend", self.path, "--take", "1a", "-o", self.path, status=2)
        self.assertEqual(self.path.read_text(), BACK_TO_US)

    def test_what_is_offered_does_not_depend_on_the_run(self):
        self.assertEqual(run("mend", self.path).stdout, run("mend", self.path).stdout)

    def test_one_way_named_twice_is_made_once(self):
        run("mend", self.path, "--take", "1a", "--write", status=0)
        once = self.path.read_text()
        self.path.write_text(BACK_TO_US)
        run("mend", self.path, "--take", "1a,1a", "--write", status=0)
        self.assertEqual(self.path.read_text(), once)

    def test_an_unknown_name_is_told(self):
        done = run("mend", self.path, "--take", "9z", "--write", status=2)
        self.assertIn("there is no way out `9z`", done.stderr)
        self.assertEqual(self.path.read_text(), BACK_TO_US)

    def test_write_without_take_is_refused(self):
        self.assertIn("--take", run("mend", self.path, "--write", status=2).stderr)

    def test_standard_input_is_read_and_never_written(self):
        self.assertIn("1a", run("mend", "-", stdin=BACK_TO_US).stdout)
        run("mend", "-", "--take", "1a", "--write", stdin=BACK_TO_US, status=2)

    def test_a_read_only_folder_leaves_the_file_whole(self):
        run("mend", pathlib.Path(self.folder.name) / "nothing.staging", status=2)

    def test_a_scene_without_findings_says_so(self):
        self.path.write_text("staging 1.0 scene\nscene Alone\npeople Oda\nroom 6 m by 5 m\n\nbeat One\n"
                             "Oda is at frame centre, medium shot, frontal\npause 2 s\n")
        done = run("mend", self.path)
        self.assertEqual((done.returncode, done.stdout), (0, "nothing to mend\n"))


if __name__ == "__main__":
    PROGRAM = sys.argv.pop(1)
    unittest.main()
