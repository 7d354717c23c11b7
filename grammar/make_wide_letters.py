#!/usr/bin/env python3
"""Writes wide_letters.hpp: the letters, marks and numbers from U+00A1 up, of the Unicode data this Python carries.

A table of a stated version rather than a library's: what a name is must not change with the machine."""
import sys
import unicodedata

ranges = []
for point in range(0xA1, 0x110000):
    if unicodedata.category(chr(point))[0] not in "LMN":
        continue
    if ranges and ranges[-1][1] == point - 1:
        ranges[-1][1] = point
    else:
        ranges.append([point, point])

out = sys.stdout.write
out(f"""// Made by make_wide_letters.py from Unicode {unicodedata.unidata_version}: letters, marks and numbers from U+00A1 up.
#pragma once

#include <algorithm>
#include <cstdint>
#include <iterator>

namespace lensward::grammar {{

struct CodePointRange {{
  std::uint32_t first, last;
}};

// clang-format off
inline constexpr CodePointRange wide_letters[] = {{
""")
line = "   "
for first, last in ranges:
    item = f" {{0x{first:X}, 0x{last:X}}},"
    if len(line) + len(item) > 118:
        out(line + "\n")
        line = "   "
    line += item
out(line + "\n")
out("""};
// clang-format on

inline bool is_wide_letter(std::uint32_t point) {
  const auto* next = std::upper_bound(std::begin(wide_letters), std::end(wide_letters), point,
                                      [](std::uint32_t p, const CodePointRange& range) { return p < range.first; });
  return next != std::begin(wide_letters) && point <= std::prev(next)->last;
}

}  // namespace lensward::grammar
""")
