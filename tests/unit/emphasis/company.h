// Hand-made company for tests: people before one lens, each seen as the test says, with everything else alike.
#pragma once

#include <string>
#include <vector>

#include "emphasis/reckon.h"

namespace lensward {

inline Target person_target(int index) { return {Target::Kind::person, index, {}}; }

struct Company {
  Plan plan;
  View view;
  std::vector<PersonState> people;

  explicit Company(int count) {
    plan.stage.cameras.push_back({"A", Millimetres{24.89}, Millimetres{13.454}, {}, {}, Origin::said});
    plan.cameras.emplace_back();
    plan.cuts.push_back({Moment{0}, CameraId{0}, {}});
    view.camera = CameraId{0};
    view.state.at = {0, 0, 1.5};
    for (int i = 0; i < count; ++i) add_person(i);
  }

  PersonSeen& seen(int index) { return view.people[static_cast<std::size_t>(index)]; }
  PersonState& state(int index) { return people[static_cast<std::size_t>(index)]; }
  PersonTrack& track(int index) { return plan.people[static_cast<std::size_t>(index)]; }

  void speaks(int speaker, std::vector<int> to, Moment begin, Moment end) {
    Speech speech;
    speech.speaker = PersonId{speaker};
    for (const int other : to) speech.to.push_back(PersonId{other});
    speech.begin = begin;
    speech.end = end;
    speech.words = "words";
    plan.speeches.push_back(speech);
  }

  void looks_at(int looker, const Target& target) {
    state(looker).gaze = target;
    state(looker).gaze_told = true;
    if (const auto point = point_of(plan, target, view.moment)) state(looker).looks_at = *point;
  }

  void walks(int walker, Vec2 velocity, Moment begin, Moment end) {
    const Vec2 from = state(walker).at;
    track(walker).feet.push_back({begin, end, {}, Walk{{from, from + velocity}}, Origin::said, {}});
    state(walker).velocity = velocity;
  }

  // The tally of the moment, the scene having begun three seconds before so that nothing is new and no cut is fresh.
  Sample tally() const {
    Reckoner reckoner(plan);
    View before = view;
    for (const int back : {3000, 2000, 1000}) {
      before.moment = view.moment - Milliseconds{back};
      reckoner.reckon(before, people_at_rest(), view.state);
    }
    return reckoner.reckon(view, people, view.state);
  }

  std::vector<PersonState> people_at_rest() const {
    std::vector<PersonState> rest = people;
    for (PersonState& state : rest) state.velocity = {};
    for (PersonState& state : rest) state.hands_moving = 0;
    return rest;
  }

  double share(int index) const { return tally().standings[static_cast<std::size_t>(index)].share.value; }
  double points(int index) const { return tally().standings[static_cast<std::size_t>(index)].points.value; }

 private:
  // 4 m away, a full face, sharp and well lit, mirrored places to either side of the middle.
  void add_person(int index) {
    Person person;
    person.name = std::string(1, static_cast<char>('A' + index));
    plan.stage.people.push_back(person);
    PersonTrack track;
    const Vec2 at{0.6 * index - 0.3, 4};
    track.present.push_back({Moment{0}, Moment{0}, true, true, Origin::said, {}});
    track.feet.push_back({Moment{0}, Moment{0}, {}, Walk{{at}}, Origin::said, {}});
    plan.people.push_back(track);

    PersonSeen seen;
    seen.person = PersonId{index};
    seen.in_front = true;
    seen.distance = Metres{4};
    seen.eyes = {index % 2 == 0 ? 0.4 : 0.6, 0.4};
    seen.body_box = {seen.eyes.u - 0.05, 0.33, seen.eyes.u + 0.05, 1};
    seen.head_box = {seen.eyes.u - 0.03, 0.33, seen.eyes.u + 0.03, 0.48};
    seen.head_height = Share{0.15};
    seen.head_in_frame = seen.head_visible = seen.body_visible = seen.head_and_chest_visible = Share{1};
    seen.incident = Lux{118};
    seen.luminance = Nits{6.7};
    seen.gap = 0.1;
    view.people.push_back(seen);

    PersonState state;
    state.present = true;
    state.at = at;
    people.push_back(state);
    view.moment = Moment{5000};
  }
};

}  // namespace lensward
