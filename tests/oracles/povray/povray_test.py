"""Compares the program with POV-Ray: who shows in each pixel, how much of everybody shows, the light of lamps with
shadows, and the light that walls give back.

Usage: povray_test.py LENSWARD SOLID_IDS SOLID_LIGHT [unittest options]
"""

import concurrent.futures
import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

import pov

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE / "scenes" / "hand"))
LENSWARD = SOLID_IDS = SOLID_LIGHT = ""

WIDTH = 640
MARGIN = 0.5
DIFFERING = 0.0001
SHARE = 0.02
ENOUGH_PIXELS = 200
# The program's own view has 160 cells across.
CELLS = 160

PRINTED = [("wake", at) for at in (0.5, 5, 8.6, 10, 12.5)] + [("depot", at) for at in (0.5, 5.6, 7.2, 9, 12)]
BY_HAND = ["corridor", "stairs"]
PARTS_OF = {"body": range(11), "head": (0, 1), "face": (0,)}


def run(*words, stdin=None):
    done = subprocess.run([str(word) for word in words], input=stdin, capture_output=True, timeout=120)
    if done.returncode != 0:
        raise RuntimeError(f"{words}: {done.stderr.decode()}")
    return done.stdout


def printed(scene, at, *options):
    return json.loads(run(LENSWARD, "dump", "view", HERE / "scenes" / f"{scene}.staging", "--at", at, "--as", "json",
                          *options))


def picture_size(dump):
    wide, high = dump["camera"]["gate_mm"]
    return WIDTH, round(WIDTH * high / wide)


def our_ids(dump, margin=0, only=None):
    width, height = picture_size(dump)
    raw = run(SOLID_IDS, width, height, margin, *([] if only is None else [only]), stdin=json.dumps(dump).encode())
    owners, parts = raw[0::2], raw[1::2]
    return [o * 16 + p if o else 0 for o, p in zip(owners, parts)]


def with_margin(dump):
    width, height = picture_size(dump)
    return width + 2 * round(MARGIN * width), height + 2 * round(MARGIN * height)


def their_ids(dump, name, folder, margin=0, only=None, text=None):
    width, height = with_margin(dump) if margin else picture_size(dump)
    field = (width / picture_size(dump)[0], height / picture_size(dump)[1])
    return pov.ids(pov.render(text or pov.id_scene(dump, field, only), name, width, height, folder))


def shares(dump, whole, alone, owner):
    """For body, head and face of one owner: its pixels alone, and the share of them that is in frame and in front."""
    width, height = picture_size(dump)
    wide, tall = with_margin(dump)
    left, top = (wide - width) // 2, (tall - height) // 2
    count = {key: [0, 0] for key in PARTS_OF}
    for i, shown in enumerate(alone):
        if not shown:
            continue
        x, y = i % wide - left, i // wide - top
        visible = 0 <= x < width and 0 <= y < height and whole[y * width + x] // 16 == owner + 1
        for key, parts in PARTS_OF.items():
            if shown % 16 in parts:
                count[key][0] += 1
                count[key][1] += visible
    return {key: (pixels, seen / pixels if pixels else 0) for key, (pixels, seen) in count.items()}


