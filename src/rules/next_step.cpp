#include "rules/next_step.h"

#include <algorithm>

#include "base/quantity_text.h"
#include "rules/words.h"

namespace lensward {
namespace {

std::string name(const Checked& checked, const Target& target) { return name_of(checked.plan, target); }

std::string typed(const std::string& line) { return "try `" + line + "`"; }

bool is_person(const Target& target) { return target.kind == Target::Kind::person; }

// Whom another line of the beat sends the eye to: turning them away mends one line and breaks the other.
bool wanted_too(const Checked& checked, Moment moment, const Target& who) {
  const Plan& plan = checked.plan;
  const int beat = beat_at(plan, moment);
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    const bool sends_away = intent.kind == Intent::Kind::hide || intent.kind == Intent::Kind::throw_away ||
                            intent.kind == Intent::Kind::favour_nobody;
    const bool names = std::find(intent.targets.begin(), intent.targets.end(), who) != intent.targets.end();
    return !sends_away && names && (beat_at(plan, intent.begin) == beat || intent.begin >= moment);
  });
}

// Who has something to do with their hands in the beat has to stay by it.
bool busy(const Checked& checked, Moment moment, const Target& who) {
  const auto& hands = checked.plan.people[static_cast<std::size_t>(who.index)].hands;
  const int beat = beat_at(checked.plan, moment);
  return std::any_of(hands.begin(), hands.end(),
                     [&](const Business& deed) { return beat_at(checked.plan, deed.begin) == beat; });
}

// A step toward the lens for a person who is free to take it; a thing has to be brought.
std::string nearer(const Checked& checked, Moment moment, const Target& who) {
  if (is_person(who) && !busy(checked, moment, who)) return typed(name(checked, who) + " walks to foreground");
  return "bring " + quoted(checked, who) + " nearer the lens";
}

// Turns whoever should have the eye to the lens, unless they are; else the other away, unless they are wanted too.
std::string turn_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind) {
  const PersonSeen* seen = seen_at(checked, moment, behind);
  const bool turned = seen == nullptr || seen->view == BodyView::frontal;
  if (is_person(behind) && !turned) return typed(name(checked, behind) + " turns frontal");
  if (is_person(ahead) && !wanted_too(checked, moment, ahead)) {
    return typed(name(checked, ahead) + " turns three-quarter back");
  }
  return nearer(checked, moment, behind);
}

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

// A speech that gives someone the eye: turn its speaker, which keeps to the wish; or hand the eye over with it.
std::string about_speech(const Checked& checked, Moment moment, const Target& ahead, const Target& behind) {
  std::string turn = turn_step(checked, moment, ahead, behind);
  const int beat = beat_at(checked.plan, moment);
  for (const Speech& speech : checked.plan.speeches) {
    const bool sounds = speech.begin <= moment && moment < speech.end + Milliseconds{1000};
    const std::string word = word_to_cue_on(checked.plan, speech);
    if (!sounds || speech.speaker.index != ahead.index || word.empty()) continue;
    // A cue can name only a word of the beat it stands in.
    if (beat_at(checked.plan, speech.begin) != beat) continue;
    return turn + ", or give the line its due: " + "`favour " + name(checked, ahead) + ", on \"" + word + "\"`";
  }
  return turn;
}

std::string about_hiding(const Checked& checked, Moment moment, const Target& behind) {
  const PersonSeen* seen = seen_at(checked, moment, behind);
  if (seen != nullptr && !out_of_picture(*seen) && !seen->masked_by.empty()) {
    return "move " + quoted(checked, seen->masked_by.front()) + " clear of " + quoted(checked, behind) +
           ", or the camera";
  }
  return typed("camera frames " + name(checked, behind) + " at frame centre");
}

std::string about_looks(const Checked& checked, Moment moment, const Target& ahead, const Target& behind) {
  for (std::size_t i = 0; i < checked.plan.stage.people.size(); ++i) {
    const Target looker{Target::Kind::person, static_cast<int>(i), {}};
    if (looker == ahead || looker == behind || !person_at(checked.plan, PersonId{looker.index}, moment).present)
      continue;
    return typed(name(checked, looker) + " looks at " + name(checked, behind));
  }
  if (!is_person(ahead)) return "let somebody look at " + quoted(checked, behind);
  return typed(name(checked, ahead) + " looks at " + name(checked, behind));
}

