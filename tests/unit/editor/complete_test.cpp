#include "editor/complete.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "scene.h"
#include "syntax/parse.h"

using namespace lensward;
using namespace lensward::test;

namespace {

// What is offered at the end of a line put into the first beat, the likeliest rank first.
std::vector<std::string> offered(const std::string& line, int rank_at_most = 9) {
  const std::size_t place = scene_text.find("  favour Oda");
  const ReadFiles read = read_scene(scene_text.substr(0, place) + line + "\n" + scene_text.substr(place));
  std::vector<std::string> texts;
  for (const Completion& one : completions_at(read, static_cast<std::uint32_t>(place + line.size())).all) {
    if (one.rank <= rank_at_most) texts.push_back(one.text);
  }
  return texts;
}

bool has(const std::vector<std::string>& all, const std::string& text) {
  return std::ranges::find(all, text) != all.end();
}

}  // namespace

TEST_CASE("people come first where somebody is meant, things where a place is") {
  CHECK(offered("  favour ", 0) == std::vector<std::string>{"Oda", "Tobias"});
  CHECK(offered("  Oda to T", 0) == std::vector<std::string>{"Oda", "Tobias"});
  CHECK(offered("  Oda looks at the ", 0) == std::vector<std::string>{"Bench", "Letter"});
}

TEST_CASE("verbs are of who does them") {
  const auto person = offered("  Oda "), camera = offered("  camera A "), several = offered("  Oda and Tobias w");
  CHECK(has(person, "walks"));
  CHECK(has(person, "sits down"));
  CHECK_FALSE(has(person, "pushes in"));
  CHECK(has(camera, "pushes in"));
  CHECK_FALSE(has(camera, "walks"));
  CHECK(has(several, "walk"));
  CHECK_FALSE(has(several, "walks"));
}

TEST_CASE("names that stand behind their own word only") {
  const auto cameras = offered("  camera ", 0);
  CHECK(has(cameras, "A"));
  CHECK(has(cameras, "B"));
  CHECK_FALSE(has(cameras, "Oda"));
  CHECK(offered("  story ", 0) == std::vector<std::string>{"Ours"});
  CHECK_FALSE(has(offered("  favour "), "A"));
}

TEST_CASE("labels and marks are of the beat") {
  CHECK(has(offered("  Oda rises, as ", 0), "Giving"));
  CHECK(has(offered("  Oda rises, on "), "[Turn]"));
}

TEST_CASE("words of the language, units, rules") {
  CHECK(has(offered("  Oda walks to the Bench, "), "facing"));
  CHECK(has(offered("  Oda walks 2 "), "m"));
  CHECK(has(offered("  pause 2 "), "s"));
  CHECK(has(offered("  waive "), "wandering-eye"));
  CHECK(has(offered("  fav"), "favour"));
}

TEST_CASE("nothing where nothing can be said") {
  CHECK(offered("  Oda to Tobias: \"Will y").empty());
  CHECK(offered("  -- as ").empty());
  CHECK(offered("  Oda rises, named ") == std::vector<std::string>{"the"});
  CHECK(offered("  Oda rises up down what ").empty());
  const ReadFiles read = read_scene(scene_text + "beat ");
  for (const Completion& one : completions_at(read, static_cast<std::uint32_t>(read.text().size())).all)
    CHECK(one.kind == Completion::Kind::word);
}

TEST_CASE("the word so far is replaced whole") {
  const ReadFiles read = read_scene();
  CHECK(completions_at(read, at(read, "Tobias rises", 3)).begin == at(read, "Tobias rises"));
}

TEST_CASE("each word of the language that is offered can stand there") {
  // What follows may be wanting, so a line with the word is read at least up to its end.
  for (const std::string line : {"  ", "  Oda ", "  Oda walks to ", "  camera A ", "  Oda walks to the Bench, "}) {
    for (const std::string& word : offered(line)) {
      CAPTURE(line, word);
      SourceSet sources;
      Findings findings;
      const Tree tree = parse(sources, sources.add(SourceFile("", line + word + " \x01")), findings);
      REQUIRE(tree.lines.size() == 1);
      // A finding at the word itself would say that it cannot stand there.
      for (const Finding& finding : findings.all()) {
        const bool unprintable = finding.rule == "parse.unprintable" || finding.where.begin >= line.size();
        CHECK(unprintable);
      }
    }
  }
}
