"""The program as it is typed: exit statuses, streams, bad input, outputs that must stay whole.

Usage: cli_test.py PROGRAM [unittest options]
"""

import csv
import io
import json
import os
import pathlib
import pty
import re
import resource
import shutil
import stat
import subprocess
import sys
import tempfile
import unittest

PROGRAM = ""
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"

SCENE = """staging 1.0 scene
scene Parting "The last tram"
people Oda, Tobias
room 6 m by 5 m
furniture Table, centre

beat Asking
Oda is at frame left, medium shot
Tobias is by the Table
favour Oda
Oda to Tobias: "Will you wait for the late one, or is this it?"

beat Answer
favour Tobias
Tobias to Oda: "There is no late one on a Sunday."
"""

FAULTY = """staging 1.0 scene
scene Parting
people Oda
room 6 m by 5 m

beat Asking
Oda is by the Zither
Oda flurbs the gramble
"""

LINE_OF_A_FINDING = re.compile(r"^[^:]+:\d+:\d+: (?:error|warning|remark|waived): .+ \[[a-z.-]+\]$")


def run(*arguments, stdin=b"", env=None, **more):
    environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    environment.update(env or {})
    return subprocess.run([PROGRAM, *map(str, arguments)], input=stdin, capture_output=True, env=environment,
                          timeout=60, **more)


class Folder(unittest.TestCase):
    """Each test works in a folder of its own, from which the program is run."""

    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="cli-test-"))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def write(self, name, contents):
        path = self.folder / name
        path.write_bytes(contents.encode() if isinstance(contents, str) else contents)
        return path

    def scene(self):
        return self.write("parting.staging", SCENE)

    def names(self):
        return sorted(path.name for path in self.folder.iterdir())

    def unprivileged(self):
        """How to run the program as one whom permissions bind, for root too."""
        if os.geteuid() != 0:
            return {}
        self.folder.chmod(0o755)
        copy = self.folder / "lensward"
        shutil.copy(PROGRAM, copy)
        return {"executable": str(copy), "user": 65534, "group": 65534, "extra_groups": []}

    def check_cannot_run(self, done, *words):
        self.assertEqual(done.returncode, 2, done.stderr)
        message = done.stderr.decode()
        for word in words:
            self.assertIn(word, message)

    def findings(self, path, status=None):
        done = run("check", path, "--as", "json")
        self.assertIn(done.returncode, (0, 1), done.stderr)
        if status is not None:
            self.assertEqual(done.returncode, status, done.stdout)
        return json.loads(done.stdout)


class Usage(Folder):
    def test_version_and_help_go_to_standard_output(self):
        done = run("--version")
        self.assertEqual((done.returncode, done.stderr), (0, b""))
        self.assertRegex(done.stdout.decode(), r"^lensward \d+\.\d+\.\d+\n$")
        done = run("--help")
        self.assertEqual((done.returncode, done.stderr), (0, b""))
        for command in ("check", "book", "page", "floor", "frame", "explain", "dump", "tidy", "editor"):
            self.assertIn(command, done.stdout.decode())
            self.assertEqual(run(command, "--help").returncode, 0)

    def test_bare_says_what_is_here_and_what_to_do(self):
        for names, step in (([], b"`lensward new DIR`"), (["b.staging", "a.staging"], b"`lensward check a.staging`"),
                            (["film.staging"], b"`lensward check film.staging`")):
            for name in names:
                self.write(name, SCENE)
            done = run(cwd=self.folder)
            self.assertEqual((done.returncode, done.stdout), (2, b""))
            self.assertIn(step, done.stderr)
            self.assertIn(b"--help", done.stderr)

    def test_new_writes_a_scene_that_draws_and_has_three_slips(self):
        folder = self.folder / "first"
        done = run("new", folder)
        path = pathlib.Path(done.stdout.decode().strip())
        self.assertEqual((done.returncode, path.parent), (0, folder))
        self.assertEqual(run("floor", path, "--beat", "Sixth", "-o", self.folder / "a.png").returncode, 0)
        text = path.read_text()
        self.assertEqual(text.count("-- Slip "), 3)
        slips = ("name.unknown", "parse.no-colon", "turned-away")
        lines = run("check", path, "--as", "lines").stdout.decode()
        for slip in slips:
            self.assertIn(f"[{slip}]", lines)
        path.write_text(text.replace("Stvoe", "Stove").replace('Ragna "', 'Ragna: "').replace(
            "favour Tor\n", "favour Tor\nTor turns frontal\n"))
        done = run("check", path, "--bar", "error", "--as", "lines")
        self.assertEqual(done.returncode, 0, done.stdout)
        for slip in slips:
            self.assertNotIn(f"[{slip}]", done.stdout.decode())
        self.assertEqual(run("new", folder).returncode, 2)
        self.assertEqual([entry.name for entry in folder.iterdir()], [path.name])

    def test_bad_usage(self):
        path = self.scene()
        for arguments in (["sing"], ["check"], ["check", path, "--as", "poem"], ["check", path, "--bar", "high"],
                          ["check", path, "--loud"], ["book", path], ["page", path], ["floor", path],
                          ["dump", "soup", path],
                          ["dump", "plan"], ["explain"]):
            done = run(*arguments)
            self.assertEqual((done.returncode, done.stdout), (2, b""), arguments)
            self.assertNotEqual(done.stderr, b"", arguments)


class Check(Folder):
    def test_status_follows_the_bar(self):
        for text in (SCENE, FAULTY):
            path = self.write("a.staging", text)
            counts = self.findings(path)["counts"]
            at_or_above = 0
            for bar in ("error", "warning", "remark"):
                at_or_above += counts[bar]
                self.assertEqual(run("check", path, "--bar", bar).returncode, 1 if at_or_above else 0, (bar, counts))

    def test_faults_are_errors(self):
        told = self.findings(self.write("a.staging", FAULTY), status=1)
        self.assertEqual(told["schema"], "lensward/findings/1")
        lines = {finding["where"]["line"] for finding in told["findings"] if finding["severity"] == "error"}
        self.assertTrue({7, 8} <= lines, told)

    def test_a_good_draft_has_no_reading_errors(self):
        rules = [finding["rule"] for finding in self.findings(self.scene())["findings"]
                 if finding["severity"] == "error"]
        self.assertEqual([rule for rule in rules if re.match(r"(?:parse|name|unit|time|place)\.", rule)], [])

    def test_lines_are_one_a_finding(self):
        path = self.write("a.staging", FAULTY)
        lines = run("check", path, "--as", "lines").stdout.decode().splitlines()
        self.assertEqual(len(lines), len(self.findings(path)["findings"]))
        for line in lines:
            self.assertRegex(line, LINE_OF_A_FINDING)

    def test_text_ends_with_the_counts_and_where_to_start(self):
        text = run("check", self.write("a.staging", FAULTY)).stdout.decode()
        self.assertRegex(text.splitlines()[-1], r"^\d+ errors?.*; start at .+a\.staging:\d+:\d+$")

    def test_findings_point_into_the_file(self):
        data = SCENE.encode()
        for finding in self.findings(self.scene())["findings"]:
            where = finding["where"]
            self.assertLessEqual(0, where["begin"])
            self.assertLessEqual(where["begin"], where["end"])
            self.assertLessEqual(where["end"], len(data))
            self.assertEqual(where["line"], data[: where["begin"]].count(b"\n") + 1)

    def test_standard_input(self):
        path = self.write("a.staging", FAULTY)
        of_file = run("check", path, "--as", "lines")
        of_input = run("check", "-", "--as", "lines", stdin=FAULTY.encode())
        self.assertEqual(of_input.returncode, 1)
        self.assertEqual(of_input.stdout.decode(), of_file.stdout.decode().replace(str(path) + ":", "-:"))

    def test_several_files_are_told_together(self):
        first, second = self.write("a.staging", FAULTY), self.scene()
        told = json.loads(run("check", first, second, "--as", "json").stdout)
        expected = [len(self.findings(path)["findings"]) for path in (first, second)]
        files = [finding["where"]["file"] for finding in told["findings"]]
        self.assertEqual([files.count(str(first)), files.count(str(second))], expected)

    def test_a_scene_waives_and_treats_for_itself_alone(self):
        faulty = SCENE.replace("medium shot", "back to lens")
        first = self.write("a.staging", faulty)
        second = self.write("b.staging", faulty.replace("room 6", "treat taken-for-granted as off\nroom 6").replace(
            "favour Oda", 'waive turned-away, because "it is a back she shows"\nfavour Oda'))
        alone = run("check", first, "--as", "lines").stdout.decode()
        self.assertIn("[turned-away]", alone)
        self.assertIn("[taken-for-granted]", alone)
        both = run("check", first, second, "--as", "lines").stdout.decode().splitlines()
        self.assertEqual([line for line in both if line.startswith(f"{first}:")], alone.splitlines())
        of_second = "\n".join(line for line in both if line.startswith(f"{second}:"))
        self.assertNotIn("[taken-for-granted]", of_second)
        self.assertRegex(of_second, r"waived: .*\[turned-away\]")


