// Lines spoken: added, dropped, changed, said earlier or later; and how long beats last.
#include <algorithm>

#include "base/quantity_text.h"
#include "compare/match.h"
#include "compare/parts.h"

namespace lensward {
namespace {

std::vector<const Speech*> speeches_in(const Draft& draft, const Beat& beat) {
  std::vector<const Speech*> speeches;
  for (const Speech& speech : draft.plan.speeches) {
    if (within(draft.plan, beat, speech.begin)) speeches.push_back(&speech);
  }
  return speeches;
}

std::string speaker_of(const Draft& draft, const Speech& speech) {
  return name_of(draft.plan, {Target::Kind::person, speech.speaker.index, {}});
}

// What else there is to a line besides its words: to whom, how loud, off.
std::string manner_of(const Draft& draft, const Speech& speech) {
  std::string words = speech.to_everyone ? "to everyone" : "";
  for (const PersonId to : speech.to) {
    words += (words.empty() ? "to " : ", ") + name_of(draft.plan, {Target::Kind::person, to.index, {}});
  }
  if (words.empty()) words = "to nobody";
  if (speech.loudness != Loudness::plain) words += std::string(", ") + spelling(speech.loudness);
  if (speech.off) words += ", off";
  return words;
}

class LinesOfBeat {
 public:
  LinesOfBeat(Comparing& comparing, const BeatPair& beat, std::vector<Change>& into)
      : comparing_(comparing),
        was_(comparing.before.plan.beats[static_cast<std::size_t>(beat.before)]),
        is_(comparing.after.plan.beats[static_cast<std::size_t>(beat.after)]),
        before_(speeches_in(comparing.before, was_)),
        after_(speeches_in(comparing.after, is_)),
        into_(into) {}

  void compare() {
    const auto speaker = [this](int a, int b) { return speaker_before(a) == speaker_after(b); };
    const auto same = [&](int a, int b) { return speaker(a, b) && old_at(a).words == new_at(b).words; };
    for (const Pair& pair : paired(static_cast<int>(before_.size()), static_cast<int>(after_.size()), same, speaker)) {
      compare_pair(pair);
    }
  }

 private:
  const Speech& old_at(int index) const { return *before_[static_cast<std::size_t>(index)]; }
  const Speech& new_at(int index) const { return *after_[static_cast<std::size_t>(index)]; }
  std::string speaker_before(int index) const { return speaker_of(comparing_.before, old_at(index)); }
  std::string speaker_after(int index) const { return speaker_of(comparing_.after, new_at(index)); }

  void compare_pair(const Pair& pair) {
    if (pair.after < 0) {
      into_.push_back(
          {Aspect::line, ChangeWay::dropped, speaker_before(pair.before), old_at(pair.before).words, "", "", 0});
    } else if (pair.before < 0) {
      into_.push_back({Aspect::line, ChangeWay::added, speaker_after(pair.after), "", new_at(pair.after).words, "", 0});
    } else if (old_at(pair.before).words != new_at(pair.after).words) {
      into_.push_back({Aspect::line_words, ChangeWay::changed, speaker_after(pair.after), old_at(pair.before).words,
                       new_at(pair.after).words, "", 0});
    } else {
      compare_manner(old_at(pair.before), new_at(pair.after));
      compare_time(old_at(pair.before), new_at(pair.after));
      return;
    }
    explained_ = true;
  }

  void compare_manner(const Speech& old, const Speech& now) {
    const std::string was = manner_of(comparing_.before, old), is = manner_of(comparing_.after, now);
    if (was != is)
      into_.push_back(
          {Aspect::line_words, ChangeWay::changed, speaker_of(comparing_.after, now), was, is, "manner", 0});
  }

  // What comes later only because everything before it does is not told again; nor is what a line that came or went
  // pushes along.
  void compare_time(const Speech& old, const Speech& now) {
    const Milliseconds shift = (now.begin - is_.begin) - (old.begin - was_.begin);
    const Milliseconds own = shift - shift_;
    shift_ = shift;
    const bool explained = explained_;
    explained_ = false;
    if (explained) return;
    comparing_.sized(
        into_,
        {Aspect::line_time, ChangeWay::changed, speaker_of(comparing_.after, now), text_of(old.begin - was_.begin),
         text_of(now.begin - is_.begin), now.words, static_cast<double>(own.count)},
        static_cast<double>(comparing_.limits.time.count), 0.5);
  }

  Comparing& comparing_;
  const Beat &was_, &is_;
  std::vector<const Speech*> before_, after_;
  std::vector<Change>& into_;
  Milliseconds shift_{};
  bool explained_ = false;
};

void compare_length(Comparing& comparing, Aspect aspect, Milliseconds was, Milliseconds is, std::vector<Change>& into) {
  comparing.sized(
      into, {aspect, ChangeWay::changed, "", text_of(was), text_of(is), "", static_cast<double>((is - was).count)},
      static_cast<double>(comparing.limits.time.count), 0.5);
}

}  // namespace

void compare_lines(Comparing& comparing) {
  for (std::size_t i = 0; i < comparing.beats.size(); ++i) {
    const BeatPair& beat = comparing.beats[i];
    LinesOfBeat(comparing, beat, *comparing.found[i]).compare();
    const Beat& was = comparing.before.plan.beats[static_cast<std::size_t>(beat.before)];
    const Beat& is = comparing.after.plan.beats[static_cast<std::size_t>(beat.after)];
    compare_length(comparing, Aspect::beat_length, was.end - was.begin, is.end - is.begin, *comparing.found[i]);
  }
  compare_length(comparing, Aspect::scene_length, comparing.before.plan.duration(), comparing.after.plan.duration(),
                 comparing.changes.scene);
}

}  // namespace lensward
