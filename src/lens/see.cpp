#include "lens/see.h"

#include <algorithm>
#include <deque>

#include "lens/seen_person.h"
#include "lens/seen_thing.h"

namespace lensward {
namespace {

// Of more than so many the oldest is forgotten.
constexpr std::size_t glimpses_at_most = 256, conditions_at_most = 128;

bool same_solids(const std::vector<SeenGroup>& a, const std::vector<SeenGroup>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const SeenGroup& one, const SeenGroup& other) { return one.number == other.number; });
}

}  // namespace

struct Onlooker::Kept {
  std::size_t lenses = 1;
  std::vector<std::unique_ptr<FrameDrawer>> drawers;
  GroupMaker maker;
  std::vector<Target> things;
  bool things_told = false;
  // The last view and what it was made from.
  View view;
  std::vector<SeenGroup> groups;
  SceneLight light;
  // The cameras and lights there have been, the latest last, and the number of the one that is now.
  struct Condition {
    std::int64_t number;
    CameraState state;
    SceneLight light;
  };
  std::deque<Condition> conditions;
  std::int64_t condition = 0;
  Remembered<PersonSeen> glimpses{glimpses_at_most};
  Remembered<Lux> lit_faces{glimpses_at_most};

  FrameDrawer& drawer_for(const Pinhole& lens) {
    const auto known =
        std::find_if(drawers.rbegin(), drawers.rend(), [&](const auto& one) { return one->lens() == lens; });
    if (known != drawers.rend()) return **known;
    if (drawers.size() == lenses) drawers.erase(drawers.begin());
    return *drawers.emplace_back(std::make_unique<FrameDrawer>(lens));
  }

  // Does nothing differ between the last view and a new one, but the moment? Somebody may begin to move or stop while
  // everything stands where it stood.
  bool still(const Plan& plan, const View& now, const LensMotion& motion, const std::vector<SeenGroup>& now_groups,
             const SceneLight& now_light) const {
    if (view.camera != now.camera || view.state != now.state || light != now_light) return false;
    if (!same_solids(groups, now_groups)) return false;
    return std::all_of(view.people.begin(), view.people.end(), [&](const PersonSeen& seen) {
      return !seen.in_front || seen.screen_speed == screen_speed(plan, motion, seen.person);
    });
  }

  std::int64_t number_of_condition(const CameraState& state) {
    const auto known = std::find_if(conditions.rbegin(), conditions.rend(),
                                    [&](const Condition& one) { return one.state == state && one.light == light; });
    if (known != conditions.rend()) return known->number;
    if (conditions.size() == conditions_at_most) conditions.pop_front();
    const std::int64_t number = conditions.empty() ? condition + 1 : conditions.back().number + 1;
    conditions.push_back({number, state, light});
    return number;
  }

  // All that decides the light on somebody's face: the condition, their own group, and those that may shade them.
  Numbers lit_by(const Looking& looking, const SeenGroup& own) const {
    Numbers numbers{condition, own.number};
    for (const SeenGroup& other : looking.groups) {
      const bool may_shade = std::any_of(light.lamps.begin(), light.lamps.end(), [&](const LitLamp& lamp) {
        return passes_near(other, lamp.at, own.made->figure.eyes, lamp.across);
      });
      if (may_shade) numbers.push_back(other.number);
    }
    return numbers;
  }

  PersonSeen see_person(const Looking& looking, PersonId person) {
    const int group = group_of(looking.groups, {Target::Kind::person, person.index, {}});
    if (group < 0) return seen_person(looking, person, light_on_face(looking, person));
    Numbers lit = lit_by(looking, looking.groups[static_cast<std::size_t>(group)]);
    // All that decides how they are seen, but their speed over the screen and the gap beside them.
    Numbers from = lit;
    from.push_back(0);
    FrameDrawer::add_near(looking.frame, group, from);
    PersonSeen seen = glimpses.of(std::move(from), [&] {
      const Lux incident = lit_faces.of(std::move(lit), [&] { return light_on_face(looking, person); });
      return seen_person(looking, person, incident);
    });
    if (seen.in_front) seen.screen_speed = screen_speed(looking.plan, looking.motion, person);
    return seen;
  }

  void see_people(const Looking& looking, View& now) {
    for (std::size_t i = 0; i < looking.plan.stage.people.size(); ++i) {
      const PersonId person{static_cast<int>(i)};
      if (person_at(looking.plan, person, looking.moment).present) now.people.push_back(see_person(looking, person));
    }
    add_gaps(looking.lens, now.people);
  }

  // Another plan may name other things.
  void find_things(const Plan& plan) {
    if (things_told) return;
    std::vector<Target> named = things_named(plan);
    if (named == things) return;
    things = std::move(named);
    view.camera = {};
  }

  void see_all(const Plan& plan, View now) {
    find_things(plan);
    const Pinhole lens = usable_lens(now.state);
    std::vector<SeenGroup> now_groups = maker.groups(plan, now.moment);
    SceneLight now_light = light_of(plan, now.moment);
    const LensMotion motion = motion_of(plan, now.camera, now.moment);
    if (still(plan, now, motion, now_groups, now_light)) {
      view.moment = now.moment;
      return;
    }
    groups = std::move(now_groups);
    light = std::move(now_light);
    condition = number_of_condition(now.state);
    FrameDrawer& drawer = drawer_for(lens);
    const MaskFrame frame = drawer.draw(groups);
    const Looking looking{plan, now.moment, now.state, lens, axes_of(lens), motion, groups, light, drawer, frame};
    see_people(looking, now);
    for (const Target& thing : things) now.things.push_back(seen_thing(looking, thing));
    view = std::move(now);
  }
};

Onlooker::Onlooker(std::size_t lenses_kept, std::optional<std::vector<Target>> things)
    : kept_(std::make_unique<Kept>()) {
  kept_->lenses = lenses_kept;
  kept_->things_told = things.has_value();
  if (things) kept_->things = std::move(*things);
}
Onlooker::~Onlooker() = default;

const View& Onlooker::see(const Plan& plan, Moment moment) {
  View now;
  now.moment = moment;
  now.camera = on_air(plan, moment);
  if (now.camera.known()) {
    now.state = camera_at(plan, now.camera, moment);
    kept_->see_all(plan, std::move(now));
  } else {
    kept_->view = std::move(now);
  }
  return kept_->view;
}

View see(const Plan& plan, Moment moment) { return Onlooker().see(plan, moment); }

}  // namespace lensward