class Streams(Folder):
    def test_every_command_reads_standard_input(self):
        path = self.scene()
        for before, after in ((["explain"], []), (["explain"], ["--at", "2"]), (["dump", "syntax"], []),
                              (["dump", "plan"], []), (["dump", "view"], ["--at", "2"]), (["tidy"], []), (["coverage"], []),
                              (["book"], ["-o", "-"]), (["floor"], ["--format", "svg", "-o", "-"]),
                              (["frame"], ["--format", "svg", "-o", "-"])):
            of_file = run(*before, path, *after)
            of_input = run(*before, "-", *after, stdin=SCENE.encode())
            self.assertEqual(of_input.returncode, of_file.returncode, of_input.stderr)
            if before != ["book"]:  # which names its file
                name = re.compile(re.escape(str(path)))
                self.assertEqual(name.sub("-", of_file.stdout.decode()).replace('"-"', "-"),
                                 of_input.stdout.decode().replace('"-"', "-"), before)
            self.assertGreater(len(of_input.stdout), 100)

    def test_data_and_messages_keep_apart(self):
        path, faulty = self.scene(), self.write("faulty.staging", FAULTY)
        for arguments in (["check", path], ["check", faulty], ["check", faulty, "--as", "json"],
                          ["check", faulty, "--as", "lines"], ["explain", path], ["explain", "masked"],
                          ["dump", "plan", faulty], ["dump", "plan", faulty, "--as", "json"],
                          ["floor", path, "--format", "svg", "-o", "-"]):
            done = run(*arguments)
            self.assertIn(done.returncode, (0, 1))
            self.assertEqual(done.stderr, b"", arguments)
        done = run("book", path, "-o", "-")
        self.assertTrue(done.stdout.startswith(b"%PDF-") and done.stdout.rstrip().endswith(b"%%EOF"))
        self.assertIn(b"on standard output", done.stderr)
        done = run("check", faulty, self.folder / "none.staging", "--as", "json")
        json.loads(done.stdout)
        self.assertIn(b"none.staging", done.stderr)

    def test_statuses_of_every_form(self):
        path, faulty = self.scene(), self.write("faulty.staging", FAULTY)
        for form in ("text", "lines", "json"):
            self.assertEqual(run("check", faulty, "--as", form).returncode, 1)
            self.assertEqual(run("check", path, "--as", form).returncode,
                             1 if self.findings(path)["counts"]["error"] else 0)
            self.check_cannot_run(run("check", self.folder / "none.staging", "--as", form), "none.staging")


class Tidy(Folder):
    UNTIDY = SCENE.replace("Oda is at frame left", "  Oda   is  at frame left ").replace("favour Oda", "favor Oda")

    def test_the_forms(self):
        path = self.write("a.staging", self.UNTIDY)
        tidied = run("tidy", path)
        self.assertEqual((tidied.returncode, tidied.stderr), (0, b""))
        self.assertNotEqual(tidied.stdout.decode(), self.UNTIDY)
        self.assertEqual(run("tidy", "-", stdin=tidied.stdout).stdout, tidied.stdout)
        done = run("tidy", "--check", path)
        self.assertEqual((done.returncode, done.stdout.decode()), (1, f"{path}\n"))
        done = run("tidy", "--diff", path)
        self.assertEqual(done.returncode, 0)
        self.assertIn(b"-favor Oda\n", done.stdout)
        self.assertIn(b"+  favour Oda\n", done.stdout)
        self.assertEqual(path.read_text(), self.UNTIDY)
        done = run("tidy", "--write", path)
        self.assertEqual((done.returncode, done.stdout.decode()), (0, f"{path}\n"))
        self.assertEqual(path.read_bytes(), tidied.stdout)
        self.assertEqual(self.names(), ["a.staging"])
        for form in ("--check", "--diff", "--write"):
            done = run("tidy", form, path)
            self.assertEqual((done.returncode, done.stdout), (0, b""), form)

    def test_the_change_shown_is_the_change_made(self):
        path = self.write("a.staging", self.UNTIDY)
        change = run("tidy", "--diff", path).stdout
        tidied = run("tidy", path).stdout
        # GNU patch, where there is one, as somebody else's reading of a unified diff.
        if shutil.which("patch") is None:
            self.skipTest("no patch here")
        subprocess.run(["patch", "--quiet", str(path)], input=change, check=True, timeout=60)
        self.assertEqual(path.read_bytes(), tidied)

    def test_broken_lines_stay_byte_for_byte(self):
        broken = b"Oda   flurbs,,the  gramble\xff\xfe \t\n"
        path = self.write("a.staging", self.UNTIDY.encode() + broken)
        done = run("tidy", "--write", path)
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"a.staging:", done.stderr)
        self.assertTrue(path.read_bytes().endswith(broken))
        self.assertIn(b"favour Oda", path.read_bytes())

    def test_what_cannot_be(self):
        path = self.write("a.staging", self.UNTIDY)
        none = self.folder / "none.staging"
        self.check_cannot_run(run("tidy", path, path), "--check")
        self.check_cannot_run(run("tidy", "--write", "-", stdin=b""), "standard input")
        self.check_cannot_run(run("tidy", "--write", none, path), "no such file")
        self.assertIn("favour Oda", path.read_text())
        for form in (["--check", "--write"], ["--check", "--diff"], ["--diff", "--write"]):
            self.check_cannot_run(run("tidy", *form, path))

    def test_a_full_disk_leaves_the_scene_whole(self):
        long = self.UNTIDY + "".join(f"beat More-{i}\nOda to Tobias: \"And   then?\"\n" for i in range(400))
        path = self.write("a.staging", long)
        done = run("tidy", "--write", path,
                   preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096)))
        self.check_cannot_run(done, "cannot write", "a.staging")
        self.assertEqual(path.read_text(), long)
        self.assertEqual(self.names(), ["a.staging"])


