"""A preview that runs: its address, what it answers, what its stream tells."""

import http.client
import json
import pathlib
import queue
import re
import signal
import socket
import subprocess
import threading
import time


class Preview:
    def __init__(self, program, path, *more):
        self.process = subprocess.Popen([program, "preview", str(path), *more], stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, text=True)
        self.url = self.process.stdout.readline().strip()
        self.said = []
        self.listening = threading.Thread(target=self._listen, daemon=True)
        self.listening.start()
        found = re.fullmatch(r"http://([\d.]+):(\d+)/([0-9a-f]{32})/", self.url)
        if not found:
            self.process.wait(timeout=30)
            self.listening.join()
            raise AssertionError(self.url + " ".join(self.said))
        self.host, self.port, self.token = found[1], int(found[2]), found[3]

    def _listen(self):
        for line in self.process.stderr:
            self.said.append(line.rstrip("\n"))

    def ask(self, path, method="GET", raw=False, **headers):
        """Status, headers, body. `path` is behind the token, or the whole of it when raw."""
        connection = http.client.HTTPConnection(self.host, self.port, timeout=20)
        try:
            connection.request(method, path if raw else f"/{self.token}/{path}",
                               headers={name.replace("_", "-"): value for name, value in headers.items()})
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            connection.close()

    def page(self):
        return self.ask("page")[2].decode()

    def pictures(self):
        return json.loads(self.ask("pictures.json")[2])

    def scene(self):
        return json.loads(re.search(r'<script type="application/json" id="scene">(.*?)</script>', self.page(), re.S)[1])

    def end(self, sign=signal.SIGINT):
        """Its status, and how long it took."""
        begun = time.monotonic()
        self.process.send_signal(sign)
        status = self.process.wait(timeout=30)
        return status, time.monotonic() - begun

    def close(self):
        """Of one that has ended."""
        self.listening.join()
        self.process.stdout.close()
        self.process.stderr.close()

    def memory(self):
        """Resident, bytes."""
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmRSS:\s+(\d+) kB", status)[1]) * 1024

    def threads(self):
        return int(re.search(r"Threads:\s+(\d+)", pathlib.Path(f"/proc/{self.process.pid}/status").read_text())[1])


class Stream:
    """The news, as they come, with the moment they came at."""

    def __init__(self, preview):
        self.connection = http.client.HTTPConnection(preview.host, preview.port, timeout=60)
        self.connection.request("GET", f"/{preview.token}/events")
        self.socket = self.connection.sock
        self.answer = self.connection.getresponse()
        self.status = self.answer.status
        self.news, self.breaths, self.seen = queue.Queue(), 0, []
        self.reading = None
        if self.status == 200:
            self.reading = threading.Thread(target=self._read, daemon=True)
            self.reading.start()

    def _read(self):
        try:
            for line in self.answer:
                if line.startswith(b":"):
                    self.breaths += 1
                if line.startswith(b"data: "):
                    self.news.put((time.monotonic(), json.loads(line[6:])))
        except (OSError, ValueError, http.client.HTTPException, AttributeError):
            pass
        self.news.put((time.monotonic(), None))

    def until(self, holds, seconds=30):
        """The first news that this holds for, and when they came; skipped ones stay in `seen`."""
        end = time.monotonic() + seconds
        while True:
            try:
                at, news = self.news.get(timeout=max(0.01, end - time.monotonic()))
            except queue.Empty:
                raise AssertionError(f"waited in vain; the last was {self.seen[-1:]}") from None
            if news is None:
                raise AssertionError("the stream has ended")
            self.seen.append(news)
            if holds(news):
                return at, news

    def close(self):
        try:
            self.socket.shutdown(socket.SHUT_RDWR)
        except OSError:
            pass
        if self.reading:
            self.reading.join()
        self.answer.close()
        self.connection.close()
