#include "pages/undrawn.h"

#include <catch2/catch.hpp>

#include "../../pages/sample_scene.h"
#include "pages/draw.h"

using namespace lensward;

namespace {

Sheet sheet_with(const std::vector<std::string>& texts) {
  Sheet sheet;
  Group inner;
  for (const std::string& text : texts) inner.items.push_back(words({10, 10}, text, Face::sans, 3));
  sheet.items.push_back({std::move(inner)});
  return sheet;
}

}  // namespace

TEST_CASE("words with letters that no face has are named once, with those letters") {
  const std::vector<UndrawnWord> found =
      undrawn_words({sheet_with({"Oda", "\u5c0f\u6797 K1"}),
                     sheet_with({"(\u5c0f\u6797)", "a\u6797\u6797b, c", "b\u6842\u6842\u6797b, c"})});
  REQUIRE(found.size() == 2);
  CHECK(found[0].word == "\u5c0f\u6797");
  CHECK(found[0].letters == std::vector<std::string>{"\u5c0f", "\u6797"});
  CHECK(found[1].word == "b\u6842\u6842\u6797b");
  CHECK(found[1].letters == std::vector<std::string>{"\u6842", "\u6797"});
}

TEST_CASE("accents, Greek and Cyrillic are drawn") {
  CHECK(undrawn_words({sheet_with({"In\u00eas \u0141ucja", "\u0395\u03bb\u03ad\u03bd\u03b7",
                                   "\u041e\u043b\u044f \u2013 \u201cyes\u201d"})})
            .empty());
}

TEST_CASE("a book without strange letters has no such word, its own signs included") {
  CHECK(undrawn_words(lay_out_book(sample::kitchen().results()).sheets).empty());
}