class BadInput(Folder):
    def test_missing_and_directory(self):
        for command in (["check"], ["explain"], ["dump", "plan"]):
            self.check_cannot_run(run(*command, self.folder / "none.staging"), "none.staging", "no such file")
            self.check_cannot_run(run(*command, self.folder), "is a directory")
        out = self.folder / "x.pdf"
        for command in (["book"], ["page"], ["floor"], ["frame"]):
            self.check_cannot_run(run(*command, self.folder / "none.staging", "-o", out), "no such file")
        self.assertEqual(self.names(), [])

    def test_one_missing_file_among_good_ones(self):
        done = run("check", self.scene(), self.folder / "none.staging")
        self.check_cannot_run(done, "no such file")
        self.assertNotEqual(done.stdout, b"")

    def test_an_unreadable_file_is_never_in_order(self):
        path = self.scene()
        path.chmod(0)
        nobody = self.unprivileged()
        loop = self.folder / "loop.staging"
        loop.symlink_to(loop)
        dangling = self.folder / "dangling.staging"
        dangling.symlink_to("nowhere")
        for bad, reason in ((path, "permission denied"), (loop, "links"), (dangling, "no such file"),
                            # Nothing is mapped at the start of a process's memory.
                            ("/proc/self/mem", "reports a fault"), (path / "x.staging", "not a directory"),
                            (self.folder / ("x" * 300), "too long")):
            for command in (["check"], ["check", "--bar", "remark"], ["tidy"], ["tidy", "--check"], ["explain"],
                            ["dump", "syntax"], ["dump", "plan"], ["floor", "--format", "svg", "-o", "-"]):
                with self.subTest(f"{command} {bad}"):
                    done = run(*command, bad, **nobody)
                    self.check_cannot_run(done, reason)
                    self.assertEqual(done.stdout, b"")

    def test_standard_input_that_cannot_be_read(self):
        done = subprocess.run([PROGRAM, "check", "-"], stdin=os.open(self.folder, os.O_RDONLY), capture_output=True,
                              timeout=60)
        self.check_cannot_run(done, "cannot read -", "is a directory")
        done = subprocess.run(["sh", "-c", 'exec "$0" check - <&-', PROGRAM], capture_output=True, timeout=60)
        self.check_cannot_run(done, "cannot read -", "closed")

    def test_empty_file(self):
        for contents in (b"", b"\n", b"\xef\xbb\xbf", b"-- only a comment\n"):
            told = self.findings(self.write("a.staging", contents), status=1)
            self.assertGreater(told["counts"]["error"], 0, contents)
            done = run("book", self.folder / "a.staging", "-o", self.folder / "a.pdf")
            self.check_cannot_run(done, "no scene")
        self.assertEqual(self.names(), ["a.staging"])

    def test_binary_file(self):
        path = self.write("a.staging", bytes(range(256)) * 256)
        self.findings(path, status=1)
        done = run("check", path)
        self.assertEqual(done.returncode, 1)
        text = done.stdout.decode("utf-8")
        self.assertIsNone(re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", text), "controls reach the terminal")

    def test_a_line_of_ten_megabytes(self):
        for line in (b"a" * 10_000_000, b'Oda: "' + b"word " * 2_000_000 + b'"', b"(" * 10_000_000,
                     b"Oda walks" + b", to the Table" * 700_000):
            path = self.write("a.staging", SCENE.encode() + line + b"\n")
            done = run("check", path)
            self.assertIn(done.returncode, (0, 1), line[:20])
            self.assertLess(len(done.stdout), 200_000, line[:20])

    def test_a_file_too_large(self):
        self.check_cannot_run(run("check", self.write("a.staging", b"\n" * (16 * 1024 * 1024 + 1))), "16 MiB")

    def test_bytes_that_are_not_utf8(self):
        for waste in (b"\x80", b"\xff\xfe", b"\xe5\xb0", b"\xed\xa0\x80", b"\xc0\xaf", b"\x00"):
            path = self.write("a.staging", SCENE.encode().replace(b"by the Table", b"by the T" + waste + b"able"))
            self.findings(path, status=1)
            for waist in ("syntax", "plan", "emphasis"):
                json.loads(run("dump", waist, path, "--as", "json").stdout)
                run("dump", waist, path).stdout.decode("utf-8")

    def test_strange_names_do_not_steer_the_terminal(self):
        path = self.write("a.staging", SCENE.replace("Table", "T\x1b[31mable\u202e"))
        for arguments in (["check", path], ["check", path, "--as", "lines"], ["dump", "plan", path]):
            text = run(*arguments).stdout.decode()
            self.assertNotIn("\x1b", text)
            self.assertNotIn("\u202e", text)

    def test_scenes_that_cannot_be_played(self):
        """Each is told in the writer's own words, and what is drawn all the same is drawn whole."""
        camera = "camera A, lens {}, at (3 m, 0 m)\nbeat Asking"
        for name, text, rule, words in [
            ("no people", "staging 1.0 scene\nscene A\nroom 4 m by 4 m\nbeat B\npause 2 s\n",
             "missing-person", "the scene `A` has no people"),
            ("no beats", "staging 1.0 scene\nscene A\npeople Oda\nroom 4 m by 4 m\n",
             "missing-person", "`Oda` has no line in the scene"),
            ("a room of no size", SCENE.replace("6 m by 5 m", "0 m by 0 m"),
             "unit.out-of-range", "`0 m` cannot be the size of a room"),
            ("a negative room", SCENE.replace("6 m by 5 m", "-3 m by 5 m"),
             "unit.out-of-range", "`-3 m` cannot be the size of a room"),
            ("a lens of no length", SCENE.replace("beat Asking", camera.format("0 mm")),
             "unit.out-of-range", "`0 mm` cannot be the focal length"),
            ("a negative lens", SCENE.replace("beat Asking", camera.format("-35 mm")),
             "unit.out-of-range", "`-35 mm` cannot be the focal length"),
            ("a stop of nought", SCENE.replace("beat Asking", camera.format("35 mm, stop T0")),
             "unit.out-of-range", "`0` is no stop"),
            ("a gate of no size", SCENE.replace("beat Asking", camera.format("35 mm, gate 0 mm by 0 mm")),
             "unit.out-of-range", "`0 mm` cannot be the gate"),
            ("a person of no height", SCENE.replace("people Oda, Tobias", "person Oda, height 0 m\nperson Tobias"),
             "unit.out-of-range", "`0 m` cannot be the height of a person"),
            ("someone in a wall", SCENE.replace("by the Table", "at (0 m, 2 m)"),
             "place.in-the-way", "`(0, 2) m` lies inside the wall"),
            ("someone in a table", SCENE.replace("by the Table", "at (3 m, 2.5 m)"),
             "place.in-the-way", "`(3, 2.5) m` lies inside `Table`"),
            ("someone outside", SCENE.replace("by the Table", "at (9 m, 2 m)"),
             "place.outside-set", "`(9, 2) m` lies beyond a wall"),
            ("someone far outside", SCENE.replace("by the Table", "at (900 m, -900 m)"),
             "unit.out-of-range", "`900 m` cannot be the place on the floor"),
            ("two in one place", SCENE.replace("by the Table", "at (1 m, 1 m)").replace(
                "at frame left, medium shot", "at (1 m, 1 m)"), "bump", "`Oda` and `Tobias` are in one place"),
            ("camera in a person", SCENE.replace("beat Asking", "camera A, at (1 m, 1 m)\nbeat Asking").replace(
                "by the Table", "at (1 m, 1 m)"), "stuck-camera", "camera `A` stands inside `Tobias`"),
        ]:
            with self.subTest(name):
                path = self.write("a.staging", text)
                told = self.findings(path)["findings"]
                messages = [finding["message"] for finding in told if finding["rule"] == rule]
                self.assertTrue(any(words in message for message in messages), messages)
                graver = any(finding["severity"] == "error" for finding in told)
                self.assertEqual(graver, rule != "missing-person")
                output = self.folder / "a.pdf"
                done = run("book", path, "-o", output)
                self.assertEqual(done.returncode, 0, done.stderr)
                self.assertEqual(done.stdout, b"")
                self.assertTrue(output.read_bytes().rstrip().endswith(b"%%EOF"))
                output.unlink()


class Outputs(Folder):
    def test_book(self):
        output = self.folder / "parting.pdf"
        done = run("book", self.scene(), "-o", output)
        self.assertEqual((done.returncode, done.stdout), (0, b""), done.stderr)
        self.assertTrue(output.read_bytes().startswith(b"%PDF-"))
        self.assertIn(str(output), done.stderr.decode())
        self.assertEqual(run("book", self.folder / "parting.staging", "-o", "-").stdout, output.read_bytes())

    def test_pictures_by_ending_and_by_format(self):
        begins = {"svg": b"<?xml", "png": b"\x89PNG", "pdf": b"%PDF-"}
        path = self.scene()
        for command in ("floor", "frame"):
            for ending, begin in begins.items():
                output = self.folder / f"{command}.{ending}"
                done = run(command, path, "--beat", "Answer", "-o", output)
                self.assertEqual((done.returncode, done.stdout), (0, b""), done.stderr)
                self.assertTrue(output.read_bytes().startswith(begin))
                done = run(command, path, "--beat", "Answer", "--format", ending, "-o", "-")
                self.assertEqual(done.stdout, output.read_bytes())
            self.check_cannot_run(run(command, path, "-o", self.folder / "x.gif"), "x.gif", ".svg")
            self.check_cannot_run(run(command, path, "-o", "-"), "--format")

    def test_letters_that_cannot_be_drawn_are_told(self):
        plain = self.scene()
        strange = self.folder / "strange.staging"
        strange.write_text(SCENE.replace("Tobias", "小林"))
        for command, output in (("book", "x.pdf"), ("floor", "x.svg"), ("frame", "x.png")):
            more = [] if command == "book" else ["--beat", "Answer"]
            done = run(command, strange, *more, "-o", self.folder / output)
            told = done.stderr.decode()
            self.assertEqual(done.returncode, 0, told)
            self.assertIn("no letters for `小林` (小, 林)", told)
            self.assertIn('`person 小林, called "..."`', told)
            self.assertNotIn("no letters", run(command, plain, *more, "-o", self.folder / output).stderr.decode())

    def test_unknown_beats_and_times(self):
        path, output = self.scene(), self.folder / "x.svg"
        for command in ("floor", "frame"):
            self.check_cannot_run(run(command, path, "--beat", "Nowhere", "-o", output), "Nowhere", "Asking, Answer")
            for time in ("soon", "1:75", "-3", "1.", "12 s s", "9999999999"):
                self.check_cannot_run(run(command, path, f"--at={time}", "-o", output), "is no time")
            self.check_cannot_run(run(command, path, "--at", "59:00", "-o", output), "past the end")
            self.check_cannot_run(run(command, path, "--at", "+1", "-o", output), "--beat")
            self.check_cannot_run(run(command, path, "--beat", "Answer", "--at", "0", "-o", output), "outside the beat")
        self.assertEqual(self.names(), ["parting.staging"])

    def test_times_agree(self):
        path = self.scene()

        def view(*arguments):
            done = run("dump", "view", path, *arguments)
            self.assertEqual(done.returncode, 0, done.stderr)
            return done.stdout

        self.assertEqual(view("--at", "1.5"), view("--at", "0:01.5"))
        self.assertEqual(view("--at", "1.5"), view("--at", "1.5s"))
        self.assertEqual(view("--at", "1.5"), view("--beat", "Asking", "--at", "+1.5"))
        self.assertNotEqual(view("--at", "0"), view("--beat", "Answer", "--at", "+0"))

    def check_fails_whole(self, output, **more):
        """Whatever goes wrong, an old output stays as it was and nothing is left beside it."""
        before, names = output.read_bytes(), self.names()
        self.assertIn(output.name, names)
        done = run("book", self.folder / "parting.staging", "-o", output, **more)
        self.check_cannot_run(done, "cannot write", output.name)
        self.assertEqual(output.read_bytes(), before)
        self.assertEqual(self.names(), names)

    def test_a_full_disk_leaves_the_old_book_whole(self):
        self.scene()
        output = self.write("old.pdf", b"the old book")
        self.check_fails_whole(output, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096)))

    def test_a_protected_book_stays(self):
        self.scene()
        output = self.write("old.pdf", b"the old book")
        output.chmod(0o444)
        self.check_fails_whole(output, **self.unprivileged())

    def test_a_protected_folder_stays(self):
        self.scene()
        output = self.write("old.pdf", b"the old book")
        output.chmod(0o666)
        nobody = self.unprivileged()
        self.folder.chmod(0o555)
        self.addCleanup(self.folder.chmod, 0o755)
        self.check_fails_whole(output, **nobody)

    def test_outputs_that_cannot_be(self):
        path = self.scene()
        self.check_cannot_run(run("book", path, "-o", self.folder), "is a directory")
        self.check_cannot_run(run("book", path, "-o", self.folder / "none" / "x.pdf"), "no such directory")
        self.check_cannot_run(run("book", path, "-o", path / "x.pdf"), "not a directory")
        self.check_cannot_run(run("book", path, "-o", self.folder / ("x" * 300)), "too long")
        self.check_cannot_run(run("book", path, "-o", "/dev/full"), "disk full")
        self.assertEqual(self.names(), ["parting.staging"])

    def test_standard_output_that_is_full(self):
        path = str(self.scene())
        for arguments in (["check", path], ["check", path, "--as", "json"], ["explain", path], ["explain", "rules"],
                          ["dump", "plan", path], ["tidy", path], ["book", path, "-o", "-"],
                          ["frame", path, "--format", "png", "-o", "-"]):
            with open("/dev/full", "wb") as full:
                done = subprocess.run([PROGRAM, *arguments], stdout=full, stderr=subprocess.PIPE, timeout=60)
            self.check_cannot_run(done, "standard output", "disk full")
        done = subprocess.run(["sh", "-c", 'exec "$0" check "$1" >&-', PROGRAM, path], stderr=subprocess.PIPE, timeout=60)
        self.check_cannot_run(done, "standard output")

    def test_a_reader_who_never_sees_half_a_book(self):
        """The old book can be read until the new one stands in its place: it is another file, not the same rewritten."""
        path, output = self.scene(), self.write("old.pdf", b"the old book")
        with open(output, "rb") as old:
            self.assertEqual(run("book", path, "-o", output).returncode, 0)
            self.assertEqual(old.read(), b"the old book")
        self.assertTrue(output.read_bytes().startswith(b"%PDF-"))
        self.assertEqual(self.names(), ["old.pdf", "parting.staging"])

    def test_the_scene_itself_is_never_the_output(self):
        path = self.scene()
        link = self.folder / "link.svg"
        link.symlink_to(path)
        for output in (path, link):
            self.check_cannot_run(run("floor", path, "-o", output, "--format", "svg"), "the scene itself")
            self.check_cannot_run(run("book", path, "-o", output), "the scene itself")
        self.assertEqual(path.read_text(), SCENE)

    def test_permissions_and_links_are_kept(self):
        path = self.scene()
        output = self.write("a.svg", b"old")
        output.chmod(0o640)
        link = self.folder / "link.svg"
        link.symlink_to("a.svg")
        self.assertEqual(run("floor", path, "-o", link).returncode, 0)
        self.assertTrue(link.is_symlink())
        self.assertTrue(output.read_bytes().startswith(b"<?xml"))
        self.assertEqual(stat.S_IMODE(output.stat().st_mode), 0o640)
        fresh = self.folder / "fresh.svg"
        self.assertEqual(run("floor", path, "-o", fresh, umask=0o027).returncode, 0)
        self.assertEqual(stat.S_IMODE(fresh.stat().st_mode), 0o640)


