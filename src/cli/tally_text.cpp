#include "cli/tally_text.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "emphasis/weigh.h"
#include "source/character.h"
#include "source/source_file.h"

namespace lensward {
namespace {

std::string beat_name(const Plan& plan, int beat) {
  return beat < 0 ? "" : plan.beats[static_cast<std::size_t>(beat)].name;
}

std::string name_or_nobody(const Plan& plan, const Target& target) {
  return target.kind == Target::Kind::nothing ? "nobody" : name_of(plan, target);
}

// Names can be wide in a terminal, so they are padded by cells.
std::string padded(const std::string& words, int cells) {
  return words + std::string(static_cast<std::size_t>(std::max(cells - display_width(words), 0)), ' ');
}

const PersonSeen* seen_in(const View& view, const Target& target) {
  if (target.kind != Target::Kind::person) return nullptr;
  const auto seen = std::find_if(view.people.begin(), view.people.end(),
                                 [&](const PersonSeen& person) { return person.person.index == target.index; });
  return seen == view.people.end() ? nullptr : &*seen;
}

std::string masks_of(const Plan& plan, const PersonSeen& seen) {
  std::string names;
  for (const Target& mask : seen.masked_by) names += (names.empty() ? "" : ", ") + name_of(plan, mask);
  return names;
}

std::string seen_text(const Plan& plan, const PersonSeen& seen) {
  if (!seen.in_front) return "  behind the lens\n";
  const std::string masks = masks_of(plan, seen);
  return fmt::format(
             "  seen: eyes {} from the lens, head {} of the frame's height, {} of the head and {} of the body "
             "visible{}\n",
             text_of(seen.distance), text_of(seen.head_height), text_of(seen.head_visible), text_of(seen.body_visible),
             masks.empty() ? "" : ", masked by " + masks) +
         fmt::format("  turned: face {} and chest {} off the lens ({}); blur {} of the head\n",
                     text_of(seen.face_angle), text_of(abs(seen.body_angle)), spelling(seen.view),
                     text_of(seen.blur_of_head)) +
         fmt::format("  light: {} at the face, {} against what the stop asks for, {} against what stands behind\n",
                     text_of(seen.incident), text_of(seen.exposure), text_of(seen.against_behind));
}

std::string standing_text(const Run& run, const Standing& standing, const View& view) {
  const PersonSeen* seen = seen_in(view, standing.target);
  const double gate = standing.gate_visible * standing.gate_size * standing.gate_light;
  std::string text = fmt::format("\n{}: {} points, {} of the points in frame\n", name_of(run.plan, standing.target),
                                 number(standing.points.value, 1), text_of(standing.share));
  if (seen) text += seen_text(run.plan, *seen);
  text += fmt::format("  gate {} = visible {} × size {} × light {}\n", number(gate, 2),
                      number(standing.gate_visible, 2), number(standing.gate_size, 2), number(standing.gate_light, 2));
  // Behind a shut gate no cue counts, and a table of noughts says nothing.
  if (gate <= 0) return text;
  text += "  cue            weight  strength  points\n";
  for (int cue = 0; cue < cue_count; ++cue) {
    const auto i = static_cast<std::size_t>(cue);
    text += fmt::format("  {:<13}{:>8}{:>10}{:>8}\n", name_of(static_cast<CueKind>(cue)),
                        number(run.attention.weights[i].value, 1), number(standing.strength[i], 2),
                        number(standing.contribution[i].value, 1));
  }
  return text;
}

std::string csv_field(const std::string& words) {
  if (words.find_first_of(",\"\r\n") == std::string::npos) return words;
  std::string quoted = "\"";
  for (char c : words) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

}  // namespace

std::string tally_text(const Run& run, Moment moment) {
  if (run.attention.samples.empty()) return "nobody is seen in this scene, so there is nothing to tally\n";
  const Sample& sample = sample_at(run.attention, moment);
  const auto index = static_cast<std::size_t>(&sample - run.attention.samples.data());
  const Plan& plan = run.plan;
  std::string text =
      fmt::format("{}, beat {}", clock_text(sample.moment), beat_name(plan, beat_at(plan, sample.moment)));
  if (sample.camera.known())
    text += ", camera " + plan.stage.cameras[static_cast<std::size_t>(sample.camera.index)].name;
  text += fmt::format(
      "\nhas the eye: {}; most points: {}\n"
      "points = gate × sum of weight × strength; gate = visible × size × light; share = points over those of all in "
      "frame (docs/model.md)\n",
      name_or_nobody(plan, sample.holder), name_or_nobody(plan, sample.leader));
  for (const Standing& standing : sample.standings) text += standing_text(run, standing, run.attention.views[index]);
  return text;
}

std::string verdicts_text(const Run& run) {
  const Plan& plan = run.plan;
  std::string text;
  for (const Verdict& verdict : run.verdicts) {
    text += padded(beat_name(plan, verdict.beat), 14) + ' ' + padded(asked_words(plan, verdict), 34) + ' ' +
            padded(name_of(verdict.result), 11);
    if (verdict.result != Verdict::Result::not_judged) {
      text += fmt::format("at {}: {} {}", clock_text(verdict.decided), name_or_nobody(plan, verdict.favoured),
                          text_of(verdict.favoured_points));
      if (verdict.rival.kind != Target::Kind::nothing) {
        text += fmt::format(", {} {}", name_of(plan, verdict.rival), text_of(verdict.rival_points));
      }
      text += "; led " + text_of(verdict.led);
    }
    text += '\n';
  }
  return text.empty() ? "no intent was judged\n" : text;
}

std::string tally_csv(const Run& run) {
  std::string text = "time_s,beat,name,left,top,right,bottom,points,share,has_the_eye\r\n";
  const Plan& plan = run.plan;
  for (std::size_t i = 0; i < run.attention.samples.size(); ++i) {
    const Sample& sample = run.attention.samples[i];
    const std::string beat = csv_field(beat_name(plan, beat_at(plan, sample.moment)));
    for (const PersonSeen& seen : run.attention.views[i].people) {
      const Target person{.kind = Target::Kind::person, .index = seen.person.index, .point = {}};
      const Standing* standing = standing_of(sample, person);
      const Box& box = seen.body_box;
      text += fmt::format("{},{},{},{},{},{},{},{},{},{}\r\n", number(to_seconds(sample.moment).value, 3), beat,
                          csv_field(name_of(plan, person)), number(box.left, 3), number(box.top, 3),
                          number(box.right, 3), number(box.bottom, 3), number(standing ? standing->points.value : 0, 1),
                          number(standing ? standing->share.value : 0, 3), sample.holder == person ? 1 : 0);
    }
  }
  return text;
}

}  // namespace lensward
