#include "pages/labels.h"

#include <catch2/catch.hpp>
#include <random>

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
