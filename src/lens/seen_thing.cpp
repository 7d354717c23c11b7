#include "lens/seen_thing.h"

#include <algorithm>

#include "optics/focus.h"

namespace lensward {
namespace {

bool is_thing(const Target& target) { return target.kind == Target::Kind::prop || target.kind == Target::Kind::piece; }

// Pieces come before props, as in Target::Kind.
bool earlier(const Target& a, const Target& b) { return a.kind != b.kind ? a.kind < b.kind : a.index < b.index; }

}  // namespace

std::vector<Target> things_named(const Plan& plan) {
  std::vector<Target> things;
  const auto take = [&](const Target& target) {
    if (is_thing(target)) things.push_back({target.kind, target.index, {}});
  };
  for (const Intent& intent : plan.intents) {
    for (const Target& target : intent.targets) take(target);
    for (const Target& target : intent.ahead_of) take(target);
  }
  for (const PersonTrack& track : plan.people) {
    for (const Segment<Gaze>& segment : track.eyes) {
      take(segment.from.target);
      take(segment.to.target);
    }
  }
  std::sort(things.begin(), things.end(), earlier);
  things.erase(std::unique(things.begin(), things.end()), things.end());
  return things;
}

ThingSeen seen_thing(const Looking& looking, const Target& thing) {
  ThingSeen seen;
  seen.target = thing;
  const int group = group_of(looking.groups, thing);
  const std::optional<Vec3> middle = group >= 0 ? looking.groups[static_cast<std::size_t>(group)].middle
                                                : point_of(looking.plan, thing, looking.moment);
  if (!middle) return seen;
  seen.distance = Metres{dot(*middle - looking.lens.at, looking.axes.forward)};
  const auto projected = project(looking.lens, looking.axes, *middle);
  if (!projected) return seen;
  seen.middle = projected->at;
  const FNumber stop{std::max(looking.state.stop.value, 0.1)};
  seen.blur = blur_disc(looking.lens.focal, stop, looking.state.focus, seen.distance);
  if (group < 0) return seen;
  const ThingMask mask = looking.drawer.thing_mask(looking.frame, group);
  seen.visible = Share{mask.amount.whole > 0 ? mask.amount.visible / mask.amount.whole : 0};
  seen.box = mask.visible_box;
  return seen;
}

}  // namespace lensward
