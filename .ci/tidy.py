#!/usr/bin/env python3
"""tidy.py BUILD_FOLDER: clang-tidy over every source of src, some files at a time.

Most of what clang-tidy does for one file is to walk through the headers of the standard library again. So files are
written one behind the other into one, a few of a folder at a time. (Included into one they would be headers to clang's
analyser, which leaves those out.) Two files that give one name to something of their own never come together. What does not compile together all the same is halved
until it does, so that nobody has to find names for the sake of this. (Names that hide others are looked for by the
compiler.)
"""

import concurrent.futures
import json
import os
import re
import shlex
import shutil
import subprocess
import sys

TOGETHER = 8


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def own_names(path):
    """Every name that the file may keep to itself: more than there are, which does no harm."""
    text = read(path)
    begin = text.find("\nnamespace {\n")
    text = text[begin : text.find("\n}  // namespace\n", begin)] if begin >= 0 else ""
    names = set(re.findall(r"^[A-Za-z_][\w:<>,&*\s]*?\b(\w+)\(", text, re.M))
    names |= set(re.findall(r"^(?:struct|class|enum class|enum|using|#define) (\w+)", text, re.M))
    names |= set(re.findall(r"\b(\w+)(?:\[\w*\])? ?[={]", "".join(re.findall(r"^const[^({;]*[={][^;]*;", text, re.M))))
    return names


def groups():
    told = subprocess.run(["git", "ls-files", "src/*.cpp"], capture_output=True, text=True, check=True).stdout
    made = []  # [folder, names, files]
    for path in sorted(told.split()):
        folder, names = os.path.dirname(path), own_names(path)
        for group in made:
            if group[0] == folder and len(group[2]) < TOGETHER and not group[1] & names:
                group[1].update(names)
                group[2].append(path)
                break
        else:
            made.append([folder, names, [path]])
    return [files for _, _, files in made]


class Tidy:
    def __init__(self, build):
        self.joined = os.path.join(os.path.abspath(build), "tidy")
        os.makedirs(self.joined, exist_ok=True)
        # Beside what is joined, and not as an option, which would be asked of grammar as well: it has one of its own.
        shutil.copyfile(".clang-tidy", os.path.join(self.joined, ".clang-tidy"))
        with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as known:
            self.commands = {entry["file"]: shlex.split(entry["command"]) for entry in json.load(known)}

    def flags(self, file):
        """Of the compiler for one file, without its input and output."""
        words = self.commands[os.path.abspath(file)][1:]
        at = words.index("-o")
        return [word for word in words[:at] + words[at + 2 :] if word not in ("-c", os.path.abspath(file))]

    def run(self, files):
        """Whether all is well, and what was said, with places in the files themselves."""
        texts = [read(file) for file in files]
        path = os.path.abspath(files[0])
        if len(files) > 1:
            path = os.path.join(self.joined, files[0].replace("/", "_") + f"_and_{len(files) - 1}.cpp")
            with open(path, "w", encoding="utf-8") as out:
                out.write("".join(texts))
        flags = self.flags(files[0]) + (["-Wno-shadow"] if len(files) > 1 else [])
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
    parts = sorted(groups(), key=lambda files: -sum(os.path.getsize(file) for file in files))
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count() or 1) as cores:
        wrong = "".join(cores.map(tidy.look_at, parts))
    print(wrong, end="")
    print(f"{sum(map(len, parts))} files in {len(parts)} parts: {'see above' if wrong else 'nothing found'}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
