"""An editor's side of the Language Server Protocol, over the real streams of `lensward editor`."""

import json
import os
import select
import subprocess
import time


class Gone(Exception):
    """The server ended, or said nothing for too long."""


class Client:
    """Starts a server. Requests wait for their answers; notifications that come meanwhile are kept."""

    def __init__(self, program, environment=None):
        self.process = subprocess.Popen([program, "editor"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, env=environment)
        self.bytes = b""
        self.received = []  # everything that came, in order
        self.unread = []    # what nobody has waited for yet
        self.last_id = 0

    # ---- Messages -----------------------------------------------------------------------------------------------

    def send_bytes(self, data):
        self.process.stdin.write(data)
        self.process.stdin.flush()

    def send_text(self, text):
        body = text if isinstance(text, bytes) else text.encode()
        self.send_bytes(b"Content-Length: %d\r\n\r\n" % len(body) + body)

    def send(self, message):
        self.send_text(json.dumps({"jsonrpc": "2.0", **message}))

    def notify(self, method, params=None):
        self.send({"method": method, "params": params or {}})

    def begin(self, method, params=None, id=None):
        """Sends a request and gives its id."""
        if id is None:
            self.last_id += 1
            id = self.last_id
        self.send({"id": id, "method": method, "params": params or {}})
        return id

    def ask(self, method, params=None, seconds=60):
        """The result of a request; an error is raised as a KeyError of `result`."""
        id = self.begin(method, params)
        return self.wait(lambda m: m.get("id") == id and "method" not in m, seconds)

    def read_one(self, seconds):
        """One message from the stream."""
        until = time.monotonic() + seconds
        while True:
            head, mark, rest = self.bytes.partition(b"\r\n\r\n")
            if mark:
                length = int(head.split(b":")[1])
                if len(rest) >= length:
                    self.bytes = rest[length:]
                    message = json.loads(rest[:length].decode("utf-8"))
                    self.received.append(message)
                    return message
            left = until - time.monotonic()
            if left <= 0 or not select.select([self.process.stdout], [], [], left)[0]:
                raise Gone(f"nothing came for {seconds} s")
            got = os.read(self.process.stdout.fileno(), 1 << 16)
            if not got:
                raise Gone("the server ended: " + self.process.stderr.read().decode())
            self.bytes += got

    def wait(self, fits, seconds=60):
        """The first message that fits, of those not waited for yet."""
        for i, message in enumerate(self.unread):
            if fits(message):
                return self.unread.pop(i)
        while True:
            message = self.read_one(seconds)
            if fits(message):
                return message
            self.unread.append(message)

    # ---- A session ----------------------------------------------------------------------------------------------

    def initialize(self, encoding="utf-16", **capabilities):
        general = {"positionEncodings": [encoding]} if encoding else {}
        answer = self.ask("initialize", {
            "processId": os.getpid(), "rootUri": None,
            "capabilities": {"general": general,
                             "textDocument": {"documentSymbol": {"hierarchicalDocumentSymbolSupport": True},
                                              "hover": {"contentFormat": ["markdown", "plaintext"]}},
                             "workspace": {"workspaceEdit": {"documentChanges": True}}, **capabilities}})
        self.notify("initialized")
        return answer["result"]

    def open(self, uri, text, version=1):
        self.notify("textDocument/didOpen", {"textDocument": {"uri": uri, "languageId": "staging", "version": version,
                                                              "text": text}})

    def change(self, uri, version, *changes):
        self.notify("textDocument/didChange", {"textDocument": {"uri": uri, "version": version},
                                               "contentChanges": list(changes)})

    def hint(self, uri, seconds=120):
        """Inlay hints come when everything is worked out, and so do the findings that they follow."""
        whole = {"start": {"line": 0, "character": 0}, "end": {"line": 10 ** 6, "character": 0}}
        return self.ask("textDocument/inlayHint", {"textDocument": {"uri": uri}, "range": whole}, seconds)["result"]

    def findings(self, uri, seconds=120):
        """The diagnostics last published for a file, once everything is worked out."""
        self.hint(uri, seconds)
        lists = [m["params"]["diagnostics"] for m in self.received
                 if m.get("method") == "textDocument/publishDiagnostics" and m["params"]["uri"] == uri]
        return lists[-1] if lists else []

    def quit(self):
        """The exit status after an orderly end."""
        self.ask("shutdown")
        self.notify("exit")
        return self.end()

    def end(self, seconds=30):
        """The exit status once the stream to the server is closed."""
        self.process.stdin.close()
        try:
            return self.process.wait(seconds)
        finally:
            self.drop()

    def drop(self):
        """Ends the server if it still runs."""
        self.process.kill()
        if not self.process.stderr.closed:
            self.stderr = self.process.stderr.read().decode()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout, self.process.stderr):
            try:
                stream.close()
            except BrokenPipeError:
                pass
