#include "base/angle.h"
#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage stiff_neck_page{
    .sees = "A told look that rests more than 80 degrees off the chest for longer than 0.4 s.",
    .why = "A neck does not go there; on the day the body will turn, and the picture is another one.",
    .example =
        "Oda is at the Range, facing north\n"
        "Oda looks at Jun",
    .better =
        "Oda is at the Range, facing north\n"
        "Oda turns to Jun\n"
        "Oda looks at Jun",
    .source = "about 80 degrees each way: Ferrario et al. 2002, J. Orthop. Res., active rotation of the neck.",
};

namespace {

constexpr Degrees limit{80};
constexpr Milliseconds rests{400};

struct Strain {
  int person = -1, beat = -1;
  Moment since, until;
  Degrees worst;
  Moment worst_at;
  Target at;
};

// How far off the chest a look goes; 0 when nobody told it or it goes nowhere in particular.
Degrees strain_of(const PersonState& state) {
  if (!state.present || !state.gaze_told || state.gaze.kind == Target::Kind::nothing) return {};
  const Vec2 way = floor_of(state.looks_at) - state.at;
  return length(way) < 0.1 ? Degrees{} : abs(wrapped(bearing_of(way) - state.facing));
}

Span look_line(const Plan& plan, const Strain& strain) {
  const auto& eyes = plan.people[static_cast<std::size_t>(strain.person)].eyes;
  Span line;
  for (const auto& segment : eyes) {
    if (segment.begin <= strain.worst_at) line = segment.said_at;
  }
  return line;
}

std::vector<Strain> strains_of(const Checked& checked, int person) {
  std::vector<Strain> strains;
  for (const Sample& sample : checked.attention.samples) {
    const PersonState state = person_at(checked.plan, PersonId{person}, sample.moment);
    const Degrees strain = strain_of(state);
    if (strain.value <= limit.value + 0.5) continue;
    const int beat = beat_at(checked.plan, sample.moment);
    const bool goes_on = !strains.empty() && strains.back().beat == beat && strains.back().at == state.gaze;
    if (!goes_on) strains.push_back({person, beat, sample.moment, sample.moment, strain, sample.moment, state.gaze});
    Strain& now = strains.back();
    now.until = sample.moment;
    if (strain > now.worst) {
      now.worst = strain;
      now.worst_at = sample.moment;
    }
  }
  std::erase_if(strains, [](const Strain& strain) { return strain.until - strain.since < rests; });
  return strains;
}

}  // namespace

void stiff_neck(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.people.size(); ++i) {
    for (const Strain& strain : strains_of(checked, static_cast<int>(i))) {
      const Target who{Target::Kind::person, strain.person, {}};
      Finding& finding =
          report.add(look_line(checked.plan, strain), {strain.beat, strain.worst_at, {who}},
                     quoted(checked, who) + " looks at " + quoted(checked, strain.at) + " " + text_of(strain.worst) +
                         " off the chest in " + beat_words(checked, strain.beat) + ", limit 80 deg");
      finding.next_step =
          "write `" + name_of(checked.plan, who) + " turns to " + name_of(checked.plan, strain.at) + "` as well";
    }
  }
}

}  // namespace lensward
