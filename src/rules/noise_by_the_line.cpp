#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "plan/floor.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage noise_by_the_line_page{
    .sees =
        "Furniture or a lamp told as `noisy` within 2 m of somebody who speaks, unless the lamp is out then. Told once "
        "for "
        "each thing, for the nearest line. Lines told `off` do not count.",
    .why = "What hums on the set hums under the words, and stops where the take is cut.",
    .example =
        "furniture Fridge, noisy, at (1, 1) m\n"
        "Oda is at (1.5, 1.5) m\n"
        "Oda: \"I signed it.\"",
    .better =
        "furniture Fridge, noisy, at (1, 1) m\n"
        "Oda is at (4, 3) m\n"
        "Oda: \"I signed it.\"",
    .source = "common practice, no source.",
};

namespace {

constexpr Metres near_enough{2};

struct Noise {
  std::string words;  // "light `Tube`"
  Vec2 at;
  Span declared;
  LampId lamp;  // none: furniture
};

std::vector<Noise> noises_of(const Plan& plan) {
  std::vector<Noise> all;
  for (const Piece& piece : plan.stage.pieces)
    if (piece.noisy) all.push_back({'`' + piece.name + '`', piece.at, piece.declared, {}});
  for (std::size_t i = 0; i < plan.stage.lamps.size(); ++i) {
    const Lamp& lamp = plan.stage.lamps[i];
    const LampId id{static_cast<int>(i)};
    if (lamp.noisy) all.push_back({"light `" + lamp.name + '`', floor_of(lamp_at(plan, id, {}).at), lamp.declared, id});
  }
  return all;
}

}  // namespace

void noise_by_the_line(const Checked& checked, Reporter& report) {
  const Plan& plan = checked.plan;
  for (const Noise& noise : noises_of(plan)) {
    const Speech* nearest = nullptr;
    Metres least = near_enough;
    int lines = 0;
    for (const Speech& speech : plan.speeches) {
      const PersonState speaker = person_at(plan, speech.speaker, speech.begin);
      const bool out = noise.lamp.known() && lamp_at(plan, noise.lamp, speech.begin).level.value <= 0;
      const Metres away{length(speaker.at - noise.at)};
      if (speech.off || out || !speaker.present || away >= near_enough) continue;
      ++lines;
      if (nearest != nullptr && away >= least) continue;
      nearest = &speech;
      least = away;
    }
    if (nearest == nullptr) continue;
    const int beat = beat_at(plan, nearest->begin);
    const Target speaker{Target::Kind::person, nearest->speaker.index, {}};
    report
        .add(noise.declared, {beat, nearest->begin, {speaker}},
             noise.words + " is noisy and " + text_of(least) + " from " + quoted(checked, speaker) + " at \"" +
                 first_words(*nearest) + "\" " + at_words(nearest->begin) + " in " + beat_words(checked, beat) +
                 ", limit 2 m" + (lines > 1 ? "; too near in " + std::to_string(lines) + " lines" : ""))
        .next_step = "have it switched off for the take, or move it or them";
  }
}

}  // namespace lensward
