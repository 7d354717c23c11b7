"""What the crew's sheets say, reckoned again from what `dump` gives.

Every formula here is written a second time, in another language, from its source:
  depth of field  S·f²/(f² ± N·c·(S − f)), the thin lens's two limits (any handbook of optics; c = 0.025 mm is common
                  practice for this gate, no source)
  exposure        N²·C/(t·S), C = 250 lx·s, ISO 2720:1974; the difference in stops is log2
  perspective     x' = f·x/z, the pinhole
  CSV             RFC 4180, by Python's own reader
Needs `pdftotext` (poppler).
"""

import csv
import functools
import json
import math
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM = sys.argv.pop(1)
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
SCENES = ["one-vote", "monday", "quay"]
CIRCLE_MM = 0.025
MM = 0.002  # both sides are rounded to a millimetre
# Nobody may be told that anything is.
PROMISE = re.compile(r"\b(un)?safe(ly|r|st|ty)?\b", re.IGNORECASE)


def run(*arguments, **more):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, timeout=120, **more)


def dumped(*arguments):
    done = run("dump", *arguments, "--as", "json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@functools.lru_cache(maxsize=None)
def view(scene, at_ms):
    return dumped("view", EXAMPLES / f"{scene}.staging", "--at", f"{at_ms / 1000:.3f}")


@functools.lru_cache(maxsize=None)
def plan(scene):
    return dumped("plan", EXAMPLES / f"{scene}.staging")


@functools.lru_cache(maxsize=None)
def folder_of(scene):
    folder = pathlib.Path(tempfile.mkdtemp(prefix="sheets-test-"))
    done = run("sheets", EXAMPLES / f"{scene}.staging", "-o", folder)
    assert done.returncode == 0, done.stderr
    return folder, done.stdout.decode() + done.stderr.decode()


def table(scene, name):
    path = folder_of(scene)[0] / f"{scene}-{name}.csv"
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def printed(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True).stdout.decode()


def milliseconds(cell):
    return round(float(cell) * 1000)


def text_of(scene):
    return (EXAMPLES / f"{scene}.staging").read_text()


def stature(scene, person):
    told = re.search(rf"^person {person}\b.*?height ([\d.]+) (cm|m)\b", text_of(scene), re.M)
    return float(told[1]) / (100 if told[2] == "cm" else 1) if told else 1.7


def name_in_text(scene, on_sheet):
    """The sheets call people as the pages do; `dump` has the names of the text."""
    told = re.search(rf"^person (\S+), called \"{re.escape(on_sheet)}\"", text_of(scene), re.M)
    return told[1] if told else on_sheet


def person_in(scene, seen, on_sheet):
    return next(one for one in seen["people"] if one["name"] == name_in_text(scene, on_sheet))


def hard_lamps(scene, at_ms):
    """Where the hard lamps are that are lit."""
    names = re.findall(r"^light (\S+),(?=.*\bhard\b)", text_of(scene), re.M)

    def now(lane):
        return [piece["to"] for piece in lane if piece["begin"] <= at_ms][-1]

    return [now(lamp["place"]) for lamp in plan(scene)["lamps"] if lamp["name"] in names and now(lamp["level"]) > 0]


def off_the_way(begin, end, point):
    """Metres from a point to the straight way between two others."""
    along = [b - a for a, b in zip(begin, end)]
    share = sum(a * (p - b) for a, p, b in zip(along, point, begin)) / max(sum(a * a for a in along), 1e-9)
    share = min(max(share, 0), 1)
    return math.dist(point, [b + share * a for a, b in zip(along, begin)])


def sharp_range(focal_mm, stop, focus_m):
    """Near and far limits in metres; far may be infinite."""
    f, s = focal_mm, focus_m * 1000
    spread = stop * CIRCLE_MM * (s - f)
    far = s * f * f / (f * f - spread) / 1000 if f * f > spread else math.inf
    return s * f * f / (f * f + spread) / 1000, far


def plain(text):
    """Without the marks and punctuation of a line."""
    return " ".join(re.sub(r"\[[^\]]*\]|[^\w\s'’]", " ", text).split())


def spoken(line):
    """What stands between the quotation marks that come after a colon."""
    told = re.search(r': "(.*)"', line)
    return plain(told[1]) if told else ""


class Lens:
    """A pinhole at a place, looking along a compass bearing, tilted up."""

    def __init__(self, camera):
        pan, tilt = math.radians(camera["pan_deg"]), math.radians(camera["tilt_deg"])
        self.at = camera["at_m"]
        self.forward = (math.sin(pan) * math.cos(tilt), math.cos(pan) * math.cos(tilt), math.sin(tilt))
        self.right = (math.cos(pan), -math.sin(pan), 0)
        self.up = (-math.sin(pan) * math.sin(tilt), -math.cos(pan) * math.sin(tilt), math.cos(tilt))
        self.across = camera["gate_mm"][0] / camera["focal_mm"]
        self.down = camera["gate_mm"][1] / camera["focal_mm"]

    def seen(self, point):
        ray = [a - b for a, b in zip(point, self.at)]
        depth, x, y = (sum(a * b for a, b in zip(ray, axis)) for axis in (self.forward, self.right, self.up))
        return 0.5 + x / depth / self.across, 0.5 - y / depth / self.down

    def unseen(self, u, v, depth):
        """The point of the picture at a depth."""
        x, y = (u - 0.5) * self.across * depth, (0.5 - v) * self.down * depth
        return [at + depth * f + x * r + y * up for at, f, r, up in zip(self.at, self.forward, self.right, self.up)]


class Sheets(unittest.TestCase):
    def each(self, name, at_least):
        """Every row of a table in every scene; that there are some is part of the test."""
        rows = [(scene, row) for scene in SCENES for row in table(scene, name)]
        self.assertGreaterEqual(len(rows), at_least, name)
        return rows

    def test_marks_are_as_far_apart_as_in_the_plan(self):
        for scene in SCENES:
            rows, marks = table(scene, "marks-marks"), {mark["name"]: mark for mark in plan(scene)["marks"]}
            self.assertEqual(sorted(row["mark"] for row in rows), sorted(name for name in marks if name))
            self.assertGreater(len(rows), 2)
            for one in rows:
                self.assertEqual(milliseconds(one["reached_s"]), marks[one["mark"]]["reached"])
                for other in rows:
                    here, there = ((float(row["mark_first_m"]), float(row["mark_second_m"])) for row in (one, other))
                    self.assertAlmostEqual(math.dist(here, there),
                                           math.dist(marks[one["mark"]]["at"], marks[other["mark"]]["at"]), delta=MM)
            self.assertEqual([int(row["order"]) for row in rows], list(range(1, len(rows) + 1)))
            reached = [float(row["reached_s"]) for row in rows]
            self.assertEqual(reached, sorted(reached))

    def test_marks_are_measured_from_the_walls_that_are_named(self):
        # A room 7 m by 5 m whose south wall is taken away for the camera.
        text = printed(folder_of("one-vote")[0] / "one-vote-marks.pdf")
        from_wall = {"North": lambda at: 5 - at[1], "East": lambda at: 7 - at[0], "West": lambda at: at[0]}
        first, second = re.findall(r"from\s+(North|South|East|West)\s", text)[:2]
        at = {mark["name"]: mark["at"] for mark in plan("one-vote")["marks"]}
        for row in table("one-vote", "marks-marks"):
            self.assertAlmostEqual(float(row["mark_first_m"]), from_wall[first](at[row["mark"]]), delta=MM)
            self.assertAlmostEqual(float(row["mark_second_m"]), from_wall[second](at[row["mark"]]), delta=MM)

    def test_distances_and_limits(self):
        for scene, row in self.each("camera-distances", 20):
            seen = view(scene, milliseconds(row["at_s"]))
            camera = seen["camera"]
            person = person_in(scene, seen, row["person"])
            self.assertAlmostEqual(float(row["distance_m"]), person["distance_m"], delta=MM)
            self.assertAlmostEqual(float(row["focus_m"]), camera["focus_m"], delta=MM)
            near, far = sharp_range(camera["focal_mm"], camera["stop"], float(row["focus_m"]))
            self.assertAlmostEqual(float(row["near_m"]), near, delta=near * 0.003)
            if row["far_m"] == "infinity":
                self.assertGreater(far, 1000)
            else:
                self.assertAlmostEqual(float(row["far_m"]), far, delta=far * 0.01)
            if abs(float(row["distance_m"]) - near) > 0.02 and abs(float(row["distance_m"]) - far) > 0.05:
                self.assertEqual(row["sharp"], "sharp" if near < float(row["distance_m"]) < far else "soft")

    def test_pulls(self):
        for scene, row in self.each("camera-pulls", 8):
            begin, over = milliseconds(row["at_s"]), milliseconds(row["over_s"] or 0)
            before, after = float(row["from_m"]), float(row["to_m"])
            camera = view(scene, begin + over)["camera"]
            self.assertAlmostEqual(before, view(scene, begin)["camera"]["focus_m"], delta=MM)
            self.assertAlmostEqual(after, camera["focus_m"], delta=MM)
            if over:
                self.assertAlmostEqual(float(row["dioptres_per_s"]), abs(1 / before - 1 / after) / over * 1000,
                                       delta=0.006)
            near, far = sharp_range(camera["focal_mm"], camera["stop"], after)
            self.assertAlmostEqual(float(row["forgives_near_m"]), after - near, delta=0.02 * (after - near) + MM)
            self.assertEqual(row["forgives_far_m"] == "infinity", math.isinf(far))
            if math.isfinite(far):
                self.assertAlmostEqual(float(row["forgives_far_m"]), far - after, delta=0.02 * (far - after) + MM)

    def test_between_pulls_the_focus_stays_with_them(self):
        for scene, row in self.each("camera-follows", 5):
            begin, over = milliseconds(row["at_s"]), milliseconds(row["over_s"])
            first, last = view(scene, begin), view(scene, begin + over)
            for seen, told in ((first, row["from_m"]), (last, row["to_m"])):
                self.assertAlmostEqual(seen["camera"]["focus_m"], float(told), delta=MM)
                self.assertAlmostEqual(person_in(scene, seen, row["with"])["distance_m"], float(told), delta=MM)
            speed = abs(1 / float(row["from_m"]) - 1 / float(row["to_m"])) / over * 1000
            self.assertAlmostEqual(float(row["dioptres_per_s"]), speed, delta=0.006)

    def test_every_pull_that_the_text_orders_is_there(self):
        for scene in SCENES:
            text = text_of(scene)
            beats = text[text.index("\nbeat "):]
            ordered = len(re.findall(r"^\s+camera \S+ (?:focuses on|racks focus to)", beats, re.M))
            there = {row["at_s"] + row["to"] for row in table(scene, "camera-pulls")}
            self.assertEqual(len(there), ordered, scene)

    def test_light_on_faces(self):
        for scene, row in self.each("light-faces", 15):
            seen = view(scene, milliseconds(row["at_s"]))
            person = person_in(scene, seen, row["person"])
            lux = float(row["lux"])
            self.assertAlmostEqual(lux, person["incident_lux"], delta=0.06 + 0.005 * lux)
            opening = table(scene, "camera-set")[0]
            time = float(opening["shutter_deg"]) / 360 / float(opening["frame_rate"])
            asked = seen["camera"]["stop"] ** 2 * 250 / (time * float(opening["iso"]))
            if lux > 1:
                self.assertAlmostEqual(float(row["stops"]), math.log2(lux / asked), delta=0.06 + 0.1 / lux)
            self.assertAlmostEqual(float(row["key_lux"]) + float(row["fill_lux"]), lux, delta=0.11)
            if row["key_to_fill"] and float(row["fill_lux"]) > 5:
                self.assertAlmostEqual(float(row["key_to_fill"]), float(row["key_lux"]) / float(row["fill_lux"]),
                                       delta=0.03 * float(row["key_to_fill"]))

    def test_neutral_density_takes_whole_stops_off(self):
        # Optical density is log10 of what is kept back; a stop halves the light, so it is 0.301 (ISO 5, definition).
        rows = [(scene, row) for scene in [*SCENES, "kitchen"] for row in table(scene, "camera-exposure")]
        self.assertTrue(any(row["nd"] != "none" for _, row in rows) and any(row["nd"] == "none" for _, row in rows))
        for scene, row in rows:
            seen = view(scene, milliseconds(row["at_s"]))
            opening = table(scene, "camera-set")[0]
            time = float(opening["shutter_deg"]) / 360 / float(opening["frame_rate"])
            asked = seen["camera"]["stop"] ** 2 * 250 / (time * float(opening["iso"]))
            over = math.log2(float(row["lux"]) / asked)
            self.assertAlmostEqual(float(row["stops"]), over, delta=0.06)
            if abs(over - round(over)) < 0.05:
                continue
            density = math.floor(over) * math.log10(2)
            told = float(row["nd"].split()[1]) if row["nd"] != "none" else 0
            self.assertAlmostEqual(told, max(0, density), delta=0.02)

    def test_the_camera_stands_where_it_stands(self):
        for scene in SCENES:
            rows = table(scene, "grip-positions")
            at = [view(scene, milliseconds(row["at_s"]))["camera"]["at_m"] for row in rows]
            self.assertGreater(len(rows), 0)
            for one, here in zip(rows, at):
                self.assertAlmostEqual(float(one["height_m"]), here[2], delta=MM)
                for other, there in zip(rows, at):
                    by_tape = math.dist([float(one[key]) for key in ("lens_first_m", "lens_second_m")],
                                        [float(other[key]) for key in ("lens_first_m", "lens_second_m")])
                    self.assertAlmostEqual(by_tape, math.dist(here[:2], there[:2]), delta=MM)

    def test_moves_of_the_camera(self):
        for scene, row in self.each("grip-moves", 2):
            begin, over = milliseconds(row["at_s"]), milliseconds(row["over_s"])
            places = [view(scene, begin + over * i // 20)["camera"]["at_m"] for i in range(21)]
            steps = [math.dist(a, b) for a, b in zip(places, places[1:])]
            self.assertAlmostEqual(float(row["distance_m"]), sum(steps), delta=0.01 + 0.01 * sum(steps))
            fastest = max(steps) / (over / 20 / 1000)
            self.assertAlmostEqual(float(row["fastest_m_per_s"]), fastest, delta=0.03 * fastest + 0.01)

    def test_a_boom_where_it_is_told_is_just_outside_the_picture(self):
        rim, told = 0.04, 0
        for scene, row in self.each("sound-lines", 20):
            if not row["boom_m"]:
                continue
            begin, lasts = milliseconds(row["at_s"]), milliseconds(row["lasts_s"])
            boom, that_way, any_way = float(row["boom_m"]), [], []
            for moment in (begin, begin + lasts // 2, begin + lasts):
                seen = view(scene, moment)
                lens = Lens(seen["camera"])
                person = person_in(scene, seen, row["person"])
                eyes = lens.unseen(*person["eyes"], person["distance_m"])
                mouth = [eyes[0], eyes[1], eyes[2] - 0.04 * stature(scene, person["name"])]
                ways = {"over": (0, 0, 1), "below": (0, 0, -1), "frame right": lens.right,
                        "frame left": [-one for one in lens.right]}

                faces = [lens.unseen(*one["eyes"], one["distance_m"]) for one in seen["people"]
                         if one["distance_m"] > 0]
                lamps = hard_lamps(scene, moment)

                def outside(gone, way):
                    point = [a + gone * b for a, b in zip(mouth, way)]
                    u, v = lens.seen(point)
                    lit = any(math.dist(point, lamp) < 0.3 or
                              any(off_the_way(lamp, face, point) < 0.1 for face in faces) for lamp in lamps)
                    return not (-rim < u < 1 + rim and -rim < v < 1 + rim) and not lit

                far = {name: next((i / 50 for i in range(15, 151) if outside(i / 50, way)), math.inf)
                       for name, way in ways.items()}
                that_way.append(far[row["boom_from"]])
                any_way.append(min(far.values()))
            # It is that far at one of the three moments, and at none could it only be farther.
            self.assertLess(min(abs(boom - one) for one in that_way), 0.05, (scene, row, that_way))
            self.assertLess(max(any_way), boom + 0.05, (scene, row, any_way))
            told += 1
        self.assertGreater(told, 10)

    def test_loads_are_sums_of_what_lamps_draw(self):
        told = [(match[2], float(match[1])) for match in re.finditer(
            r"draws ([\d.]+) W, circuit (\d+)", text_of("one-vote"))]
        self.assertGreater(len(told), 1)
        sums = {circuit: sum(draws for other, draws in told if other == circuit) for circuit, _ in told}
        self.assertEqual({row["circuit"]: float(row["draws_w"]) for row in table("one-vote", "light-loads")}, sums)

    def test_steps_under_a_line_are_those_of_somebody_on_their_way(self):
        told = 0
        for scene in SCENES:
            rows = table(scene, "sound-steps")
            walks = [(person["name"], walk["begin"], walk["end"]) for person in plan(scene)["people"]
                     for walk in person["feet"] if len(walk["to"]) > 1]
            together = [(name, max(begin, speech["begin"]), min(end, speech["end"]))
                        for speech in plan(scene)["speeches"] for name, begin, end in walks]
            expected = sorted((name, begin, end - begin) for name, begin, end in together if begin < end)
            self.assertEqual(sorted((name_in_text(scene, row["person"]), milliseconds(row["at_s"]),
                                     milliseconds(row["lasts_s"])) for row in rows), expected)
            for row in rows:
                seen = view(scene, milliseconds(row["at_s"]) + milliseconds(row["lasts_s"]) // 2)
                lens, person = Lens(seen["camera"]), person_in(scene, seen, row["person"])
                if person["distance_m"] <= 0:
                    continue
                eyes = lens.unseen(*person["eyes"], person["distance_m"])
                u, v = lens.seen([eyes[0], eyes[1], 0])
                # The eyes are a little before the feet; too near to the edge is not asked.
                if min(abs(u), abs(u - 1), abs(v), abs(v - 1)) > 0.05:
                    self.assertEqual(row["feet"], "in the picture" if 0 < u < 1 and 0 < v < 1 else "out of it")
                    told += 1
        self.assertGreater(told, 3)

    def test_actors_have_their_own_lines_and_no_others(self):
        for scene in SCENES:
            rows = table(scene, "actors-moves")
            for speech in plan(scene)["speeches"]:
                words = plain(" ".join(word for word, _, _ in speech["words"]))
                own = {name_in_text(scene, row["person"]) for row in rows
                       if milliseconds(row["at_s"]) <= speech["begin"] and words == spoken(row["what"])}
                self.assertEqual(own, {speech["speaker"]}, (scene, words))

    def test_whatever_changes_of_somebody_is_on_their_sheet(self):
        changes = 0
        for scene in ("one-vote", "monday"):
            text = (EXAMPLES / f"{scene}.staging").read_bytes()
            beats = text.index(b"\nbeat ")
            rows = table(scene, "actors-moves")
            for person in plan(scene)["people"]:
                own = [plain(row["what"]) for row in rows if row["person"] == person["name"]]
                for lane in ("feet", "body", "stance", "eyes", "left hand", "right hand"):
                    for change in person.get(lane, []):
                        if change.get("byte", 0) <= beats:
                            continue
                        line = plain(text[change["byte"]:text.index(b"\n", change["byte"])].decode())
                        self.assertTrue(any(line in one for one in own), (scene, person["name"], lane, line))
                        changes += 1
        self.assertGreater(changes, 60)

    def test_cues_are_words_that_are_being_said(self):
        cued = 0
        for scene in SCENES:
            speeches = plan(scene)["speeches"]
            for row in table(scene, "actors-moves") + table(scene, "camera-pulls"):
                cue = re.fullmatch(r"(?:(on)|([\d.]+) s after) “(.+)” \((.+?)\)(?:, as (.+) begins)?", row["cue"])
                says = re.fullmatch(r"as (.+) says “(.+?)(?: …)?”(?:, as .+ begins)?", row["cue"])
                if says:
                    # The line begins then, and so.
                    lines = [plain(" ".join(word for word, _, _ in speech["words"])) for speech in speeches
                             if speech["speaker"] == name_in_text(scene, says[1])
                             and abs(speech["words"][0][1] - milliseconds(row["at_s"])) <= 1000]
                    self.assertTrue(any(line.startswith(plain(says[2])) for line in lines), (scene, row, lines))
                    cued += 1
                    continue
                if not cue:
                    self.assertRegex(row["cue"], r"^(as .+ begins|[\d.]+ s into .+)$")
                    continue
                if cue[5]:
                    begins = next(beat["begin"] for beat in plan(scene)["beats"] if beat["name"] == cue[5])
                    self.assertAlmostEqual(begins, milliseconds(row["at_s"]), delta=121)
                at, after = milliseconds(row["at_s"]), float(cue[2] or 0) * 1000
                ends = [end - at + after for speech in speeches
                        if speech["speaker"] == name_in_text(scene, cue[4]) for word, begin, end in speech["words"]
                        if word.strip(".,;:!?") == cue[3].split()[-1] and begin <= at + 120]
                near = min(ends, key=abs)
                self.assertTrue(abs(near) <= 60 if cue[2] else near >= -120, (scene, row, ends))
                cued += 1
        self.assertGreater(cued, 20)

    def test_the_assistant_director_knows_who_is_in_which_beat(self):
        for scene in SCENES:
            beats = plan(scene)["beats"]
            rows = table(scene, "assistant-beats")
            self.assertEqual([row["beat"] for row in rows], [beat["name"] for beat in beats])
            for row, beat in zip(rows, beats):
                there = []
                for person in plan(scene)["people"]:
                    states = [False] * 3
                    for change in person.get("present", []):
                        for i, moment in enumerate((beat["begin"], (beat["begin"] + beat["end"]) // 2, beat["end"] - 1)):
                            if change["begin"] <= moment or change is person["present"][0]:
                                states[i] = change["to"]
                    if any(states):
                        there.append(person["name"])
                told = [name_in_text(scene, name) for name in re.split(", | and ", row["people"]) if name]
                self.assertEqual(told, there, (scene, beat["name"]))
                self.assertEqual(milliseconds(row["begins_s"]), beat["begin"])

    def test_things_change_hands_as_in_the_plan(self):
        rows_seen = 0
        for scene in SCENES:
            changes, holders = set(), {}
            for prop in plan(scene)["props"]:
                for change in prop.get("rests", []):
                    if change["begin"] > 0:
                        changes.add((prop["name"], change.get("end", change["begin"])))
                        holders[prop["name"], change.get("end", change["begin"])] = change["to"]
            for row in table(scene, "props-handling"):
                key = row["prop"], milliseconds(row["at_s"])
                self.assertNotEqual(row["from"], row["to"])
                if key in holders and isinstance(holders[key], str):
                    self.assertIn(holders[key], [name_in_text(scene, row["to"].split(", ")[0]),
                                                 row["to"].removeprefix("on ")], (scene, row))
                    changes.discard(key)
                    rows_seen += 1
            self.assertEqual([key for key in changes if isinstance(holders[key], str)], [], scene)
        self.assertGreater(rows_seen, 3)

    def test_pages_say_what_the_data_say(self):
        for scene, name, unit in (("one-vote", "camera-pulls", "to_m"), ("one-vote", "marks-marks", "mark_first_m"),
                                  ("one-vote", "camera-distances", "distance_m"),
                                  ("one-vote", "grip-positions", "height_m"), ("one-vote", "sound-lines", "boom_m")):
            text = printed(folder_of(scene)[0] / f"{scene}-{name.split('-')[0]}.pdf")
            told = [float(found) for found in re.findall(r"(-?\d+(?:\.\d+)?)\s*m\b", text)]
            for row in table(scene, name):
                if row[unit]:
                    self.assertTrue(any(abs(float(row[unit]) - one) <= 0.0051 for one in told), (name, row))

    def test_lengths(self):
        with tempfile.TemporaryDirectory() as folder:
            scene = EXAMPLES / "one-vote.staging"
            for lengths, wanted, unwanted in (("feet", r"\d+ ft", r"\d\.\d+ m\b"), ("both", r"\d\.\d+ m \(\d+ ft", "$^")):
                run("sheets", scene, "-o", folder, "--for", "marks", "--lengths", lengths)
                text = printed(pathlib.Path(folder) / "one-vote-marks.pdf").split("\f")[0]
                self.assertRegex(text, wanted)
                self.assertNotRegex(text, unwanted)
            data = (pathlib.Path(folder) / "one-vote-marks-marks.csv").read_bytes()
            self.assertEqual(data, (folder_of("one-vote")[0] / "one-vote-marks-marks.csv").read_bytes())

    def test_nothing_is_called_safe(self):
        for scene in SCENES:
            folder, told = folder_of(scene)
            texts = [told] + [printed(path) if path.suffix == ".pdf" else path.read_text() for path in folder.iterdir()]
            self.assertGreater(len(texts), 15)
            for text in texts:
                self.assertIsNone(PROMISE.search(text), text)

    def test_cautions_are_on_the_sheets_they_concern(self):
        text = {path.stem.split("-")[-1]: printed(path) for path in folder_of("one-vote")[0].glob("*.pdf")}
        for sheet in ("grip", "camera", "assistant", "actors"):
            self.assertRegex(text[sheet], "The camera moves: keep its way clear")
            self.assertRegex(text[sheet], "follow local codes")
        self.assertNotRegex(text["props"], "The camera moves")


def tearDownModule():
    for scene in SCENES:
        shutil.rmtree(folder_of(scene)[0], ignore_errors=True)


if __name__ == "__main__":
    unittest.main()