class Coverage(Folder):
    def test_two_who_talk_take_five_set_ups_and_the_held_frame_one(self):
        text = run("coverage", self.scene()).stdout.decode()
        self.assertIn("5 set-ups: 1 master, 2 singles and 2 over-shoulders", text)
        self.assertIn("It saves 4 set-ups", text)
        self.assertNotRegex(text, r"(?i)\bsafe")

    def test_data_say_what_the_text_says(self):
        for name in ("one-vote", "quay", "kitchen"):
            scene = EXAMPLES / f"{name}.staging"
            data = json.loads(run("coverage", scene, "--as", "json").stdout)
            text = run("coverage", scene).stdout.decode()
            self.assertEqual(data["schema"], "lensward/coverage/1")
            self.assertIn(f"{len(data['set_ups'])} set-ups", text)
            self.assertLessEqual(len(data["insurance"]), 3)
            # 20 to 45 minutes a set-up: weak, what producers of small films write.
            for hours, minutes in zip(data["hours"], (20, 45)):
                self.assertAlmostEqual(hours, len(data["set_ups"]) * minutes / 60, delta=0.006)
            for one in data["insurance"]:
                self.assertIn(data["set_ups"][one["set_up"] - 1]["name"], text)
            # Two of a pair look at one another: to the left and to the right.
            looks = {}
            for one in data["set_ups"]:
                if one["kind"] == "over-shoulder":
                    looks.setdefault(frozenset((one["of"], one["toward"])), {}).setdefault(one["looks"], set()).add(one["of"])
            if not data["crossed_lines"]:
                for pair, sides in looks.items():
                    self.assertEqual(len(sides), 2, pair)

    def test_what_has_no_coverage(self):
        empty = self.write("empty.staging", SCENE[:SCENE.index("beat Asking")])
        done = run("coverage", empty)
        self.assertEqual((done.returncode, done.stdout), (0, b"nothing to cover: the scene has no beats\n"))
        self.check_cannot_run(run("coverage", self.write("no.staging", "staging 1.0 scene\n")), "scene NAME")


