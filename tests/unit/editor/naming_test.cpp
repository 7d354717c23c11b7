#include "editor/naming.h"

#include <catch2/catch.hpp>

#include "scene.h"

using namespace lensward;
using namespace lensward::test;

namespace {

// The lines on which the same is named.
std::vector<int> lines_of(const ReadFiles& read, std::uint32_t offset) {
  const auto mention = mention_at(read, offset);
  REQUIRE(mention);
  std::vector<int> lines;
  for (const Mention& place : places_of(read, *mention)) lines.push_back(read.sources.begin_of(place.span).line);
  return lines;
}

std::string text_with(const ReadFiles& read, std::uint32_t offset, const std::string& name) {
  const auto made = renamed(read, offset, name);
  const auto* refused = std::get_if<NotRenamed>(&made);
  return refused != nullptr ? "refused: " + refused->reason
                            : edited_text(read.text(), std::get<std::vector<TextEdit>>(made));
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t found = text.find(from);
  REQUIRE(found != std::string::npos);
  return text.replace(found, from.size(), to);
}

}  // namespace

TEST_CASE("a person is named in declarations, deeds, cues, owners and opening words, not in what is spoken") {
  const ReadFiles read = read_scene();
  CHECK(lines_of(read, at(read, "Oda, Tobias")) == std::vector<int>{3, 5, 8, 11, 16, 17, 18, 20, 25, 28, 28});
  CHECK(lines_of(read, at(read, "Oda's")) == std::vector<int>{3, 5, 8, 11, 16, 17, 18, 20, 25, 28, 28});
}

TEST_CASE("a label holds within its beat") {
  const ReadFiles read = read_scene();
  CHECK(lines_of(read, at(read, "named Giving", 6)) == std::vector<int>{18, 19, 21});
  CHECK(lines_of(read, at(read, "rises, named Giving", 13)) == std::vector<int>{24, 25});
}

TEST_CASE("marks, beats, seats and cameras") {
  const ReadFiles read = read_scene();
  CHECK(lines_of(read, at(read, "[Turn]", 1)) == std::vector<int>{17, 20});
  CHECK(lines_of(read, at(read, "mark T1 at", 5)) == std::vector<int>{12, 13});
  CHECK(lines_of(read, at(read, "beat Asking", 5)) == std::vector<int>{15, 27});
  CHECK(lines_of(read, at(read, "Bench.1", 2)) == std::vector<int>{4, 11, 12, 28});
  CHECK(lines_of(read, at(read, "camera A f", 7)) == std::vector<int>{6, 21});
  CHECK_FALSE(mention_at(read, at(read, "you wait")));
  CHECK_FALSE(mention_at(read, at(read, "Oda?")));
  CHECK_FALSE(mention_at(read, at(read, "Oda asks")));
}

TEST_CASE("the same name just behind its last letter") {
  const ReadFiles read = read_scene();
  const auto mention = mention_at(read, at(read, "Tobias rises", 6));
  REQUIRE(mention);
  CHECK(mention->name == "Tobias");
}

TEST_CASE("renaming changes every place and no spoken word") {
  const ReadFiles read = read_scene();
  const std::string text = text_with(read, at(read, "Oda, Tobias"), "Runa");
  CHECK(text.find("\"Will [Turn] you wait, Oda?\"") != std::string::npos);
  CHECK(text.find("\"Oda asks\"") != std::string::npos);
  CHECK(text.find("Runa's front") != std::string::npos);
  CHECK(text.find("instead of Runa gives: Runa puts") != std::string::npos);
  // Of eleven places none is left but the two between quotation marks.
  std::size_t left = 0;
  for (std::size_t found = text.find("Oda"); found != std::string::npos; found = text.find("Oda", found + 1)) ++left;
  CHECK(left == 2);
}

TEST_CASE("renaming a mark in a speech, a beat and a seat") {
  const ReadFiles read = read_scene();
  const std::string mark = text_with(read, at(read, "[Turn]", 2), "Look");
  CHECK(mark == replaced(replaced(scene_text, "[Turn]", "[Look]"), "[Turn]", "[Look]"));
  const std::string beat = text_with(read, at(read, "Asking"), "Begging");
  CHECK(beat == replaced(replaced(scene_text, "Asking", "Begging"), "Asking", "Begging"));
  CHECK(text_with(read, at(read, "Bench.1"), "Pew").find("Oda sits on Pew.1") != std::string::npos);
}

TEST_CASE("refused with the reason") {
  const ReadFiles read = read_scene();
  const std::uint32_t oda = at(read, "Oda, Tobias");
  CHECK(text_with(read, oda, "Tobias") == "refused: `Tobias` is taken: it stands in line 3");
  CHECK(text_with(read, oda, "Giving") == "refused: `Giving` is taken: it stands in line 18");
  CHECK(text_with(read, oda, "LETTER") == "refused: `LETTER` looks like `Letter` in line 5");
  CHECK(text_with(read, at(read, "Asking"), "Answer") == "refused: `Answer` is taken: it stands in line 23");
  CHECK(text_with(read, at(read, "staging"), "Runa") == "refused: there is no name here to change");
  for (const char* name : {"runa", "", "Runa ", "Run a", "Runa.2", "1st", "Runa,Wren", "\n", "\"Runa\"", "Runa--x"})
    CHECK(text_with(read, oda, name).find("is no name") != std::string::npos);
}

TEST_CASE("the same name again changes nothing, other capitals do") {
  const ReadFiles read = read_scene();
  CHECK(text_with(read, at(read, "Letter"), "Letter") == scene_text);
  CHECK(text_with(read, at(read, "Letter"), "LetteR").find("LetteR") != std::string::npos);
}

TEST_CASE("opening words that would no longer fit keep the name") {
  const ReadFiles read = read_scene(
      "staging 1.0 scene\nscene S\npeople Oda\nfurniture Table\n\nbeat One\n  Oda walks to the Table\n\n"
      "way B of One\n  without Oda walks to the Tab\n");
  CHECK(text_with(read, at(read, "Table"), "Desk").find("opening words of a change") != std::string::npos);
  CHECK(text_with(read, at(read, "Oda"), "Wren").find("without Wren walks") != std::string::npos);
}

TEST_CASE("what a shared file declares is renamed in every scene of the film") {
  const std::map<std::string, std::string> files{
      {"film.staging", "staging 1.0 film\nfilm F\nuse \"company\"\norder \"one\"\norder \"two\"\n"},
      {"company.staging", "staging 1.0 company\ncompany C\nperson Oda\nperson Wren\n"},
      {"one.staging", "staging 1.0 scene\nscene One\nroom 4 m by 4 m\nbeat A\n  Oda is centre\n"},
      {"two.staging", "staging 1.0 scene\nscene Two\nprop Cup\nbeat A\n  Oda looks at Wren\n"},
  };
  const ReadFiles read = read_from(files, "one.staging");
  const auto mention = mention_at(read, at(read, "Oda"));
  REQUIRE(mention);
  std::vector<std::string> places;
  for (const Mention& place : places_of(read, *mention)) places.push_back(read.sources.file(place.span.file).name());
  std::ranges::sort(places);
  REQUIRE(places.size() == 3);
  CHECK(places[0].ends_with("company.staging"));
  CHECK(places[1].ends_with("one.staging"));
  CHECK(places[2].ends_with("two.staging"));
  const auto taken = renamed(read, at(read, "Oda"), "Cup");
  REQUIRE(std::holds_alternative<NotRenamed>(taken));
  CHECK(std::get<NotRenamed>(taken).reason.find("two.staging, line 3") != std::string::npos);
}
