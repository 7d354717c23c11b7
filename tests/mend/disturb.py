"""How often `mend` finds a way back when a scene is disturbed at random.

Usage: disturb.py PROGRAM [--count 200] [--seed 7] SCENE...

Draws disturbances from continuous ranges (steps of 0.2 to 1.5 m, turns of 10 to 120 degrees, lamps 0.3 to 3 stops down, a
look elsewhere), never from the steps that `mend` tries; puts one line at the top of a beat; counts those that break a wish
that held, and how many of these some way out mends, by one line or by two. A measurement, not a test: nothing is asserted.
"""

import argparse
import collections
import pathlib
import random
import re
import subprocess
import sys
import tempfile

FINDING = re.compile(r"^[^:]+:(\d+):\d+: (error|warning): (.*) \[([a-z.-]+)\]$")
# What only a wish or a story can be found to be.
OF_WISHES = {"wandering-eye", "close-call", "lopsided-share", "room-leans", "dropped-pass", "lost-listener",
             "loud-throwaway", "catches-the-eye", "lost-story", "late-story", "cold-background", "hungry-background",
             "weak-break-in", "lingering-story", "lost-ending", "no-button"}


def run(program, *arguments):
    return subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, timeout=600).stdout


def found(program, path):
    lines = (FINDING.match(line) for line in run(program, "check", path, "--as", "lines").splitlines())
    return [(match[4], int(match[1])) for match in lines if match]


def disturbance(draw, people, lamps):
    who = draw.choice(people)
    kinds = ["step", "turn", "look"] + (["lamp"] if lamps else [])
    kind = draw.choice(kinds)
    if kind == "step":
        way = draw.choice(["toward lens", "deeper", "toward frame left", "toward frame right"])
        return f"{who} steps {draw.uniform(0.2, 1.5):.2f} m {way}"
    if kind == "turn":
        return f"{who} turns {draw.uniform(10, 120):.0f} deg {draw.choice(['toward lens', 'away from lens'])}"
    if kind == "look":
        return f"{who} looks at {draw.choice([one for one in people if one != who])}"
    return f"light {draw.choice(lamps)} dims {draw.uniform(0.3, 3):.1f} stops"


def disturbed(text, line, where):
    lines = text.splitlines(keepends=True)
    lines.insert(where, "  " + line + "\n")
    return "".join(lines)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("program")
    options.add_argument("scenes", nargs="+", type=pathlib.Path)
    options.add_argument("--count", type=int, default=200)
    options.add_argument("--seed", type=int, default=7)
    options = options.parse_args()
    draw = random.Random(options.seed)
    outcome, unreadable = collections.Counter(), 0
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "scene.staging"
        for number in range(options.count):
            scene = options.scenes[number % len(options.scenes)]
            text = scene.read_text()
            path.write_text(text)
            before = found(options.program, path)
            people = re.findall(r"^person (\w[\w-]*)", text, re.M) or re.findall(r"[A-Z][\w-]*", re.search(
                r"^people (.*)$", text, re.M)[1])
            lamps = re.findall(r"^light (\w[\w-]*),", text, re.M)
            beats = [i for i, line in enumerate(text.splitlines(), 1) if line.startswith("beat ")]
            line = disturbance(draw, people, lamps)
            path.write_text(disturbed(text, line, draw.choice(beats[1:])))
            after = found(options.program, path)
            if any("." in rule for rule, _ in after):
                unreadable += 1
                continue
            new = collections.Counter(rule for rule, _ in after) - collections.Counter(rule for rule, _ in before)
            broken = [(rule, at) for rule, at in after if rule in OF_WISHES and new[rule] > 0]
            if not broken:
                outcome["breaks nothing"] += 1
                continue
            lists = run(options.program, "mend", path, "--line", broken[-1][1])
            ways = re.findall(r"^  \d+a  .*\n((?:        .*\n)+)", lists, re.M)
            lines = len(ways[0].splitlines()) if ways else 0
            outcome[{0: "broken, no way out", 1: "mended by one line"}.get(lines, "mended by two lines")] += 1
            if not ways:
                print(scene.name, line, broken[-1], file=sys.stderr)
    print(f"{options.count} disturbances, seed {options.seed}; {unreadable} could not be played")
    for words, count in sorted(outcome.items()):
        print(f"{count:4} {words}")


if __name__ == "__main__":
    main()
