#include "base/angle.h"
#include "base/quantity_text.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage too_fast_page{
    .sees =
        "A walk whose told length makes it a run, faster than 2.5 m/s (a run faster than 5 m/s), a turn faster than "
        "360 degrees a second, or sitting down, rising, kneeling and the like in less than 0.7 s.",
    .why = "It cannot be done at that pace, so the cue it serves will not be met.",
    .example = "Oda walks to the Sink, over 1 s",
    .better = "Oda walks to the Sink, over 3 s",
    .source =
        "walking turns into running near 2 m/s: Thorstensson and Roberthson 1987, from memory; five times up and down "
        "takes healthy people 7.6 s, so once either way 0.76 s (Bohannon and others 2007, sit-to-stand test); the "
        "limits themselves are common practice, no source.",
};

namespace {

constexpr double walk_limit = 2.5, run_limit = 5, turn_limit = 360;
constexpr Milliseconds least_for_a_posture{700};

bool cut_short(const Plan& plan, Span said_at) {
  return std::any_of(plan.moves_by_cue.begin(), plan.moves_by_cue.end(),
                     [&](const MoveByCue& move) { return move.said_at == said_at; });
}

void check_walk(const Checked& checked, int person, const Segment<Walk>& walk, Reporter& report) {
  const double seconds = to_seconds(walk.end - walk.begin).value;
  const BeatLine* line = line_told_at(checked.plan, walk.said_at);
  if (seconds <= 0 || line == nullptr || !line->length_told || cut_short(checked.plan, walk.said_at)) return;
  const double speed = walk.to.length().value / seconds;
  const bool runs = line->verb.substr(0, 3) == "run";
  const double limit = runs ? run_limit : walk_limit;
  if (speed <= limit) return;
  const Target who{Target::Kind::person, person, {}};
  const int beat = beat_at(checked.plan, walk.begin);
  Finding& finding = report.add(walk.said_at, {beat, walk.begin, {who}},
                                quoted(checked, who) + " goes " + text_of(walk.to.length()) + " in " +
                                    text_of(walk.end - walk.begin) + ", " + number(speed, 1) + " m/s, in " +
                                    beat_words(checked, beat) + ", limit " + number(limit, 1) + " m/s");
  const Milliseconds easy = to_milliseconds(Seconds{walk.to.length().value / (runs ? 3 : 1.2)});
  give_it_time(checked, walk.said_at, easy, finding);
}

void check_turn(const Checked& checked, int person, const Segment<Facing>& turn, Reporter& report) {
  const double seconds = to_seconds(turn.end - turn.begin).value;
  const BeatLine* line = line_told_at(checked.plan, turn.said_at);
  if (seconds <= 0 || line == nullptr || !line->length_told || turn.origin != Origin::said) return;
  const PersonId id{person};
  const Degrees way =
      abs(wrapped(person_at(checked.plan, id, turn.end).facing - person_at(checked.plan, id, turn.begin).facing));
  const double rate = way.value / seconds;
  if (rate <= turn_limit) return;
  const Target who{Target::Kind::person, person, {}};
  const int beat = beat_at(checked.plan, turn.begin);
  Finding& finding =
      report.add(turn.said_at, {beat, turn.begin, {who}},
                 quoted(checked, who) + " turns " + text_of(way) + " in " + text_of(turn.end - turn.begin) + " in " +
                     beat_words(checked, beat) + ", limit 360 degrees a second");
  finding.next_step = "leave the length out: it takes " + text_of(to_milliseconds(Seconds{way.value / 120}));
}

void check_posture(const Checked& checked, int person, const Segment<Stance>& change, Reporter& report) {
  const BeatLine* line = line_told_at(checked.plan, change.said_at);
  if (change.end <= change.begin || line == nullptr || !line->length_told || change.from.posture == change.to.posture ||
      change.end - change.begin >= least_for_a_posture)
    return;
  const Target who{Target::Kind::person, person, {}};
  const int beat = beat_at(checked.plan, change.begin);
  Finding& finding =
      report.add(change.said_at, {beat, change.begin, {who}},
                 quoted(checked, who) + " goes from " + spelling(change.from.posture) + " to " +
                     spelling(change.to.posture) + " in " + number(to_seconds(change.end - change.begin).value, 2) +
                     " s in " + beat_words(checked, beat) + ", limit 0.7 s");
  give_it_time(checked, change.said_at, Milliseconds{1000}, finding);
}

}  // namespace

void too_fast(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.people.size(); ++i) {
    const int person = static_cast<int>(i);
    for (const auto& walk : checked.plan.people[i].feet) check_walk(checked, person, walk, report);
    for (const auto& change : checked.plan.people[i].stance) check_posture(checked, person, change, report);
    for (const auto& turn : checked.plan.people[i].body) check_turn(checked, person, turn, report);
  }
}

}  // namespace lensward
