#include "mend/picture.h"

#include <algorithm>

namespace lensward {
namespace {

constexpr double of_the_head = 0.1;

bool in_picture(const View& view, int person) {
  return std::any_of(view.people.begin(), view.people.end(), [&](const PersonSeen& seen) {
    return seen.person.index == person && seen.in_front && seen.head_in_frame.value >= of_the_head;
  });
}

const View* view_at(const std::vector<View>& views, Moment moment) {
  const auto later = std::upper_bound(views.begin(), views.end(), moment,
                                      [](Moment at, const View& view) { return at < view.moment; });
  return later == views.begin() ? nullptr : &*(later - 1);
}

// A change may make a beat longer: what counts is how far into it we are.
Moment same_moment(const Plan& before, const Plan& after, Moment moment) {
  const int beat = beat_at(after, moment);
  if (beat < 0 || before.beats.size() != after.beats.size()) return moment;
  const Beat& was = before.beats[static_cast<std::size_t>(beat)];
  return std::min(was.begin + (moment - after.beats[static_cast<std::size_t>(beat)].begin), was.end);
}

}  // namespace

std::vector<LostFromPicture> lost_from_picture(const Rehearsal& before, const Rehearsal& after) {
  std::vector<LostFromPicture> lost;
  for (const Person& person : before.plan.stage.people) lost.push_back({person.name, Milliseconds{0}});
  const std::vector<View>& views = after.attention.views;
  for (std::size_t i = 0; i < views.size(); ++i) {
    const Moment next = i + 1 < views.size() ? views[i + 1].moment : after.plan.duration();
    const View* then = view_at(before.attention.views, same_moment(before.plan, after.plan, views[i].moment));
    if (then == nullptr || next < views[i].moment) continue;
    for (std::size_t person = 0; person < lost.size(); ++person) {
      const int index = static_cast<int>(person);
      if (in_picture(*then, index) && !in_picture(views[i], index)) lost[person].time += next - views[i].moment;
    }
  }
  std::erase_if(lost, [](const LostFromPicture& one) { return one.time < lost_from; });
  return lost;
}

}  // namespace lensward
