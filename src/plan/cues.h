// What the cues of a beat hang from: words of its speeches, marks in them, and its deeds.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "plan/speech_times.h"
#include "syntax/script.h"

namespace lensward {

// One line of a beat, as far as the clock is concerned. Pointers are into the script and may be null.
struct TimedLine {
  // equipment: deeds of cameras and lamps, which hold nobody up in a beat without speech.
  enum class Kind { speech, pause, deed, equipment };
  Kind kind = Kind::deed;
  When when = When::unsaid;
  const Cue* cue = nullptr;
  const CuePoint* during = nullptr;  // `while …`: begins and ends with it
  Span span;
  std::string label;
  std::vector<std::string> doers;   // who a cue may call it by
  std::vector<std::string> others;  // who else does it, as one of a group: called on when no line is theirs alone
  std::string verb;
  std::string speaker;                 // of a speech
  std::optional<SpokenText> spoken;    // of a speech
  std::optional<Milliseconds> length;  // when it is known beforehand
  bool endless = false;                // holds up neither `then` nor the end of the beat
  bool instant = false;                // takes no time, so `then` passes over it
  bool runs_on = false;
  bool cutting_in = false;
  bool leans_on_others = false;  // of two that begin together, the one that depends on people is worked out last
};

// A point on the clock, named by what it hangs from.
struct Anchor {
  enum class Edge { top, begin, end, middle, word_begin, word_end, mark, beat_end };
  Edge edge = Edge::top;
  std::size_t line = 0;
  std::size_t word = 0;  // or mark
  Milliseconds offset;
};

// Finds what cues mean, and reports what they cannot mean. `lines` must outlive it.
class CueFinder {
 public:
  // A run of words in one speech.
  struct Match {
    std::size_t line = 0, first = 0, last = 0;
  };
  // Words said more than once. Reported by the clock, which knows the times.
  struct Unclear {
    Span span;
    std::string words;
    std::vector<Match> matches;
  };

  CueFinder(const std::vector<TimedLine>& lines, Subject subject, Findings& findings);

  std::optional<Anchor> find(const Cue& cue);
  std::optional<Anchor> find(const CuePoint& point, bool its_end);
  // The words `words` in the speeches of `whose`, or of anybody. Words spelt exactly so go before other capitals.
  std::optional<Match> find_words(const std::string& words, const std::optional<Name>& whose,
                                  std::optional<int> ordinal, Span span);
  std::optional<std::size_t> line_named(const std::string& label) const;
  std::vector<Unclear> take_unclear();

 private:
  std::optional<Anchor> find_mark(const CuePoint& point);
  std::optional<Anchor> find_deed(const CuePoint& point, bool its_end);
  std::vector<Match> matches(const std::vector<std::string>& wanted, const std::optional<Name>& whose,
                             bool any_case) const;
  void report_missing(const std::string& words, const std::optional<Name>& whose, Span span);
  std::string nearest_word(const std::string& word) const;
  void report(std::string rule, Span where, std::string message, std::string next_step);

  const std::vector<TimedLine>& lines_;
  Subject subject_;
  Findings& findings_;
  std::vector<Unclear> unclear_;
};

}  // namespace lensward