class Pin(Folder):
    TEXT = SCENE.replace("Oda is at frame left, medium shot", "Oda is at (2, 1.5) m")

    def marks(self, change):
        """The scene's own table of marks, each row changed."""
        path = self.write("parting.staging", self.TEXT)
        run("sheets", path, "-o", self.folder / "crew", "--for", "marks")
        with (self.folder / "crew" / "parting-marks-marks.csv").open(newline="") as file:
            rows = list(csv.DictReader(file))
        self.assertEqual({row["mark"] for row in rows}, {"O1", "T1"})
        with (self.folder / "day.csv").open("w", newline="") as file:
            out = csv.DictWriter(file, rows[0].keys())
            out.writeheader()
            out.writerows(change(dict(row)) for row in rows)
        return path

    @staticmethod
    def shifted(row, first=0.0, second=0.0):
        row["mark_first_m"] = str(float(row["mark_first_m"]) + first)
        row["mark_second_m"] = str(float(row["mark_second_m"]) + second)
        return row

    def place(self, path, mark):
        data = json.loads(run("dump", "plan", path, "--as", "json").stdout)
        return next(one["at"] for one in data["marks"] if one["name"] == mark)

    def pin(self, path, *more):
        return run("pin", path, "--from", self.folder / "day.csv", *more)

    def test_nothing_measured_otherwise_changes_nothing(self):
        path = self.marks(lambda row: row)
        done = self.pin(path, "--write")
        self.assertEqual((done.returncode, done.stdout), (0, b"2 marks are where the text has them\n"))
        self.assertEqual(path.read_text(), self.TEXT)

    def test_what_is_measured_is_told_and_written_only_when_asked(self):
        path = self.marks(lambda row: self.shifted(row, 0.3, -0.4))
        old = {mark: self.place(path, mark) for mark in ("O1", "T1")}
        done = self.pin(path)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("`O1` of `Oda`: 0.5 m off", done.stdout.decode())
        self.assertIn("beat `Asking`", done.stdout.decode())
        self.assertEqual(path.read_text(), self.TEXT)
        self.assertEqual(self.pin(path, "--write").returncode, 0)
        # North wall first, then east or west: 0.3 m south, 0.4 m toward the other wall.
        for mark, was in old.items():
            now = self.place(path, mark)
            self.assertAlmostEqual(now[1], was[1] - 0.3, delta=0.011)
            self.assertAlmostEqual(abs(now[0] - was[0]), 0.4, delta=0.011)
        self.assertIn("mark T1 at (", path.read_text())
        self.assertEqual(path.read_text().count("\n"), self.TEXT.count("\n") + 1)

    def test_one_that_cannot_be_taken_holds_back_the_writing(self):
        path = self.marks(lambda row: self.shifted(row, 0.3 if row["mark"] == "O1" else 2.0))
        done = self.pin(path)
        self.assertEqual(done.returncode, 1)
        self.assertIn("`T1` would move by 2 m", done.stderr.decode())
        self.assertIn("`O1` of `Oda`: 0.3 m off", done.stdout.decode())
        self.check_cannot_run(self.pin(path, "--write"), "nothing is written")
        self.assertEqual(path.read_text(), self.TEXT)

    def test_figures_under_the_wrong_heading(self):
        def exchanged(row):
            row["mark_first_m"], row["mark_second_m"] = row["mark_second_m"], row["mark_first_m"]
            return row

        self.check_cannot_run(self.pin(self.marks(exchanged)), "look exchanged", "no mark is moved")

    def test_one_row_with_its_figures_exchanged(self):
        def exchanged(row):
            if row["mark"] == "O1":
                row["mark_first_m"], row["mark_second_m"] = row["mark_second_m"], row["mark_first_m"]
            return self.shifted(row, 0.1)

        done = self.pin(self.marks(exchanged))
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr.decode(), "`O1` would move by 0.[78]. m, with its two figures exchanged by 0.1 m")
        self.assertIn("nor would --write", done.stderr.decode())

    def test_figures_in_another_unit(self):
        def in_inches(row):
            row["mark_first_m"] = str(float(row["mark_first_m"]) / 0.0254)
            row["mark_second_m"] = str(float(row["mark_second_m"]) / 0.0254)
            return row

        self.check_cannot_run(self.pin(self.marks(in_inches)), "are the unit and the walls right?")

    def test_a_file_that_is_no_table(self):
        path = self.write("parting.staging", self.TEXT)
        for contents in ("", "nothing\n", "\0\xff", "mark,mark_first_m,mark_second_m\nZ9,1,1\n", '"', "a," * 10000):
            self.write("day.csv", contents.encode("latin-1"))
            self.check_cannot_run(self.pin(path), "no mark is moved")
        (self.folder / "day.csv").unlink()
        self.check_cannot_run(self.pin(path), "day.csv")


