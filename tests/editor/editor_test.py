"""Sessions with the language server over its real streams, in both encodings.

Usage: editor_test.py PROGRAM [unittest options]

What messages must look like is the Language Server Protocol 3.17,
microsoft.github.io/language-server-protocol/specifications/lsp/3.17/specification; SHAPES below is the part used here of its
type declarations (npm package vscode-languageserver-types 3.17.5).
"""

import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from client import Client  # noqa: E402

PROGRAM = ""
ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
SEVERITY = {"error": 1, "warning": 2, "remark": 3}

# Name -> {property: type}; `?` may be missing. A list is a list of its one type, a tuple a choice, a set of values an
# enumeration.
SHAPES = {
    "Position": {"line": int, "character": int},
    "Range": {"start": "Position", "end": "Position"},
    "Location": {"uri": str, "range": "Range"},
    "TextEdit": {"range": "Range", "newText": str},
    "Related": {"location": "Location", "message": str},
    "Diagnostic": {"range": "Range", "severity?": {1, 2, 3, 4}, "code?": (int, str), "source?": str, "message": str,
                   "relatedInformation?": ["Related"]},
    "Published": {"uri": str, "version?": int, "diagnostics": ["Diagnostic"]},
    "Symbol": {"name": str, "detail?": str, "kind": set(range(1, 27)), "range": "Range", "selectionRange": "Range",
               "children?": ["Symbol"]},
    "Hint": {"position": "Position", "label": str, "paddingLeft?": bool},
    "Markup": {"kind": {"plaintext", "markdown"}, "value": str},
    "Hover": {"contents": "Markup", "range?": "Range"},
    "Item": {"label": str, "kind?": set(range(1, 26)), "detail?": str, "sortText?": str, "filterText?": str,
             "textEdit?": "TextEdit"},
    "Completion": {"isIncomplete": bool, "items": ["Item"]},
    "Identifier": {"uri": str, "version": (int, type(None))},
    "DocumentEdit": {"textDocument": "Identifier", "edits": ["TextEdit"]},
    "WorkspaceEdit": {"documentChanges?": ["DocumentEdit"], "changes?": dict},
    "Action": {"title": str, "kind?": str, "isPreferred?": bool, "edit?": "WorkspaceEdit"},
    "PrepareRename": {"range": "Range", "placeholder": str},
    "Message": {"type": {1, 2, 3, 4}, "message": str},
}


def faults_of(value, shape, path="it"):
    """What in a value is not as the protocol has it."""
    if isinstance(shape, str):
        shape = SHAPES[shape]
        if not isinstance(value, dict):
            return [f"{path} is {value!r}, not an object"]
        names = {name.rstrip("?") for name in shape}
        faults = [f"{path}.{name} is not of the protocol" for name in value if name not in names]
        for name, kind in shape.items():
            if name.rstrip("?") in value:
                faults += faults_of(value[name.rstrip("?")], kind, f"{path}.{name}")
            elif not name.endswith("?"):
                faults.append(f"{path}.{name} is missing")
        return faults
    if isinstance(shape, list):
        if not isinstance(value, list):
            return [f"{path} is {value!r}, not a list"]
        return [fault for i, one in enumerate(value) for fault in faults_of(one, shape[0], f"{path}[{i}]")]
    if isinstance(shape, set):
        return [] if value in shape else [f"{path} is {value!r}"]
    if isinstance(value, bool) and shape is not bool:
        return [f"{path} is {value!r}"]
    return [] if isinstance(value, shape) else [f"{path} is {value!r}"]


def units(text, encoding):
    return len(text.encode("utf-8")) if encoding == "utf-8" else len(text.encode("utf-16-le")) // 2


def offset_of(text, position, encoding):
    """The character a position stands at. Lines end at LF or CRLF here."""
    lines = text.split("\n")
    line = lines[position["line"]]
    at = 0
    while at < len(line) and units(line[:at], encoding) < position["character"]:
        at += 1
    assert units(line[:at], encoding) == position["character"], (line, position)
    return sum(len(one) + 1 for one in lines[:position["line"]]) + at


def edited(text, edits, encoding):
    placed = sorted(((offset_of(text, e["range"]["start"], encoding), offset_of(text, e["range"]["end"], encoding),
                      e["newText"]) for e in edits), reverse=True)
    for begin, end, words in placed:
        text = text[:begin] + words + text[end:]
    return text


