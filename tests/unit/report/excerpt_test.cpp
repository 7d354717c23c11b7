#include "report/excerpt.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

std::string both(std::string text, std::uint32_t begin, std::uint32_t end, bool caret = true) {
  SourceSet sources;
  sources.add(SourceFile("a.staging", std::move(text)));
  const Excerpt excerpt = excerpt_of(sources, {0, begin, end}, caret);
  return '\n' + excerpt.text_line + '\n' + excerpt.mark_line + '\n';
}

}  // namespace

TEST_CASE("the place is underlined in cells, not bytes") {
  CHECK(both("favour Oda\n", 7, 10) == "\n    1 | favour Oda\n      |        ^~~\n");
  CHECK(both("小林 looks at Oda\n", 16, 19) == "\n    1 | 小林 looks at Oda\n      |               ^~~\n");
  CHECK(both("小林 looks\n", 0, 6) == "\n    1 | 小林 looks\n      | ^~~~\n");
  CHECK(both("favour Oda\n", 7, 10, false) == "\n    1 | favour Oda\n      |        ~~~\n");
}

TEST_CASE("tabs stop every four cells") {
  CHECK(both("\tfavour Oda", 8, 11) == "\n    1 |     favour Oda\n      |            ^~~\n");
  CHECK(both("ab\tOda", 3, 6) == "\n    1 | ab  Oda\n      |     ^~~\n");
}

TEST_CASE("empty spans, spans over lines and spans past the end") {
  CHECK(both("one\ntwo\n", 4, 4) == "\n    2 | two\n      | ^\n");
  CHECK(both("one\ntwo\n", 1, 7) == "\n    1 | one\n      |  ^~\n");
  CHECK(both("one\n", 3, 3) == "\n    1 | one\n      |    ^\n");
  CHECK(both("one\n", 90, 99) == "\n    1 | one\n      |    ^\n");
  CHECK(both("", 0, 0) == "\n    1 | \n      | ^\n");
}

TEST_CASE("what could steer a terminal is not shown") {
  CHECK(both("a\x1b[2Jb\x80", 5, 6) == "\n    1 | a\xEF\xBF\xBD[2Jb\xEF\xBF\xBD\n      |      ^\n");
  CHECK(both("\xEF\xBB\xBFOda", 3, 6) == "\n    1 | Oda\n      | ^~~\n");
}

TEST_CASE("long lines are cut round the place") {
  const std::string text = std::string(300, 'a') + "Oda" + std::string(3000, 'b');
  const std::string shown = both(text, 300, 303);
  CHECK(shown == "\n    1 | …" + std::string(32, 'a') + "Oda" + std::string(61, 'b') + "…\n      | " +
                     std::string(33, ' ') + "^~~\n");
  // The underline ends where the excerpt does.
  const std::string whole = both(text, 0, 3303);
  CHECK(whole == "\n    1 | " + std::string(96, 'a') + "…\n      | ^" + std::string(95, '~') + "\n");
}

TEST_CASE("a line of ten megabytes is cut as well") {
  const std::string shown = both(std::string(10 << 20, 'a'), 5 << 20, (5 << 20) + 3);
  CHECK(shown.size() < 400);
  CHECK(shown.find("^~~") != std::string::npos);
}
