#include "editor/outline.h"

#include <catch2/catch.hpp>

#include "scene.h"

using namespace lensward;
using namespace lensward::test;

namespace {

// "Parting(Oda Tobias …)", with what each holds between brackets.
std::string names_of(const std::vector<OutlineEntry>& entries) {
  std::string names;
  for (const OutlineEntry& entry : entries) {
    names += (names.empty() ? "" : " ") + entry.name;
    if (!entry.parts.empty()) names += '(' + names_of(entry.parts) + ')';
  }
  return names;
}

void check_nested(const std::vector<OutlineEntry>& entries, Span within) {
  for (const OutlineEntry& entry : entries) {
    CHECK(within.begin <= entry.whole.begin);
    CHECK(entry.whole.end <= within.end);
    CHECK(entry.whole.begin <= entry.named.begin);
    CHECK(entry.named.end <= entry.whole.end);
    check_nested(entry.parts, entry.whole);
  }
}

}  // namespace

TEST_CASE("headings hold what stands below them") {
  const ReadFiles read = read_scene();
  const auto outline = outline_of_file(read);
  CHECK(names_of(outline) == "Parting(Oda Tobias Bench Letter A B Ours opening Asking Answer(B))");
  check_nested(outline, {0, 0, static_cast<std::uint32_t>(read.text().size())});
  REQUIRE(outline.size() == 1);
  CHECK(outline[0].detail == "The last tram");
  CHECK(outline[0].whole.end == read.text().size());
}

TEST_CASE("a file without a heading has its lines at the top") {
  CHECK(names_of(outline_of_file(read_scene("staging 1.0 scene\npeople Oda\nbeat One\n"))) == "Oda One");
  CHECK(outline_of_file(read_scene("")).empty());
}
