"""The style check itself: each rule finds what it is for, and lets the near miss pass."""

import sys

import check_style as style

ALLOWED = style.allowed_folders("lensward_library(base fmt::fmt)\nlensward_library(plan base)\nlensward_library(lens base plan)")

FINDS = [
    list(style.include_faults("plan", '#include "lens/view.h"\n', ALLOWED)),
    list(style.include_faults("lens", "#include <cairo.h>\n", ALLOWED)),
    list(style.banned_faults("lens", "double a = std::sin(x);")),
    list(style.banned_faults("plan", 'fmt::print("x");')),
    list(style.banned_faults("plan", "std::unordered_map<int, int> m;")),
    list(style.word_faults("this rig is safe")),
    list(style.word_faults("62 % of the audience")),
]
PASSES = [
    list(style.include_faults("lens", '#include "plan/plan.h"\n#include <vector>\n', ALLOWED)),
    list(style.include_faults("export", "#include <cairo.h>\n", ALLOWED)),
    list(style.banned_faults("base", "double a = sin(x);")),
    list(style.banned_faults("lens", "// std::sin(x) is not used\ndouble a = sine(x);")),
    list(style.banned_faults("lens", 'text = "std::cout";')),
    list(style.word_faults("safe action area")),
]

missed = [i for i, faults in enumerate(FINDS) if not faults]
false = [i for i, faults in enumerate(PASSES) if faults]
print("missed", missed, "false", false)
sys.exit(1 if missed or false else 0)