class Sheets(Folder):
    def sheets(self, *arguments, **more):
        return run("sheets", self.folder / "parting.staging", "-o", self.folder / "crew", *arguments, **more)

    def crew(self):
        return {path.name: path.read_bytes() for path in (self.folder / "crew").iterdir()}

    def test_files_are_named_after_the_scene(self):
        self.scene()
        done = self.sheets()
        self.assertEqual(done.returncode, 0, done.stderr)
        made = [pathlib.Path(line).name for line in done.stdout.decode().splitlines()]
        self.assertIn("parting-actors.pdf", made)
        self.assertEqual(made, sorted(made, key=made.index))
        for name, contents in self.crew().items():
            self.assertTrue(name.startswith("parting-"), name)
            self.assertTrue(contents.startswith(b"%PDF-") if name in made else name.endswith(".csv"), name)

    def test_only_some(self):
        self.scene()
        done = self.sheets("--for", "camera,marks")
        self.assertEqual([line.rsplit("/", 1)[1] for line in done.stdout.decode().splitlines()],
                         ["parting-marks.pdf", "parting-camera.pdf"])
        self.assertEqual({name.split("-")[1].split(".")[0] for name in self.crew()}, {"camera", "marks"})
        self.check_cannot_run(self.sheets("--for", "plumber"), "plumber", "grip")

    def test_a_scene_without_beats_has_a_set_only(self):
        self.write("parting.staging", SCENE[:SCENE.index("beat Asking")])
        self.assertEqual(self.sheets().returncode, 0)
        self.assertIn("parting-light.pdf", self.crew())
        self.assertNotIn("parting-actors.pdf", self.crew())

    def test_a_file_without_a_scene_has_no_sheets(self):
        self.write("parting.staging", "staging 1.0 scene\n")
        self.check_cannot_run(self.sheets(), "parting.staging", "scene NAME")
        self.assertEqual(self.names(), ["parting.staging"])

    def test_other_files_are_not_touched(self):
        self.scene()
        (self.folder / "crew").mkdir()
        for name in ("parting-notes.txt", "other-camera.pdf", "parting-camera.pdf.old"):
            (self.folder / "crew" / name).write_text(name)
        self.assertEqual(self.sheets().returncode, 0)
        for name in ("parting-notes.txt", "other-camera.pdf", "parting-camera.pdf.old"):
            self.assertEqual((self.folder / "crew" / name).read_text(), name)

    def check_old_sheets_stay(self, *words, **more):
        """The scene is another by now; whatever goes wrong, all sheets are of the old one and nothing else is there."""
        self.write("parting.staging", SCENE.replace("Tobias", "Matthias"))
        before = self.crew()
        self.check_cannot_run(self.sheets(**more), "cannot write", *words)
        self.assertEqual(self.crew(), before)

    def test_a_full_disk_leaves_all_old_sheets(self):
        self.scene()
        self.assertEqual(self.sheets().returncode, 0)
        small = max(len(contents) for name, contents in self.crew().items() if name.endswith(".csv"))
        self.check_old_sheets_stay(preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (small, small)))

    def test_one_protected_sheet_keeps_all(self):
        self.scene()
        self.assertEqual(self.sheets().returncode, 0)
        for path in [self.folder / "crew", *(self.folder / "crew").iterdir()]:
            path.chmod(0o777)
        (self.folder / "crew" / "parting-script.pdf").chmod(0o444)
        self.check_old_sheets_stay("parting-script.pdf", **self.unprivileged())

    @unittest.skipUnless(os.geteuid() == 0, "only root can give files away")
    def test_a_sheet_of_somebody_else_in_a_folder_that_all_may_use(self):
        self.scene()
        self.assertEqual(self.sheets().returncode, 0)
        folder = self.folder / "crew"
        folder.chmod(0o1777)
        for path in folder.iterdir():
            path.chmod(0o666)
            os.chown(path, 65534, 65534)
        os.chown(folder / "parting-script.pdf", 0, 0)  # may be written, but not replaced
        self.write("parting.staging", SCENE.replace("Tobias", "Matthias")).chmod(0o644)
        before = self.crew()
        self.check_cannot_run(self.sheets(**self.unprivileged()), "parting-script.pdf")
        self.assertEqual(self.crew(), before)

    def test_a_link_to_what_is_not_there_yet_is_followed(self):
        self.scene()
        (self.folder / "crew").mkdir()
        (self.folder / "crew" / "parting-camera.pdf").symlink_to("../camera.pdf")
        self.assertEqual(self.sheets("--for", "camera").returncode, 0)
        self.assertTrue((self.folder / "crew" / "parting-camera.pdf").is_symlink())
        self.assertTrue((self.folder / "camera.pdf").read_bytes().startswith(b"%PDF"))

    def test_a_folder_in_the_place_of_a_sheet(self):
        self.scene()
        self.assertEqual(self.sheets().returncode, 0)
        (self.folder / "crew" / "parting-script.pdf").unlink()
        (self.folder / "crew" / "parting-script.pdf").mkdir()
        self.write("parting.staging", SCENE.replace("Tobias", "Matthias"))
        self.check_cannot_run(self.sheets(), "parting-script.pdf")
        self.assertNotIn("Matthias", (self.folder / "crew" / "parting-actors-moves.csv").read_text())

    def test_a_file_in_the_place_of_the_folder(self):
        self.scene()
        self.write("crew", "mine")
        self.check_cannot_run(self.sheets(), "crew")
        self.assertEqual((self.folder / "crew").read_text(), "mine")

    def test_standard_input_and_the_same_bytes(self):
        self.scene()
        self.sheets()
        other = self.folder / "other"
        done = run("sheets", "-", "-o", other, stdin=SCENE.encode(), cwd=self.folder,
                   env={"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo", "HOME": "/nowhere"})
        self.assertEqual(done.returncode, 0, done.stderr)
        for name, contents in self.crew().items():
            self.assertEqual((other / name.replace("parting-", "scene-")).read_bytes(), contents, name)


class Sameness(Folder):
    @unittest.skipUnless(len(os.sched_getaffinity(0)) > 1, "there is only one core here")
    def test_findings_do_not_depend_on_the_number_of_cores(self):
        one = {min(os.sched_getaffinity(0))}
        for command in (["check", "--as", "json"], ["mend"]):
            draft = EXAMPLES / "monday.staging"
            together = run(*command, draft)
            alone = run(*command, draft, preexec_fn=lambda: os.sched_setaffinity(0, one))
            self.assertEqual(together.stdout, alone.stdout)
            self.assertIn(b"wandering-eye", alone.stdout)

    def test_two_runs_give_the_same_bytes(self):
        path, faulty = self.scene(), self.write("faulty.staging", FAULTY)
        for arguments in (["check", path], ["check", path, "--as", "json"], ["check", faulty, "--as", "lines"],
                          ["dump", "syntax", path], ["dump", "plan", path], ["dump", "view", path],
                          ["coverage", path], ["coverage", path, "--as", "json"], ["dump", "emphasis", path], ["dump", "sheet", path], ["explain", path, "--csv"],
                          ["explain", path, "--at", "2"], ["book", path, "-o", "-"],
                          ["floor", path, "--format", "svg", "-o", "-"], ["floor", path, "--format", "png", "-o", "-"],
                          ["frame", path, "--format", "svg", "-o", "-"], ["frame", path, "--format", "pdf", "-o", "-"]):
            first = run(*arguments)
            # Another folder, locale, time zone and terminal.
            second = run(*arguments, cwd=self.folder,
                         env={"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo", "COLUMNS": "20", "HOME": "/nowhere"})
            self.assertIn(first.returncode, (0, 1), first.stderr)
            self.assertNotEqual(first.stdout, b"", arguments)
            self.assertEqual(first.stdout, second.stdout, arguments)


