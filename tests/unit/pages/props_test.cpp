#include <algorithm>
#include <catch2/catch.hpp>

#include "../../pages/sample_scene.h"
#include "pages/overhead.h"

using namespace lensward;

namespace {

void add_prop(sample::Scene& scene, const char* name, const Target& rests) {
  Prop prop;
  prop.name = name;
  scene.plan.stage.props.push_back(prop);
  scene.plan.props.push_back({{sample::from_start(rests)}});
}

const Group* group_named(const Group& group, const std::string& id) {
  for (const Item& item : group.items) {
    const auto* inner = std::get_if<Group>(&item.body);
    if (inner == nullptr) continue;
    if (inner->id == id) return inner;
    if (const Group* found = group_named(*inner, id)) return found;
  }
  return nullptr;
}

struct Floor {
  explicit Floor(const sample::Scene& scene, Moment moment = Moment{2000})
      : drawing(draw_overhead(scene.results(), 0, moment, {0, 0}, {112, 120})) {}

  const Group* mark(const std::string& name) const { return group_named(drawing.group, "floor-papers/prop-" + name); }
  const Group* label(const std::string& name) const {
    return group_named(drawing.group, "floor-papers/prop-" + name + "/name");
  }
  // The mark is drawn round its middle.
  Vec2 place(const std::string& name) const {
    const auto& steps = std::get<Shape>(mark(name)->items.front().body).steps;
    return (steps[0].to + steps[2].to) * 0.5;
  }
  // A metre is 1000 / 75 mm.
  double metres(const std::string& a, const std::string& b) const {
    return length(place(a) - place(b)) * drawing.denominator / 1000;
  }

  Overhead drawing;
};

}  // namespace

TEST_CASE("a thing is drawn where it rests, with its name and in words") {
  sample::Scene scene = sample::kitchen();
  add_prop(scene, "Letter", sample::piece(1));
  add_prop(scene, "Cup", {Target::Kind::point, -1, {2.5, 2.5, 0}});
  add_prop(scene, "Ring", sample::person(0));
  scene.plan.people[0].right_hand = {sample::from_start(Target{Target::Kind::prop, 2, {}})};
  add_prop(scene, "Purse", sample::person(0));
  const Floor floor(scene);
  for (const char* name : {"letter", "cup", "ring", "purse"}) {
    INFO(name);
    REQUIRE(floor.mark(name) != nullptr);
    REQUIRE(floor.label(name) != nullptr);
  }
  CHECK(floor.mark("letter")->description == "Letter on Table");
  CHECK(floor.mark("ring")->description == "Ring in the hand of Oda");
  CHECK(floor.mark("purse")->description == "Purse with Oda");
  // The table's middle is at (3.5, 2.5), a metre east of the cup.
  CHECK(floor.metres("letter", "cup") == Approx(1).margin(0.01));
}

TEST_CASE("a thing is not drawn when it is not there, and not with somebody who is away") {
  sample::Scene scene = sample::kitchen();
  add_prop(scene, "Letter", {});
  add_prop(scene, "Parcel", sample::person(4));
  const Floor floor(scene);
  CHECK(floor.mark("letter") == nullptr);
  CHECK(floor.mark("parcel") == nullptr);
  CHECK(Floor(scene, Moment{9000}).mark("parcel") != nullptr);
}

TEST_CASE("things in one place are drawn side by side") {
  sample::Scene scene = sample::kitchen();
  for (const char* name : {"Fork", "Knife", "Spoon"}) add_prop(scene, name, sample::piece(1));
  const Floor floor(scene);
  CHECK(length(floor.place("fork") - floor.place("knife")) > 1.5);
  CHECK(length(floor.place("knife") - floor.place("spoon")) > 1.5);
}
