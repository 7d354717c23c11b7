// plant, pay off.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double least_side = 0.01;
constexpr Milliseconds noticed_for{800}, dwelt_at_most{1500};

// Shorter side of what shows, in frame heights.
double shorter_side(const Slice& slice, const Target& target) {
  const CameraState& camera = slice.view->state;
  const double aspect = camera.gate_width / camera.gate_height;
  const auto side = [aspect](const Box& box) {
    return std::min((box.right - box.left) * aspect, box.bottom - box.top);
  };
  for (const ThingSeen& thing : slice.view->things) {
    if (thing.target == target) return side(thing.box);
  }
  for (const PersonSeen& person : slice.view->people) {
    if (target.kind == Target::Kind::person && person.person.index == target.index) return side(person.body_box);
  }
  return 0;
}

bool in_the_hands_that_hold_it(const Playback& playback, const Slice& slice, const Target& target) {
  const Target& holder = slice.sample->holder;
  if (holder.kind != Target::Kind::person) return false;
  return holds(person_at(playback.plan, PersonId{holder.index}, slice.begin), target);
}

const Slice* where_largest(const Window& window, const Target& target) {
  return least(window, [&](const Slice& slice) { return -shorter_side(slice, target); });
}

}  // namespace

void judge_plant(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = window_of(playback, {intent.begin, intent.end});
  if (window.empty()) return;
  const Target& target = verdict.favoured;
  const auto noticed = [&](const Slice& slice) {
    return shorter_side(slice, target) >= least_side && legible(playback, slice, target);
  };
  const auto led = [&](const Slice& slice) { return has_the_eye(slice, target); };
  const Milliseconds shown = together(window, noticed);
  const Stretch dwelt = longest(window, led);
  const Milliseconds dwells = dwelt.end - dwelt.begin;
  const Slice* largest = where_largest(window, target);
  measure(verdict, "shorter side at its largest", text_of(Share{shorter_side(*largest, target)}),
          text_of(Share{least_side}), shorter_side(*largest, target) >= least_side,
          "is at its largest only " + number(shorter_side(*largest, target) * 100, 1) +
              " % of the frame's height across, limit " + text_of(Share{least_side}));
  measure(verdict, "can be noticed for", text_of(shown), text_of(noticed_for), shown >= noticed_for,
          shown.count == 0 ? "can never be noticed"
                           : "can be noticed for only " + text_of(shown) + ", limit " + text_of(noticed_for));
  conclude(verdict, "missed-plant");
  measure(verdict, "has the eye at a stretch for", text_of(dwells), text_of(dwelt_at_most), dwells <= dwelt_at_most);
  if (verdict.result == Verdict::Result::holds && dwells > dwelt_at_most) {
    verdict.result = Verdict::Result::close;
    verdict.complaint = "heavy-plant";
  }
  verdict.led = part(window, led);
  decide_at(largest, {}, verdict);
}

void judge_pay_off(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = window_of(playback, {intent.begin, intent.end});
  if (window.empty()) return;
  const Target& target = verdict.favoured;
  const auto paid = [&](const Slice& slice) {
    return has_the_eye(slice, target) ||
           (legible(playback, slice, target) && in_the_hands_that_hold_it(playback, slice, target));
  };
  const Milliseconds time = together(window, paid);
  verdict.led = part(window, paid);
  measure(verdict, "has the eye, or reads in the hands of whoever has it, for", text_of(time), text_of(noticed_for),
          time >= noticed_for,
          time.count == 0 ? "never has the eye, nor reads in the hands of whoever has it"
                          : "has the eye, or reads in the hands of whoever has it, for only " + text_of(time) +
                                ", limit " + text_of(noticed_for));
  conclude(verdict, "missed-payoff");
  const Slice* seen = first(window, paid);
  decide_at(seen != nullptr ? seen : where_largest(window, target), {}, verdict);
}

}  // namespace lensward
