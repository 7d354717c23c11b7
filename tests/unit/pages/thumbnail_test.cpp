#include "pages/thumbnail.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "pages/thumbnail_trace.h"

using namespace lensward;

namespace {

template <class Value>
Lane<Value> still(Value value) {
  return {{Moment{0}, Moment{0}, value, value, Origin::said, {}}};
}

void add_person(Plan& plan, const std::string& name, Vec2 at, double facing) {
  Person person;
  person.name = person.called = name;
  plan.stage.people.push_back(person);
  PersonTrack track;
  track.present = still(true);
  track.feet = still(Walk{{at}});
  track.body = still(Facing{Degrees{facing}, {}});
  track.stance = still(Stance{});
  plan.people.push_back(track);
}

// Two people before a camera that looks north.
Plan two_people() {
  Plan plan;
  plan.stage.room.outline = {{-3, 0}, {3, 0}, {3, 5}, {-3, 5}};
  add_person(plan, "Runa", {-0.6, 3}, 180);
  add_person(plan, "Piet", {0.7, 3.5}, 180);
  Camera camera;
  camera.name = "A";
  plan.stage.cameras.push_back(camera);
  CameraTrack track;
  track.place = still(Vec3{0, -1, 1.5});
  track.aim = still(Vec2{0, -3});
  track.focal = still(Millimetres{28});
  track.stop = still(FNumber{5.6});
  track.focus = still(Metres{4});
  plan.cameras.push_back(track);
  plan.cuts.push_back({Moment{0}, CameraId{0}, {}});
  Beat beat;
  beat.name = "Sale";
  beat.end = Moment{4000};
  plan.beats.push_back(beat);
  return plan;
}

void each_item(const Group& group, const std::function<void(const Item&)>& visit) {
  for (const Item& item : group.items) {
    visit(item);
    if (const Group* inner = std::get_if<Group>(&item.body)) each_item(*inner, visit);
  }
}

std::vector<Text> texts_of(const Group& group) {
  std::vector<Text> texts;
  each_item(group, [&](const Item& item) {
    if (const Text* text = std::get_if<Text>(&item.body)) texts.push_back(*text);
  });
  return texts;
}

int strokes_in(const Group& group, Ink ink) {
  int count = 0;
  each_item(group, [&](const Item& item) {
    const Shape* shape = std::get_if<Shape>(&item.body);
    if (shape != nullptr && (shape->stroke.ink == ink || shape->fill.ink == ink)) ++count;
  });
  return count;
}

bool has_group(const Group& group, const std::string& id) {
  bool found = group.id == id;
  each_item(group, [&](const Item& item) {
    const Group* inner = std::get_if<Group>(&item.body);
    if (inner != nullptr && inner->id == id) found = true;
  });
  return found;
}

LabelMap map_of(std::vector<std::string> rows) {
  LabelMap map;
  map.width = static_cast<int>(rows.front().size());
  map.height = static_cast<int>(rows.size());
  for (const std::string& row : rows) {
    for (const char letter : row) map.label.push_back(letter - '0');
  }
  return map;
}

const auto exact = [](int, int) { return Finish{0, 0.01}; };

}  // namespace

TEST_CASE("loops enclose as many pixels as their label has, holes taken out") {
  const LabelMap map = map_of({"000000", "011110", "012210", "012210", "011110", "000000"});
  const std::vector<Arc> arcs = arcs_of(map, exact);
  const auto areas_of = [&](int label) {
    std::vector<double> areas;
    for (const auto& loop : loops_of(arcs, label)) areas.push_back(loop_area(loop));
    std::sort(areas.begin(), areas.end());
    return areas;
  };
  // Rings run through the middles of pixel sides, which cuts an eighth of a pixel off each of four corners.
  REQUIRE(areas_of(2).size() == 1);
  CHECK(areas_of(2)[0] == Approx(4 - 0.5));
  REQUIRE(areas_of(1).size() == 2);
  CHECK(areas_of(1)[1] - areas_of(1)[0] == Approx(12));
}

TEST_CASE("where three labels meet their borders meet too") {
  const LabelMap map = map_of({"0011", "0011", "2222", "2222"});
  int at_meeting = 0;
  for (const Arc& arc : arcs_of(map, [](int, int) { return Finish{4, 0.5}; })) {
    if (arc.left < 0 || arc.right < 0) continue;
    for (const Vec2 end : {arc.points.front(), arc.points.back()}) at_meeting += end == Vec2{2, 2} ? 1 : 0;
  }
  CHECK(at_meeting == 3);
}

TEST_CASE("one label touching itself at a corner still gives closed loops") {
  const LabelMap map = map_of({"1100", "1100", "0011", "0011"});
  double sum = 0;
  for (const auto& loop : loops_of(arcs_of(map, exact), 1)) sum += loop_area(loop);
  CHECK(sum == Approx(8).margin(1.01));
}

TEST_CASE("a stepped border is drawn straight within its tolerance") {
  std::vector<std::string> rows;
  for (int y = 0; y < 12; ++y) rows.push_back(std::string(40, '0'));
  for (int x = 0; x < 40; ++x) {
    for (int y = 0; y < 12; ++y)
      rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] = y < 3 + x / 8 ? '0' : '1';
  }
  for (const Arc& arc : arcs_of(map_of(rows), [](int, int) { return Finish{1, 1.0}; })) {
    if (arc.left >= 0 && arc.right >= 0) CHECK(arc.points.size() <= 3);
  }
}

