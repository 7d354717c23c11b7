#include "emphasis/beats_known.h"

namespace lensward {
namespace {

// What tells most beats apart comes first.
bool same_movement(const Plan& one, const Plan& other) {
  return one.people == other.people && one.cameras == other.cameras && one.lamps == other.lamps &&
         one.props == other.props && one.openings == other.openings && one.pieces == other.pieces &&
         one.cuts == other.cuts && one.stage == other.stage && one.settings == other.settings &&
         one.facts.exterior == other.facts.exterior && one.facts.hour == other.facts.hour;
}

bool same_wishes(const Plan& one, const Plan& other) {
  const Beat &a = one.beats.front(), &b = other.beats.front();
  return a.begin == b.begin && a.end == b.end && a.judged == b.judged && one.intents == other.intents &&
         one.stories == other.stories && one.speeches == other.speeches && one.marks == other.marks;
}

bool same_asked(const Verdict& one, const Verdict& other) {
  return one.intent == other.intent && one.story == other.story && one.result == other.result;
}

}  // namespace

bool same(const SeenFrom& one, const SeenFrom& other) {
  return one.moments == other.moments && one.things == other.things && same_movement(one.plan, other.plan);
}

bool same(const TriedFrom& one, const TriedFrom& other) {
  return std::ranges::equal(one.asked, other.asked, same_asked) && same(one.seen, other.seen) &&
         same_wishes(one.seen.plan, other.seen.plan) && one.lead_in.samples == other.lead_in.samples &&
         one.lead_in.views == other.lead_in.views && one.start == other.start;
}

}  // namespace lensward
