#include "source/source_file.h"

#include <catch2/catch.hpp>

using namespace lensward;

TEST_CASE("lines end at LF or CRLF and the last may lack an end") {
  const SourceFile file("a", "one\r\ntwo\n\nfour");
  REQUIRE(file.line_count() == 4);
  CHECK(file.line_text(1) == "one");
  CHECK(file.line_text(2) == "two");
  CHECK(file.line_text(3).empty());
  CHECK(file.line_text(4) == "four");
  CHECK(file.line_start(2) == 5);
  CHECK(SourceFile("a", "one\n").line_count() == 1);
  CHECK(SourceFile("a", "").line_count() == 1);
  CHECK(SourceFile("a", "").line_text(1).empty());
  CHECK(SourceFile("a", "a\rb").line_text(1) == "a\rb");
}

TEST_CASE("columns count code points") {
  // 小 takes three bytes, é two, the musical G clef four.
  const SourceFile file("a", "小é\xF0\x9D\x84\x9Ex\n\ty");
  CHECK(file.position(0) == Position{1, 1});
  CHECK(file.position(3) == Position{1, 2});
  CHECK(file.position(5) == Position{1, 3});
  CHECK(file.position(9) == Position{1, 4});
  CHECK(file.position(12) == Position{2, 2});
  // Within a character is at it.
  CHECK(file.position(1) == Position{1, 1});
  CHECK(file.position(4) == Position{1, 2});
}

TEST_CASE("a byte-order mark is no column") {
  const SourceFile file("a", "\xEF\xBB\xBFstaging");
  CHECK(file.position(0) == Position{1, 1});
  CHECK(file.position(3) == Position{1, 1});
  CHECK(file.position(4) == Position{1, 2});
}

TEST_CASE("bytes that are not UTF-8 count one each") {
  // A stray trail, a cut-off three-byte lead with one trail, an overlong slash, a surrogate.
  CHECK(SourceFile("a", "\x80z").position(1) == Position{1, 2});
  CHECK(SourceFile("a", "\xE5\xB0z").position(2) == Position{1, 3});
  CHECK(SourceFile("a", "\xC0\xAFz").position(2) == Position{1, 3});
  CHECK(SourceFile("a", "\xED\xA0\x80z").position(3) == Position{1, 4});
}

TEST_CASE("any offset has a position") {
  const SourceFile file("a", "one\r\ntwo\n");
  CHECK(file.position(3) == Position{1, 4});
  CHECK(file.position(4) == Position{1, 4});
  CHECK(file.position(5) == Position{2, 1});
  CHECK(file.position(9) == Position{2, 4});
  CHECK(file.position(4000000000u) == Position{2, 4});
  CHECK(SourceFile("a", "").position(7) == Position{1, 1});
}

TEST_CASE("a set keeps its files and cuts spans out of them") {
  SourceSet sources;
  CHECK(sources.add(SourceFile("a", "one two")) == 0);
  CHECK(sources.add(SourceFile("b", "three")) == 1);
  CHECK(sources.text({0, 4, 7}) == "two");
  CHECK(sources.text({1, 1, 99}) == "hree");
  CHECK(sources.text({1, 90, 99}).empty());
  CHECK(sources.begin_of({0, 4, 7}) == Position{1, 5});
  CHECK(sources.end_of({0, 4, 7}) == Position{1, 8});
}

// Widths from Unicode's EastAsianWidth.txt (W and F are wide) and the general categories Mn, Me and Cf.
TEST_CASE("display width") {
  CHECK(display_width("Oda") == 3);
  CHECK(display_width("小林") == 4);
  CHECK(display_width("e\xCC\x81") == 1);
  CHECK(display_width("é") == 1);
  CHECK(display_width("Ａ") == 2);
  CHECK(display_width("ｱ") == 1);
  CHECK(display_width("한") == 2);
  CHECK(display_width("\xE1\x84\x92\xE1\x85\xA1\xE1\x86\xAB") == 2);
  CHECK(display_width("\xEF\xBB\xBF") == 0);
  CHECK(display_width("\x80\xFF") == 2);
  CHECK(display_width("") == 0);
}