def run(*arguments, **more):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, timeout=120, **more)


def checked(path):
    """The findings of the command line, by file."""
    by_file = {}
    for finding in json.loads(run("check", path, "--as", "json").stdout)["findings"]:
        by_file.setdefault(finding["where"]["file"], []).append(finding)
    return by_file


def expected_diagnostic(finding, encoding, text):
    message = finding["message"]
    for lead, key in (("why: ", "on_set"), ("next: ", "next_step"), ("waived, because ", "waived_because")):
        if finding[key]:
            message += "\n" + lead + finding[key]
    where = finding["where"]
    lines = text.split("\n")

    def place(line, column, utf16_column):
        if encoding == "utf-16":
            return line - 1, utf16_column - 1
        return line - 1, units(lines[line - 1][:column - 1], "utf-8")
    return {"message": message, "code": finding["rule"],
            "severity": 4 if finding["waived_because"] else SEVERITY[finding["severity"]],
            "begin": place(where["line"], where["column"], where["utf16_column"]),
            "end": place(where["end_line"], where["end_column"], where["end_utf16_column"])}


def seen_diagnostic(diagnostic):
    start, end = diagnostic["range"]["start"], diagnostic["range"]["end"]
    return {"message": diagnostic["message"], "code": diagnostic["code"], "severity": diagnostic["severity"],
            "begin": (start["line"], start["character"]), "end": (end["line"], end["character"])}


