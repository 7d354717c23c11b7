"""The page in a real browser: played, touched, read at three widths, by night, without scripts."""

import time
import unittest

from browser import Browser
from pages import hostile_scene, page_path, scene_in


class Played(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.browser = Browser()

    @classmethod
    def tearDownClass(cls):
        cls.browser.close()

    def setUp(self):
        self.browser.scripts(True)
        self.browser.media(prefers_color_scheme="light", prefers_reduced_motion="no-preference")
        self.browser.screen(390, 844, touch=True)

    def opened(self, scene="one-vote", fragment=""):
        self.browser.open(page_path(scene), fragment)

    def now(self):
        return float(self.browser.value("document.getElementById('at').value"))

    def words(self, id_):
        return self.browser.value(f"document.getElementById('{id_}').textContent")

    def clean(self):
        self.assertEqual(self.browser.faults(), [])
        self.assertEqual([address for address in self.browser.asked() if not address.startswith("file:")], [])
        self.assertEqual(len(self.browser.asked()), 1, self.browser.asked())

    def test_plays_and_stops(self):
        self.opened()
        self.assertEqual(self.now(), 0)
        self.browser.click("#play")
        begun = time.monotonic()
        time.sleep(1.5)
        played, passed = self.now(), 1000 * (time.monotonic() - begun)
        self.assertGreater(played, 0.4 * passed)
        self.assertLess(played, 1.2 * passed + 100)
        self.assertEqual(self.browser.value("document.getElementById('play').getAttribute('aria-label')"), "Pause")
        self.browser.click("#play")
        still = self.now()
        time.sleep(0.3)
        self.assertEqual(self.now(), still)
        self.clean()

    def test_words_are_lit_as_they_are_spoken(self):
        scene = scene_in("one-vote")
        self.opened()
        for speech in scene["speeches"][1:8:3]:
            word, begin, end = speech["words"][len(speech["words"]) // 2]
            self.go((begin + end) // 2)
            lit = self.browser.value("[...document.querySelectorAll('#words-now .now-said')].map((one) => one.textContent)")
            self.assertEqual(lit, [word.strip()])
            self.assertEqual(self.words("words-now"), "".join(one for one, *_ in speech["words"]))
        self.clean()

    def go(self, ms):
        self.browser.value(f"(() => {{ const at = document.getElementById('at'); at.value = {ms}; "
                           "at.dispatchEvent(new Event('input')); })()")

    def test_people_move_on_the_floor(self):
        scene = scene_in("one-vote")
        self.opened()
        who = [person["name"] for person in scene["people"]].index("Bertil")
        at = lambda: self.browser.value(
            f"(() => {{ const m = document.querySelectorAll('#figures > g')[{who}].transform.baseVal[0].matrix; return [m.e, m.f]; }})()")
        floor = scene["floor"]
        self.go(0)
        before = at()
        self.go(11000)
        after = at()
        shown = lambda place: [(place[0] - floor["low_x"]) * floor["scale"], (floor["high_y"] - place[1]) * floor["scale"]]
        for got, place in ((before, (4.65, 2.5)), (after, (4.3, 1.3))):
            for a, b in zip(got, shown(place)):
                self.assertAlmostEqual(a, b, delta=0.1)

    def test_the_frame_is_painted_and_changes(self):
        self.opened()
        dots = lambda: self.browser.value(
            "new Promise((done) => setTimeout(() => { const c = document.getElementById('gate'); "
            "done(c.toDataURL()); }, 250))")
        first = dots()
        self.go(30000)
        self.assertNotEqual(first, dots())
        self.assertGreater(len(first), 3000)

    def test_the_house_faces_are_those_in_the_page(self):
        self.opened()
        self.browser.until("document.fonts.size === 6")
        self.assertEqual(self.browser.value("[...document.fonts].map((one) => one.status)"), ["loaded"] * 6)
        self.clean()

    def test_keyboard(self):
        scene = scene_in("one-vote")
        self.opened()
        self.browser.key("ArrowRight")
        self.assertEqual(self.now(), 1000)
        self.browser.key("ArrowLeft")
        self.assertEqual(self.now(), 0)
        self.browser.key("ArrowRight", shift=True)
        self.assertAlmostEqual(self.now(), scene["beats"][1]["begin"], delta=1)
        self.browser.key("End")
        self.assertAlmostEqual(self.now(), scene["end"], delta=100)
        self.browser.key("Home")
        self.browser.key(" ")
        time.sleep(0.5)
        self.browser.key(" ")
        self.assertGreater(self.now(), 0)
        self.browser.key("Home")
        self.browser.key("f")
        first = min(one["at"] for one in scene["findings"] if one["at"] is not None and one["severity"] != "remark" and not one["waived"])
        if first <= 50:
            self.skipTest("the first finding is at the very start")
        self.assertAlmostEqual(self.now(), first, delta=1)
        self.assertIn(": ", self.words("say"))
        self.clean()

    def test_only_the_moves_of_one(self):
        scene = scene_in("one-vote")
        self.opened()
        self.browser.click("#whose button:nth-child(3)")
        self.assertEqual(self.browser.value("document.body.dataset.only"), "1")
        shown = self.browser.value("[...document.querySelectorAll('.said li')].filter((one) => one.checkVisibility())"
                                   ".map((one) => one.dataset.who)")
        self.assertGreater(len(shown), 3)
        self.assertTrue(all("1" in who.split() for who in shown), shown)
        self.assertEqual(self.browser.value("document.querySelectorAll('#mine .moves li').length"), len(scene["people"][1]["moves"]))
        self.browser.key("0")
        self.assertIsNone(self.browser.value("document.body.dataset.only || null"))
        self.assertEqual(self.browser.value("document.querySelectorAll('#moves-1').length"), 1)
        self.opened(fragment="#only=1&at=12000")
        self.assertEqual((self.browser.value("document.body.dataset.only"), self.now()), ("1", 12000))
        self.clean()

    def test_no_sideways_scroll(self):
        for scene in ("one-vote", "kitchen", hostile_scene()):
            for width in (320, 390, 1280):
                self.browser.screen(width, 700, touch=width < 600)
                self.opened(scene)
                wide = self.browser.value("document.documentElement.scrollWidth")
                self.assertLessEqual(wide, width, (scene, width))

    def test_large_enough_to_touch(self):
        self.browser.screen(320, 640, touch=True)
        self.opened()
        small = self.browser.value(
            "[...document.querySelectorAll('button, input')].filter((one) => one.checkVisibility()).map((one) => "
            "[one.id || one.textContent, one.getBoundingClientRect()]).filter(([, box]) => box.width < 44 || box.height < 44)"
            ".map(([name, box]) => name + ' ' + box.width + ' ' + box.height)")
        self.assertEqual(small, [])

    def test_order_of_focus_is_that_of_the_page(self):
        self.opened()
        order = []
        for _ in range(4):
            self.browser.key("Tab")
            order.append(self.browser.value("document.activeElement.id || document.activeElement.textContent"))
        self.assertEqual(order, ["To the beats", "Everyone", "Maud", "Bertil"])
        outline = self.browser.value("getComputedStyle(document.activeElement).outlineStyle")
        self.assertNotEqual(outline, "none")

    def test_by_night(self):
        back = "getComputedStyle(document.body).backgroundColor"
        self.browser.media(prefers_color_scheme="dark")
        self.opened()
        dark = self.browser.value(back)
        self.assertLess(sum(int(part) for part in dark[4:-1].split(",")), 90, dark)
        self.assertEqual(self.browser.value("document.getElementById('night').getAttribute('aria-pressed')"), "true")
        self.browser.click("#night")
        self.assertGreater(sum(int(part) for part in self.browser.value(back)[4:-1].split(",")), 600)
        self.browser.click("#night")
        self.assertEqual(self.browser.value(back), dark)

    def test_less_motion(self):
        self.browser.media(prefers_reduced_motion="reduce")
        self.opened()
        self.browser.click("#play")
        shown = set()
        begun = time.monotonic()
        while time.monotonic() - begun < 1.6:
            shown.add(self.now())
            time.sleep(0.02)
        self.assertLessEqual(len(shown), 6, shown)
        self.assertGreater(len(shown), 1)

    def test_without_scripts(self):
        self.browser.scripts(False)
        for width in (320, 1280):
            self.browser.screen(width, 700)
            self.opened()
            self.browser.scripts(True)
            hidden, wide, text = self.browser.value(
                "[!document.getElementById('player').checkVisibility(), document.documentElement.scrollWidth, "
                "document.getElementById('beats').innerText]")
            self.browser.scripts(False)
            self.assertTrue(hidden)
            self.assertLessEqual(wide, width)
            self.assertIn("Hold your hand out. Don't look at it.", text)
        self.clean()

    def test_hostile_names_run_nothing(self):
        self.opened(hostile_scene())
        self.assertNotEqual(self.browser.value("document.title"), "taken")
        self.browser.click("#whose button:nth-child(2)")
        self.go(1500)
        self.assertIn("</script>", self.browser.value("document.querySelector('#whose button:nth-child(2)').textContent"))
        self.clean()
