#!/usr/bin/env python3
"""tidy.py BUILD_FOLDER: clang-tidy over every source of src, some files at a time.

Most of what clang-tidy does for one file is to walk through the headers of the standard library again. So files are
written one behind the other into one, a few of a folder at a time (together.py says which). Included into one they would
be headers to clang's analyser, which leaves those out.

The analyser takes four fifths of the time. It may go a third of its usual number of steps through each function: with
all of them it took twice as long, and found the same.
"""

import concurrent.futures
import json
import os
import re
import shlex
import shutil
import subprocess
import sys

import together

STEPS = ["-Xclang", "-analyzer-config", "-Xclang", "max-nodes=75000"]


class Tidy:
    def __init__(self, build):
        self.joined = os.path.join(os.path.abspath(build), "tidy")
        os.makedirs(self.joined, exist_ok=True)
        # Beside what is joined, and not as an option, which would be asked of grammar as well: it has one of its own.
        shutil.copyfile(".clang-tidy", os.path.join(self.joined, ".clang-tidy"))
        with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as known:
            self.commands = {entry["file"]: shlex.split(entry["command"]) for entry in json.load(known)}
        # In a build that has put files together only those that stayed alone have commands, and each folder has one.
        self.of_folders = {}
        for file in self.commands:
            if folder := re.search(r"/lensward_?(\w*)\.dir/Unity/", file):
                self.of_folders["src/" + (folder[1] or "cli")] = file

    def flags(self, file):
        """Of the compiler for one file, without its input and output."""
        path = os.path.abspath(file)
        if path not in self.commands:
            folder = "/".join(file.split("/")[:2])
            path = self.of_folders[folder]
        words = self.commands[path][1:]
        at = words.index("-o")
        return [word for word in words[:at] + words[at + 2 :] if word not in ("-c", path)]

    def run(self, files):
        """Whether all is well, and what was said, with places in the files themselves."""
        texts = [together.read(file) for file in files]
        path = os.path.abspath(files[0])
        if len(files) > 1:
            path = os.path.join(self.joined, files[0].replace("/", "_") + f"_and_{len(files) - 1}.cpp")
            with open(path, "w", encoding="utf-8") as out:
                out.write("".join(texts))
        flags = self.flags(files[0]) + STEPS
        command = ["clang-tidy-19", "--quiet", path, "--"] + flags
        result = subprocess.run(command, capture_output=True, text=True)

        def place(told):
            line = int(told[1])
            for file, text in zip(files, texts):
                lines = text.count("\n")
                if line <= lines:
                    return f"{file}:{line}:"
                line -= lines
            return told[0]

        said = re.sub(re.escape(path) + r":(\d+):", place, result.stdout)
        return result.returncode == 0, said or result.stderr

    def look_at(self, files):
        """What is wrong in these files, as clang-tidy says it; empty when nothing is."""
        well, said = self.run(files)
        if well:
            return ""
        if len(files) > 1 and "clang-diagnostic" in said:
            middle = len(files) // 2
            return self.look_at(files[:middle]) + self.look_at(files[middle:])
        return said


def main():
    tidy = Tidy(sys.argv[1])
    # The long ones first, so that no core is left with one at the end.
    parts = sorted(together.parts(), key=lambda files: -sum(os.path.getsize(file) for file in files))
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count() or 1) as cores:
        wrong = "".join(cores.map(tidy.look_at, parts))
    print(wrong, end="")
    print(f"{sum(map(len, parts))} files in {len(parts)} parts: {'see above' if wrong else 'nothing found'}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
