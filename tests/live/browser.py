"""A headless Chromium, spoken to over two pipes in the DevTools protocol: JSON messages, a NUL byte after each."""

import base64
import json
import os
import pathlib
import shutil
import subprocess
import tempfile
import time


def found():
    """The browser's path, or None."""
    for name in ("chromium", "chromium-browser"):
        if shutil.which(name):
            return shutil.which(name)
    return None


class Browser:
    def __init__(self):
        self.folder = tempfile.TemporaryDirectory(prefix="page-test-")
        to_browser, self.out = os.pipe()
        self.into, from_browser = os.pipe()
        # The browser reads what we send from 3 and answers on 4.
        def pipes():
            os.dup2(to_browser, 13)
            os.dup2(from_browser, 14)
            os.dup2(13, 3)
            os.dup2(14, 4)
        self.process = subprocess.Popen(
            [found(), "--headless=new", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", "--hide-scrollbars",
             "--disable-dev-shm-usage", "--no-first-run", f"--user-data-dir={self.folder.name}", "about:blank"],
            preexec_fn=pipes, close_fds=False, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.count, self.rest, self.told = 0, b"", []
        self.session = None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for part in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{part}.enable")

    def read(self):
        while b"\0" not in self.rest:
            got = os.read(self.into, 1 << 20)
            if not got:
                raise RuntimeError("the browser has gone")
            self.rest += got
        message, self.rest = self.rest.split(b"\0", 1)
        return json.loads(message)

    def call(self, method, **parameters):
        self.count += 1
        message = {"id": self.count, "method": method, "params": parameters}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.read()
            if answer.get("id") == self.count:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]
            self.told.append(answer)

    def screen(self, width, height, touch=False):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=touch)
        self.call("Emulation.setTouchEmulationEnabled", enabled=touch)

    def media(self, **features):
        self.call("Emulation.setEmulatedMedia",
                  features=[{"name": name.replace("_", "-"), "value": value} for name, value in features.items()])

    def scripts(self, on):
        self.call("Emulation.setScriptExecutionDisabled", value=not on)

    def open(self, path, fragment=""):
        """Waits until the page is loaded and its scripts have run."""
        self.call("Page.navigate", url="about:blank")
        self.until("location.href === 'about:blank' && document.readyState === 'complete'")
        self.told.clear()
        self.call("Page.navigate", url=pathlib.Path(path).resolve().as_uri() + fragment)
        self.until("location.protocol === 'file:' && document.readyState === 'complete'")

    def until(self, expression, seconds=20):
        begun = time.monotonic()
        while not self.value(expression):
            if time.monotonic() - begun > seconds:
                raise RuntimeError("waited in vain for " + expression)
            time.sleep(0.02)

    def value(self, expression):
        """What a script in the page comes to; a promise is waited for."""
        got = self.call("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in got:
            raise RuntimeError(expression + ": " + json.dumps(got["exceptionDetails"])[:500])
        return got["result"].get("value")

    def key(self, key, shift=False):
        text = key if len(key) == 1 else ""
        common = {"key": key, "modifiers": 8 if shift else 0, "code": "Space" if key == " " else key}
        self.call("Input.dispatchKeyEvent", type="keyDown", text=text, **common)
        self.call("Input.dispatchKeyEvent", type="keyUp", **common)

    def click(self, selector):
        x, y = self.value(f"(() => {{ const e = document.querySelector({json.dumps(selector)}); "
                          "e.scrollIntoView({block: 'center'}); const b = e.getBoundingClientRect(); "
                          "return [b.left + b.width / 2, b.top + b.height / 2]; })()")
        for kind in ("mousePressed", "mouseReleased"):
            self.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def picture(self, path, whole=False):
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=whole)
        pathlib.Path(path).write_bytes(base64.b64decode(shot["data"]))

    def faults(self):
        """Errors that scripts threw and that the browser logged, refusals of the policy among them."""
        texts = []
        for one in self.told:
            if one.get("method") == "Runtime.exceptionThrown":
                texts.append(json.dumps(one["params"]["exceptionDetails"]))
            if one.get("method") == "Log.entryAdded" and one["params"]["entry"]["level"] in ("error", "warning"):
                texts.append(one["params"]["entry"]["text"])
        return texts

    def asked(self):
        """Every address that was asked for, data addresses left out."""
        return [one["params"]["request"]["url"] for one in self.told
                if one.get("method") == "Network.requestWillBeSent" and not one["params"]["request"]["url"].startswith("data:")]

    def close(self):
        try:
            self.session = None
            self.call("Browser.close")
        except (RuntimeError, OSError):
            pass
        try:
            self.process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            self.process.kill()
        os.close(self.out)
        os.close(self.into)
        self.folder.cleanup()
