#include "type/face.h"

#include <catch2/catch.hpp>

#include "type/font_part.h"

using namespace lensward;

namespace {
const Face all_faces[] = {Face::sans,  Face::sans_bold,    Face::sans_italic,
                          Face::serif, Face::serif_italic, Face::serif_bold};
}

TEST_CASE("every face is built in and is an OpenType font") {
  // OpenType 1.9, "Organization of an OpenType font": fonts with CFF outlines begin with "OTTO".
  for (const Face face : all_faces) CHECK(font_bytes(face).substr(0, 4) == "OTTO");
}

TEST_CASE("digits are equally wide, so that columns of numbers align") {
  for (const Face face : all_faces)
    for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"})
      CHECK(width_of(digit, face, 10) == Approx(width_of("0", face, 10)));
}

TEST_CASE("words are kerned and scale with the size") {
  CHECK(width_of("AV", Face::sans, 10) < width_of("A", Face::sans, 10) + width_of("V", Face::sans, 10));
  CHECK(width_of("Room", Face::serif, 20) == Approx(2 * width_of("Room", Face::serif, 10)));
  CHECK(width_of("", Face::serif, 20) == 0);
}

TEST_CASE("Latin, Greek and Cyrillic are complete; what no face has is told") {
  for (const Face face : all_faces) {
    CHECK(shape("Zażółć gęślą jaźń", face, 1).complete);
    CHECK(shape("Ξεσκεπάζω", face, 1).complete);
    CHECK(shape("Съешь ещё", face, 1).complete);
  }
  CHECK_FALSE(shape("小林", Face::sans, 1).complete);
}

TEST_CASE("broken UTF-8 is shaped, not refused") { CHECK(shape("a\xff\xc3", Face::sans, 10).width > 0); }

TEST_CASE("lines break at spaces, hyphens and dashes, and where the writer broke them") {
  const double width = width_of("the linen press", Face::serif, 4) + 0.01;
  CHECK(break_lines("the linen press stands", Face::serif, 4, width) ==
        std::vector<std::string>{"the linen press", "stands"});
  CHECK(break_lines("one\n\ntwo", Face::serif, 4, 100) == std::vector<std::string>{"one", "", "two"});
  CHECK(break_lines("", Face::serif, 4, 100) == std::vector<std::string>{""});
  const auto hyphened = break_lines("Linen-Press", Face::serif, 4, width_of("Linen-Pr", Face::serif, 4));
  CHECK(hyphened == std::vector<std::string>{"Linen-", "Press"});
}

TEST_CASE("no line is wider than asked, and a word too long is cut at characters") {
  const std::string word = "Żółwżółwżółwżółwżółwżółwżółwżółwżółwżółw";
  const auto lines = break_lines("a " + word + " b", Face::sans, 5, 20);
  std::string joined;
  for (const auto& line : lines) {
    CHECK(width_of(line, Face::sans, 5) <= 20);
    CHECK(shape(line, Face::sans, 5).complete);
    joined += line;
  }
  CHECK(joined == "a" + word + "b");
}

TEST_CASE("a column narrower than a character still ends") {
  CHECK(break_lines("abc", Face::sans, 5, 0.1) == std::vector<std::string>{"a", "b", "c"});
}

TEST_CASE("a part of a face is a font with fewer letters, and the same each time") {
  const std::string few = font_part(Face::serif, {U'a', U'b'}), more = font_part(Face::serif, {U'a', U'b', U'ż', U'Q'});
  // OpenType, "Table Directory": a font with CFF outlines begins with OTTO.
  CHECK(few.starts_with("OTTO"));
  CHECK(few.size() < more.size());
  CHECK(more.size() < font_bytes(Face::serif).size() / 10);
  CHECK(few == font_part(Face::serif, {U'b', U'a'}));
}
