// A stretch of bytes in one file: where something stands in the writer's text.
#pragma once

#include <compare>
#include <cstdint>

namespace lensward {

// Half open, in bytes. file is the index the file was given in its SourceSet.
struct Span {
  std::int32_t file = 0;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  constexpr auto operator<=>(const Span&) const = default;
  constexpr bool empty() const { return begin == end; }
};

}  // namespace lensward
