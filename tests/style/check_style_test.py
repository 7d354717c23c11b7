"""The style check itself: each rule finds what it is for, and lets the near miss pass."""

import pathlib
import sys
import tempfile

import check_style as style

ALLOWED = style.allowed_folders("lensward_library(base fmt::fmt)\nlensward_library(plan base)\nlensward_library(lens base plan)")


def forgotten(text):
    """What a source of one folder forgets to include; its header has <vector> and a name."""
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        (root / "src" / "plan").mkdir(parents=True)
        (root / "src" / "plan" / "plan.h").write_text("#include <vector>\nstruct Plan {\n};\nPlan plan_of(int scene);\n")
        source = root / "src" / "plan" / "plan.cpp"
        source.write_text(text)
        return list(style.forgotten_includes(source, root, {}, style.declared(root)))


FINDS = [
    list(style.include_faults("plan", '#include "lens/view.h"\n', ALLOWED)),
    list(style.include_faults("lens", "#include <cairo.h>\n", ALLOWED)),
    list(style.banned_faults("lens", "double a = std::sin(x);")),
    list(style.banned_faults("plan", 'fmt::print("x");')),
    list(style.banned_faults("plan", "std::unordered_map<int, int> m;")),
    list(style.word_faults("this rig is safe")),
    list(style.word_faults("62 % of the audience")),
    forgotten("std::vector<int> numbers;"),
    forgotten('#include "plan/plan.h"\nstd::string text;'),
    forgotten("Plan plan;"),
    forgotten("auto plan = plan_of(3);"),
]
PASSES = [
    list(style.include_faults("lens", '#include "plan/plan.h"\n#include <vector>\n', ALLOWED)),
    list(style.include_faults("export", "#include <cairo.h>\n", ALLOWED)),
    list(style.banned_faults("base", "double a = sin(x);")),
    list(style.banned_faults("lens", "// std::sin(x) is not used\ndouble a = sine(x);")),
    list(style.banned_faults("lens", 'text = "std::cout";')),
    list(style.word_faults("safe action area")),
    forgotten('#include "plan/plan.h"\nstd::vector<int> numbers;'),
    forgotten("// std::string is not used\n"),
    forgotten('#include "plan/plan.h"\nPlan plan = plan_of(3);'),
    forgotten("int plan_of(char scene);\nint plan = plan_of('a');"),
]

missed = [i for i, faults in enumerate(FINDS) if not faults]
false = [i for i, faults in enumerate(PASSES) if faults]
print("missed", missed, "false", false)
sys.exit(1 if missed or false else 0)
