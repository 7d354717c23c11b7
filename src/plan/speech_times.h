// How long a speech takes, and when each word of it is said.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "base/words.h"
#include "plan/plan.h"
#include "syntax/script.h"

namespace lensward {

// A speech on a clock of its own that starts at 0.
struct SpokenText {
  std::string words;  // marks and rests taken out, blanks single
  std::vector<Word> timed;
  std::vector<SpeechMarkTime> marks;  // on the word that follows; behind the last word, at the end
  Milliseconds length;
};

// A word takes 60 s / rate (common practice: a steady rate), found by Unicode word boundaries (UAX 29). A letter of a
// script written without spaces counts as half a word, so that 150 words are 300 characters a minute. Between words a
// comma, colon or semicolon takes 0.2 s, a stop 0.4 s, an ellipsis 0.6 s; after the last word nothing. All of it is
// scaled by the pace (slowly 1.35, briskly 0.8, hurrying 0.6), or to make `told` in all; rests keep their length.
// Requires rate > 0.
SpokenText time_speech(const std::vector<SpeechPart>& parts, WordsPerMinute rate, Pace pace,
                       std::optional<Milliseconds> told);

// The words of a text alone, in order, as cues compare them.
std::vector<std::string> words_of(const std::string& text);

// Trails off: the last three words, or all of fewer, take 1.35 times as long, as if said slowly (common practice, no
// source); rests and gaps stay, and marks move with their words.
void trail_off(SpokenText& speech);

// Ends the speech with the beginning of word number `word`: it is cut off there. Requires word < timed.size().
void cut_off(SpokenText& speech, std::size_t word);

}  // namespace lensward
