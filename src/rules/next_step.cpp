#include "rules/next_step.h"

#include <algorithm>

#include "rules/words.h"

namespace lensward {
namespace {

std::string name(const Checked& checked, const Target& target) { return name_of(checked.plan, target); }

std::string typed(const std::string& line) { return "try `" + line + "`"; }

bool same_word(const std::string& a, const std::string& b) {
  const auto lower = [](char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return lower(x) == lower(y); });
}

int times_said(const Plan& plan, const std::string& word, int beat) {
  int times = 0;
  for (const Speech& speech : plan.speeches) {
    if (beat_at(plan, speech.begin) != beat) continue;
    for (const Word& other : speech.timed) times += same_word(other.text, word) ? 1 : 0;
  }
  return times;
}

// The first word that a cue can name without doubt; empty when there is none.
std::string word_to_cue_on(const Plan& plan, const Speech& speech) {
  for (const Word& word : speech.timed) {
    if (times_said(plan, word.text, beat_at(plan, speech.begin)) == 1) return word.text;
  }
  return {};
}

// A speech that gives someone the eye: hand the eye over with it, or turn its speaker.
std::string about_speech(const Checked& checked, Moment moment, const Target& ahead) {
  std::string turn = "turn " + quoted(checked, ahead) + ": `" + name(checked, ahead) + " turns three-quarter back`";
  for (const Speech& speech : checked.plan.speeches) {
    const bool sounds = speech.begin <= moment && moment < speech.end + Milliseconds{1000};
    const std::string word = word_to_cue_on(checked.plan, speech);
    if (!sounds || speech.speaker.index != ahead.index || word.empty()) continue;
    return typed("favour " + name(checked, ahead) + ", on \"" + word + "\"") + " to give the line its due, or " + turn;
  }
  return turn;
}

std::string about_hiding(const Checked& checked, Moment moment, const Target& behind) {
  const auto view = std::find_if(checked.attention.views.rbegin(), checked.attention.views.rend(),
                                 [moment](const View& one) { return one.moment <= moment; });
  const PersonSeen* seen = view == checked.attention.views.rend() ? nullptr : person_in(*view, behind);
  if (seen != nullptr && !seen->masked_by.empty()) {
    return "clear " + quoted(checked, seen->masked_by.front()) + " from before " + quoted(checked, behind);
  }
  return typed("camera frames " + name(checked, behind) + " at frame centre");
}

std::string about_looks(const Checked& checked, const Target& ahead, const Target& behind) {
  for (std::size_t i = 0; i < checked.plan.stage.people.size(); ++i) {
    const Target looker{Target::Kind::person, static_cast<int>(i), {}};
    if (looker == ahead || looker == behind) continue;
    return typed(name(checked, looker) + " looks at " + name(checked, behind));
  }
  return typed(name(checked, ahead) + " looks at " + name(checked, behind));
}

std::string about_cue(const Checked& checked, Moment moment, const Target& ahead, const Target& behind, CueKind cue) {
  const std::string favoured = name(checked, behind), rival = name(checked, ahead);
  switch (cue) {
    case CueKind::voice:
      return about_speech(checked, moment, ahead);
    case CueKind::spoken_to:
      return typed(favoured + " turns frontal");
    case CueKind::near_lens:
      return typed(favoured + " walks to foreground") + ", or take " + quoted(checked, ahead) + " deeper";
    case CueKind::near_light:
      return light_step(checked, behind);
    case CueKind::sharp:
      return typed("camera focuses on " + favoured);
    case CueKind::body_moves:
    case CueKind::hands_move:
    case CueKind::eyes_move:
      return "let " + quoted(checked, ahead) + " begin later: put `after " + favoured + " speaks` on that line";
    case CueKind::centre:
      return typed("camera frames " + favoured + " at frame centre");
    case CueKind::body_to_lens:
      return typed(favoured + " turns frontal") + ", or `" + rival + " turns back to lens`";
    case CueKind::apart:
      return typed(favoured + " steps two steps toward lens") + " to stand clear";
    case CueKind::looked_at:
      return about_looks(checked, ahead, behind);
    case CueKind::camera_move:
      return typed("camera frames " + favoured + " at frame centre");
    case CueKind::newness:
      return "let " + quoted(checked, ahead) + " come in earlier or later";
  }
  return {};
}

}  // namespace

std::string light_step(const Checked& checked, const Target& who) {
  for (const Lamp& lamp : checked.plan.stage.lamps) {
    if (lamp.kind != Lamp::Kind::practical && !lamp.declared.empty()) {
      return typed("light " + lamp.name + " aims at " + name(checked, who));
    }
  }
  return typed("light Key, aims at " + name(checked, who) + ", gives 400 lux at 2 m");
}

std::string next_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind,
                      const Reason& reason) {
  switch (reason.kind) {
    case Reason::Kind::hidden:
      return about_hiding(checked, moment, behind);
    case Reason::Kind::small:
      return typed(name(checked, behind) + " walks to foreground");
    case Reason::Kind::dark:
      return light_step(checked, behind);
    case Reason::Kind::cue:
      return about_cue(checked, moment, ahead, behind, reason.cue);
  }
  return {};
}

}  // namespace lensward
