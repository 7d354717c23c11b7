"""The editors' grammars hold the words of docs/staging.ebnf, all of them and no other, and colour a few lines rightly.

Usage: editors_test.py ROOT
"""

import json
import pathlib
import re
import sys

ROOT = pathlib.Path(sys.argv[1])
sys.path.insert(0, str(ROOT / "tests/recogniser"))
from ebnf import Grammar  # noqa: E402

LINES = [
    ('  Oda to Tobias, softly: "Leave the [Turn] pan."  -- why', {
        "Oda": "entity.name", "to": "keyword.other", "softly": "keyword.other", '"Leave the [Turn] pan."': "string",
        "-- why": "comment"}),
    ('beat Papers "I signed"', {"beat": "keyword.other.heading", "Papers": "entity.name"}),
    ("  favour Oda, 0.5 s after [Turn]", {"favour": "keyword.control", "0.5 s": "constant.numeric",
                                          "[Turn]": "constant.other.mark"}),
    ("  小林 looks at the Linen-Press", {"小林": "entity.name", "at": "keyword.other", "Linen-Press": "entity.name"}),
    ("<<<<<<< mine", {"<<<<<<< mine": "invalid.illegal.merge"}),
]


def words_of_ebnf(text):
    count = re.search(r"\bcount +:= \((.*?)\)", text, re.S).group(1)
    return Grammar(text).words | set(re.findall(r'"([^"]+)"', count))


def words_of_text_mate(grammar):
    pattern = [p["match"] for p in grammar["patterns"] if p["name"] == "keyword.other.staging"]
    return set(re.search(r"\(\?:((?:[a-z-]+\|)+[a-z-]+)\)", pattern[0]).group(1).split("|"))


def words_of_vim(text):
    return {word for line in re.findall(r"^syntax keyword stagingWord (.*)$", text, re.M) for word in line.split()}


def coloured(grammar, line):
    """What each piece of a line is coloured as: at each place the first pattern that fits there, as editors do it."""
    pieces = {}
    at = 0
    while at < len(line):
        best = None
        for pattern in grammar["patterns"]:
            found = re.compile(pattern.get("match") or pattern["begin"]).search(line, at)
            if found and found.end() > found.start() and (best is None or found.start() < best[0].start()):
                best = (found, pattern)
        if best is None:
            break
        found, pattern = best
        end = found.end()
        if "end" in pattern:
            end = re.compile(pattern["end"]).search(line, end).end()
        pieces[line[found.start():end].strip()] = pattern["name"]
        at = end
    return pieces


def main():
    ebnf = words_of_ebnf((ROOT / "docs/staging.ebnf").read_text())
    text_mate = json.loads((ROOT / "grammar/editors/staging.tmLanguage.json").read_text())
    faults = []
    for name, words in (("TextMate", words_of_text_mate(text_mate)),
                        ("Vim", words_of_vim((ROOT / "grammar/editors/staging.vim").read_text()))):
        if words != ebnf:
            faults.append(f"{name}: lacks {sorted(ebnf - words)}, has besides {sorted(words - ebnf)}")
    for line, expected in LINES:
        pieces = coloured(text_mate, line)
        for piece, name in expected.items():
            if not pieces.get(piece, "").startswith(name):
                faults.append(f"{line!r}: {piece!r} is {pieces.get(piece)!r}, not {name}: {pieces}")
    print("\n".join(faults) if faults else f"{len(ebnf)} words agree")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
