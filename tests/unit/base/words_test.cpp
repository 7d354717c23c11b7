// First and last words of each table, and some between: a table out of step with its enumeration shows here.
#include "base/words.h"

#include <catch2/catch.hpp>
#include <string>

using namespace lensward;

TEST_CASE("words are spelt as the language spells them") {
  CHECK(std::string(spelling(Compass::north_east)) == "north-east");
  CHECK(std::string(spelling(Compass::north_west)) == "north-west");
  CHECK(std::string(spelling(Side::right)) == "right");
  CHECK(std::string(spelling(ShotSize::extreme_close_up)) == "extreme close-up");
  CHECK(std::string(spelling(ShotSize::medium_close_up)) == "medium close-up");
  CHECK(std::string(spelling(ShotSize::knee_shot)) == "knee shot");
  CHECK(std::string(spelling(ShotSize::extreme_wide_shot)) == "extreme wide shot");
  CHECK(std::string(spelling(BodyView::three_quarter_back)) == "three-quarter back");
  CHECK(std::string(spelling(BodyView::back)) == "back");
  CHECK(std::string(spelling(Posture::perching)) == "perching");
  CHECK(std::string(spelling(Posture::lying)) == "lying");
  CHECK(std::string(spelling(Loudness::plain)).empty());
  CHECK(std::string(spelling(Loudness::shouted)) == "shouted");
  CHECK(std::string(spelling(Tone::light)) == "light");
  CHECK(std::string(spelling(PieceKind::table)) == "table");
  CHECK(std::string(spelling(PieceKind::fridge)) == "fridge");
  CHECK(std::string(spelling(PieceKind::armchair)) == "armchair");
  CHECK(std::string(spelling(PieceKind::trolley)) == "trolley");
  CHECK(std::string(spelling(PieceKind::hedge)) == "hedge");
  CHECK(std::string(spelling(PieceKind::box)) == "box");
}
