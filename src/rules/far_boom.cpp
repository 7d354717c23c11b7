#include "base/quantity_text.h"
#include "lens/boom.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage far_boom_page{
    .sees =
        "Somebody to whose mouth no boom comes nearer than 1.5 m through one of their lines: outside the picture, "
        "inside "
        "the room, clear of furniture and of each hard lamp's way to a face. Told once a person, for the farthest "
        "line.",
    .why = "Beyond arm's length a microphone hears the room and not the words.",
    .example =
        "camera A is at (3, -4) m, lens 21 mm\n"
        "Oda: \"I signed it.\"",
    .better =
        "camera A is at (3, -4) m, lens 50 mm\n"
        "Oda: \"I signed it.\"",
    .source = "common practice, no source.",
};

namespace {

struct Far {
  int lines = 0, in_all = 0;
  const Speech* worst = nullptr;
  std::optional<Metres> distance;  // nothing: no place at all
};

Far farthest_of(const Plan& plan, PersonId person) {
  Far far;
  for (const Speech& speech : plan.speeches) {
    if (speech.speaker != person || speech.off || !person_at(plan, person, speech.begin).present) continue;
    if (!on_air(plan, speech.begin).known()) continue;
    ++far.in_all;
    const auto boom = boom_for(plan, speech);
    if (boom && boom->distance <= wire_beyond) continue;
    ++far.lines;
    const bool worse = far.worst == nullptr || (far.distance && (!boom || boom->distance > *far.distance));
    if (!worse) continue;
    far.worst = &speech;
    far.distance = boom ? std::optional(boom->distance) : std::nullopt;
  }
  return far;
}

}  // namespace

void far_boom(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.people.size(); ++i) {
    const Target person{Target::Kind::person, static_cast<int>(i), {}};
    const Far far = farthest_of(checked.plan, PersonId{person.index});
    if (far.worst == nullptr) continue;
    const int beat = beat_at(checked.plan, far.worst->begin);
    const std::string nearest = far.distance
                                    ? "no boom comes nearer than " + text_of(*far.distance) + " to the mouth of "
                                    : std::string("there is no place for a boom within 3 m of the mouth of ");
    const std::string how_often =
        far.in_all > 1 ? "; too far in " + std::to_string(far.lines) + " of " + std::to_string(far.in_all) + " lines"
                       : "";
    Finding& finding =
        report.add(far.worst->said_at, {beat, far.worst->begin, {person}},
                   nearest + quoted(checked, person) + " at \"" + first_words(*far.worst) + "\" " +
                       at_words(far.worst->begin) + " in " + beat_words(checked, beat) + ", limit 1.5 m" + how_often);
    finding.next_step = "let `" + name_of(checked.plan, person) + "` wear a wire, or frame it tighter";
  }
}

}  // namespace lensward
