#include <algorithm>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage wrong_way_look_page{
    .sees =
        "Across a cut, people who look at one and the same person or thing, furniture apart, that neither picture "
        "shows: "
        "one of them to frame left and the other, or the same one before the cut, to frame right, both more than 15 "
        "degrees off the lens.",
    .why = "The audience builds the room from the looks, and now what is looked at lies in two places.",
    .example =
        "Oda, Pell look at the Yard-Door\n"
        "camera A frames Oda, close-up\n"
        "camera B frames Pell, close-up, from the other side\n"
        "cut to B",
    .better =
        "Oda, Pell look at the Yard-Door\n"
        "camera A frames Oda, close-up\n"
        "camera B frames Pell, close-up, from the same side\n"
        "cut to B",
    .source = "eyeline match, as textbooks of editing have it; 15 degrees is common practice, no source.",
};

namespace {

constexpr Degrees off_the_lens{15};

// The angle of a look off the way to the lens, positive to frame right.
Degrees look_across(const Checked& checked, const View& view, PersonId person) {
  const PersonState state = person_at(checked.plan, person, view.moment);
  const Degrees look = bearing_of(floor_of(state.looks_at) - state.at);
  const Degrees to_lens = bearing_of(floor_of(view.state.at) - state.at);
  return wrapped(to_lens - look);
}

bool shows(const View& view, const Target& target) {
  if (target.kind == Target::Kind::person)
    return std::ranges::any_of(view.people, [&](const PersonSeen& seen) {
      return seen.person.index == target.index && seen.head_in_frame.value > 0.1;
    });
  return std::ranges::any_of(view.things,
                             [&](const ThingSeen& seen) { return seen.target == target && seen.visible.value > 0.1; });
}

// What somebody is told to look at out of the picture.
Target looked_at_outside(const Checked& checked, const View& view, PersonId person) {
  const PersonState state = person_at(checked.plan, person, view.moment);
  const bool of_one_place = state.gaze.kind == Target::Kind::person || state.gaze.kind == Target::Kind::prop ||
                            state.gaze.kind == Target::Kind::opening || state.gaze.kind == Target::Kind::point;
  if (!state.gaze_told || !of_one_place) return {};
  return shows(view, state.gaze) ? Target{} : state.gaze;
}

struct Look {
  PersonId person;
  Target at;
  Degrees across;
};

std::vector<Look> looks_of(const Checked& checked, const View& view) {
  std::vector<Look> looks;
  for (const PersonSeen& seen : view.people) {
    const Target at = looked_at_outside(checked, view, seen.person);
    const Degrees across = look_across(checked, view, seen.person);
    if (is_plain(seen) && at.kind != Target::Kind::nothing && abs(across) > off_the_lens)
      looks.push_back({seen.person, at, across});
  }
  return looks;
}

const char* way_of(Degrees across) { return across.value > 0 ? "frame right" : "frame left"; }

void tell(const Checked& checked, const CutSeen& cut, const Look& before, const Look& after, Reporter& report) {
  const Target one{Target::Kind::person, before.person.index, {}}, other{Target::Kind::person, after.person.index, {}};
  std::vector<Target> people{one};
  if (other != one) people.push_back(other);
  Finding& finding =
      report.add(cut.said_at, {cut.beat, cut.after->moment, people},
                 quoted(checked, one) + " looks at " + quoted(checked, after.at) + " to " + way_of(before.across) +
                     ", and after the cut " + at_words(cut.after->moment) + " in " + beat_words(checked, cut.beat) +
                     " " + (other == one ? std::string("does so") : quoted(checked, other) + " looks there") + " to " +
                     way_of(after.across));
  finding.next_step = "put " + camera_words(checked, cut.after->camera) + " on the other side of the look";
}

void look_at(const Checked& checked, const CutSeen& cut, Reporter& report) {
  for (const Look& before : looks_of(checked, *cut.before))
    for (const Look& after : looks_of(checked, *cut.after))
      if (before.at == after.at && before.across.value * after.across.value < 0)
        return tell(checked, cut, before, after, report);
}

}  // namespace

void wrong_way_look(const Checked& checked, Reporter& report) {
  for (const CutSeen& cut : cuts_of(checked)) look_at(checked, cut, report);
}

}  // namespace lensward
