"""README.md shows what the program says of the first draft. Checks it, or with --update writes it in.

    readme_output.py LENSWARD ROOT [--update]
"""

import pathlib
import subprocess
import sys

BEGIN, END = "<!-- check examples/monday.staging -->\n", "<!-- end -->"


def said(program, root):
    done = subprocess.run([program, "check", "examples/monday.staging"], cwd=root, capture_output=True, text=True)
    grave = done.stdout.split("\nexamples/monday.staging")
    kept = [part for part in grave if ": remark: " not in part.split("\n")[0]]
    return "\nexamples/monday.staging".join(kept).rstrip() + "\n\n" + done.stdout.rstrip().split("\n")[-1] + "\n"


def main():
    program, root = sys.argv[1], pathlib.Path(sys.argv[2])
    readme = root / "README.md"
    text = readme.read_text()
    before, rest = text.split(BEGIN)
    after = rest.split(END, 1)[1]
    now = before + BEGIN + "```\n" + said(program, root) + "```\n" + END + after
    if "--update" in sys.argv:
        readme.write_text(now)
        return 0
    if now != text:
        print("README.md does not show what `check examples/monday.staging` says; run with --update")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
