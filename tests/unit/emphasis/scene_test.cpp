// Whole scenes made by hand, through the lens: the golden scene, and properties that need a plan in motion.
#include <catch2/catch.hpp>

#include "base/angle.h"
#include "emphasis/judge.h"
#include "emphasis/sampling.h"
#include "emphasis/weigh.h"

using namespace lensward;

namespace {

template <class Value>
Segment<Value> from_the_start(Value value) {
  return {Moment{0}, Moment{0}, value, value, Origin::said, {}};
}

struct Staged {
  Plan plan;

  explicit Staged(int length) {
    plan.stage.cameras.push_back({"A", Millimetres{24.89}, Millimetres{13.454}, {}, {}, Origin::said});
    CameraTrack camera;
    camera.place.push_back(from_the_start(Vec3{0, 0, 1.5}));
    camera.aim.push_back(from_the_start(Vec2{0, 0}));
    camera.focal.push_back(from_the_start(Millimetres{35}));
    camera.stop.push_back(from_the_start(FNumber{2.8}));
    camera.focus.push_back(from_the_start(Metres{3}));
    plan.cameras.push_back(camera);
    plan.cuts.push_back({Moment{0}, CameraId{0}, {}});
    plan.beats.push_back(Beat{.name = "One", .title = "", .begin = Moment{0}, .end = Moment{length}});
  }

  void lamp(Vec3 at, double candela) {
    Lamp lamp;
    lamp.name = "Lamp";
    lamp.kind = Lamp::Kind::practical;
    lamp.intensity = Candela{candela};
    plan.stage.lamps.push_back(lamp);
    LampTrack track;
    track.place.push_back(from_the_start(at));
    track.aim.push_back(from_the_start(Vec3{at.x, at.y, 0}));
    track.level.push_back(from_the_start(Share{1}));
    plan.lamps.push_back(track);
  }

  void person(const char* name, Vec2 at, double stature, Vec2 faces) {
    Person person;
    person.name = name;
    person.stature = Metres{stature};
    plan.stage.people.push_back(person);
    PersonTrack track;
    track.present.push_back(from_the_start(true));
    track.feet.push_back({Moment{0}, Moment{0}, {}, Walk{{at}}, Origin::said, {}});
    track.body.push_back(from_the_start(Facing{bearing_of(faces), {}}));
    plan.people.push_back(track);
  }

  void walk(int who, Vec2 from, Vec2 to, int begin, int end) {
    plan.people[static_cast<std::size_t>(who)].feet.push_back(
        {Moment{begin}, Moment{end}, {}, Walk{{from, to}}, Origin::said, {}});
  }

  void speech(int who, int begin, int end) {
    Speech speech;
    speech.speaker = PersonId{who};
    speech.begin = Moment{begin};
    speech.end = Moment{end};
    plan.speeches.push_back(speech);
  }
};

// Camera (0, 0, 1.5) looking north, 35 mm on 24.89 mm at T2.8, focus 3 m; one lamp of 1000 cd at (-2, 1.5, 2.4).
Staged golden_scene() {
  Staged scene(4000);
  scene.lamp({-2, 1.5, 2.4}, 1000);
  scene.person("A", {-0.6, 3.0}, 1.75, {0.35, -1});
  scene.person("B", {0.9, 5.0}, 1.65, {-1, -0.6});
  scene.person("C", {0.2, 4.0}, 1.80, {0, 1});
  return scene;
}

double points(const Sample& sample, int who) { return sample.standings[static_cast<std::size_t>(who)].points.value; }
double share(const Sample& sample, int who) { return sample.standings[static_cast<std::size_t>(who)].share.value; }

}  // namespace

TEST_CASE("golden scene through the lens: with nobody speaking A leads B leads C; C is not nothing for having a back") {
  const Attention attention = weigh(golden_scene().plan);
  const Sample& late = sample_at(attention, Moment{3000});
  CHECK(points(late, 0) > points(late, 1));
  CHECK(points(late, 1) > points(late, 2));
  CHECK(late.holder == Target{Target::Kind::person, 0, {}});
}

TEST_CASE("golden scene through the lens: when B speaks B gains and C stays last") {
  Staged scene = golden_scene();
  const double before = share(sample_at(weigh(scene.plan), Moment{3000}), 1);
  scene.speech(1, 1000, 4000);
  const Attention attention = weigh(scene.plan);
  const Sample& late = sample_at(attention, Moment{3000});
  CHECK(share(late, 1) > before + 0.02);
  CHECK(points(late, 2) < points(late, 0));
  CHECK(points(late, 2) < points(late, 1));
}

namespace {

Staged moving_scene() {
  Staged scene(8000);
  scene.lamp({-2, 1.5, 2.4}, 2000);
  scene.person("A", {-0.8, 3.0}, 1.75, {0.35, -1});
  scene.person("B", {0.9, 4.0}, 1.65, {-0.3, -1});
  scene.person("C", {0.3, 5.0}, 1.80, {0, -1});
  scene.walk(2, {0.3, 5.0}, {1.8, 4.6}, 2000, 3500);
  scene.speech(0, 500, 3000);
  scene.speech(1, 3200, 6000);
  return scene;
}

}  // namespace

