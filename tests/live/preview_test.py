"""The preview over real sockets: who is let in, what is told, that no save is missed however it is made, that nothing is
lost when files go, and that nothing piles up.

Usage: preview_test.py PROGRAM [unittest options]

Sources of the checks:
  Host, Origin                  RFC 9110, 7.2; RFC 6454, 7
  event streams                 HTML, "Server-sent events"
  manners of saving             how common editors write: in place; a temporary renamed over; delete and create; truncate,
                                then in pieces
  32 streams, 2 s of patience   src/server/listener.h, src/listener/listener.cpp
Latencies are printed and not judged: other tests run beside.
"""

import json
import os
import pathlib
import shutil
import socket
import signal
import stat
import subprocess
import sys
import tempfile
import time
import unittest

import browser
from previewed import Preview, Stream

PROGRAM = sys.argv.pop(1)
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
Oda to Tobias: "Is it the last one tonight?"

beat Telling
favour Tobias
Tobias to Oda: "It has gone already."
Tobias walks to frame right
"""
BROKEN = "staging 1.0 scene\nscene Parting\nbeat\n"
DONE = lambda news: news["stage"] == "" and news["read"] == news["edits"] and not news["stale"]


class Folder(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="preview-test-"))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        self.file = self.folder / "parting.staging"
        self.file.write_text(SCENE)

    def begin(self, path=None, *more):
        preview = Preview(PROGRAM, path or self.file, *more)
        self.addCleanup(self.finish, preview)
        return preview

    def finish(self, preview):
        if preview.process.poll() is None:
            preview.process.kill()
            preview.process.wait()
        preview.close()

    def ready(self, preview):
        stream = Stream(preview)
        self.addCleanup(stream.close)
        _, news = stream.until(lambda news: DONE(news) and news["edits"] > 0)
        return stream, news

    def line(self, words):
        """The scene with other words in its first line of dialogue."""
        return SCENE.replace("Is it the last one tonight?", words)

    def still_alive(self, preview):
        self.assertIsNone(preview.process.poll(), preview.said)
        self.assertEqual(preview.ask("page")[0], 200)


class Door(Folder):
    def test_only_loopback(self):
        preview = self.begin()
        self.assertEqual(preview.host, "127.0.0.1")
        own = [one[4][0] for one in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
        for address in {one for one in own if not one.startswith("127.")}:
            with self.assertRaises(OSError):
                socket.create_connection((address, preview.port), timeout=2)
        for address in ("127.0.0.2",):
            with self.assertRaises(OSError):
                socket.create_connection((address, preview.port), timeout=2)

    def test_no_two_tokens_are_alike(self):
        tokens = {self.begin().token for _ in range(4)}
        self.assertEqual(len(tokens), 4)

    def test_refusals(self):
        preview = self.begin()
        good = f"/{preview.token}/page"
        self.assertEqual(preview.ask(good, raw=True)[0], 200)
        self.assertEqual(preview.ask(good, raw=True, Host=f"localhost:{preview.port}")[0], 200)
        self.assertEqual(preview.ask(good, raw=True, Origin=f"http://127.0.0.1:{preview.port}")[0], 200)
        wrong = "0" * 32
        for path, headers in [("/", {}), ("/page", {}), (f"/{wrong}/page", {}), (f"/{preview.token[:-1]}/page", {}),
                              (good, {"Host": "evil.example"}), (good, {"Host": f"evil.example:{preview.port}"}),
                              (good, {"Host": "127.0.0.1"}), (good, {"Origin": "http://evil.example"}),
                              (good, {"Origin": "null"}), (good, {"Origin": f"http://127.0.0.1:{preview.port + 1}"}),
                              (f"/{preview.token}/events", {"Origin": "http://evil.example"})]:
            status, _, body = preview.ask(path, raw=True, **headers)
            self.assertEqual(status, 403, (path, headers))
            self.assertRegex(body.decode(), r"\A[A-Z][^<>]+\.\n\Z")
            self.assertNotIn(preview.token.encode(), body)
        for method in ("POST", "PUT", "DELETE", "OPTIONS"):
            self.assertEqual(preview.ask("page", method=method)[0], 405)
        for path in ("nothing", "pictures/0.png", "pictures/../page", "pictures/", "pages", "events/x"):
            self.assertEqual(preview.ask(path)[0], 404, path)

    def test_headers(self):
        preview = self.begin()
        self.ready(preview)
        _, headers, body = preview.ask("page")
        self.assertEqual(headers["Cache-Control"], "no-store")
        self.assertEqual(headers["X-Content-Type-Options"], "nosniff")
        self.assertEqual(headers["X-Frame-Options"], "DENY")
        self.assertEqual(headers["Cross-Origin-Resource-Policy"], "same-origin")
        self.assertNotIn("Access-Control-Allow-Origin", headers)
        self.assertNotIn("Set-Cookie", headers)
        self.assertIn(b"default-src 'none'", body)
        self.assertNotIn(b"unsafe-", body)

    def test_what_is_no_http_does_no_harm(self):
        preview = self.begin()
        for words in (b"\x00" * 3000, b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"GET /" + b"a" * 100000 + b" HTTP/1.1\r\n\r\n",
                      b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 99999999999\r\n\r\n", b"\r\n\r\n",
                      f"GET /{preview.token}/page HTTP/1.1\r\nHost: 127.0.0.1:{preview.port}\r\nRange: bytes=5-2,-0\r\n\r\n".encode(),
                      f"GET /{preview.token}/events HTTP/1.1\r\nHost: 127.0.0.1:{preview.port}\r\nRange: bytes=0-1\r\n\r\n".encode()):
            with socket.create_connection((preview.host, preview.port), timeout=10) as connection:
                try:
                    connection.sendall(words)
                    connection.settimeout(1)
                    connection.recv(4096)
                except OSError:
                    pass
            self.still_alive(preview)

    def test_a_port_that_is_asked_for(self):
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        preview = self.begin(None, "--port", str(port))
        self.assertEqual(preview.port, port)
        second = subprocess.run([PROGRAM, "preview", self.file, "--port", str(port)], capture_output=True, text=True, timeout=60)
        self.assertEqual(second.returncode, 2)
        self.assertIn(f"port {port} on 127.0.0.1 is taken", second.stderr)

    def test_a_phone(self):
        try:
            preview = Preview(PROGRAM, self.file, "--phone")
        except AssertionError as none:
            self.assertIn("this machine is in no network", str(none))
            self.skipTest("no network here")
        self.addCleanup(self.finish, preview)
        self.assertNotEqual(preview.host, "127.0.0.1")
        self.assertEqual(preview.ask("page")[0], 200)
        self.assertEqual(preview.ask("/page", raw=True)[0], 403)
        with self.assertRaises(OSError):
            socket.create_connection(("127.0.0.1", preview.port), timeout=2)
        code = [preview.process.stdout.readline() for _ in range(8)]
        self.assertTrue(all("\x1b[30;47m" in row for row in code), code)
        self.assertTrue(any("█" in row for row in code))


class Telling(Folder):
    def test_from_the_floor_to_the_findings(self):
        preview = self.begin()
        stream, first = self.ready(preview)
        self.file.write_text(SCENE.replace("It has gone already.", "It has gone an hour ago."))
        _, floor = stream.until(lambda news: news["edits"] > first["edits"])
        self.assertEqual((floor["beat"], floor["stale"]), (1, False))
        page = preview.page()
        self.assertIn("It has gone an hour ago.", page)
        stream.until(DONE)
        self.assertIn('id="charts"', preview.page())
        self.assertGreater(len(preview.scene()["eye"]), 0)
        self.assertIn("lensward: " + str(self.file) + ": ", "\n".join(preview.said))

    def test_pictures_come_and_their_addresses_stay_true(self):
        preview = self.begin()
        stream, _ = self.ready(preview)
        whole = lambda: all(index >= 0 for _, index in preview.pictures()["showing"])
        if not whole():
            stream.until(lambda _: whole())
        pictures = preview.pictures()
        self.assertEqual([ms for ms, _ in pictures["showing"]], sorted(ms for ms, _ in pictures["showing"]))
        self.assertEqual(len(pictures["beats"]), 2)
        for address in pictures["addresses"][:5]:
            status, headers, png = preview.ask(address)
            self.assertEqual((status, headers["Content-Type"]), (200, "image/png"))
            self.assertEqual(png[:8], b"\x89PNG\r\n\x1a\n")
            self.assertIn("immutable", headers["Cache-Control"])

    def test_it_is_the_page_of_the_command(self):
        preview = self.begin()
        self.ready(preview)
        done = subprocess.run([PROGRAM, "page", self.file, "-o", "-"], capture_output=True, timeout=120, check=True).stdout.decode()
        told, shown = preview.scene(), json.loads(done.split('id="scene">')[1].split("</script>")[0])
        for part in ("beats", "people", "camera", "props", "speeches", "seen", "eye", "findings", "floor"):
            self.assertEqual(told[part], shown[part], part)

    def test_lines_of_the_text(self):
        preview = self.begin()
        self.ready(preview)
        scene = preview.scene()
        lines = SCENE.splitlines()
        self.assertGreater(len(scene["written"]["findings"]), 0)
        self.assertEqual(len(scene["written"]["findings"]), len(scene["findings"]))
        for where in scene["written"]["findings"] + scene["written"]["people"] + [one["where"] for one in scene["written"]["marks"]]:
            self.assertEqual(where["text"], lines[where["line"] - 1])
        for told, where in zip(scene["findings"], scene["written"]["findings"]):
            if told["line"]:
                self.assertEqual(told["line"], f"line {where['line']}")

    def test_broken_text_keeps_the_last_page(self):
        preview = self.begin()
        stream, first = self.ready(preview)
        page = preview.page()
        self.file.write_text(BROKEN)
        _, broken = stream.until(lambda news: news["stale"])
        self.assertEqual(preview.page(), page)
        self.assertEqual(broken["page"], stream.seen[-2]["page"])
        self.assertEqual(broken["trouble"][0]["where"]["line"], 3)
        self.assertTrue(broken["headline"])
        self.file.write_text(self.line("Is there another?"))
        stream.until(lambda news: DONE(news) and news["edits"] > first["edits"])
        self.assertIn("Is there another?", preview.page())

    def test_broken_from_the_start(self):
        self.file.write_text(BROKEN)
        preview = self.begin()
        stream = Stream(preview)
        self.addCleanup(stream.close)
        stream.until(lambda news: news["stale"])
        self.assertEqual(preview.ask("")[0], 200)
        self.file.write_text(SCENE)
        stream.until(DONE)
        self.assertIn("Is it the last one tonight?", preview.page())

    def test_a_file_that_is_used(self):
        (self.folder / "room.staging").write_text("staging 1.0 set\nset Stop\nroom 6 m by 5 m\nfurniture Table, centre\n")
        used = SCENE.replace("room 6 m by 5 m\nfurniture Table, centre\n", 'use "room"\n')
        self.file.write_text(used)
        preview = self.begin()
        stream, first = self.ready(preview)
        before = preview.scene()["floor"]
        (self.folder / "room.staging").write_text("staging 1.0 set\nset Stop\nroom 9 m by 5 m\nfurniture Table, centre\n")
        stream.until(lambda news: DONE(news) and news["edits"] > first["edits"])
        self.assertNotEqual(preview.scene()["floor"], before)
        (self.folder / "room.staging").unlink()
        _, gone = stream.until(lambda news: news["stale"])
        self.assertIn("room.staging", json.dumps(gone))

    def test_signs_of_life(self):
        stream, _ = self.ready(self.begin())
        time.sleep(6)
        self.assertGreater(stream.breaths, 0)


class Folders(Folder):
    def test_the_scene_saved_last_is_shown(self):
        second = self.folder / "second.staging"
        second.write_text(SCENE.replace("Parting", "Second").replace("last one", "only one"))
        preview = self.begin(self.folder)
        stream = Stream(preview)
        self.addCleanup(stream.close)
        _, news = stream.until(lambda news: DONE(news) and all("not read" not in one["findings"] for one in news["scenes"]) and news["scenes"])
        self.assertEqual([(pathlib.Path(one["name"]).name, one["shown"]) for one in news["scenes"]],
                         [("parting.staging", True), ("second.staging", False)])
        self.assertRegex(news["scenes"][1]["findings"], r"^(no findings|\d+ (error|warning|remark))")
        second.write_text(second.read_text().replace("only one", "very last one"))
        _, news = stream.until(lambda news: DONE(news) and news["scenes"][1]["shown"])
        self.assertIn("very last one", preview.page())
        third = self.folder / "third.staging"
        third.write_text(SCENE.replace("Parting", "Third"))
        _, news = stream.until(lambda news: len(news["scenes"]) == 3 and "not read" not in news["scenes"][2]["findings"])
        third.unlink()
        second.write_text(second.read_text().replace("very last", "final"))
        stream.until(lambda news: DONE(news) and len(news["scenes"]) == 2)

    def test_a_film(self):
        film = self.folder / "film"
        shutil.copytree(EXAMPLES / "ferry", film)
        preview = self.begin(film)
        stream, news = self.ready(preview)
        self.assertEqual(len(news["scenes"]), 1)
        scene = film / "scenes" / "mess-room.staging"
        scene.write_text(scene.read_text() + "\n# a note\n")
        stream.until(lambda later: DONE(later) and later["read"] > news["read"], 60)

    def test_an_empty_folder(self):
        empty = self.folder / "empty"
        empty.mkdir()
        done = subprocess.run([PROGRAM, "preview", empty], capture_output=True, text=True, timeout=60)
        self.assertEqual((done.returncode, done.stderr), (2, f"lensward: there is no staging file in {empty}\n"))


def in_place(path, text):
    path.write_text(text)


def renamed_over(path, text):
    draft = path.with_name(".parting.staging.swp")
    draft.write_text(text)
    os.replace(draft, path)


def deleted_and_created(path, text):
    path.unlink()
    time.sleep(0.01)
    path.write_text(text)


def in_pieces(path, text):
    with open(path, "w") as out:
        out.flush()
        time.sleep(0.005)
        for at in range(0, len(text), 150):
            out.write(text[at:at + 150])
            out.flush()
            time.sleep(0.002)


MANNERS = [in_place, renamed_over, deleted_and_created, in_pieces]


class Saving(Folder):
    def saved(self, times, pause):
        """Saves in all manners; each must be seen or a later one instead, and the last one in the end."""
        preview = self.begin()
        stream, news = self.ready(preview)
        seen, troubles = [], 0
        for i in range(times):
            MANNERS[i % 4](self.file, self.line(f"Number {i} tonight?"))
            if not pause:
                continue
            while True:
                _, news = stream.until(lambda _: True)
                troubles += news["stale"]
                if f"Number {i} tonight?" in preview.page():
                    break
            seen.append(i)
        stream.until(lambda _: f"Number {times - 1} tonight?" in preview.page())
        self.assertEqual(troubles, 0, "a text half saved was shown")
        self.still_alive(preview)
        return preview, stream, seen

    def test_two_hundred_saves_one_after_the_other(self):
        _, _, seen = self.saved(200, True)
        self.assertEqual(seen, list(range(200)))

    def test_two_hundred_saves_without_a_pause(self):
        preview, stream, _ = self.saved(200, False)
        if not DONE(stream.seen[-1]):
            stream.until(DONE)
        self.assertIn("Number 199 tonight?", preview.page())

    def test_the_same_size_in_the_same_instant(self):
        preview = self.begin()
        stream, _ = self.ready(preview)
        for i in range(20):
            facts = self.file.stat()
            with open(self.file, "r+") as out:
                out.write(self.line(f"Is it number {i:03} tonight?"))
                out.truncate()
            os.utime(self.file, ns=(facts.st_atime_ns, facts.st_mtime_ns))
            stream.until(lambda _: f"number {i:03}" in preview.page())

    def test_latency(self):
        text = (EXAMPLES / "one-vote.staging").read_text()
        self.file.write_text(text)
        preview = self.begin()
        stream, news = self.ready(preview)
        time.sleep(3)
        overhead, frame = [], []
        for i in range(20):
            edits = stream.seen[-1]["edits"]
            self.file.write_text(text.replace("Hold your hand out", "Hold your hand out" + " now" * (1 + i % 3)))
            begun = time.monotonic()
            _, first = stream.until(lambda news: news["edits"] > edits)
            self.assertIn("Hold your hand out now", preview.page())
            overhead.append(1000 * (time.monotonic() - begun))
            _, drawn = stream.until(lambda news: news["pictures"] > first["page"])
            address = next(one for one in preview.pictures()["addresses"])
            preview.ask(address)
            frame.append(1000 * (time.monotonic() - begun))
            stream.until(lambda news: DONE(news) and news["edits"] > edits)
            time.sleep(0.3)
        for name, all_ in (("overhead", overhead), ("frame", frame)):
            all_.sort()
            print(f"from save to new {name}: p50 {all_[9]:.0f} ms, p95 {all_[18]:.0f} ms")


class BadInput(Folder):
    def recovers(self, preview, stream):
        self.file.write_text(self.line("Is it over?"))
        stream.until(lambda news: DONE(news) and "Is it over?" in preview.page())
        self.still_alive(preview)

    def lost(self, change, *words):
        preview = self.begin()
        stream, _ = self.ready(preview)
        page = preview.page()
        change()
        _, news = stream.until(lambda news: news["stale"])
        for word in words:
            self.assertIn(word, news["headline"])
        self.assertEqual(preview.page(), page)
        return preview, stream

    def test_deleted(self):
        preview, stream = self.lost(self.file.unlink, "cannot be read", "no such file")
        self.recovers(preview, stream)

    def test_renamed(self):
        preview, stream = self.lost(lambda: self.file.rename(self.folder / "other.staging"), "no such file")
        self.assertEqual((self.folder / "other.staging").read_text(), SCENE)
        self.recovers(preview, stream)

    def test_its_folder_renamed(self):
        inner = self.folder / "inner"
        inner.mkdir()
        shutil.move(self.file, inner / "parting.staging")
        self.file = inner / "parting.staging"
        preview, stream = self.lost(lambda: inner.rename(self.folder / "away"), "no such file")
        (self.folder / "away").rename(inner)
        self.recovers(preview, stream)

    def test_replaced_by_a_folder(self):
        def replace():
            self.file.unlink()
            self.file.mkdir()
        preview, stream = self.lost(replace, "is a directory")
        self.file.rmdir()
        self.recovers(preview, stream)

    def test_unreadable(self):
        if os.geteuid() == 0:
            # Permissions do not bind root; a link that leads round in a circle does.
            def circle():
                self.file.unlink()
                self.file.symlink_to(self.file)
            preview, stream = self.lost(circle, "cannot be read")
            self.file.unlink()
        else:
            preview, stream = self.lost(lambda: self.file.chmod(0), "permission denied")
            self.file.chmod(stat.S_IRUSR | stat.S_IWUSR)
        self.recovers(preview, stream)

    def test_ten_megabytes_pasted_in(self):
        for paste in ("lorem ipsum dolor sit amet\n" * 400000, "x" * 10_000_000, "\x00\xff" * 2_000_000,
                      'Oda to Tobias: "Is it?"\n' * 400000):
            preview = self.begin()
            stream, first = self.ready(preview)
            self.file.write_text(SCENE + paste, encoding="latin-1")
            stream.until(lambda news: news["read"] > first["read"], 120)
            self.file.write_text(self.line("Is it over?"))
            stream.until(lambda news: DONE(news) and "Is it over?" in preview.page(), 180)
            self.still_alive(preview)
            preview.process.kill()
            self.file.write_text(SCENE)

    def test_seventeen_megabytes_are_refused_in_words(self):
        self.lost(lambda: self.file.write_bytes(b"a" * (17 << 20)), "cannot be read", "larger than 16 MiB")

    def test_no_such_file(self):
        done = subprocess.run([PROGRAM, "preview", self.folder / "none.staging"], capture_output=True, text=True, timeout=60)
        self.assertEqual((done.returncode, done.stdout), (2, ""))
        self.assertIn("none.staging: no such file", done.stderr)
        done = subprocess.run([PROGRAM, "preview", "-"], capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, 2)
        self.assertIn("standard input", done.stderr)


class ManyAndSlow(Folder):
    def test_a_hundred_at_once(self):
        preview = self.begin()
        stream, first = self.ready(preview)
        streams = [Stream(preview) for _ in range(100)]
        self.addCleanup(lambda: [one.close() for one in streams])
        open_ = [one for one in streams if one.status == 200]
        self.assertEqual(len(open_), 31)
        refused = next(one for one in streams if one.status != 200)
        self.assertEqual(refused.status, 503)
        self.assertRegex(refused.answer.read().decode(), r"\A[A-Z][^<>]+\.\n\Z")
        self.file.write_text(self.line("Is it crowded?"))
        for one in [stream, *open_]:
            one.until(lambda news: news["edits"] > first["edits"])
        self.still_alive(preview)
        for one in streams:
            one.close()
        # Their places are free again when the next sign of life finds nobody.
        end = time.monotonic() + 25
        while time.monotonic() < end:
            again = Stream(preview)
            if again.status == 200:
                again.close()
                return
            time.sleep(0.5)
        self.fail("streams that are closed keep their places")

    def test_a_hundred_connections_that_say_nothing(self):
        preview = self.begin()
        self.ready(preview)
        silent = [socket.create_connection((preview.host, preview.port), timeout=10) for _ in range(100)]
        self.addCleanup(lambda: [one.close() for one in silent])
        begun = time.monotonic()
        self.assertEqual(preview.ask("page")[0], 200)
        print(f"with 100 silent connections a page took {time.monotonic() - begun:.1f} s")
        self.still_alive(preview)

    def test_a_slow_reader_holds_nobody_up(self):
        preview = self.begin()
        stream, first = self.ready(preview)
        slow = []
        for path in ["page"] * 6 + ["events"] * 6:
            one = socket.socket()
            one.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            one.connect((preview.host, preview.port))
            one.sendall(f"GET /{preview.token}/{path} HTTP/1.1\r\nHost: 127.0.0.1:{preview.port}\r\n\r\n".encode())
            slow.append(one)
        self.addCleanup(lambda: [one.close() for one in slow])
        memory = preview.memory()
        for i in range(30):
            edits = stream.seen[-1]["edits"]
            self.file.write_text(self.line(f"Is it slow {i}?"))
            stream.until(lambda news: news["edits"] > edits, 10)
        self.assertLess(preview.memory() - memory, 60 << 20)
        self.still_alive(preview)

    def test_memory_after_three_hundred_saves(self):
        preview = self.begin()
        stream, first = self.ready(preview)

        def save(times):
            for i in range(times):
                edits = stream.seen[-1]["read"]
                self.file.write_text(self.line(f"Is it {i} or {i * i}?") if i % 5 else BROKEN)
                stream.until(lambda news: news["read"] > edits)
                if i % 10 == 0:
                    preview.page(), preview.pictures()
                    Stream(preview).close()

        save(60)
        before, threads = preview.memory(), preview.threads()
        save(300)
        grown = preview.memory() - before
        print(f"300 saves: {before >> 20} MB and {grown / (1 << 20):+.1f} MB")
        self.assertLess(grown, 24 << 20)
        self.assertEqual(preview.threads(), threads)


class Ending(Folder):
    def test_control_c(self):
        for sign in (signal.SIGINT, signal.SIGTERM):
            preview = self.begin()
            stream, _ = self.ready(preview)
            status, took = preview.end(sign)
            self.assertEqual(status, 0, preview.said)
            self.assertLess(took, 5)
        self.assertEqual(sorted(one.name for one in self.folder.iterdir()), ["parting.staging"])
        self.assertEqual(self.file.read_text(), SCENE)

    def test_while_it_works_and_somebody_reads_slowly(self):
        shutil.copy(EXAMPLES / "kitchen.staging", self.file)
        preview = self.begin()
        with socket.create_connection((preview.host, preview.port)) as silent:
            time.sleep(0.6)
            status, took = preview.end()
        self.assertEqual(status, 0, preview.said)
        self.assertLess(took, 10)
        del silent


@unittest.skipUnless(browser.found(), "no browser here")
class InTheBrowser(Folder):
    @classmethod
    def setUpClass(cls):
        cls.browser = browser.Browser()

    @classmethod
    def tearDownClass(cls):
        cls.browser.close()

    def opened(self, fragment=""):
        preview = self.begin()
        self.browser.screen(1280, 900)
        self.browser.call("Page.navigate", url="about:blank")
        self.browser.until("location.href === 'about:blank'")
        self.browser.told.clear()
        self.browser.call("Page.navigate", url=preview.url + fragment)
        self.settled()
        return preview

    def settled(self):
        self.browser.until("document.body && document.body.dataset.version && document.querySelector('header .stage') && "
                           "!document.querySelector('header .stage').textContent && !document.body.classList.contains('out-of-date')")

    def words(self, id_):
        return self.browser.value(f"document.getElementById('{id_}').textContent")

    def clean(self, preview):
        self.assertEqual(self.browser.faults(), [])
        self.assertEqual([one for one in self.browser.asked() if not one.startswith(preview.url)], [])

    def test_the_beat_that_is_edited_is_shown(self):
        preview = self.opened()
        self.assertEqual(self.words("beat-now"), "Asking")
        self.file.write_text(SCENE.replace("It has gone already.", "It left without us."))
        self.browser.until("document.getElementById('beat-now').textContent === 'Telling'")
        self.browser.until("document.getElementById('beats').textContent.includes('It left without us.')")
        self.settled()
        self.browser.until("!document.getElementById('gate').classList.contains('old')")
        self.browser.until("[...document.querySelectorAll('#beats image')].every((one) => one.getAttribute('href') && !one.classList.contains('old'))")
        self.clean(preview)

    def test_the_moment_the_person_and_the_speed_stay(self):
        preview = self.opened()
        self.browser.value("player.go(900)")
        self.browser.click("#whose button:nth-child(3)")
        self.browser.click("#speed")
        self.file.write_text(self.line("Is it really the last one?"))
        self.browser.until("document.getElementById('beats').textContent.includes('really the last')")
        self.settled()
        self.assertEqual(self.browser.value("player.kept()"), {"now": 900, "playing": False, "speed": 1.5, "only": "Tobias"})
        self.assertEqual(self.browser.value("document.querySelector('#whose [aria-pressed=true]').textContent"), "Tobias")
        self.clean(preview)

    def test_whoever_plays_is_not_moved(self):
        self.opened()
        self.browser.value("player.go(0)")
        self.browser.click("#play")
        self.file.write_text(SCENE.replace("It has gone already.", "It left without us."))
        self.browser.until("document.getElementById('beats').textContent.includes('It left without us.')")
        self.assertTrue(self.browser.value("player.kept().playing"))
        self.assertEqual(self.words("beat-now"), "Asking")

    def test_the_time_line_moves_everything(self):
        self.opened()
        seen = lambda: self.browser.value("[document.getElementById('clock').textContent, document.getElementById('eye').innerHTML, "
                                          "document.getElementById('figures').innerHTML, document.getElementById('words-now').textContent]")
        before = seen()
        self.browser.value("(() => { const at = document.getElementById('at'); at.value = at.max; at.dispatchEvent(new Event('input')); })()")
        self.assertTrue(all(a != b for a, b in zip(before, seen())))

    def test_broken_text_dims_what_was_there(self):
        preview = self.opened()
        self.file.write_text(BROKEN)
        self.browser.until("document.body.classList.contains('out-of-date')")
        self.assertTrue(self.browser.value("document.getElementById('news').checkVisibility()"))
        self.assertIn(":3: ", self.words("news"))
        self.assertIn("Is it the last one tonight?", self.words("beats"))
        self.assertLess(float(self.browser.value("getComputedStyle(document.querySelector('main')).opacity")), 0.6)
        self.file.write_text(self.line("Is it mended?"))
        self.browser.until("document.getElementById('beats').textContent.includes('Is it mended?')")
        self.settled()
        self.assertFalse(self.browser.value("document.getElementById('news').checkVisibility()"))
        self.clean(preview)

    def test_a_click_tells_the_line(self):
        preview = self.opened()
        self.browser.click("#figures > g:nth-child(1) text")
        self.assertIn("people Oda, Tobias", self.words("written"))
        self.browser.click("#written button")
        self.assertFalse(self.browser.value("document.getElementById('written').checkVisibility()"))
        self.browser.click(".findings li p:nth-child(2)")
        where = preview.scene()["written"]["findings"][int(self.browser.value("document.querySelector('.findings li').dataset.finding"))]
        self.assertIn(f":{where['line']}: {where['text']}", self.words("written"))
        mark = preview.scene()["written"]["marks"][0]
        self.browser.value(f"""(() => {{
            const svg = document.getElementById('floor'), floor = player.scene.floor;
            const at = new DOMPoint(({mark['x']} - floor.low_x) * floor.scale, (floor.high_y - {mark['y']}) * floor.scale)
                .matrixTransform(svg.getScreenCTM());
            svg.dispatchEvent(new MouseEvent('click', {{bubbles: true, clientX: at.x, clientY: at.y}}));
        }})()""")
        self.assertIn("Mark " + mark["name"], self.words("written"))
        self.assertIn(mark["where"]["text"], self.words("written"))
        self.clean(preview)

    def test_a_program_that_ends_is_told(self):
        preview = self.opened()
        preview.end()
        self.browser.until("document.querySelector('header .stage').textContent.includes('does not answer')")

    def test_left_open_nothing_piles_up(self):
        self.opened()
        count = lambda: self.browser.value("[document.querySelectorAll('*').length, document.fonts.size]")

        def renew(times):
            for i in range(times):
                words = "Is it long?" if i % 2 else "Is it late?"
                self.file.write_text(self.line(words))
                self.browser.until(f"document.getElementById('beats').textContent.includes('{words}')")
            self.settled()

        renew(2)
        before = count()
        renew(24)
        self.assertEqual(count(), before)
        self.browser.call("HeapProfiler.collectGarbage")
        listeners = self.browser.call("Memory.getDOMCounters")
        print(f"26 renewals: {listeners['nodes']} nodes, {listeners['documents']} documents, {listeners['jsEventListeners']} listeners")
        self.assertLess(listeners["nodes"], 12 * before[0])
        self.assertLess(listeners["documents"], 12)


if __name__ == "__main__":
    unittest.main()