TEST_CASE("a frame keeps the picture's proportions and leaves room for the names") {
  const Plan plan = two_people();
  const Group group = thumbnail(plan, Moment{0}, {10, 20}, {90, 200}, {}, "sale/frame");
  const Shape* frame = std::get_if<Shape>(&group.items.back().body);
  REQUIRE(frame != nullptr);
  double low = 1e9, high = -1e9, left = 1e9, right = -1e9;
  for (const PathStep& step : frame->steps) {
    if (step.kind == PathStep::Kind::close) continue;
    low = std::min(low, step.to.y);
    high = std::max(high, step.to.y);
    left = std::min(left, step.to.x);
    right = std::max(right, step.to.x);
  }
  CHECK(right - left == Approx(90));
  CHECK((right - left) / (high - low) == Approx(24.89 / 13.454));
  CHECK(thumbnail_height(plan, Moment{0}, 90) == Approx(high - low + names_under_frame));
}

TEST_CASE("everybody in the picture is named under the frame, below their head") {
  const Plan plan = two_people();
  const Group group = thumbnail(plan, Moment{0}, {0, 0}, {120, 200}, {}, "f");
  const std::vector<Text> texts = texts_of(group);
  REQUIRE(texts.size() == 2);
  const double foot = 120 * 13.454 / 24.89;
  for (const Text& text : texts) {
    CHECK(text.at.y > foot);
    CHECK(text.at.y < foot + names_under_frame);
  }
  // Tangent of the bearing from the lens, against half the gate over the focal length.
  const auto across = [](double x, double y) { return 60 + 60 * (x / y) / (0.5 * 24.89 / 28); };
  CHECK(texts[0].words == "Runa");
  CHECK(texts[0].at.x == Approx(across(-0.6, 4)).margin(1.5));
  CHECK(texts[1].words == "Piet");
  CHECK(texts[1].at.x == Approx(across(0.7, 4.5)).margin(1.5));
  CHECK(has_group(group, "f/picture/person-runa"));
  CHECK(has_group(group, "f/picture/set"));
}

TEST_CASE("the favoured is marked by accent, by weight of name and by a sign; nobody else is") {
  const Plan plan = two_people();
  const Group plain = thumbnail(plan, Moment{0}, {0, 0}, {120, 200}, {}, "f");
  const Group marked = thumbnail(plan, Moment{0}, {0, 0}, {120, 200}, {Target::Kind::person, 1, {}}, "f");
  CHECK(strokes_in(plain, Ink::accent) == 0);
  CHECK(strokes_in(marked, Ink::accent) == 2);
  for (const Text& text : texts_of(marked)) CHECK((text.face == Face::sans_bold) == (text.words == "Piet"));
}

TEST_CASE("somebody far out of focus is a soft picture, and a sharp one is not") {
  Plan plan = two_people();
  const auto pictures = [](const Group& group) {
    int count = 0;
    each_item(group, [&](const Item& item) {
      const Picture* picture = std::get_if<Picture>(&item.body);
      if (picture == nullptr) return;
      ++count;
      CHECK(picture->grey.size() == picture->alpha.size());
      CHECK(picture->grey.size() ==
            static_cast<std::size_t>(picture->width) * static_cast<std::size_t>(picture->height));
      CHECK(*std::max_element(picture->alpha.begin(), picture->alpha.end()) > 200);
    });
    return count;
  };
  CHECK(pictures(thumbnail(plan, Moment{0}, {0, 0}, {120, 200}, {}, "f")) == 0);
  plan.people[0].feet = still(Walk{{{-0.2, 0.4}}});
  plan.cameras[0].stop = still(FNumber{1.4});
  plan.cameras[0].focal = still(Millimetres{50});
  CHECK(pictures(thumbnail(plan, Moment{0}, {0, 0}, {120, 200}, {}, "f")) == 1);
}

TEST_CASE("frames that show little or nothing are drawn all the same") {
  Plan plan = two_people();
  const auto drawn = [&] { return thumbnail(plan, Moment{0}, {0, 0}, {120, 90}, {Target::Kind::person, 0, {}}, "f"); };
  const auto finite = [](const Group& group) {
    bool all = true;
    each_item(group, [&](const Item& item) {
      if (const Shape* shape = std::get_if<Shape>(&item.body)) {
        for (const PathStep& step : shape->steps) all = all && std::isfinite(step.to.x) && std::isfinite(step.to.y);
      }
    });
    return all;
  };
  SECTION("no camera") {
    plan.stage.cameras.clear();
    CHECK(drawn().items.size() == 1);
  }
  SECTION("the lens inside a person") {
    plan.people[0].feet = still(Walk{{{0, -1}}});
    CHECK(finite(drawn()));
  }
  SECTION("nobody present") {
    for (PersonTrack& track : plan.people) track.present = still(false);
    CHECK(texts_of(drawn()).empty());
  }
  SECTION("a room of no size, in the open, in the dark") {
    plan.stage.room.outline = {{0, 0}, {0, 0}, {0, 0}};
    CHECK(finite(drawn()));
    plan.stage.room.outline.clear();
    CHECK(finite(drawn()));
    Lamp lamp;
    plan.stage.lamps.push_back(lamp);
    LampTrack track;
    track.place = still(Vec3{0, 3, 2});
    track.aim = still(Vec3{0, 3, 0});
    track.level = still(Share{0});
    plan.lamps.push_back(track);
    CHECK(finite(drawn()));
  }
  SECTION("a frame of no size") { CHECK(finite(thumbnail(plan, Moment{0}, {0, 0}, {0, 0}, {}, "f"))); }
}

TEST_CASE("the caption says beat, time, lens and for whom") {
  const Plan plan = two_people();
  CHECK(frame_caption(plan, Moment{1200}, {Target::Kind::person, 1, {}}) ==
        "Sale · 0:01.2 · A: 28 mm at T5.6, focus 4 m · for Piet");
}