class Explain(Folder):
    def test_the_tally_adds_up(self):
        done = run("explain", self.scene(), "--at", "2")
        self.assertEqual(done.returncode, 0, done.stderr)
        text = done.stdout.decode()
        people = re.split(r"\n\n", text)[1:]
        self.assertEqual({person.split(":")[0] for person in people} >= {"Oda", "Tobias"}, True, text)
        for person in people:
            total = float(re.search(r": ([\d.]+) points", person).group(1))
            rows = re.findall(r"^  [a-z ]+?  +([\d.]+) +([\d.]+) +([\d.]+)$", person, re.M)
            gate = float(re.search(r"gate ([\d.]+)", person).group(1))
            # Each row is printed to a tenth.
            self.assertAlmostEqual(sum(float(row[2]) for row in rows), total, delta=0.05 * len(rows) + 0.06)
            for weight, strength, points in rows:
                self.assertAlmostEqual(float(weight) * float(strength) * gate, float(points), delta=0.6)

    def test_csv(self):
        done = run("explain", self.scene(), "--csv")
        self.assertEqual(done.returncode, 0, done.stderr)
        rows = list(csv.DictReader(io.StringIO(done.stdout.decode(), newline="")))
        self.assertEqual({row["name"] for row in rows}, {"Oda", "Tobias"})
        times = [float(row["time_s"]) for row in rows]
        self.assertEqual(times, sorted(times))
        for row in rows:
            self.assertLessEqual(0, float(row["points"]))
            self.assertLessEqual(float(row["points"]), 100)
            self.assertLessEqual(float(row["left"]), float(row["right"]))

    def test_a_line(self):
        path = self.scene()
        text = run("explain", f"{path}:11").stdout.decode()
        self.assertIn("Will you wait", text)
        self.assertRegex(text, r"speech: 11 words in [\d.]+ s")
        self.check_cannot_run(run("explain", f"{path}:99"), "no line 99", "15")
        self.check_cannot_run(run("explain", f"{path}:0"), "no line 0")

    def test_a_line_at_a_moment(self):
        path = self.scene()
        line, tally = run("explain", f"{path}:11"), run("explain", path, "--at", "2")
        both = run("explain", f"{path}:11", "--at", "2")
        self.assertEqual((both.returncode, both.stderr), (0, b""))
        self.assertEqual(both.stdout, line.stdout + b"\n" + tally.stdout)
        self.assertEqual(run("explain", f"{path}:11", "--beat", "Asking", "--at", "+2").stdout, both.stdout)
        self.check_cannot_run(run("explain", f"{path}:11", "--at", "59:00"), "past the end")
        self.check_cannot_run(run("explain", f"{path}:99", "--at", "2"), "no line 99")
        self.check_cannot_run(run("explain", f"{path}:11", "--csv"), "--csv", "leave the line out")

    def test_a_line_of_a_scene_that_uses_others(self):
        """What stands on a line of the same number in another file is not told with it."""
        self.write("yard.staging", "staging 1.0 set\nset Yard\nroom 9 m by 7 m\nfurniture Cart, trolley, at (5, 3) m\n"
                                   "furniture Gramble, zither, at (1, 1) m\n")
        path = self.write("a.staging", 'staging 1.0 scene\nscene A\nuse "yard"\npeople Oda\n\nbeat B\n'
                                       'Oda is by the Cart\nfavour Oda\nOda: "Not today."\n')
        self.assertIn("zither", run("check", path).stdout.decode())
        self.assertIn("feet of Oda", run("explain", f"{path}:7").stdout.decode())
        text = run("explain", f"{path}:5").stdout.decode()
        self.assertNotIn("zither", text)
        self.assertIn("nothing was computed from this line", text)

    def test_a_file_with_a_colon_in_its_name(self):
        path = self.write("take:3", SCENE)
        self.assertIn("favour Oda", run("explain", path).stdout.decode())
        self.assertIn("Will you wait", run("explain", f"{path}:11").stdout.decode())

    def test_unknown_rule(self):
        self.check_cannot_run(run("explain", "no-such-rule"), "no rule and no file `no-such-rule`", "explain rules")
        for wrong, meant in (("wandering-eyes", "wandering-eye"), ("turn-away", "turned-away"), ("maskd", "masked"),
                             ("parse.bare-lift", "parse.bare-left")):
            done = run("explain", wrong)
            self.check_cannot_run(done, f"no rule and no file `{wrong}`", f"did you mean `{meant}`?")
            self.assertEqual(done.stdout, b"")
            self.assertEqual(run("explain", meant).returncode, 0)
        self.check_cannot_run(run("explain", "masked", "--at", "2"), "names rules", "staging file")

    def test_a_waiver_of_an_unknown_rule(self):
        path = self.write("a.staging", SCENE + 'waive wandering-eyes, because "we like it"\n')
        told = [finding for finding in self.findings(path)["findings"] if finding["rule"] == "name.unknown-rule"]
        self.assertEqual([finding["next_step"] for finding in told], ["did you mean `wandering-eye`"])

    def test_all_rules(self):
        text = run("explain", "rules").stdout.decode()
        for rule in ("wandering-eye", "masked", "parse.bare-left"):
            self.assertIn(rule, text)

    def test_verdicts(self):
        text = run("explain", self.scene()).stdout.decode()
        self.assertIn("favour Oda", text)
        self.assertIn("favour Tobias", text)

    def test_every_rule_told_has_a_page(self):
        rules = {finding["rule"] for text in (SCENE, FAULTY)
                 for finding in self.findings(self.write("a.staging", text))["findings"]}
        for rule in rules:
            done = run("explain", rule)
            self.assertEqual(done.returncode, 0, (rule, done.stderr))
            self.assertIn(rule, done.stdout.decode())


class Dump(Folder):
    def test_two_turned_to_one_another_are_so_in_either_order(self):
        lines = ["Oda stands at (2.2, 1.4) m, facing Tobias", "Tobias stands at (4.1, 1.6) m, three-quarter to Oda"]
        bodies = []
        for order in (lines, lines[::-1]):
            text = SCENE.replace("Oda is at frame left, medium shot\nTobias is by the Table\n", "\n".join(order) + "\n")
            data = json.loads(run("dump", "plan", self.write("a.staging", text), "--as", "json").stdout)
            bodies.append({person["name"]: person["body"][0]["to"] for person in data["people"]})
        self.assertEqual(bodies[0], bodies[1])
        # From (2.2, 1.4) to (4.1, 1.6): atan2(1.9, 0.2).
        self.assertAlmostEqual(bodies[0]["Oda"], 84.0, delta=0.06)

    def test_every_stage_in_both_forms(self):
        path = self.scene()
        for waist in ("syntax", "plan", "view", "emphasis", "sheet"):
            done = run("dump", waist, path, "--as", "json")
            self.assertEqual(done.returncode, 0, done.stderr)
            value = json.loads(done.stdout)
            first = value[0] if isinstance(value, list) else value
            self.assertRegex(first["schema"], r"^lensward[/.][a-z]+[/.]\d+$")
            text = run("dump", waist, path).stdout.decode()
            self.assertIn("schema: " + first["schema"], text)


class Colour(Folder):
    def on_a_terminal(self, env):
        path = self.write("a.staging", FAULTY)
        try:
            parent, child = pty.openpty()
        except OSError as error:
            self.skipTest(f"no terminal to be had here: {error}")
        environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
        environment.update({"TERM": "xterm", **env})
        with subprocess.Popen([PROGRAM, "check", str(path)], stdout=child, env=environment) as process:
            os.close(child)
            shown = b""
            while True:
                try:
                    part = os.read(parent, 65536)
                except OSError:
                    break
                if not part:
                    break
                shown += part
            process.wait(60)
        os.close(parent)
        return shown.replace(b"\r\n", b"\n")

    def test_colour_only_on_a_willing_terminal(self):
        coloured = self.on_a_terminal({})
        self.assertIn(b"\x1b[", coloured)
        plain = run("check", self.folder / "a.staging").stdout
        self.assertNotIn(b"\x1b", plain)
        self.assertEqual(self.on_a_terminal({"NO_COLOR": "1"}), plain)
        self.assertEqual(self.on_a_terminal({"TERM": "dumb"}), plain)
        self.assertEqual(re.sub(rb"\x1b\[[\d;]*m", b"", coloured), plain)


class Doctor(Folder):
    def told(self, done):
        """By the words of the first column."""
        rows = {}
        for line in done.stdout.decode().splitlines():
            how, words = line[:10].strip(), line[10:]
            rows.setdefault(how, []).append(words)
        return rows

    def test_what_is_there(self):
        done = run("doctor", cwd=self.folder, env={"LC_ALL": "C.UTF-8"})
        self.assertEqual((done.returncode, done.stderr), (0, b""), done.stdout)
        told = self.told(done)
        version = run("--version").stdout.decode().split()[1]
        self.assertEqual(told["lensward"], [version])
        self.assertIn("built-in faces, 6 of 6", told["there"])
        self.assertTrue(any("preview" in words for words in told["there"]))
        self.assertTrue(any("compare" in words for words in told["there"]))
        self.assertIn("this folder can be written to", told["there"])
        self.assertIn("UTF-8 by the locale", told["there"])
        self.assertEqual(told["not so"], ["standard output is no terminal: findings come without colour"])

    def test_what_a_command_would_miss(self):
        copy = self.folder / "alone"
        copy.mkdir()
        shutil.copy(PROGRAM, copy / "lensward")
        done = run("doctor", executable=str(copy / "lensward"))
        self.assertEqual(done.returncode, 1, done.stdout)
        (missing,) = self.told(done)["MISSING"]
        self.assertIn("`preview`", missing)
        self.check_cannot_run(run("preview", self.scene(), executable=str(copy / "lensward")), "a preview needs", "qrencode")

    def test_a_folder_that_cannot_be_written_to_is_no_fault(self):
        who = self.unprivileged()
        shut = self.folder / "shut"
        shut.mkdir()
        shut.chmod(0o555)
        done = run("doctor", cwd=shut, env={"LC_ALL": "C"}, **who)
        told = self.told(done)["not so"]
        self.assertIn("this folder cannot be written to: name another after `-o`", told)
        self.assertTrue(any("UTF-8" in words for words in told))


