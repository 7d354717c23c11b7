#include "pages/labels.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "pages/draw.h"

using namespace lensward;

namespace {

LabelWish wish_at(Vec2 about, const std::string& name) {
  LabelWish wish;
  wish.lines = {name};
  wish.short_lines = {name.substr(0, 2)};
  wish.about = about;
  wish.clear = 2;
  return wish;
}

// `count` people at places of a 170 by 120 mm sheet, none nearer than 5 mm to another.
struct Crowd {
  LabelGround ground;
  std::vector<LabelWish> wishes;
};
Crowd crowd(unsigned seed, int count) {
  // The C++ standard (rand.eng.mers) fixes the sequence of mt19937; the distributions are not used, as it does not fix
  // theirs.
  std::mt19937 random(seed);
  const auto within = [&random](double low, double high) { return low + (high - low) * (random() % 10000) / 10000.0; };
  Crowd made;
  made.ground.sheet = {{0, 0}, {170, 120}};
  while (static_cast<int>(made.wishes.size()) < count) {
    const Vec2 at{within(5, 165), within(5, 115)};
    bool apart = true;
    for (const LabelWish& other : made.wishes) apart = apart && length(other.about - at) > 5;
    if (!apart) continue;
    made.ground.taken.push_back(LabelArea{at, at}.grown(1.7));
    made.wishes.push_back(wish_at(at, "Person " + std::to_string(made.wishes.size())));
  }
  return made;
}

}  // namespace

TEST_CASE("in 30 crowds no label covers another or anybody, and all stay on the sheet") {
  for (unsigned seed = 1; seed <= 30; ++seed) {
    const Crowd made = crowd(seed, 8 + static_cast<int>(seed));
    const auto labels = place_labels(made.ground, made.wishes);
    REQUIRE(labels.size() == made.wishes.size());
    for (std::size_t i = 0; i < labels.size(); ++i) {
      INFO("crowd " << seed << ", label " << i);
      CHECK(labels[i].free);
      CHECK(made.ground.sheet.holds(labels[i].area));
      for (std::size_t k = 0; k < i; ++k) CHECK_FALSE(labels[i].area.overlaps(labels[k].area));
      for (const LabelArea& person : made.ground.taken) CHECK_FALSE(labels[i].area.overlaps(person));
    }
  }
}

TEST_CASE("every label is within 8 mm of its thing or on a leader") {
  for (unsigned seed = 1; seed <= 30; ++seed) {
    const Crowd made = crowd(seed, 30);
    const auto labels = place_labels(made.ground, made.wishes);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const LabelArea& area = labels[i].area;
      const Vec2 about = made.wishes[i].about;
      const Vec2 nearest{std::clamp(about.x, area.low.x, area.high.x), std::clamp(about.y, area.low.y, area.high.y)};
      CHECK((length(nearest - about) <= 8 || labels[i].leader.has_value()));
    }
  }
}

TEST_CASE("with free ground the name stands to the right, without a leader") {
  LabelGround ground;
  ground.sheet = {{0, 0}, {100, 100}};
  const auto labels = place_labels(ground, {wish_at({50, 50}, "Oda")});
  CHECK(labels[0].area.low.x > 52);
  CHECK(labels[0].area.low.y < 50);
  CHECK(labels[0].area.high.y > 50);
  CHECK_FALSE(labels[0].leader);
}

TEST_CASE("where the name finds no room its number does, and where nothing does it is told") {
  LabelGround ground;
  ground.sheet = {{0, 0}, {14, 8}};
  ground.taken = {LabelArea{{0, 0}, {8, 8}}};
  const auto labels = place_labels(ground, {wish_at({4, 4}, "A name far too long for this")});
  CHECK(labels[0].is_short);
  CHECK(labels[0].free);
  ground.taken = {ground.sheet};
  CHECK_FALSE(place_labels(ground, {wish_at({4, 4}, "Oda")})[0].free);
}

TEST_CASE("the areas of a shape lie close to it, and open lines have none") {
  // A square of side 10 on its corner: its box is twice as large as itself.
  const Item diamond = shape(polygon({{10, 0}, {17, 7}, {10, 14}, {3, 7}}), {}, pen(Ink::black, hairline));
  const std::vector<LabelArea> areas = areas_of({diamond, line({0, 0}, {50, 50}, pen(Ink::black, hairline))});
  REQUIRE(areas.size() == 6);
  const auto covered = [&](Vec2 point) {
    return std::ranges::any_of(areas, [&](const LabelArea& area) { return area.holds({point, point}); });
  };
  for (const Vec2 corner : {Vec2{10, 0}, Vec2{17, 7}, Vec2{10, 14}, Vec2{3, 7}, Vec2{10, 7}}) CHECK(covered(corner));
  for (const Vec2 outside : {Vec2{4, 1}, Vec2{16, 1}, Vec2{4, 13}, Vec2{16, 13}}) CHECK_FALSE(covered(outside));
}

TEST_CASE("a leader begins at the edge of its thing and ends at the words, not where a shorter line leaves room") {
  LabelWish wish;
  wish.lines = {"a long first line", "short"};
  wish.about = {60, 60};
  wish.clear = 5;
  wish.own_end = 1;
  LabelGround ground{{{0, 0}, {100, 100}}, {LabelArea{wish.about, wish.about}.grown(2)}, {}};
  // Only above, to the left, is there room.
  ground.taken.push_back({{0, 30}, {100, 57.9}});
  ground.taken.push_back({{0, 62.1}, {100, 100}});
  ground.taken.push_back({{0, 0}, {100, 3}});
  ground.taken.push_back({{62.1, 0}, {100, 100}});
  ground.taken.push_back({{0, 57.9}, {57.9, 62.1}});
  const PlacedLabel label = place_labels(ground, {wish}).front();
  REQUIRE(label.free);
  REQUIRE(label.leader);
  CHECK(std::max(std::fabs(label.leader->from.x - 60), std::fabs(label.leader->from.y - 60)) == Approx(2).margin(1e-6));
  const Vec2 end = label.leader->to;
  CHECK(
      std::ranges::any_of(label.line_areas, [&](const LabelArea& area) { return area.grown(1e-6).holds({end, end}); }));
  CHECK(label.line_areas[1].high.x - label.line_areas[1].low.x <
        label.line_areas[0].high.x - label.line_areas[0].low.x);
}
