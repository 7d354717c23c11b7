"""The house rules that a machine can check: include order, banned calls, file sizes, words that may not stand."""

import pathlib
import re
import sys

# Headers from outside, by the only folders that may include them.
OUTSIDE = {
    "cairo": {"export"},
    "ft2build": {"type", "export"},
    "freetype": {"type", "export"},
    "hb": {"type"},
    "tao": {"syntax", "grammar"},
    "CLI": {"cli"},
    "nlohmann": {"report", "compare", "coverage", "mend", "syntax", "plan", "lens", "emphasis", "pages", "live", "editor", "server",
                 "cli"},
    "httplib": {"listener"},
    "qrencode": {"listener"},
    "png": {"export"},
    "unicode": {"source", "plan", "syntax", "type"},
    "fmt": None,
}

# Pattern, what is wrong with it, folders where it is at home.
BANNED = [
    (r"\b(?:std::)?(?:sin|cos|tan|asin|acos|atan2?|exp|log|log2|log10|pow|hypot|cbrt)f?\(",
     "platform mathematics: use base/angle.h", {"base"}),
    (r"\bstd::(?:cout|cerr|clog)\b|\b(?:std::)?f?printf\(|\bfmt::print\(", "a library never prints", {"cli"}),
    (r"\b(?:std::)?(?:exit|abort|getenv)\(", "a library never exits or reads the environment", {"cli"}),
    (r"\bstd::(?:i|o)?fstream\b|\bfopen\(", "files only through source/host.h", {"cli"}),
    (r"\bstd::chrono\b|\b(?:std::)?time\(nullptr\)|\bstd::locale\b|\bsetlocale\(", "no clock, no locale", set()),
    (r"\bstd::unordered_", "hash order may not reach a result", set()),
    (r"\bstd::rand\b|\brandom_device\b", "no chance in a result", set()),
    (r"\busing namespace\b", "names keep their namespace", set()),
]

WORDS = [
    (r"(?i)% of the audience|viewers will|of viewers", "the model's doubt is never a share of viewers"),
    (r"(?i)\bis (?:perfectly |completely )?safe\b", "nothing is called safe"),
    (r"(?i)registry\.npmjs|deb\.debian\.org|/work/|/root/|/tmp/", "no hosts or machine paths"),
]

TOP = {".ci", ".clang-format", ".clang-tidy", ".gitignore", "CMakeLists.txt", "README.md", "DEVELOPERS.md", "grammar",
       "src", "tests", "examples", "docs"}
LONGEST_FILE = 800

# Names of the standard library and the headers that have them, as cppreference.com lists them.
HEADERS = {name: set(headers.split("|")) for headers, names in {
    "algorithm": "clamp count count_if equal fill find find_if max max_element min min_element minmax none_of any_of all_of "
                 "remove_if replace reverse rotate sort stable_sort transform unique upper_bound lower_bound",
    "algorithm|ranges|iterator": "ranges",
    "array": "array to_array",
    "atomic": "atomic",
    "bit": "bit_cast countr_zero countl_zero popcount",
    "charconv": "from_chars to_chars",
    "cmath": "acos asin atan atan2 ceil cos exp floor fmod hypot log log10 log2 lround pow round sin sqrt tan trunc",
    "cmath|cstdlib": "abs",
    "condition_variable": "condition_variable",
    "cstdint": "int8_t int16_t int32_t int64_t uint8_t uint16_t uint32_t uint64_t",
    "deque": "deque",
    "functional": "function hash reference_wrapper",
    "initializer_list": "initializer_list",
    "limits": "numeric_limits",
    "map": "map multimap",
    "memory": "make_shared make_unique shared_ptr unique_ptr weak_ptr",
    "mutex": "lock_guard mutex once_flag scoped_lock unique_lock",
    "numeric": "accumulate iota",
    "optional": "nullopt optional",
    "set": "set",
    "span": "span",
    "string": "getline stod stoi string to_string",
    "string_view": "string_view",
    "thread": "jthread thread",
    "tuple": "make_tuple tie tuple",
    "utility": "as_const exchange in_place move swap",
    "utility|map": "pair",
    "unordered_map": "unordered_map",
    "variant": "get_if holds_alternative monostate variant visit",
    "vector": "vector",
}.items() for name in names.split()}


def allowed_folders(cmake):
    """Folder -> folders it may include, from the lensward_library lines."""
    allowed = {}
    for line in re.findall(r"^lensward_(?:library|module)\(([^)]*)\)", cmake, re.M):
        names = line.split()
        allowed[names[0]] = {names[0]} | {name for name in names[1:] if "::" not in name}
    allowed["cli"] = set(allowed) | {"cli"}
    return allowed


def include_faults(folder, text, allowed):
    for kind, path in re.findall(r'^#include\s+(["<])([^">]+)[">]', text, re.M):
        first = path.split("/")[0]
        if kind == '"' and first not in allowed.get(folder, set()) | ({"grammar"} if folder == "syntax" else set()):
            yield f'may not include "{path}": see the order in CMakeLists.txt'
        stem = first.split(".")[0].split("-")[0]
        home = OUTSIDE.get(stem)
        if kind == "<" and home is not None and folder not in home:
            yield f"<{path}> belongs to {', '.join(sorted(home))}"


def without_comments_and_text(text):
    text = re.sub(r"//[^\n]*", "", text)
    return re.sub(r'"(?:[^"\\\n]|\\.)*"', '""', text)


