#include "rules/reasons.h"

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "emphasis/weigh.h"
#include "rules/next_step.h"
#include "rules/words.h"

namespace lensward {
namespace {

constexpr double worth_telling = 0.5;
constexpr std::size_t told_at_most = 5;

double gate_of(const Standing& standing) { return standing.gate_visible * standing.gate_size * standing.gate_light; }

// The points before the gate.
double ungated(const Standing& standing, const std::array<Points, cue_count>& weights) {
  double sum = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) sum += weights[i].value * standing.strength[i];
  return sum;
}

void add_gate(std::vector<Reason>& reasons, Reason::Kind kind, double worth) {
  if (worth >= worth_telling) reasons.push_back({kind, CueKind::voice, Points{worth}});
}

// What draws the eye to whoever is ahead, as one would say it.
std::string cue_words(CueKind cue, const std::string& name) {
  switch (cue) {
    case CueKind::voice:
      return name + " speaks";
    case CueKind::spoken_to:
      return name + " is spoken to";
    case CueKind::near_lens:
      return name + " is nearer the lens";
    case CueKind::near_light:
      return name + " is better lit";
    case CueKind::sharp:
      return name + " is sharper";
    case CueKind::body_moves:
      return name + " moves";
    case CueKind::hands_move:
      return "the hands of " + name + " move";
    case CueKind::eyes_move:
      return "the eyes of " + name + " move";
    case CueKind::centre:
      return name + " is nearer the centre";
    case CueKind::body_to_lens:
      return name + " is turned more to the lens";
    case CueKind::apart:
      return name + " stands clearer of others";
    case CueKind::looked_at:
      return name + " is looked at";
    case CueKind::camera_move:
      return "the camera moves with " + name;
    case CueKind::newness:
      return name + " is new in the picture";
  }
  return name;
}

// Masked, and by whom, is one thing; out of the picture another.
std::string hidden_words(const Checked& checked, Moment moment, const Target& who) {
  const PersonSeen* seen = seen_at(checked, moment, who);
  if (seen == nullptr) return quoted(checked, who) + " is masked or out of the picture";
  if (out_of_picture(*seen)) return quoted(checked, who) + " is out of the picture";
  if (seen->masked_by.empty()) return quoted(checked, who) + " is partly out of the picture";
  return quoted(checked, who) + " is masked by " + quoted(checked, seen->masked_by.front());
}

std::string words_of(const Checked& checked, Moment moment, const Reason& reason, const Target& ahead,
                     const Target& behind) {
  switch (reason.kind) {
    case Reason::Kind::cue:
      return cue_words(reason.cue, quoted(checked, ahead));
    case Reason::Kind::hidden:
      return hidden_words(checked, moment, behind);
    case Reason::Kind::small:
      return quoted(checked, behind) + " is too small in frame";
    case Reason::Kind::dark:
      return quoted(checked, behind) + " is too dark";
  }
  return {};
}

const char* formula_of(const Reason& reason) {
  switch (reason.kind) {
    case Reason::Kind::cue:
      return name_of(reason.cue);
    case Reason::Kind::hidden:
      return "gate, visible";
    case Reason::Kind::small:
      return "gate, size";
    case Reason::Kind::dark:
      return "gate, light";
  }
  return "";
}

// Who stands before somebody at a moment; nothing when nobody does.
Target masker_of(const Checked& checked, Moment moment, const Target& who) {
  const PersonSeen* seen = seen_at(checked, moment, who);
  return seen == nullptr || out_of_picture(*seen) || seen->masked_by.empty() ? Target{} : seen->masked_by.front();
}

// The line that gives somebody a cue at a moment; empty when no single line does.
Label cause_of(const Checked& checked, Moment moment, const Target& who, CueKind cue) {
  if (who.kind != Target::Kind::person) return {};
  const Plan& plan = checked.plan;
  const PersonTrack& track = plan.people[static_cast<std::size_t>(who.index)];
  const std::string name = quoted(checked, who);
  if (cue == CueKind::voice) {
    for (const Speech& speech : plan.speeches) {
      const bool sounds = speech.begin <= moment && moment < speech.end + Milliseconds{1000};
      if (sounds && speech.speaker.index == who.index) return {speech.said_at, name + " speaks"};
    }
  }
  if (cue == CueKind::spoken_to) {
    for (const Speech& speech : plan.speeches) {
      if (speech.begin <= moment && moment < speech.end + Milliseconds{1000} && speech.speaker.index != who.index) {
        return {speech.said_at, name + " is spoken to"};
      }
    }
  }
  if (cue == CueKind::hands_move) {
    for (const Business& deed : track.hands) {
      const bool goes_on = deed.begin <= moment && moment < deed.end + Milliseconds{800};
      if (goes_on) return {deed.said_at, name + " is busy here"};
    }
  }
  const bool by_place = cue == CueKind::near_lens || cue == CueKind::centre || cue == CueKind::body_to_lens ||
                        cue == CueKind::apart || cue == CueKind::body_moves || cue == CueKind::newness;
  Label last;
  if (!by_place) return last;
  for (const auto& walk : track.feet) {
    if (walk.begin <= moment) last = {walk.said_at, name + (walk.end > walk.begin ? " moves here" : " is placed here")};
  }
  return last;
}

bool rests_on_camera(const Reason& reason) {
  if (reason.kind == Reason::Kind::dark) return false;
  if (reason.kind != Reason::Kind::cue) return true;
  switch (reason.cue) {
    case CueKind::near_lens:
    case CueKind::sharp:
    case CueKind::centre:
    case CueKind::body_to_lens:
    case CueKind::apart:
      return true;
    default:
      return false;
  }
}

bool rests_on_light(const Reason& reason) {
  return reason.kind == Reason::Kind::dark || (reason.kind == Reason::Kind::cue && reason.cue == CueKind::near_light);
}

const Assumption* assumption_of(const Plan& plan, std::string_view word) {
  const auto found = std::find_if(plan.assumptions.begin(), plan.assumptions.end(),
                                  [word](const Assumption& one) { return one.what.find(word) != std::string::npos; });
  return found == plan.assumptions.end() ? nullptr : &*found;
}

bool camera_assumed(const Plan& plan, Moment moment) {
  const CameraId camera = on_air(plan, moment);
  return camera.known() && plan.stage.cameras[static_cast<std::size_t>(camera.index)].origin == Origin::assumed;
}

bool light_assumed(const Plan& plan) {
  return std::all_of(plan.stage.lamps.begin(), plan.stage.lamps.end(), [](const Lamp& lamp) {
    return lamp.intensity_origin == Origin::assumed && lamp.declared.empty();
  });
}

}  // namespace

