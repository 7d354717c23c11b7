"""docs/language.md against the program: examples compile, slips give the message quoted, tables agree.

Usage: language_test.py PROGRAM SOURCE_FOLDER. With LENSWARD_UPDATE=1 it rewrites the messages quoted under slips; read
the difference afterwards.

A `> SEVERITY RULE: message` under a whole file is one of its complaints. A block of the page is fenced as
  staging                                    a whole file
  staging standing                           the room and people that fragments play in
  staging fragment beat|opening|scene        lines of a beat, of the opening, or above it, in that room
  staging fragment bare                      lines above the first beat of a scene with two people and nothing else
  staging mending                            lines under the first whole file that leave no error in it
  staging slip [beat|opening|scene|bare|file]  the same, wrong on purpose; under it `> SEVERITY RULE: message`
"""

import functools
import json
import math
import os
import pathlib
import re
import subprocess
import sys

FAMILIES = ("parse.", "name.", "unit.", "time.", "place.")
BARE = 'staging 1.0 scene\nscene Bare\npeople Nell, Anton\n{}\nbeat Example\nNell to Anton: "Here?"\n'
# The table that the standing room is declared with: middle, half length, half depth, metres.
TABLE = ((3.5, 2.4), (0.9, 0.4))


# The standing room without anything more is asked for under every slip: once is enough.
@functools.lru_cache(maxsize=None)
def run(program, *arguments, text):
    return subprocess.run([program, *arguments, "-"], input=text.encode(), capture_output=True, timeout=60, check=False)


class Block:
    def __init__(self, info, text, line, says, says_at):
        self.words = info.split()[1:]
        self.text, self.line, self.says, self.says_at = text, line, says, says_at

    @property
    def kind(self):
        return self.words[0] if self.words else "file"

    @property
    def place(self):
        if self.kind in ("slip", "fragment"):
            return self.words[1] if len(self.words) > 1 else "beat"
        return "file"


class Page:
    def __init__(self, path):
        self.path = path
        self.lines = path.read_text(encoding="utf-8").split("\n")
        self.blocks = list(self.read_blocks())
        standing = [block for block in self.blocks if block.kind == "standing"]
        assert len(standing) == 1, "one standing room is needed"
        self.standing = standing[0].text

    def read_blocks(self):
        at = 0
        while at < len(self.lines):
            if not self.lines[at].startswith("```staging"):
                at += 1
                continue
            end = self.lines.index("```", at + 1)
            says_at = next((i for i in range(end + 1, min(end + 3, len(self.lines))) if self.lines[i].startswith("> ")),
                           None)
            says = self.lines[says_at][2:] if says_at else None
            yield Block(self.lines[at][3:], "\n".join(self.lines[at + 1:end]), at + 1, says, says_at)
            at = end + 1

    def table(self, heading):
        """The rows of the first table under a heading, cells with their backticks."""
        start = next(i for i, line in enumerate(self.lines) if re.fullmatch(r"#+ " + re.escape(heading), line))
        rows = []
        for line in self.lines[start + 1:]:
            if line.startswith("|"):
                rows.append([cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]])
            elif rows:
                break
        assert len(rows) > 2, f"no table under {heading}"
        return rows[2:]

    def whole(self, text, place):
        if place == "file":
            return text
        if place == "bare":
            return BARE.format(text)
        if place == "scene":
            return self.standing.replace("\nopening", "\n" + text + "\n\nopening", 1) + '\n\nbeat Example\npause 1 s\n'
        if place == "opening":
            return self.standing + "\n" + text + "\n\nbeat Example\npause 1 s\n"
        head = "" if re.match(r"\s*beat ", text) else "beat Example\n"
        return self.standing + "\n\n" + head + text + "\n"


