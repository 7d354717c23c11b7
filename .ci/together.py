#!/usr/bin/env python3
"""Which sources of a folder may be compiled as one: most of a compiler's time goes into the same headers, again and again.

As a program: prints these parts for CMake.
"""

import glob
import os
import re

TOGETHER = 8


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def types(text):
    return set(re.findall(r"^(?:struct|class|enum class|enum|using|#define) (\w+)", text, re.M))


def constants(text):
    told = re.findall(r"^(?:inline )?const[^({;]*[={][^;]*;", text, re.M)
    return set(re.findall(r"\b(\w+)(?:\[\w*\])? ?[={]", "".join(told)))


def functions(text):
    return set(re.findall(r"^[A-Za-z_][\w:<>,&*\s]*?\b(\w+)\(", text, re.M))


class Source:
    def __init__(self, path):
        text = read(path)
        kept = "".join(re.findall(r"^namespace \{\n(.*?)^\}  // namespace\n", text, re.M | re.S))
        self.path, self.folder = path, os.path.dirname(path)
        # What the file keeps to itself, or may: a few more do no harm.
        self.fixed = constants(kept) | types(kept)
        self.own = self.fixed | functions(kept)
        self.words = set(re.findall(r"\w+", text))

    def goes_with(self, other):
        """No name of both, and no type or constant of one that a name in the other would hide."""
        return not (self.own & other.own or self.fixed & other.words or other.fixed & self.words)


def parts(folder="src"):
    """The sources below a folder in parts, as lists of paths. What keeps a name of a type or constant of some header
    stays alone, for the headers of the others may mean that one."""
    headers = "".join(read(path) for path in glob.glob("src/**/*.h", recursive=True))
    shared = types(headers) | constants(headers)
    alone, made = [], []
    for source in map(Source, sorted(glob.glob(folder + "/**/*.cpp", recursive=True))):
        if source.own & shared:
            alone.append([source])
            continue
        for part in made:
            if len(part) < TOGETHER and source.folder == part[0].folder and all(map(source.goes_with, part)):
                part.append(source)
                break
        else:
            made.append([source])
    return [[source.path for source in part] for part in alone + made]


def main():
    for number, files in enumerate(parts("src") + parts("tests/unit")):
        if len(files) > 1:
            named = " ".join("${CMAKE_SOURCE_DIR}/" + file for file in files)
            print(f"set_source_files_properties({named} PROPERTIES UNITY_GROUP {number})")


if __name__ == "__main__":
    main()