def banned_faults(folder, text):
    code = without_comments_and_text(text)
    for pattern, fault, home in BANNED:
        if folder not in home:
            for hit in re.finditer(pattern, code):
                line = code[: hit.start()].count("\n") + 1
                yield f"line {line}: {hit.group(0)} {fault}"


def word_faults(text):
    for pattern, fault in WORDS:
        for hit in re.finditer(pattern, text):
            line = text[: hit.start()].count("\n") + 1
            yield f"line {line}: `{hit.group(0)}`: {fault}"


def types_of(text):
    """Names of the types that a file has outside unnamed namespaces; members, and what is only announced, left out."""
    shared = "".join(re.split(r"\nnamespace \{\n|\n\}  // namespace\n", text)[0::2])
    return re.findall(r"^(?:struct|class|enum class) (\w+)(?: final)?(?: :[^{;]*)? ?\{", shared, re.M)


def twice_named(root):
    """Two types of one name are one to the linker, which takes the functions of either for both."""
    first = {}
    for path in sorted([*(root / "src").rglob("*.h"), *(root / "src").rglob("*.cpp")]):
        for name in types_of(path.read_text()):
            if first.setdefault(name, path) != path:
                yield f"{path.relative_to(root)}: a type `{name}` is in {first[name].relative_to(root)} already"


def reached(path, root, known):
    """The headers that a file includes, by itself or through other files of ours."""
    if path not in known:
        known[path] = set()  # of a circle: nothing more
        for header in re.findall(r'^#include [<"]([^">]+)[">]', path.read_text(), re.M):
            known[path].add(header)
            for ours in (root / "src" / header, root / header):
                if ours.is_file():
                    known[path] |= reached(ours, root, known)
    return known[path]


def declared(root):
    """What the headers of src declare for others: name -> the headers that have it."""
    ours = {}
    for header in (root / "src").rglob("*.h"):
        text = header.read_text()
        names = re.findall(r"^(?:struct|class|enum class|using) (\w+)[^;{]*[{=]", text, re.M)
        names += re.findall(r"^[A-Za-z_][\w:<>,&* ]*[ &*](\w+)\(", text, re.M)
        for name in names:
            ours.setdefault(name, set()).add(header.relative_to(root / "src").as_posix())
    return ours


def forgotten_includes(path, root, known, ours):
    """What is precompiled, or included by a file that is compiled together with this one, would hide them."""
    headers = reached(path, root, known) | {path.relative_to(root / path.parts[len(root.parts)]).as_posix()}
    text = without_comments_and_text(path.read_text())
    for name in sorted(set(re.findall(r"\bstd::(\w+)", text))):
        if name in HEADERS and not headers & HEADERS[name]:
            yield f"std::{name} wants <{min(HEADERS[name])}>"
    reachable = text + "".join(file.read_text() for file in (root / "src" / header for header in headers) if file.is_file())
    # Not members, and not what the file, or a type that it includes, has under the same name.
    told = set(re.findall(r"(?<![\w.:>~])([A-Z]\w+|[a-z]\w+(?=\())", text))
    for name in sorted(told & set(ours)):
        own = rf"(?:struct|class|enum|::) ?{name}\b|[\w>&*] {name}(?:[(,)]|\b ?[={{])|[&*]{name}\(|using {name} |[(\[,&*] ?{name} ?[=,)\]]"
        if not headers & ours[name] and not re.search(own, reachable):
            yield f'{name} wants "{min(ours[name])}"'


def faults_of(root):
    allowed = allowed_folders((root / "CMakeLists.txt").read_text())
    sources = [p for p in sorted(root.glob("src/**/*")) + sorted(root.glob("grammar/**/*"))
               if p.suffix in {".h", ".hpp", ".cpp"}]
    known, ours = {}, declared(root)
    for path in sources:
        text = path.read_text()
        parts = path.relative_to(root).parts
        folder = parts[1] if parts[0] == "src" else "grammar"
        faults = list(include_faults(folder, text, allowed)) if folder != "grammar" else []
        faults += banned_faults(folder, text)
        faults += word_faults(text)
        faults += forgotten_includes(path, root, known, ours)
        lines = text.count("\n")
        if lines > LONGEST_FILE:
            faults.append(f"{lines} lines; split at {LONGEST_FILE}")
        if path.suffix in {".h", ".hpp"} and "#pragma once" not in text:
            faults.append("no #pragma once")
        for fault in faults:
            yield f"{path.relative_to(root)}: {fault}"
    for path in sorted(root.glob("docs/**/*.md")) + [root / "README.md", root / "DEVELOPERS.md"]:
        for fault in word_faults(path.read_text()):
            yield f"{path.relative_to(root)}: {fault}"
    for path in sorted(root.iterdir()):
        if path.name not in TOP and not path.name.startswith(("build", ".git")):
            yield f"{path.name}: not one of the agreed top-level entries"
    readme = (root / "README.md").read_text()
    for command in ("sh examples/first-scene.sh", "sh tests/run.sh"):
        if command not in readme or not (root / command.split()[1]).exists():
            yield f"README.md: `{command}` is not its command, or the script is missing"
    if "sh tests/run.sh" not in (root / ".ci/run").read_text():
        yield ".ci/run: does not call the README's test command"


def main():
    root = pathlib.Path(sys.argv[1])
    faults = [*faults_of(root), *twice_named(root)]
    print("\n".join(faults) if faults else "style: nothing found")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