TEST_CASE("twice as many samples move no share by more than 0.01 and turn no verdict") {
  Staged scene = moving_scene();
  Intent favour;
  favour.targets = {{Target::Kind::person, 1, {}}};
  favour.begin = Moment{3200};
  favour.end = Moment{8000};
  scene.plan.intents.push_back(favour);
  const Attention usual = weigh(scene.plan), twice = weigh_at(scene.plan, 24);
  CHECK(twice.samples.size() > usual.samples.size() * 3 / 2);
  for (const Sample& sample : usual.samples) {
    const Sample& other = sample_at(twice, sample.moment);
    REQUIRE(other.moment == sample.moment);
    for (int i = 0; i < 3; ++i) CHECK(share(other, i) == Approx(share(sample, i)).margin(0.01));
  }
  CHECK(judge(scene.plan, usual).front().result == judge(scene.plan, twice).front().result);
}

TEST_CASE("the mirrored scene has the mirrored shares") {
  const Staged scene = moving_scene();
  Staged mirrored = scene;
  for (PersonTrack& track : mirrored.plan.people) {
    for (auto& walk : track.feet) {
      for (Vec2& at : walk.to.path) at.x = -at.x;
    }
    for (auto& turn : track.body) turn.from.bearing = turn.to.bearing = -turn.to.bearing;
  }
  for (LampTrack& lamp : mirrored.plan.lamps) {
    for (auto& place : lamp.place) place.from.x = place.to.x = -place.to.x;
    for (auto& aim : lamp.aim) aim.from.x = aim.to.x = -aim.to.x;
  }
  const Attention one = weigh(scene.plan), other = weigh(mirrored.plan);
  REQUIRE(one.samples.size() == other.samples.size());
  for (std::size_t i = 0; i < one.samples.size(); i += 5) {
    for (int who = 0; who < 3; ++who) {
      // Hair is not the same on both sides, and the raster's columns are not either.
      CHECK(share(other.samples[i], who) == Approx(share(one.samples[i], who)).margin(0.01));
    }
  }
}

TEST_CASE("people declared in another order have the same shares") {
  const Staged scene = moving_scene();
  Staged turned = scene;
  std::swap(turned.plan.people[0], turned.plan.people[2]);
  std::swap(turned.plan.stage.people[0], turned.plan.stage.people[2]);
  turned.plan.speeches[0].speaker = PersonId{2};
  const Attention one = weigh(scene.plan), other = weigh(turned.plan);
  REQUIRE(one.samples.size() == other.samples.size());
  for (std::size_t i = 0; i < one.samples.size(); i += 5) {
    // Looks are given by the order, and with them the cut of hair: half a percent of a head.
    CHECK(share(other.samples[i], 2) == Approx(share(one.samples[i], 0)).margin(0.01));
    CHECK(share(other.samples[i], 1) == Approx(share(one.samples[i], 1)).margin(0.01));
  }
}

TEST_CASE("samples stand at every turning point, at least twelve a second") {
  const Staged scene = moving_scene();
  const Attention attention = weigh(scene.plan);
  for (const Moment turn : turning_points(scene.plan)) CHECK(sample_at(attention, turn).moment == turn);
  for (std::size_t i = 1; i < attention.samples.size(); ++i) {
    CHECK((attention.samples[i].moment - attention.samples[i - 1].moment).count <= 84);
  }
  CHECK(attention.views.size() == attention.samples.size());
}

TEST_CASE("nothing to see: no plan, nobody, one person, sixty-four of them") {
  CHECK(weigh(Plan{}).samples.empty());
  // What nobody waits for any more is not there either.
  CHECK(weigh(golden_scene().plan, [] { return true; }).samples.empty());
  CHECK(weigh(golden_scene().plan, [] { return false; }).samples.size() == weigh(golden_scene().plan).samples.size());
  Staged empty(1000);
  const Attention of_nobody = weigh(empty.plan);
  CHECK(of_nobody.samples.back().holder == Target{});
  Staged one(1000);
  one.lamp({-2, 1.5, 2.4}, 2000);
  one.person("A", {0, 3}, 1.7, {0, -1});
  CHECK(share(weigh(one.plan).samples.back(), 0) == Approx(1));
  Staged many(200);
  many.lamp({-2, 1.5, 2.4}, 20000);
  for (int i = 0; i < 64; ++i) many.person("N", {-3.2 + 0.1 * i, 6}, 1.7, {0, -1});
  double sum = 0;
  const Attention crowd = weigh(many.plan);
  for (int i = 0; i < 64; ++i) sum += share(crowd.samples.back(), i);
  CHECK(sum == Approx(1));
}
