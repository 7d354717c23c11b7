#include "rules/words.h"

#include "base/quantity_text.h"

namespace lensward {

std::string quoted(const Checked& checked, const Target& target) {
  if (target.kind == Target::Kind::nothing) return "nobody";
  return "`" + name_of(checked.plan, target) + "`";
}

std::string beat_words(const Checked& checked, int beat) {
  if (beat < 0) return "the scene";
  return "beat `" + checked.plan.beats[static_cast<std::size_t>(beat)].name + "`";
}

std::string stretch_words(const Checked& checked, int beat, Stretch stretch) {
  if (beat < 0) return "the scene";
  const Beat& whole = checked.plan.beats[static_cast<std::size_t>(beat)];
  if (stretch.begin <= whole.begin && stretch.end == whole.end) return beat_words(checked, beat);
  return beat_words(checked, beat) + " from " + text_of(stretch.begin) + " to " + text_of(stretch.end);
}

std::string at_words(Moment moment) { return "at " + text_of(moment); }

std::string points_words(Points first, Points second, Moment moment) {
  return text_of(first) + " points to " + text_of(second) + " " + at_words(moment);
}

std::string lead_words(const Checked& checked, const Verdict& verdict) {
  const Points lead = verdict.favoured_points - verdict.rival_points;
  const std::string favoured = quoted(checked, verdict.favoured), count = text_of(abs(lead));
  const std::string at = " " + at_words(verdict.decided);
  if (verdict.rival.kind == Target::Kind::nothing) return favoured + " has " + text_of(lead) + " points" + at;
  const std::string rival = quoted(checked, verdict.rival);
  if (count == "0") return favoured + " is level with " + rival + at;
  return favoured + (lead.value > 0 ? " leads " : " trails ") + rival + " by " + count +
         (count == "1" ? " point" : " points") + at;
}

const Measure& first_unmet(const Verdict& verdict) {
  return *std::find_if(verdict.measures.begin(), verdict.measures.end(), [](const Measure& one) { return !one.met; });
}

Span line_of(const Checked& checked, const Verdict& verdict) { return asked_at(checked.plan, verdict); }

std::string asked_words(const Checked& checked, const Verdict& verdict) { return asked_words(checked.plan, verdict); }

std::string first_words(const Speech& speech) {
  constexpr std::size_t enough = 3;
  if (speech.timed.size() < enough) return speech.words;
  return speech.timed[0].text + " " + speech.timed[1].text + " " + speech.timed[2].text;
}

const BeatLine* line_told_at(const Plan& plan, Span said_at) {
  for (const Beat& beat : plan.beats)
    for (const BeatLine& line : beat.lines)
      if (line.said_at == said_at) return &line;
  return nullptr;
}

std::string camera_words(const Checked& checked, CameraId camera) {
  return "camera `" + checked.plan.stage.cameras[static_cast<std::size_t>(camera.index)].name + '`';
}

Span camera_line(const Checked& checked, CameraId camera, Moment moment) {
  const auto index = static_cast<std::size_t>(camera.index);
  Span line = checked.plan.stage.cameras[index].declared;
  for (const Segment<Vec3>& move : checked.plan.cameras[index].place)
    if (move.begin <= moment && !move.said_at.empty()) line = move.said_at;
  return line.empty() ? checked.plan.facts.heading : line;
}

}  // namespace lensward