class Test:
    def __init__(self, program, source):
        self.program, self.source = program, pathlib.Path(source)
        self.page = Page(self.source / "docs/language.md")
        self.failures, self.checked, self.update = [], 0, os.environ.get("LENSWARD_UPDATE") == "1"
        rules = subprocess.run([program, "explain", "rules"], capture_output=True, text=True, check=True).stdout
        self.rules = set(re.findall(r"^\| `([a-z.-]+)`", rules, re.M))
        assert len(self.rules) > 90, "the program lists its rules"

    def expect(self, holds, where, message):
        self.checked += 1
        if not holds:
            self.failures.append(f"docs/language.md:{where}: {message}")

    def findings(self, text):
        answer = run(self.program, "check", "--as", "json", text=text)
        return json.loads(answer.stdout)["findings"]

    def plan(self, text):
        return json.loads(run(self.program, "dump", "plan", "--as", "json", text=text).stdout)

    def misread(self, text):
        """What says that a text is not understood; remarks of these families only tell what was made of it."""
        return [f for f in self.findings(text) if self.is_misreading(f)]

    @staticmethod
    def is_misreading(finding):
        return finding["rule"].startswith(FAMILIES) and finding["severity"] != "remark"

    def compiles(self, text, where, what):
        wrong = self.misread(text)
        self.expect(not wrong, where, f"{what}: " + "; ".join(f"{f['message']} [{f['rule']}]" for f in wrong))

    # ---- Blocks ----------------------------------------------------------------------------------------------------

    def blocks(self):
        for block in self.page.blocks:
            text = self.page.whole(block.text, block.place)
            if block.kind == "slip":
                self.slip(block, text)
            elif block.kind == "mending":
                first = next(other for other in self.page.blocks if other.kind == "file")
                loud = [f["message"] for f in self.findings(first.text + "\n" + text) if f["severity"] == "error"]
                self.expect(not loud, block.line, "; ".join(loud))
            elif block.says is not None:
                self.slip(block, text)
            else:
                self.compiles(text, block.line, "an example is not understood")

    def slip(self, block, text):
        if block.says is None:
            return self.expect(False, block.line, "a slip without the message it gives")
        before = [json.dumps([f["rule"], f["message"]]) for f in self.findings(self.page.whole("", block.place))] \
            if block.place != "file" else []
        found = [f for f in self.findings(text) if json.dumps([f["rule"], f["message"]]) not in before]
        rule = block.says.split()[1].rstrip(":") if len(block.says.split()) > 1 else ""
        told = [f for f in found if f["rule"] == rule]
        others = [f for f in found if f["rule"] != rule and self.is_misreading(f)]
        if self.update:
            loud = sorted(found, key=lambda f: (f["rule"] != rule, not f["rule"].startswith(FAMILIES),
                                                ["error", "warning", "remark"].index(f["severity"])))
            if loud:
                first = loud[0]
                self.page.lines[block.says_at] = f"> {first['severity']} {first['rule']}: {first['message']}"
            return None
        self.expect(len(told) == 1, block.line, f"a slip gives {rule} {len(told)} times: " +
                    "; ".join(f"{f['message']} [{f['rule']}]" for f in found))
        self.expect(not others, block.line, "a slip gives more than one rule: " + ", ".join(f["rule"] for f in others))
        if len(told) == 1:
            says = f"{told[0]['severity']} {rule}: {told[0]['message']}"
            # What is reckoned may be tuned; what is complained of stays.
            exact = block.kind == "slip"
            same = says == block.says if exact else re.sub(r"\d+", "#", says) == re.sub(r"\d+", "#", block.says)
            self.expect(same, block.line, f"the program says\n    > {says}\n  not\n    > {block.says}")
        return None

    # ---- Tables ----------------------------------------------------------------------------------------------------

    @staticmethod
    def quoted(cell):
        return re.findall(r"`([^`]+)`", cell)

    def rows_in(self, path, pattern, least):
        """What a table of the program holds, read off its source: it cannot be asked for a list."""
        found = re.findall(pattern, (self.source / path).read_text(encoding="utf-8"))
        assert len(found) >= least, f"{path}: {len(found)} rows read"
        return found

    def verbs(self):
        known = set()
        for who, path in (("people", "deeds.cpp"), ("cameras", "deeds_cameras.cpp"), ("lights", "deeds_lamps.cpp")):
            row = r'\{"([a-z ]+)", Time::(?:instant|takes|endless), [\d.]+,'
            program = set(self.rows_in("src/plan/" + path, row, 10))
            rows = self.page.table(f"The verbs of {who}")
            page = {verb for row in rows for verb in self.quoted(row[0])}
            if who == "people":
                page |= {verb for row in self.page.table("The verbs of things") for verb in self.quoted(row[0])}
            self.expect(page == program, 1, f"verbs of {who}: the page has not {sorted(program - page)}, "
                                            f"the program has not {sorted(page - program)}")
            known |= page
            for row in rows:
                for line in self.quoted(row[-1]):
                    self.verb_line(line, row)
        assert len(known) > 90

    def verb_line(self, line, row):
        text = self.page.whole(line, "beat")
        self.compiles(text, 1, f"`{line}` of the table of verbs")
        exact = re.fullmatch(r"([\d.]+) s", row[-2])
        if not exact:
            return
        took = self.plan(text)["beats"][-1]["lines"][-1]
        length = (took["end"] - took["begin"]) / 1000
        self.expect(abs(length - float(exact[1])) < 0.002, 1, f"`{line}` takes {length} s and not {row[-2]}")

    def speeds(self):
        for verb, speed in ((self.quoted(row[0])[0], row[1]) for row in self.page.table("How fast")):
            plan = self.plan(self.page.whole(f"Nell {verb} to (2.6, 0.3) m", "beat"))
            feet = next(person for person in plan["people"] if person["name"] == "Nell")["feet"][-1]
            path = sum(math.dist(a, b) for a, b in zip(feet["to"], feet["to"][1:]))
            measured = path / (feet["end"] - feet["begin"]) * 1000
            self.expect(path > 0.5 and abs(measured - float(speed.split()[0])) < 0.02, 1,
                        f"`{verb}` goes at {measured:.2f} m/s and not {speed}")

    def kinds(self):
        flags = {row[0]: row[1:] for row in self.rows_in(
            "src/plan/kinds.cpp",
            r"\{PieceKind::(\w+), [\d._m]+, [\d._m]+, [\d._m]+, (\d+), [\d._m]+, (\w+), (\w+), (\w+), (\w+)\}", 40)}
        rows = self.page.table("Kinds of furniture")
        self.expect({self.quoted(row[0])[0] for row in rows} == set(flags), 1, "the kinds of furniture differ")
        for row in rows:
            kind = self.quoted(row[0])[0]
            seats, under, hides, clear, wall = flags[kind]
            marks = ["yes" if flag else "" for flag in
                     (under == "open", hides == "whole", clear == "clear", wall == "wall")]
            self.expect(row[4:9] == [seats if seats != "0" else ""] + marks, 1, f"`{kind}`: {flags[kind]}")
            found = self.findings(BARE.format(f"room 9 m by 8 m by 2.6 m\nfurniture Thing, {kind}, at (4.5, 4) m"))
            said = " ".join(f["message"] for f in found)
            sizes = re.search(r"`Thing` ([\d.]+) by ([\d.]+) by ([\d.]+) m", said)
            told = [float(cell.split()[0]) for cell in row[1:4]]
            self.expect(sizes is not None and [float(size) for size in sizes.groups()] == told, 1,
                        f"`{kind}` is {sizes and sizes.groups()}")

    def places(self):
        for heading in ("Places by a thing or a person", "Places in the picture and the room"):
            for row in self.page.table(heading):
                for phrase in self.quoted(row[-1]):
                    text = self.page.whole(f"Nell walks {phrase}", "beat")
                    self.compiles(text, 1, f"`{phrase}` of the table of places")
                    self.distance(phrase, row[2], text)

    def distance(self, phrase, settles, text):
        exact = re.match(r"([\d.]+) m off", settles)
        if not exact or not phrase.endswith("Table"):
            return
        mark = [mark for mark in self.plan(text)["marks"] if mark["person"] == "Nell"][-1]["at"]
        (x, y), (half_x, half_y) = TABLE
        away = math.hypot(max(0, abs(mark[0] - x) - half_x), max(0, abs(mark[1] - y) - half_y))
        self.expect(abs(away - float(exact[1])) < 0.02, 1, f"`{phrase}` settles {away:.2f} m off the Table")

    def settings(self):
        rows = self.page.table("Defaults")
        program = set(self.rows_in("src/plan/declare_settings.cpp", r'\{"([a-z-]+)", Dimension::', 15)) | {"house"}
        page = {self.quoted(row[0])[0] for row in rows}
        self.expect(page == program, 1, f"defaults: {sorted(page ^ program)}")
        for row in rows:
            line = f"default {self.quoted(row[0])[0]} {self.quoted(row[1])[0]}"
            self.compiles(self.page.whole(line, "scene"), 1, f"`{line}`")

    def weights(self):
        names = self.rows_in("src/emphasis/tally.cpp", r'"([a-z ]+)"', 14)[:14]
        points = re.search(r"starting_weights\{([^}]*)\}", (self.source / "src/emphasis/weights.cpp").read_text())[1]
        program = dict(zip((name.replace(" ", "-") for name in names), points.replace(" ", "").split(",")))
        page = {self.quoted(row[0])[0]: row[1] for row in self.page.table("What draws the eye")}
        self.expect(page == program, 1, f"weights: the program has {program}")

    def sizes(self):
        program = {name.replace("_", " "): (float(cuts), float(room)) for name, cuts, room in self.rows_in(
            "src/figure/proportions.cpp", r"\{ShotSize::(\w+), ([\d.]+), ([\d.]+)\}", 8)}
        rows = self.page.table("Sizes")
        self.expect(len(rows) == len(program), 1, "a size is missing")
        for row in rows:
            name = self.quoted(row[0])[0].replace("close-up", "close up")
            told = tuple(float(cell.replace("%", "")) / 100 for cell in row[2:4])
            self.expect(program.get(name) == told, 1, f"`{name}` is {program.get(name)}")

    def units(self):
        text = "\n".join(self.page.lines)
        start = text.index("## Numbers and units")
        part = set(self.quoted(text[start:text.index("\n## ", start + 1)]))
        source = (self.source / "src/syntax/units.cpp").read_text()
        program = re.findall(r'"([^"]+)"', source[source.index("units[] = {"):source.index("struct OtherWord")])
        assert len(program) > 25
        missing = [unit for unit in program if unit not in part]
        self.expect(not missing, 1, f"units the page does not name: {missing}")

    # Tables of clauses: what stands in their first column, put into a line of their kind.
    def clauses(self):
        templates = {"People, groups, crowds": ("scene", "person Zoe, {}"),
                     "Furniture": ("scene", "furniture Thing, table, at (1, 1) m, {}"),
                     "Lamps": ("scene", "light Bulb, at (1, 1) m, {}"),
                     "Lenses and cameras": ("scene", "camera C, at (1, -1) m, {}"),
                     "Beats": ("beat", "{}\npause 1 s"),
                     "Speeches": ("beat", 'Nell to Anton, {}: "Not once."'),
                     "Cues": ("beat", 'Nell to Anton: "My strings, no, my [Look] house."\nAnton to Nell: "no, no, no"\n'
                                      "Nell walks to the Table, named Cross\nCasper turns to Anton, {}")}
        for heading, (place, template) in templates.items():
            for row in self.page.table(heading):
                for clause in self.quoted(row[0]):
                    if "…" not in clause:
                        self.compiles(self.page.whole(template.format(clause), place), 1, f"`{clause}` under {heading}")

    def asks(self):
        company = ('Nell to Anton, named Why: "I sold it, Anton."\nDot rises, named Rising\n'
                   "Casper takes the Ledger, named Taking")
        for heading in ("What you may ask", "What you may ask of a story"):
            for row in self.page.table(heading):
                for line in self.quoted(row[0]):
                    self.compiles(self.page.whole(line + "\n" + company, "beat"), 1, f"`{line}`")

    def rule_names(self):
        for heading in ("What you may ask", "What you may ask of a story"):
            for row in self.page.table(heading):
                for rule in self.quoted(row[-1]):
                    self.expect(rule in self.rules, 1, f"no rule is called `{rule}`")

    # What is read and kept but not staged changes nothing; when it does, the page must say something else.
    def not_yet_staged(self):
        rows = self.page.table("Read, kept, not yet staged")
        for row in rows:
            written, as_if = row[0], row[1]
            lines = ["\n".join(self.quoted(cell)) for cell in (written, as_if)]
            place = "scene" if row[2] == "above" else "beat"
            texts = [self.page.whole(line, place) for line in lines]
            for text in texts:
                self.compiles(text, 1, f"`{lines[0]}` of what is not yet staged")
            self.expect(self.effect(texts[0]) == self.effect(texts[1]), 1, f"`{lines[0]}` is staged now: say how")

    def effect(self, text):
        def bare(value):
            if isinstance(value, dict):
                return {key: bare(inner) for key, inner in value.items() if key not in ("byte", "lines")}
            return [bare(inner) for inner in value] if isinstance(value, list) else value

        views = [run(self.program, "dump", stage, "--as", "json", text=text).stdout for stage in ("plan", "view")]
        return [bare(json.loads(view)) for view in views]

    def run(self):
        parts = ["blocks"] if self.update else ["blocks", "verbs", "speeds", "kinds", "places", "settings", "weights",
                                               "sizes", "units", "clauses", "asks", "rule_names", "not_yet_staged"]
        for part in parts:
            getattr(self, part)()
        if self.update:
            self.page.path.write_text("\n".join(self.page.lines), encoding="utf-8")
        for failure in self.failures:
            print(failure)
        slips = sum(block.kind == "slip" for block in self.page.blocks)
        print(f"{len(self.page.blocks)} blocks, {slips} of them slips; "
              f"{self.checked} checks, {len(self.failures)} failed")
        return 1 if self.failures or self.checked < 300 and not self.update else 0


if __name__ == "__main__":
    sys.exit(Test(sys.argv[1], sys.argv[2]).run())