class Compare(Folder):
    """What a new draft changed: two files, git's external diff, revisions."""

    def drafts(self, edit=(b"at frame left", b"at frame right")):
        old = (EXAMPLES / "monday.staging").read_bytes()
        self.assertIn(edit[0], old)
        return self.write("old.staging", old), self.write("new.staging", old.replace(*edit, 1))

    def test_both_drafts_side_by_side(self):
        old, new = self.drafts()
        pages = self.folder / "both.pdf"
        done = run("compare", old, new, "-o", pages)
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertIn("side by side in " + str(pages), done.stderr.decode())
        self.assertTrue(pages.read_bytes().startswith(b"%PDF"))
        words = subprocess.run(["pdftotext", "-layout", pages, "-"], capture_output=True, check=True).stdout.decode()
        self.assertIn("as it was", words)
        for sentence in re.findall(r"^  (`Oda` stands .*)$", done.stdout.decode(), re.M):
            self.assertIn(sentence.replace("`", ""), words)
        first = pages.read_bytes()
        self.assertEqual(run("compare", old, new, "-o", pages).returncode, 1)
        self.assertEqual(first, pages.read_bytes())
        self.assertEqual(run("compare", old, new, "-o", self.folder / "both.png").returncode, 2)
        # A beat that only one draft has.
        new.write_bytes(new.read_bytes().replace(b"beat Stranger", b"beat Newcomer\npause 1 s\n\nbeat Stranger"))
        run("compare", old, new, "-o", pages)
        words = subprocess.run(["pdftotext", "-layout", pages, "-"], capture_output=True, check=True).stdout.decode()
        self.assertIn("not in this draft", words)

    def git(self, *arguments, status=0):
        plain = {"PATH": os.environ["PATH"], "HOME": str(self.folder), "GIT_CONFIG_NOSYSTEM": "1"}
        done = subprocess.run(["git", "-c", "user.name=Writer", "-c", "user.email=writer@example.invalid", *arguments],
                              cwd=self.folder / "film", capture_output=True, env=plain)
        self.assertEqual(done.returncode, status, done.stderr)
        return done.stdout.decode()

    def film(self):
        """A repository with a scene, a set of its own, and a later draft of both."""
        scene, room = self.folder / "film/scenes/one.staging", self.folder / "film/sets/yard.staging"
        for path in (scene, room):
            path.parent.mkdir(parents=True)
        (self.folder / "film/film.staging").write_text(
            "staging 1.0 film\nfilm Small\norder \"scenes/one\"\n")
        room.write_text("staging 1.0 set\nset Yard\nroom 7 m by 5 m\nfurniture Table, at (3.5, 3) m\n")
        scene.write_text("staging 1.0 scene\nscene One\nuse \"sets/yard\"\npeople Oda, Tobias\nbeat Ask\n"
                         "Oda is at (3, 2) m, facing south\nTobias is at (4, 2) m, facing south\n"
                         "favour Oda\nOda to Tobias: \"Where is it?\"\n")
        self.git("init", "-q", "-b", "main")
        self.git("add", "-A")
        self.git("commit", "-q", "-m", "first")
        room.write_text(room.read_text().replace("(3.5, 3)", "(3.5, 4)"))
        scene.write_text(scene.read_text().replace("Where is it?", "Where is the key?"))
        return scene

    def test_statuses_and_forms(self):
        old, new = self.drafts()
        same = run("compare", old, old)
        self.assertEqual((same.returncode, same.stdout), (0, b"no difference that matters on the floor\n"))
        text, markdown, told = (run("compare", old, new, "--as", form) for form in ("text", "markdown", "json"))
        self.assertEqual({done.returncode for done in (text, markdown, told)}, {1})
        self.assertRegex(text.stdout.decode(), "`Oda` stands .* further frame right")
        self.assertIn("### beat `Papers`", markdown.stdout.decode())
        fields = json.loads(told.stdout)
        self.assertEqual((fields["schema"], fields["differs"]), ("lensward/changes/1", True))
        self.assertEqual(run("compare", old, new).stdout, text.stdout)

    def test_what_cannot_be_compared(self):
        old, new = self.drafts()
        none = self.folder / "none.staging"
        self.check_cannot_run(run("compare", old, none), "no such file")
        self.check_cannot_run(run("compare", none, old), "no such file")
        self.check_cannot_run(run("compare", old, self.write("empty.staging", b"")), "no scene")
        self.check_cannot_run(run("compare", old), "two files")
        self.check_cannot_run(run("compare", "-", "-"), "not both")
        self.check_cannot_run(run("compare", old, new, "--to", "main"), "--from")
        self.check_cannot_run(run("compare", "--from", "main", old), "no git repository")

    def test_revisions_bring_what_the_scene_uses(self):
        scene = self.film()
        now = run("compare", "--from", "main", scene)
        self.assertEqual(now.returncode, 1, now.stderr)
        self.assertIn("`Table` stands 1 m away", now.stdout.decode())
        self.assertIn('`Oda` says "Where is the key?", was "Where is it?"', now.stdout.decode())
        self.assertEqual(run("compare", "--from", "main", "--to", "HEAD", scene).returncode, 0)
        self.git("commit", "-q", "-a", "-m", "second")
        self.assertEqual(run("compare", "--from", "main", scene).returncode, 0)
        back = run("compare", "--from", "main", "--to", "HEAD~1", scene)
        self.assertIn('was "Where is the key?"', back.stdout.decode())
        before = self.git("status", "--porcelain")
        self.check_cannot_run(run("compare", "--from", "nowhere", scene), "no revision `nowhere`")
        self.check_cannot_run(run("compare", "--from", "main", scene.parent / "two.staging"),
                              "no such file in revision main")
        self.assertEqual(self.git("status", "--porcelain"), before)

    def test_a_bare_repository_is_told(self):
        self.film()
        self.git("clone", "-q", "--bare", ".", "../bare")
        self.check_cannot_run(run("compare", "--from", "main", self.folder / "bare/one.staging"), "bare")

    def test_git_calls_it_for_its_differences(self):
        self.film()
        (self.folder / "film/.gitattributes").write_text("*.staging diff=staging\n")
        self.git("config", "diff.staging.command", f"'{PROGRAM}' compare")
        told = self.git("diff")
        self.assertIn("compare scenes/one.staging\n", told)
        self.assertIn('`Oda` says "Where is the key?", was "Where is it?"', told)
        self.assertIn("compare sets/yard.staging\nno scene by itself", told)
        self.git("mv", "scenes/one.staging", "scenes/two.staging")
        self.git("rm", "-q", "--cached", "film.staging")
        told = self.git("diff", "--cached", "-M")
        self.assertIn("compare film.staging\nthe file is gone", told)
        self.assertIn("compare scenes/two.staging\n", told)


if __name__ == "__main__":
    PROGRAM = os.path.abspath(sys.argv.pop(1))
    unittest.main()