class Frame:
    """One frame drawn by both: everything, and each person and prop alone."""

    def __init__(self, name, dump, folder, text=None):
        self.name, self.dump = name, dump
        self.ours = our_ids(dump)
        self.theirs = their_ids(dump, name, folder, text=text)
        self.differing = sum((a // 16) != (b // 16) for a, b in zip(self.ours, self.theirs)) / len(self.ours)
        self.people = sum(owner["kind"] == "person" for owner in dump["owners"])
        self.shares = {}
        for index, owner in enumerate(dump["owners"]):
            if owner["kind"] not in ("person", "prop"):
                continue
            theirs = their_ids(dump, f"{name}-{index}", folder, MARGIN, index)
            self.shares[index] = (shares(dump, self.ours, our_ids(dump, MARGIN, index), index),
                                  shares(dump, self.theirs, theirs, index))


def make_frame(name, dump, folder, text):
    return Frame(name, dump, folder, text)


class Identity(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        folder = tempfile.TemporaryDirectory(prefix="povray-")
        cls.addClassCleanup(folder.cleanup)
        jobs = [(f"{scene}-{at}", printed(scene, at, "--solids"), None) for scene, at in PRINTED]
        for name in BY_HAND:
            jobs.append((name, __import__(name).dump(), (HERE / "scenes" / "hand" / f"{name}.pov").read_text()))
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            made = [pool.submit(make_frame, name, dump, folder.name, text) for name, dump, text in jobs]
            cls.frames = [frame.result() for frame in made]

    def test_there_are_a_dozen_frames_of_six_people_and_more(self):
        self.assertGreaterEqual(len(self.frames), 12)
        self.assertTrue(all(frame.people >= 6 for frame in self.frames))

    def test_every_pixel_shows_the_same_owner(self):
        for frame in self.frames:
            print(f"{frame.name}: {100 * frame.differing:.4f} % of pixels differ", flush=True)
            with self.subTest(frame.name):
                self.assertLessEqual(frame.differing, DIFFERING)

    def test_as_much_of_everybody_shows(self):
        compared, worst = 0, 0
        for frame in self.frames:
            for index, (ours, theirs) in frame.shares.items():
                for key in PARTS_OF:
                    if theirs[key][0] <= ENOUGH_PIXELS:
                        continue
                    compared += 1
                    worst = max(worst, abs(ours[key][1] - theirs[key][1]))
                    with self.subTest(frame=frame.name, owner=frame.dump["owners"][index]["name"], of=key):
                        self.assertAlmostEqual(ours[key][1], theirs[key][1], delta=SHARE)
        print(f"{compared} shares compared, worst difference {worst:.4f}", flush=True)
        self.assertGreater(compared, 100)

    def test_the_view_says_as_much(self):
        """The shares of `dump view`, reckoned on its own coarser cells, where the outline has as many of those."""
        compared, worst = 0, 0
        fewer = (CELLS / WIDTH) ** 2
        for frame, (scene, at) in zip(self.frames, PRINTED):
            view = {person["name"]: person for person in printed(scene, at)["people"]}
            for index, (_, theirs) in frame.shares.items():
                owner = frame.dump["owners"][index]
                if owner["kind"] != "person":
                    continue
                for key in PARTS_OF:
                    if theirs[key][0] * fewer <= ENOUGH_PIXELS or not view[owner["name"]]["in_front"]:
                        continue
                    compared += 1
                    said = view[owner["name"]][f"{key}_visible"]
                    worst = max(worst, abs(said - theirs[key][1]))
                    with self.subTest(frame=frame.name, owner=owner["name"], of=key):
                        self.assertAlmostEqual(said, theirs[key][1], delta=SHARE)
        print(f"{compared} shares of views compared, worst difference {worst:.4f}", flush=True)
        self.assertGreater(compared, 10)


class Light(unittest.TestCase):
    """POV-Ray's fade_power 2 with a short fade_distance is the law of inverse squares."""

    # Lux that is white.
    WHITE = 4000
    COLUMNS, ROWS = 48, 36

    def compare(self, dump, corner, across, down, own):
        folder = tempfile.TemporaryDirectory(prefix="povray-")
        self.addCleanup(folder.cleanup)
        text = pov.probe_scene(dump, corner, across, down, 1 / self.WHITE, own)
        theirs = [value * self.WHITE for value in pov.grey(pov.render(text, "probe", self.COLUMNS, self.ROWS, folder.name))]
        normal = pov.unit(pov.cross(down, across))
        probes = []
        for y in range(self.ROWS):
            for x in range(self.COLUMNS):
                at = pov.add(corner, pov.add(pov.times(across, (x + 0.5) / self.COLUMNS),
                                             pov.times(down, (y + 0.5) / self.ROWS)))
                probes.append({"at": at, "facing": normal, "own": -1 if own is None else own})
        ours = [float(line) for line in run(SOLID_LIGHT, stdin=json.dumps({**dump, "probes": probes}).encode()).split()]
        return ours, theirs

    def agreeing(self, ours, theirs):
        """Where both are lit, all within 1 %; and the share of points that one has in shadow and the other not."""
        edge = sum((a > 0) != (b > 0) for a, b in zip(ours, theirs)) / len(ours)
        worst = max((abs(a / b - 1) for a, b in zip(ours, theirs) if a > 0 and b > 20), default=0)
        return edge, worst

    def test_a_wall_with_shadows(self):
        dump = printed("wake", 5, "--solids")
        # Of the room's north wall, which is 7 m long; the sheet hangs before it.
        ours, theirs = self.compare(dump, [0.05, 5.95, 2.7], [6.9, 0, 0], [0, 0, -2.6], None)
        edge, worst = self.agreeing(ours, theirs)
        dark = sum(value == 0 for value in theirs) / len(theirs)
        print(f"wall: {100 * dark:.0f} % in shadow, {100 * edge:.2f} % differ at its edges, light within {100 * worst:.2f} %")
        self.assertGreater(dark, 0.05)
        self.assertLess(dark, 0.9)
        self.assertLess(edge, 0.01)
        self.assertLess(worst, 0.01)

    def sheet(self, person):
        """Corner and sides of 24 cm square between the eyes, facing where the face does."""
        facing = person["face_direction"]
        right = pov.unit(pov.cross([0, 0, 1], facing)) if abs(facing[2]) < 0.95 else [1, 0, 0]
        up = pov.cross(facing, right)
        corner = pov.add(person["eyes_m"], pov.add(pov.times(right, -0.12), pov.times(up, 0.12)))
        return corner, pov.times(right, 0.24), pov.times(up, -0.24)

    def test_faces_in_the_light_of_lamps(self):
        """A sheet of 24 cm between the eyes, square to where the face points: the light that the view reports is that of
        its middle, without the head's own shadow."""
        lit = 0
        for scene, at in (("wake", 0.5), ("wake", 8.6), ("depot", 5.6)):
            dump, view = printed(scene, at, "--solids"), printed(scene, at)
            said = {person["name"]: person["incident_lux"] for person in view["people"]}
            for index, owner in enumerate(dump["owners"]):
                if owner["kind"] != "person":
                    continue
                ours, theirs = self.compare(dump, *self.sheet(owner), index)
                edge, worst = self.agreeing(ours, theirs)
                middle = theirs[self.ROWS // 2 * self.COLUMNS + self.COLUMNS // 2]
                near = (self.ROWS // 2 - 1) * self.COLUMNS + self.COLUMNS // 2 - 1
                centre = (middle + theirs[near]) / 2
                with self.subTest(scene=scene, at=at, person=owner["name"]):
                    self.assertLess(edge, 0.02)
                    self.assertLess(worst, 0.01)
                    if (middle > 0) == (theirs[near] > 0):
                        wanted = centre + dump["indirect_lux"]
                        self.assertAlmostEqual(said[owner["name"]] / wanted, 1, delta=0.01)
                        lit += middle > 0
        print(f"{lit} faces lit")
        self.assertGreater(lit, 4)

    def test_a_shadow_across_a_face(self):
        """A lamp beyond Cleo, whom Dov looks at: the edge of Cleo's head falls across Dov's face."""
        dump = printed("wake", 5, "--solids")
        index = next(i for i, owner in enumerate(dump["owners"]) if owner["name"] == "Dov")
        dov = dump["owners"][index]
        cleo = next(owner for owner in dump["owners"] if owner["name"] == "Cleo")
        corner, across, down = self.sheet(dov)
        beside = pov.add(cleo["eyes_m"], pov.times(pov.unit(across), 0.03))
        dump["lamps"] = [{"at_m": pov.add(dov["eyes_m"], pov.times(pov.add(beside, pov.times(dov["eyes_m"], -1)), 1.5)),
                          "candela": 900}]
        ours, theirs = self.compare(dump, corner, across, down, index)
        edge, worst = self.agreeing(ours, theirs)
        dark = sum(value == 0 for value in theirs) / len(theirs)
        print(f"face: {100 * dark:.0f} % in shadow, {100 * edge:.2f} % differ at its edge, light within {100 * worst:.2f} %")
        self.assertGreater(dark, 0.1)
        self.assertLess(dark, 0.9)
        self.assertLess(edge, 0.01)
        self.assertLess(worst, 0.01)

    def test_what_walls_give_back(self):
        """Within half a stop of POV-Ray's radiosity in an empty room, at five places and on the mean."""
        folder = tempfile.TemporaryDirectory(prefix="povray-")
        self.addCleanup(folder.cleanup)
        corner, lamp = [6, 5, 2.7], {"at_m": [3, 2.5, 1.6], "candela": 300}
        area = 2 * (6 * 5) + 2 * (6 + 5) * 2.7
        for tone, reflectance in (("dark", 0.15), ("mid", 0.4), ("light", 0.7)):
            dump = self.plain_room(tone, folder.name)
            self.assertAlmostEqual(dump["indirect_lux"],
                                   4 * math.pi * 300 * reflectance / (area * (1 - reflectance)), delta=0.01)
            found = []
            for i, probe in enumerate(([1.5, 1.5, 1.5], [4.5, 1.5, 1.2], [3, 4, 1.6], [1, 3.5, 1.7], [5, 3.6, 1])):
                scene = pov.room_scene(corner, lamp, reflectance, probe, 1 / self.WHITE)
                picture = pov.grey(pov.render(scene, f"{tone}-{i}", 12, 12, folder.name))
                found.append(self.WHITE * sum(picture) / len(picture))
            off = [math.log2(dump["indirect_lux"] / lux) for lux in found]
            print(f"{tone} walls: {dump['indirect_lux']:.1f} lx, radiosity {', '.join(f'{lux:.1f}' for lux in found)} lx; "
                  f"stops over: {', '.join(f'{stops:+.2f}' for stops in off)}")
            with self.subTest(tone):
                self.assertLess(abs(sum(off) / len(off)), 0.5)

    def plain_room(self, tone, folder):
        path = pathlib.Path(folder) / f"{tone}.staging"
        path.write_text(f"""staging 1.0 scene
scene Bare
people Oda
room 6 m by 5 m by 2.7 m, walls {tone}
light Bulb, practical, at (3, 2.5) m, height 1.6 m, gives 300 lux at 1 m
beat One
Oda is at (1, 1) m
Oda: "Here."
""")
        return json.loads(run(LENSWARD, "dump", "view", path, "--at", "0", "--solids", "--as", "json"))


if __name__ == "__main__":
    LENSWARD, SOLID_IDS, SOLID_LIGHT = sys.argv[1:4]
    unittest.main(argv=[sys.argv[0], *sys.argv[4:]], verbosity=2)