std::vector<Reason> reasons_between(const std::array<Points, cue_count>& weights, const Sample& sample,
                                    const Target& ahead, const Target& behind) {
  std::vector<Reason> reasons;
  const Standing *a = standing_of(sample, ahead), *b = standing_of(sample, behind);
  if (a == nullptr || b == nullptr) return reasons;
  const double bare = ungated(*b, weights);
  add_gate(reasons, Reason::Kind::hidden, bare * (a->gate_visible - b->gate_visible) * b->gate_size * b->gate_light);
  add_gate(reasons, Reason::Kind::small, bare * b->gate_visible * (a->gate_size - b->gate_size) * b->gate_light);
  add_gate(reasons, Reason::Kind::dark, bare * b->gate_visible * b->gate_size * (a->gate_light - b->gate_light));
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const double worth = gate_of(*b) * weights[i].value * (a->strength[i] - b->strength[i]);
    if (worth >= worth_telling) reasons.push_back({Reason::Kind::cue, static_cast<CueKind>(i), Points{worth}});
  }
  std::stable_sort(reasons.begin(), reasons.end(), [](const Reason& x, const Reason& y) { return x.worth > y.worth; });
  return reasons;
}

void add_reasons(const Checked& checked, Moment moment, const Target& ahead, const Target& behind, Finding& finding) {
  if (checked.attention.samples.empty()) return;
  const std::vector<Reason> reasons =
      reasons_between(checked.attention.weights, sample_at(checked.attention, moment), ahead, behind);
  for (std::size_t i = 0; i < reasons.size() && i < told_at_most; ++i) {
    const std::string worth = number(reasons[i].worth.value, 1);
    finding.because.push_back({words_of(checked, moment, reasons[i], ahead, behind),
                               worth == "1" ? "1 point" : worth + " points",
                               std::string("docs/model.md, ") + formula_of(reasons[i])});
  }
  if (reasons.empty()) return;
  const Reason& first = reasons.front();
  Label cause;
  if (first.kind == Reason::Kind::cue) cause = cause_of(checked, moment, ahead, first.cue);
  if (first.kind == Reason::Kind::hidden) {
    cause = cause_of(checked, moment, masker_of(checked, moment, behind), CueKind::near_lens);
  }
  if (!cause.where.empty()) finding.labels.push_back(std::move(cause));
  finding.next_step = next_step(checked, moment, ahead, behind, first);
}

void excuse_default(const Checked& checked, const Verdict& verdict, const Target& ahead, const Target& behind,
                    Finding& finding) {
  if (finding.severity != Severity::error || checked.attention.samples.empty()) return;
  const Plan& plan = checked.plan;
  const bool camera = camera_assumed(plan, verdict.decided), light = light_assumed(plan);
  double from_camera = 0, from_light = 0;
  const Sample& sample = sample_at(checked.attention, verdict.decided);
  for (const Reason& reason : reasons_between(checked.attention.weights, sample, ahead, behind)) {
    if (camera && rests_on_camera(reason)) from_camera += reason.worth.value;
    if (light && rests_on_light(reason)) from_light += reason.worth.value;
  }
  const Points short_of = verdict.margin + verdict.rival_points - verdict.favoured_points;
  if (from_camera + from_light <= 0 || from_camera + from_light < short_of.value) return;
  const bool names_camera = from_camera >= from_light;
  finding.severity = Severity::warning;
  finding.message += names_camera ? "; the camera is a default: write one to be sure"
                                  : "; the light is a default: write a lamp to be sure";
  if (!finding.next_step.empty()) return;
  const Assumption* taken = assumption_of(plan, names_camera ? "camera" : "light");
  if (taken != nullptr && !taken->pin.empty()) finding.next_step = "to settle it: `" + taken->pin + "`";
}

}  // namespace lensward
