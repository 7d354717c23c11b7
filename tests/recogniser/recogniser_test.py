"""Two readers of one language: the program and an interpreter of docs/staging.ebnf agree, on every line of the examples
and on lines mangled by chance, whether a line can be read.

Usage: recogniser_test.py PROGRAM ROOT [--lines COUNT] [--seed SEED]
"""

import argparse
import json
import pathlib
import random
import re
import subprocess
import sys

from ebnf import FAIL, Grammar

QUOTED = re.compile(r'"([^"]*)"|“([^”]*)”|«([^»]*)»|「([^」]*)」')
INSERTED = [" ", "  ", ",", ", ", ":", "(", ")", "[", "]", '"', "“", "”", "「", "--", "+", ".", "'s", "’", "-", "−", "%",
            "the ", " of ", " on ", " to ", " off", " in ", " by ", " and ", " 2 m", "3", " one ", "é", "林", "　", "\t"]


def is_read(grammar, line):
    """What the language asks of a line beside the rule `line`: the marks in a speech, no merge mark, no `says`."""
    if not grammar.reads("line", line):
        return False
    statement = re.sub(r"^[ \t　]+", "", line)
    if statement.startswith(("<<<<<<<", "|||||||", "=======", ">>>>>>>")):
        return False
    speech = spoken_texts(grammar, line)
    if any(not grammar.reads("speech_text", text) for text in speech):
        return False
    return not says(grammar, line)


def rest_of_change(grammar, line):
    """The line behind `instead of …:`, or the line itself."""
    opening = re.match(r"[ \t　]*instead[ \t　]+of(?![\w-])[ \t　]*", line)
    if opening is None or not grammar.reads("change", line):
        return line
    grammar.text, grammar.memo = line, {}
    after = grammar.rules["old_words"](opening.end())
    return line if after == FAIL else line[after + 1:]


def spoken_texts(grammar, line):
    rest = rest_of_change(grammar, line)
    after = 0
    if not grammar.reads("spoken", rest):
        # A speech is what its rule reads, `then` and `meanwhile` before it apart.
        grammar.text, grammar.memo = rest, {}
        when = grammar.rules["when"](0)
        start = 0 if when == FAIL else when
        if any_earlier_statement(grammar, rest) or grammar.rules["speech"](start) == FAIL:
            return []
        after = grammar.rules["more_clauses"](speech_head(grammar, start))
        after = rest.index(":", after) + 1
    texts = []
    while True:
        grammar.text, grammar.memo = rest, {}
        while after < len(rest) and rest[after] in " \t　":
            after += 1
        end = grammar.rules["text"](after)
        if end == FAIL:
            return texts
        texts.append(rest[after + 1:end - 1])
        after = end


def speech_head(grammar, start):
    after = grammar.rules["speaker"](start)
    addressed = grammar.rules["addressee"](after)
    return after if addressed == FAIL else addressed


EARLIER = ("header", "heading", "use", "choose", "declaration", "setting", "more", "intent", "lasts", "later", "draw",
           "waive", "note", "extra", "mark_line")


def any_earlier_statement(grammar, line):
    return any(grammar.rules[rule](0) != FAIL for rule in EARLIER)


def says(grammar, line):
    rest = rest_of_change(grammar, line)
    grammar.text, grammar.memo = rest, {}
    if any_earlier_statement(grammar, rest):
        return False
    when = grammar.rules["when"](0)
    start = 0 if when == FAIL else when
    if grammar.rules["speech"](start) != FAIL or grammar.rules["deed_line"](start) == FAIL:
        return False
    after = grammar.rules["subject"](start)
    also = re.compile(r"[ \t　]*also(?![\w-])").match(rest, after)
    after = also.end() if also else after
    verb = rest[after:grammar.rules["verb"](after)].strip(" \t　")
    return verb in ("say", "says")


def mangled(line, lines, words_known, chance):
    text = list(line)
    for _ in range(chance.choice((1, 1, 2, 3))):
        at = chance.randint(0, len(text))
        kind = chance.randrange(8)
        if kind == 0 and text:
            del text[at:at + chance.randint(1, 4)]
        elif kind == 1:
            text[at:at] = chance.choice(INSERTED)
        elif kind == 2:
            words = chance.choice(lines).split(" ")
            first = chance.randrange(len(words))
            text[at:at] = " " + " ".join(words[first:first + chance.randint(1, 3)])
        elif kind == 3:
            words = "".join(text).split(" ")
            first, second = chance.randrange(len(words)), chance.randrange(len(words))
            words[first], words[second] = words[second], words[first]
            text = list(" ".join(words))
        elif kind < 7:
            words = "".join(text).split(" ")
            words[chance.randrange(len(words))] = chance.choice(words_known) + chance.choice(("", "", "", ",", ":"))
            text = list(" ".join(words))
        else:
            other = chance.choice(lines)
            text[at:] = other[chance.randint(0, len(other)):]
    return "".join(text).replace("\n", " ")


def read_by_program(program, lines):
    read = []
    # A file has a limit of length.
    for first in range(0, len(lines), 5000):
        part = lines[first:first + 5000]
        text = "staging 1.0 scene\n" + "".join(line + "\n" for line in part)
        done = subprocess.run([program, "dump", "syntax", "-", "--as", "json"], input=text.encode(), capture_output=True,
                              timeout=120, check=True)
        broken = {entry["line"] for entry in json.loads(done.stdout)["statements"] if entry.get("broken")}
        read += [number + 2 not in broken for number in range(len(part))]
    return read


def main():
    options = argparse.ArgumentParser()
    options.add_argument("program")
    options.add_argument("root", type=pathlib.Path)
    options.add_argument("--lines", type=int, default=8000)
    options.add_argument("--seed", type=int, default=1)
    options = options.parse_args()
    grammar = Grammar((options.root / "docs/staging.ebnf").read_text())
    files = sorted(options.root.glob("examples/**/*.staging")) + [options.root / "tests/unit/syntax/every_form.staging"]
    whole = [line for path in files for line in path.read_text().splitlines()]
    chance = random.Random(options.seed)
    words_known = sorted(grammar.words)
    good = [line for line in whole if line.strip()]
    lines = whole + [mangled(chance.choice(good), good, words_known, chance) for _ in range(options.lines)]
    by_program = read_by_program(options.program, lines)
    faults = 0
    counts = [0, 0]
    for number, (line, read) in enumerate(zip(lines, by_program)):
        ours = is_read(grammar, line)
        counts[ours] += number >= len(whole)
        if ours != read or (number < len(whole) and not read):
            faults += 1
            print(f"{'read' if read else 'not read'} by the program, {'read' if ours else 'not read'} by the grammar: {line!r}")
    print(f"{len(whole)} lines of files, {options.lines} mangled: {counts[1]} read, {counts[0]} not; {faults} disagreements")
    # Chance that made only one kind of line would show nothing.
    return 1 if faults or min(counts) * 10 < options.lines else 0


if __name__ == "__main__":
    sys.exit(main())
