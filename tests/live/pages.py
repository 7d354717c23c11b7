"""Pages made once and read as a browser would: elements, their attributes and words, and the scene in them."""

import functools
import html.parser
import json
import pathlib
import subprocess
import sys
import tempfile

PROGRAM = sys.argv.pop(1)
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
SCENES = ["one-vote", "monday", "quay", "kitchen"]
FOLDER = tempfile.TemporaryDirectory(prefix="page-test-")
VOID = {"meta", "link", "br", "img", "input", "hr"}

# Names that would break out of HTML, of a script, or out of their line's direction. The language has no way to write the
# double quotation mark, which the unit test tries.
HOSTILE = {
    "Anna": "</script><script>document.title='taken'</script>",
    "Bela": "'><img src=x onerror=alert(1)> & <!-- 'q' ]]> [[scene]] `",
    "Cleo": "Wilhelmina Oakenshott-Featherstonehaugh of the Lower Harbour Q",
    "Dora": "\u05d3\u05d5\u05e8\u05d4 \u05de\u05d4\u05e0\u05de\u05dc",
}


def run(*arguments, **more):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, timeout=240, **more)


def dumped(*arguments):
    done = run("dump", *arguments, "--as", "json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@functools.lru_cache(maxsize=None)
def page_path(scene):
    """The page of an example, or of a scene file."""
    source = pathlib.Path(scene) if "/" in scene else EXAMPLES / f"{scene}.staging"
    path = pathlib.Path(FOLDER.name) / f"{source.stem}.html"
    done = run("page", source, "-o", path)
    assert done.returncode == 0, done.stderr
    return path


class Element:
    def __init__(self, name, attributes, parent):
        self.name, self.attributes, self.parent, self.parts = name, dict(attributes), parent, []

    def words(self):
        return "".join(part if isinstance(part, str) else part.words() for part in self.parts)

    def below(self, name=None, **attributes):
        for part in self.parts:
            if isinstance(part, str):
                continue
            wanted = name is None or part.name == name
            if wanted and all(value in (part.attributes.get(key.rstrip("_")) or "").split() for key, value in attributes.items()):
                yield part
            yield from part.below(name, **attributes)

    def seen(self):
        """Words, but for those of style and script."""
        return "" if self.name in ("style", "script") else "".join(
            part if isinstance(part, str) else part.seen() for part in self.parts)

    def within(self, **attributes):
        above = self
        while above is not None:
            if all(above.attributes.get(key.rstrip("_")) == value for key, value in attributes.items()):
                return True
            above = above.parent
        return False


class Reader(html.parser.HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.root = self.open = Element("", [], None)
        self.faults = []

    def handle_starttag(self, name, attributes):
        made = Element(name, attributes, self.open)
        self.open.parts.append(made)
        if name not in VOID:
            self.open = made

    def handle_startendtag(self, name, attributes):
        self.open.parts.append(Element(name, attributes, self.open))

    def handle_endtag(self, name):
        if name != self.open.name:
            self.faults.append(f"</{name}> within <{self.open.name}> at {self.getpos()}")
            return
        self.open = self.open.parent

    def handle_data(self, words):
        self.open.parts.append(words)


@functools.lru_cache(maxsize=None)
def page(scene):
    reader = Reader()
    reader.feed(page_path(scene).read_text(encoding="utf-8"))
    reader.close()
    assert reader.faults == [] and reader.open is reader.root, reader.faults
    return reader.root


@functools.lru_cache(maxsize=None)
def scene_in(scene):
    (element,) = [one for one in page(scene).below("script") if one.attributes.get("id") == "scene"]
    return json.loads(element.words())


@functools.lru_cache(maxsize=None)
def hostile_scene():
    path = pathlib.Path(FOLDER.name) / "hostile.staging"
    people = "".join(f'person {name}, called "{called}"\n' for name, called in HOSTILE.items())
    path.write_text(
        'staging 1.0 scene\nscene Trap "A </title> & a \'quote\' <b>"\n' + people +
        "room 6 m by 5 m\nfurniture Table, centre\n"
        "opening\n  Anna is at frame left, medium shot\n  Bela is at the Table\n  Cleo is at frame right\n"
        "  Dora is deep\n"
        'beat One "</section><h1>mine</h1>"\n  favour Anna\n'
        '  Anna to Bela: "If x < y & y > z then </script> it is."\n'
        '  Dora to everyone: "שלום to you all."\n', encoding="utf-8")
    return str(path)