std::string about_cue(const Checked& checked, Moment moment, const Target& ahead, const Target& behind, CueKind cue) {
  const std::string favoured = name(checked, behind);
  switch (cue) {
    case CueKind::voice:
      return about_speech(checked, moment, ahead, behind);
    case CueKind::spoken_to:
    case CueKind::body_to_lens:
      return turn_step(checked, moment, ahead, behind);
    case CueKind::near_lens:
      return nearer(checked, moment, behind) + ", or take " + quoted(checked, ahead) + " deeper";
    case CueKind::near_light:
      return light_step(checked, moment, behind);
    case CueKind::sharp:
      return typed("camera focuses on " + favoured);
    case CueKind::body_moves:
    case CueKind::hands_move:
    case CueKind::eyes_move:
      return "cue the move of " + quoted(checked, ahead) + " for when the eye need not be on " +
             quoted(checked, behind);
    case CueKind::centre:
      return typed("camera frames " + favoured + " at frame centre");
    case CueKind::apart:
      if (!is_person(behind)) return "let " + quoted(checked, behind) + " stand clear of what is round it";
      return typed(favoured + " steps two steps toward lens") + " to stand clear";
    case CueKind::looked_at:
      return about_looks(checked, moment, ahead, behind);
    case CueKind::camera_move:
      return typed("camera frames " + favoured + " at frame centre");
    case CueKind::newness:
      return "let " + quoted(checked, ahead) + " come in earlier or later";
  }
  return {};
}

// Where a line says how long it takes, and the words that go before the time; its end where it does not.
struct Clause {
  std::size_t begin = 0, end = 0;
  std::string words;
};

Clause length_clause(const std::string& line) {
  for (const std::string words : {", over", ", for"}) {
    const std::size_t begin = line.find(words + ' ');
    if (begin != std::string::npos) return {begin, std::min(line.find(',', begin + 1), line.size()), words};
  }
  return {line.size(), line.size(), ", over"};
}

}  // namespace

// Aiming helps only with a lamp that has a beam and is not on them yet; one that shines all round has to come nearer.
std::string light_step(const Checked& checked, Moment moment, const Target& who) {
  const std::string face = quoted(checked, who);
  const auto& lamps = checked.plan.stage.lamps;
  for (std::size_t i = 0; i < lamps.size(); ++i) {
    const bool aims = lamps[i].beam && lamps[i].kind != Lamp::Kind::practical && !lamps[i].declared.empty();
    if (!aims) continue;
    const LampTrack& track = checked.plan.lamps[i];
    const bool there = std::any_of(track.aim_at.begin(), track.aim_at.end(),
                                   [&](const Segment<Target>& on) { return on.begin <= moment && on.to == who; });
    if (!there) return typed("light " + lamps[i].name + " aims at " + name(checked, who));
  }
  return "bring a lamp nearer to " + face + ", or give one a `beam` and aim it at them";
}

void give_it_time(const Checked& checked, Span line, Milliseconds enough, Finding& finding) {
  finding.next_step = "give it " + text_of(enough);
  const BeatLine* told = line_told_at(checked.plan, line);
  if (told == nullptr || told->text.find_first_of("\"\n") != std::string::npos) return;
  const Clause clause = length_clause(told->text);
  const std::string longer = clause.words + " " + text_of(enough);
  std::string whole = told->text;
  whole.replace(clause.begin, clause.end - clause.begin, longer);
  finding.next_step += ": `" + whole + "`";
  const auto at = [&](std::size_t offset) { return line.begin + static_cast<std::uint32_t>(offset); };
  finding.repairs.push_back(
      {Repair::Kind::choice, "write `" + whole + "`", {{Span{line.file, at(clause.begin), at(clause.end)}, longer}}});
}

const PersonSeen* seen_at(const Checked& checked, Moment moment, const Target& who) {
  const auto view = std::find_if(checked.attention.views.rbegin(), checked.attention.views.rend(),
                                 [moment](const View& one) { return one.moment <= moment; });
  return view == checked.attention.views.rend() ? nullptr : person_in(*view, who);
}

bool out_of_picture(const PersonSeen& seen) { return !seen.in_front || seen.head_in_frame.value < 0.5; }

std::string next_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind,
                      const Reason& reason) {
  switch (reason.kind) {
    case Reason::Kind::hidden:
      return about_hiding(checked, moment, behind);
    case Reason::Kind::small:
      return nearer(checked, moment, behind);
    case Reason::Kind::dark:
      return light_step(checked, moment, behind);
    case Reason::Kind::cue:
      return about_cue(checked, moment, ahead, behind, reason.cue);
  }
  return {};
}

}  // namespace lensward