class Sessions(unittest.TestCase):
    maxDiff = 4000

    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)
        self.client = None

    def tearDown(self):
        if self.client:
            self.client.drop()

    def start(self, encoding="utf-16", **capabilities):
        self.tearDown()
        self.client = Client(PROGRAM)
        self.served = self.client.initialize(encoding, **capabilities)
        return self.client

    def put(self, name, text):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())
        return path

    def open(self, path):
        text = path.read_bytes().decode()
        self.client.open(path.as_uri(), text)
        return path.as_uri(), text

    def ask(self, method, uri, line=0, character=0, **more):
        answer = self.client.ask("textDocument/" + method, {
            "textDocument": {"uri": uri}, "position": {"line": line, "character": character}, **more})
        return answer.get("result", answer.get("error"))

    def assert_shape(self, value, shape):
        self.assertEqual([], faults_of(value, shape))

    def assert_findings_as_checked(self, path, encoding):
        client = self.start(encoding)
        uri, _ = self.open(path)
        client.findings(uri)
        published = {}
        for message in client.received:
            if message.get("method") == "textDocument/publishDiagnostics":
                self.assert_shape(message["params"], "Published")
                published[message["params"]["uri"]] = message["params"]["diagnostics"]
        for name, findings in checked(path).items():
            file = pathlib.Path(name)
            text = file.read_bytes().decode()
            self.assertEqual([expected_diagnostic(finding, encoding, text) for finding in findings],
                             [seen_diagnostic(one) for one in published.pop(file.resolve().as_uri())], name)
        self.assertEqual([], [uri for uri, list_ in published.items() if list_])
        self.assertEqual(0, client.quit(), client.stderr)
        self.assertEqual("", client.stderr)

    # ---- The same as the command line ---------------------------------------------------------------------------

    def test_findings_are_those_of_check(self):
        for scene in ("one-vote.staging", "monday.staging", "quay.staging", "ferry/scenes/mess-room.staging"):
            for encoding in ("utf-16", "utf-8"):
                with self.subTest(scene=scene, encoding=encoding):
                    self.assert_findings_as_checked(EXAMPLES / scene, encoding)

    def test_findings_of_slips_beyond_the_basic_plane(self):
        text = ('staging 1.0 scene\nscene S\npeople Oda, 小林\n\nbeat One\n'
                '  小林 to Oda: "\U0001D11E\U0001D11E" and more\n  Oda walsk to the Tabel\n  -- \U0001D11E\n'
                '  Oda to 小林: "é \U0001D11E", flurbs\n')
        path = self.put("s.staging", text)
        for encoding in ("utf-16", "utf-8"):
            self.assert_findings_as_checked(path, encoding)

    def test_findings_of_windows_line_ends(self):
        text = (EXAMPLES / "one-vote.staging").read_text().replace("favour Maud", "favour Mawd").replace("\n", "\r\n")
        path = self.put("s.staging", text)
        self.assert_findings_as_checked(path, "utf-16")

    def test_waived_findings_are_hints(self):
        scene = (EXAMPLES / "one-vote.staging").read_text()
        path = self.put("s.staging", scene.replace(
            "beat By-One \"By one\"\n", "beat By-One \"By one\"\n  waive close-call, because \"we like it tight\"\n"))
        findings = [f for list_ in checked(path).values() for f in list_]
        self.assertTrue(any(f["waived_because"] for f in findings))
        self.assert_findings_as_checked(path, "utf-8")

    def test_findings_told_ahead_are_found_in_the_end(self):
        client = self.start()
        ahead = 0
        scenes = sorted((ROOT / "tests/slips").glob("*.staging")) + sorted((ROOT / "tests/cases/rules").glob("*.staging"))
        for scene in [EXAMPLES / "one-vote.staging", EXAMPLES / "kitchen.staging", *scenes]:
            client.received.clear()
            client.unread.clear()
            uri, _ = self.open(scene)
            last = client.findings(uri, 300)
            lists = [m["params"]["diagnostics"] for m in client.received
                     if m.get("method") == "textDocument/publishDiagnostics" and m["params"]["uri"] == uri]
            for one in (one for list_ in lists[:-1] for one in list_):
                ahead += 1
                self.assertIn(one, last, scene.name)
            client.notify("textDocument/didClose", {"textDocument": {"uri": uri}})
        self.assertGreater(ahead, 100)
        self.assertEqual(0, client.quit())

    def test_formatting_is_tidy(self):
        untidy = ('\ufeffstaging 1.0 scene  \r\nscene   S\r\npeople Oda,Wren\r\n\r\n\r\n\r\nbeat One\r\n'
                  'Oda   walks to (1.50,2.0) m --  \U0001D11E\r\n what is this line\r\n'
                  '   Oda to Wren:"«\U0001D11E» is spoken   so"\r\n\r\n')
        for text in (untidy, untidy.replace("\r\n", "\n"), "", "staging 1.0 scene", "x",
                     (EXAMPLES / "one-vote.staging").read_text().replace("  ", " ")):
            for encoding in ("utf-16", "utf-8"):
                with self.subTest(text=text[:40], encoding=encoding):
                    path = self.put("s.staging", text)
                    client = self.start(encoding)
                    uri, _ = self.open(path)
                    edits = self.ask("formatting", uri, options={"tabSize": 2, "insertSpaces": True})
                    self.assert_shape(edits, ["TextEdit"])
                    tidy = run("tidy", path).stdout.decode()
                    if "\r" not in text:
                        self.assertEqual(tidy, edited(text, edits, encoding))
                    else:
                        # Whole lines are replaced, with their ends.
                        lines = text.splitlines(keepends=True)
                        for edit in sorted(edits, key=lambda e: -e["range"]["start"]["line"]):
                            first, last = edit["range"]["start"], edit["range"]["end"]
                            self.assertEqual(0, first["character"])
                            lines[first["line"]:max(last["line"], first["line"] + 1)] = [edit["newText"]]
                        self.assertEqual(tidy, "".join(lines))
                    self.assertEqual(0, client.quit())

    def test_rename_keeps_the_findings(self):
        text = (EXAMPLES / "one-vote.staging").read_text()
        path = self.put("s.staging", text)
        before = run("check", path, "--as", "lines").stdout.decode()
        for encoding in ("utf-16", "utf-8"):
            for old, new in (("Maud", "Åsa"), ("Tin-Box", "Urn"), ("Entrance", "Coming-In"), ("One", "Uno"),
                             ("W2", "W7"), ("Third-Count", "Third-Count-é")):
                with self.subTest(old=old, encoding=encoding):
                    client = self.start(encoding)
                    uri, _ = self.open(path)
                    row = next(i for i, words in enumerate(text.split("\n"))
                               if re.search(rf"\b{old}\b", words) and not words.startswith("--"))
                    column = re.search(rf"\b{old}\b", text.split("\n")[row]).start()
                    self.assert_shape(self.ask("prepareRename", uri, row, column), "PrepareRename")
                    edit = self.ask("rename", uri, row, column, newName=new)
                    self.assert_shape(edit, "WorkspaceEdit")
                    [document] = edit["documentChanges"]
                    self.assertEqual({"uri": uri, "version": 1}, document["textDocument"])
                    renamed = edited(text, document["edits"], encoding)
                    spoken = re.compile(r'"([^"]*)"')
                    self.assertEqual([re.sub(r"\[.*?\]", "", s) for s in spoken.findall(text)],
                                     [re.sub(r"\[.*?\]", "", s) for s in spoken.findall(renamed)])
                    after_path = self.put("after.staging", renamed)
                    after = run("check", after_path, "--as", "lines").stdout.decode()

                    def plain(words):
                        words = re.sub(r"^[^:]*:(\d+):\d+:", r"\1:", words, flags=re.M)
                        return re.sub(rf"(?<![\w-]){re.escape(new)}(?![\w-])", old, words)
                    self.assertEqual(plain(before), plain(after))
                    self.assertEqual(0, client.quit())

    def test_hover_is_explain(self):
        path = EXAMPLES / "one-vote.staging"
        client = self.start()
        uri, _ = self.open(path)
        for line in (1, 58, 66):
            hover = self.ask("hover", uri, line - 1, 3)
            self.assert_shape(hover, "Hover")
            explained = run("explain", f"{path}:{line}").stdout.decode()
            self.assertEqual("```text\n" + explained + "```", hover["contents"]["value"])
        self.assertEqual(0, client.quit())

    def test_lengths_beside_the_lines(self):
        client = self.start()
        uri, text = self.open(EXAMPLES / "one-vote.staging")
        hints = client.hint(uri)
        self.assert_shape(hints, ["Hint"])
        plan = json.loads(run("dump", "plan", EXAMPLES / "one-vote.staging", "--as", "json").stdout)
        by_line = {hint["position"]["line"]: hint["label"] for hint in hints}
        lines = text.split("\n")
        self.assertIn("beats", plan)
        walk = lines.index("  Bertil walks to (4.3, 1.3) m, three-quarter toward frame left")
        self.assertEqual("1.1 s, 1.37 m", by_line[walk])
        self.assertEqual("0.8 s", by_line[lines.index("  pause 0.8 s")])
        self.assertEqual("4 s, 0.9 m", by_line[lines.index("  camera A pushes in 0.9 m, over 4 s, from top")])
        for hint in hints:
            self.assertEqual(units(lines[hint["position"]["line"]], "utf-16"), hint["position"]["character"])
        self.assertEqual(0, client.quit())

    # ---- Other questions ------------------------------------------------------------------------------------------

    def test_definition_and_references(self):
        client = self.start()
        uri, text = self.open(EXAMPLES / "one-vote.staging")
        lines = text.split("\n")
        row = lines.index("  Joss looks at the Ring, after Giving")
        found = self.ask("definition", uri, row, lines[row].index("Ring"))
        self.assert_shape(found, ["Location"])
        self.assertEqual([next(i for i, w in enumerate(lines) if w.startswith("prop Ring"))],
                         [one["range"]["start"]["line"] for one in found])
        all_ = self.ask("references", uri, row, lines[row].index("Ring"), context={"includeDeclaration": True})
        self.assertEqual([i for i, words in enumerate(lines)
                          if re.search(r"\bRing\b", re.sub(r'"[^"]*"', "", words)) and not words.startswith("beat")],
                         [one["range"]["start"]["line"] for one in all_])
        self.assertEqual([], self.ask("definition", uri, 0, 0))
        self.assertEqual(0, client.quit())

    def test_definition_in_another_file(self):
        client = self.start()
        scene = EXAMPLES / "ferry/scenes/mess-room.staging"
        uri, text = self.open(scene)
        row, words = next((i, w) for i, w in enumerate(text.split("\n")) if re.match(r"\s+Runa\b", w))
        [found] = self.ask("definition", uri, row, words.index("Runa") + 1)
        self.assertEqual((EXAMPLES / "ferry/company.staging").as_uri(), found["uri"])
        self.assertEqual(0, client.quit())

    def test_outline(self):
        client = self.start()
        uri, text = self.open(EXAMPLES / "one-vote.staging")
        outline = self.ask("documentSymbol", uri)
        self.assert_shape(outline, ["Symbol"])
        [scene] = outline
        self.assertEqual("One-Vote", scene["name"])
        self.assertEqual(re.findall(r"^beat (\S+)", text, re.M),
                         [part["name"] for part in scene["children"] if part["kind"] == 24][1:])
        self.assertEqual(0, client.quit())
        self.client = Client(PROGRAM)
        self.client.ask("initialize", {"capabilities": {}})
        self.client.notify("initialized")
        uri, _ = self.open(EXAMPLES / "one-vote.staging")
        flat = self.ask("documentSymbol", uri)
        self.assertTrue(all("location" in one and "children" not in one for one in flat))
        self.assertEqual(0, self.client.quit())

    def test_completion_in_a_line_being_written(self):
        client = self.start()
        scene = (EXAMPLES / "one-vote.staging").read_text().replace("  favour Maud\n", "  favour \n", 1)
        uri, text = self.open(self.put("s.staging", scene))
        row = text.split("\n").index("  favour ")
        found = self.ask("completion", uri, row, 9)
        self.assert_shape(found, "Completion")
        self.assertEqual(["Bertil", "Iris", "Joss", "Maud", "Wen"], [one["label"] for one in found["items"]][:5])
        self.assertEqual(0, client.quit())

    def test_repairs_and_ways_out(self):
        client = self.start()
        scene = (EXAMPLES / "one-vote.staging").read_text().replace("Wen turns to Maud", "Wen turns to Mawd")
        uri, text = self.open(self.put("s.staging", scene))
        lines = text.split("\n")
        row = lines.index("  Wen turns to Mawd")
        actions = self.repairs(uri, row)
        [slip] = [a for a in actions if "Maud" in a["title"]]
        mended = edited(text, slip["edit"]["documentChanges"][0]["edits"], "utf-16")
        self.assertEqual((EXAMPLES / "one-vote.staging").read_text(), mended)
        self.assertEqual(0, client.quit())

        client = self.start()
        uri, text = self.open(EXAMPLES / "monday.staging")
        rows = sorted({f["where"]["line"] for list_ in checked(EXAMPLES / "monday.staging").values() for f in list_
                       if f["severity"] != "remark"})
        told = run("mend", EXAMPLES / "monday.staging").stdout.decode()
        ways = 0
        for row in rows[:3]:
            titles = [a["title"] for a in self.repairs(uri, row - 1)]
            for title in titles:
                ways += 1
                for words in re.sub(r" \([^()]*: .*\)$", "", title).split(", and "):
                    self.assertIn(words, told)
        self.assertEqual(ways > 0, " below line " in told or " in line " in told)
        self.assertEqual([], self.repairs(uri, rows[0] - 1, triggerKind=2))
        self.assertEqual([], self.repairs(uri, rows[0] - 1, only=["refactor"]))
        self.assertEqual(0, client.quit())

    def repairs(self, uri, row, **context):
        actions = self.client.ask("textDocument/codeAction", {
            "textDocument": {"uri": uri}, "context": {"diagnostics": [], **context},
            "range": {"start": {"line": row, "character": 0}, "end": {"line": row, "character": 3}}}, 120)["result"]
        self.assert_shape(actions, ["Action"])
        return actions

    # ---- Bad input ------------------------------------------------------------------------------------------------

    def test_malformed_messages(self):
        client = self.start()
        uri, _ = self.open(EXAMPLES / "one-vote.staging")
        for data, code in ((b"Content-Length: many\r\n\r\n{}", -32700), (b"Content-Type: x\r\n\r\n{}", -32700),
                           (b"Content-Length: 1\r\n\r\n{", -32700), (b"Content-Length: 2\r\n\r\n[]", -32700),
                           (b'Content-Length: 22\r\n\r\n{"id":{},"method":"a"}', -32600)):
            client.send_bytes(data)
            error = client.wait(lambda m: m.get("id", 0) is None, 20)["error"]
            self.assertEqual(code, error["code"])
            self.assertTrue(error["message"])
            self.assertTrue(self.ask("documentSymbol", uri), "the next message is read again")
        for params in ({}, {"textDocument": 3}, {"textDocument": {"uri": uri}},
                       {"textDocument": {"uri": uri}, "position": {"line": "x", "character": 0}},
                       {"textDocument": {"uri": "file:///nowhere.staging"}}, [1]):
            self.assertEqual(-32602, client.ask("textDocument/definition", params)["error"]["code"])
        self.assertEqual(-32601, client.ask("textDocument/nothing", {})["error"]["code"])
        client.notify("textDocument/nothing", {})
        client.notify("textDocument/didChange", {"textDocument": {"uri": uri}, "contentChanges": 4})
        self.assert_shape(client.wait(lambda m: m.get("method") == "window/logMessage")["params"], "Message")
        self.assertTrue(client.findings(uri))
        self.assertEqual(0, client.quit(), client.stderr)

    def test_mangled_sessions(self):
        """A session with bytes changed, cut or doubled at random: the server answers or ends, and never falls over."""
        uri = (self.folder / "s.staging").as_uri()
        at = {"textDocument": {"uri": uri}, "position": {"line": 2, "character": 8}}
        whole = {"start": {"line": 0, "character": 0}, "end": {"line": 9, "character": 0}}
        text = "staging 1.0 scene\nscene S\npeople Oda, 𝄞\nbeat One\n  Oda walsk to Oda\n"
        messages = [
            {"id": 1, "method": "initialize", "params": {"capabilities": {}}}, {"method": "initialized", "params": {}},
            {"method": "textDocument/didOpen", "params": {"textDocument": {"uri": uri, "version": 1, "text": text}}},
            {"id": 2, "method": "textDocument/hover", "params": at},
            {"method": "textDocument/didChange", "params": {
                "textDocument": {"uri": uri, "version": 2}, "contentChanges": [{"range": whole, "text": text}]}},
            {"id": 3, "method": "textDocument/rename", "params": {**at, "newName": "Wren"}},
            {"id": 4, "method": "textDocument/completion", "params": at},
            {"id": 5, "method": "textDocument/codeAction", "params": {
                "textDocument": {"uri": uri}, "range": whole, "context": {"diagnostics": []}}},
            {"id": 6, "method": "textDocument/inlayHint", "params": {"textDocument": {"uri": uri}, "range": whole}},
            {"method": "$/cancelRequest", "params": {"id": 5}}, {"id": 7, "method": "shutdown"}, {"method": "exit"}]
        draw = random.Random(7)
        for number in range(150):
            stream = b""
            for message in messages:
                body = bytearray(json.dumps({"jsonrpc": "2.0", **message}).encode())
                if draw.random() < 0.5:
                    place = draw.randrange(len(body))
                    body[place:place + draw.randrange(3)] = draw.choice(
                        [b"", b"\xff", b"-1", b"9" * 30, b'"', b"{", b"null", b"\\ud834", b"\x00", b"[1]"])
                length = len(body) + (draw.randrange(-3, 4) if draw.random() < 0.05 else 0)
                stream += b"Content-Length: %d\r\n\r\n" % length + body
            done = subprocess.run([PROGRAM, "editor"], input=stream, capture_output=True, timeout=60)
            self.assertIn(done.returncode, (0, 1), (number, stream, done.stderr))
            self.assertEqual(b"", done.stderr, (number, stream))

    def test_order_of_life(self):
        self.client = client = Client(PROGRAM)
        self.assertEqual(-32002, client.ask("textDocument/hover", {})["error"]["code"])
        client.initialize()
        self.assertEqual(-32600, client.ask("initialize", {"capabilities": {}})["error"]["code"])
        client.ask("shutdown")
        self.assertEqual(-32600, client.ask("textDocument/hover", {})["error"]["code"])
        client.notify("exit")
        self.assertEqual(0, client.end())
        self.client = client = self.start()
        client.notify("exit")
        self.assertEqual(1, client.end())
        self.client = client = self.start()
        self.assertEqual(1, client.end())

    def test_ids_reused_and_cancelled(self):
        client = self.start()
        uri, _ = self.open(EXAMPLES / "monday.staging")
        params = {"textDocument": {"uri": uri}, "position": {"line": 5, "character": 0}}
        for id in (77, "seventy-seven"):
            client.change(uri, 2, {"range": {"start": {"line": 0, "character": 17},
                                             "end": {"line": 0, "character": 17}}, "text": " "})
            client.begin("textDocument/hover", params, id)
            client.begin("textDocument/hover", params, id)
            first = client.wait(lambda m: m.get("id") == id)
            self.assertEqual(-32600, first["error"]["code"])
            self.assertIn("result", client.wait(lambda m: m.get("id") == id))
            client.begin("textDocument/hover", params, id)
            self.assertIn("result", client.wait(lambda m: m.get("id") == id))
        client.change(uri, 3, {"range": {"start": {"line": 0, "character": 17},
                                         "end": {"line": 0, "character": 18}}, "text": ""})
        client.begin("textDocument/hover", params, 78)
        client.notify("$/cancelRequest", {"id": 78})
        client.notify("$/cancelRequest", {"id": 79})
        self.assertEqual(-32800, client.wait(lambda m: m.get("id") == 78)["error"]["code"])
        client.hint(uri)
        # Ways out are looked for in the background, and may be cancelled too: those of a whole scene take many seconds.
        uri, _ = self.open(EXAMPLES / "one-vote.staging")
        client.hint(uri)
        for wait, id in ((0, 80), (0.3, 81)):
            client.begin("textDocument/codeAction", {
                "textDocument": {"uri": uri}, "context": {"diagnostics": []},
                "range": {"start": {"line": 0, "character": 0}, "end": {"line": 999, "character": 0}}}, id)
            time.sleep(wait)
            begun = time.monotonic()
            client.notify("$/cancelRequest", {"id": id})
            self.assertEqual(-32800, client.wait(lambda m: m.get("id") == id)["error"]["code"])
            self.assertLess(time.monotonic() - begun, 2)
        self.assertEqual(0, client.quit(), client.stderr)

    def test_ten_megabytes_pasted_in(self):
        client = self.start()
        path = self.put("s.staging", (EXAMPLES / "one-vote.staging").read_text())
        uri, text = self.open(path)
        before = client.findings(uri)
        for words in ("x" * 10_000_000, "Oda walks to the Table, \U0001D11E\n" * 320_000):
            start = {"line": 3, "character": 0}
            client.change(uri, 2, {"range": {"start": start, "end": start}, "text": words})
            during = client.findings(uri)
            self.assertEqual(["parse.too-long"], [one["code"] for one in during])
            self.assertEqual([], self.ask("formatting", uri, options={}))
            end = {"line": 3 + words.count("\n"), "character": len(words) if "\n" not in words else 0}
            client.change(uri, 3, {"range": {"start": start, "end": end}, "text": ""})
            self.assertEqual(before, client.findings(uri))
        self.assertEqual(text, path.read_text())
        self.assertEqual(0, client.quit(), client.stderr)

    def test_whole_and_partial_changes_come_to_the_same(self):
        text = (EXAMPLES / "monday.staging").read_text()
        client = self.start("utf-8")
        path = self.put("s.staging", text)
        uri, _ = self.open(path)
        before = client.findings(uri)
        start, end = {"line": 2, "character": 0}, {"line": 9, "character": 1}
        client.change(uri, 2, {"range": {"start": start, "end": end}, "text": "\U0001D11E gone"})
        self.assertNotEqual(before, client.findings(uri))
        client.change(uri, 3, {"text": "all else"}, {"text": text})
        self.assertEqual(before, client.findings(uri))
        client.change(uri, 4, {"range": {"start": {"line": 4, "character": 9 ** 9},
                                         "end": {"line": 9 ** 9, "character": 3}}, "text": ""},
                      {"text": text})
        self.assertEqual(before, client.findings(uri))
        self.assertEqual(0, client.quit())

    def test_characters_that_json_cannot_hold(self):
        client = self.start()
        path = self.put("s.staging", "staging 1.0 scene\n")
        uri = path.as_uri()
        client.send_text('{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":%s,'
                         '"languageId":"staging","version":1,"text":"staging 1.0 scene\\n-- \\ud834 x\\npeople oda\\n"'
                         '}}}' % json.dumps(uri))
        found = client.findings(uri)
        self.assertEqual([2], sorted({one["range"]["start"]["line"] for one in found
                                      if one["code"].startswith("parse")}))
        client.send_text(b'{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":'
                         + json.dumps(uri).encode() + b',"version":2},"contentChanges":[{"text":"-- \xff\xfe\\n"}]}}')
        self.assertTrue(client.findings(uri))
        self.assertEqual(0, client.quit(), client.stderr)

    def test_file_deleted_renamed_and_never_there(self):
        text = (EXAMPLES / "monday.staging").read_text()
        client = self.start()
        path = self.put("deep/s.staging", text)
        uri, _ = self.open(path)
        before = client.findings(uri)
        tidy = run("tidy", path).stdout.decode()
        path.unlink()
        client.change(uri, 2, {"text": text + "\n"})
        self.assertEqual(before, client.findings(uri))
        shutil.rmtree(path.parent)
        client.change(uri, 3, {"text": text})
        self.assertEqual(before, client.findings(uri))
        self.assertEqual(tidy, edited(text, self.ask("formatting", uri, options={}), "utf-16"))
        client.notify("textDocument/didClose", {"textDocument": {"uri": uri}})
        last = client.wait(lambda m: m.get("method") == "textDocument/publishDiagnostics"
                           and not m["params"]["diagnostics"])
        self.assertEqual(uri, last["params"]["uri"])
        client.open("untitled:one", text)
        self.assertEqual([(one["code"], one["range"]) for one in before],
                         [(one["code"], one["range"]) for one in client.findings("untitled:one")])
        self.assertEqual(0, client.quit(), client.stderr)
        self.assertEqual([], list(self.folder.iterdir()))

    def test_a_used_file_that_changes(self):
        ferry = self.folder / "ferry"
        shutil.copytree(EXAMPLES / "ferry", ferry)
        client = self.start()
        scene, _ = self.open(ferry / "scenes/mess-room.staging")
        self.assertFalse([one for one in client.findings(scene) if one["code"] == "name.unknown"])
        company, text = self.open(ferry / "company.staging")
        client.change(company, 2, {"text": text.replace("person Runa", "person Rune")})
        self.assertTrue([one for one in client.findings(scene) if one["code"] == "name.unknown"])
        client.change(company, 3, {"text": text})
        self.assertFalse([one for one in client.findings(scene) if one["code"] == "name.unknown"])
        client.notify("textDocument/didClose", {"textDocument": {"uri": company}})
        (ferry / "company.staging").unlink()
        client.notify("workspace/didChangeWatchedFiles", {"changes": [{"uri": company, "type": 3}]})
        client.findings(scene)
        film = (ferry / "film.staging").as_uri()
        last = [m["params"]["diagnostics"] for m in client.received
                if m.get("method") == "textDocument/publishDiagnostics" and m["params"]["uri"] == film][-1]
        self.assertIn("name.file-missing", [one["code"] for one in last])
        self.assertEqual(0, client.quit(), client.stderr)

    def test_files_that_nobody_has_open_are_watched(self):
        client = self.start(workspace={"didChangeWatchedFiles": {"dynamicRegistration": True}})
        request = client.wait(lambda m: m.get("method") == "client/registerCapability")
        self.assertEqual("workspace/didChangeWatchedFiles", request["params"]["registrations"][0]["method"])
        client.send({"id": request["id"], "result": None})
        self.assertEqual(0, client.quit())

    def test_encoding_is_settled_once(self):
        self.start("utf-8")
        self.assertEqual("utf-8", self.served["capabilities"]["positionEncoding"])
        self.assertEqual(0, self.client.quit())
        for offered in ("utf-32", None):
            self.start(offered)
            self.assertEqual("utf-16", self.served["capabilities"]["positionEncoding"])
            self.assertEqual(0, self.client.quit())

    # ---- Memory ---------------------------------------------------------------------------------------------------

    def test_memory_after_ten_thousand_edits(self):
        client = self.start()
        path = EXAMPLES / "one-vote.staging"
        uri, text = self.open(path)
        row = next(i for i, words in enumerate(text.split("\n")) if words.startswith("  pause"))
        place = {"line": row, "character": len(text.split("\n")[row])}
        after = {"line": row, "character": place["character"] + 1}
        client.hint(uri)
        for i in range(10_000):
            if i % 2 == 0:
                client.change(uri, 2 + i, {"range": {"start": place, "end": place}, "text": " "})
            else:
                client.change(uri, 2 + i, {"range": {"start": place, "end": after}, "text": ""})
            if i % 500 == 499:
                client.hint(uri)
        client.hint(uri)
        status = pathlib.Path(f"/proc/{client.process.pid}/status")
        if not status.exists():
            self.skipTest("no /proc here")
        resident = int(re.search(r"VmRSS:\s+(\d+) kB", status.read_text())[1]) / 1000
        print(f"resident after 10,000 edits: {resident:.0f} MB", file=sys.stderr)
        self.assertLessEqual(resident, 200)
        self.assertEqual(0, client.quit(), client.stderr)


if __name__ == "__main__":
    PROGRAM = sys.argv.pop(1)
    unittest.main()
