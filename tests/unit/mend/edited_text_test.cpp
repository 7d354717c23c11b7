// Edits of a text, all against one snapshot.
#include "mend/edited_text.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

constexpr std::string_view text = "one\ntwo\nthree\n";

TextEdit edit(std::uint32_t begin, std::uint32_t end, std::string is) { return {{0, begin, end}, std::move(is)}; }

std::string joined(const std::vector<LineChange>& changes) {
  std::string all;
  for (const LineChange& change : changes) {
    all += change.before;
    for (const std::string& line : change.after) all += line;
  }
  return all;
}

}  // namespace

TEST_CASE("edits are made in the order of the text, whatever order they are given in") {
  CHECK(edited_text(text, {edit(8, 13, "3"), edit(0, 3, "1")}) == "1\ntwo\n3\n");
  CHECK(edited_text(text, {}) == text);
}

TEST_CASE("insertions at one place keep their order") {
  CHECK(edited_text(text, {edit(4, 4, "a\n"), edit(4, 4, "b\n")}) == "one\na\nb\ntwo\nthree\n");
}

TEST_CASE("edits overlap when they touch the same bytes; insertions side by side do not") {
  CHECK(overlap(edit(0, 3, ""), edit(2, 5, "")));
  CHECK(overlap(edit(0, 3, ""), edit(0, 3, "")));
  CHECK_FALSE(overlap(edit(0, 3, ""), edit(3, 5, "")));
  CHECK_FALSE(overlap(edit(4, 4, "a"), edit(4, 4, "b")));
  CHECK(overlap(edit(2, 2, "a"), edit(0, 3, "")));
}

TEST_CASE("edits go together when none overlaps and none is made twice") {
  CHECK(go_together({edit(0, 3, "1")}, {edit(4, 7, "2"), edit(4, 4, "a\n")}));
  CHECK_FALSE(go_together({edit(0, 3, "1"), edit(8, 13, "3")}, {edit(9, 10, "x")}));
  CHECK_FALSE(go_together({edit(4, 4, "a\n")}, {edit(4, 4, "a\n")}));
  CHECK(go_together({edit(4, 4, "a\n")}, {edit(4, 4, "b\n")}));
  CHECK(go_together({}, {edit(0, 3, "1")}));
}

TEST_CASE("there is a change for each old line, and together they are the new text") {
  const std::vector<std::vector<TextEdit>> sets{
      {},
      {edit(4, 4, "a\nb\n")},
      {edit(0, 0, "a\n"), edit(14, 14, "z\n")},
      {edit(1, 10, "X")},
      {edit(0, 4, "")},
      {edit(3, 3, "!"), edit(5, 6, "W"), edit(14, 14, "end")},
  };
  for (const auto& edits : sets) {
    const auto changes = line_changes(text, edits);
    CHECK(changes.size() == 3);
    CHECK(joined(changes) == edited_text(text, edits));
  }
}

TEST_CASE("a line put in is one line of a diff") {
  const std::vector<TextEdit> edits{edit(4, 4, "new\n")};
  CHECK(diff_of("s", text, edited_text(text, edits), line_changes(text, edits)) ==
        "--- s\n+++ s\n@@ -1,3 +1,4 @@\n one\n+new\n two\n three\n");
}

TEST_CASE("a last line without an end stays without one") {
  const std::vector<TextEdit> edits{edit(0, 0, "zero\n")};
  const auto changes = line_changes("one\ntwo", edits);
  CHECK(joined(changes) == "zero\none\ntwo");
}
