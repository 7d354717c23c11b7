#include "rules/next_step.h"

#include <algorithm>

#include "rules/words.h"

namespace lensward {
namespace {

std::string name(const Checked& checked, const Target& target) { return name_of(checked.plan, target); }

std::string typed(const std::string& line) { return "try `" + line + "`"; }

// A speech that gives someone the eye: hand the eye over with it, or let it be thrown away.
std::string about_speech(const Checked& checked, Moment moment, const Target& ahead) {
  for (const Speech& speech : checked.plan.speeches) {
    const bool sounds = speech.begin <= moment && moment < speech.end + Milliseconds{1000};
    if (!sounds || speech.speaker.index != ahead.index) continue;
    return typed("throw away \"" + first_words(speech) + "\"") + " and turn " + quoted(checked, ahead) +
           " away, or give the line its due: `favour " + name(checked, ahead) + ", on \"" +
           (speech.timed.empty() ? speech.words : speech.timed.front().text) + "\"`";
  }
  return typed(name(checked, ahead) + " turns back to lens");
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

std::string about_light(const Checked& checked, const Target& behind) {
  if (checked.plan.stage.lamps.empty()) return typed("light Key, aims at " + name(checked, behind));
  return typed("light " + checked.plan.stage.lamps.front().name + " aims at " + name(checked, behind));
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
      return about_light(checked, behind);
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

std::string next_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind,
                      const Reason& reason) {
  switch (reason.kind) {
    case Reason::Kind::hidden:
      return about_hiding(checked, moment, behind);
    case Reason::Kind::small:
      return typed(name(checked, behind) + " walks to foreground");
    case Reason::Kind::dark:
      return about_light(checked, behind);
    case Reason::Kind::cue:
      return about_cue(checked, moment, ahead, behind, reason.cue);
  }
  return {};
}

}  // namespace lensward
