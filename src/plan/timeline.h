// The clock of one beat: when each of its lines begins and ends (docs/language.md, "Time").
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "plan/cues.h"

namespace lensward {

struct LineTime {
  bool placed = false;
  Moment begin, end;
};

// Told length of the beat.
struct AskedLength {
  enum class Form { none, exactly, at_least, at_most };
  Form form = Form::none;
  Milliseconds length;
  Span span;
};

// Whose beat it is, for findings, and the gaps between speeches.
struct ClockSettings {
  Subject subject;
  Milliseconds turn_gap{200};  // another spoke last (facts: Stivers et al. 2009)
  Milliseconds breath{500};    // the same spoke last
};

class BeatClock {
 public:
  // How long line `index` takes that begins at `begin`. Asked once a line, in order of begin; the answer counts only
  // when the line's length is not known beforehand.
  using LengthOf = std::function<Milliseconds(std::size_t index, Moment begin)>;

  BeatClock(std::vector<TimedLine> lines, Moment top, ClockSettings settings, Findings& findings);
  BeatClock(const BeatClock&) = delete;
  BeatClock& operator=(const BeatClock&) = delete;

  // Places every line that can be placed. Lines with a cue that is missing, unclear or in a circle are left out, each
  // with its `time.` finding.
  void run(const AskedLength& asked, const LengthOf& length_of);

  // What follows requires run().
  const std::vector<TimedLine>& lines() const { return lines_; }
  const LineTime& time_of(std::size_t index) const { return times_[index]; }
  Moment end() const { return end_; }
  bool silent() const;

  // For lines outside the clock, such as intents. Nothing, and a finding, when nothing is meant by it.
  std::optional<Moment> moment_of(const Cue& cue);
  // The beginning of what is pointed at, or its end.
  std::optional<Moment> moment_of(const CuePoint& point, bool its_end);
  // The speech that holds these words.
  std::optional<std::size_t> speech_of(const Quoted& words, const std::optional<Name>& whose);
  std::optional<std::size_t> line_named(const std::string& label) const { return finder_.line_named(label); }

 private:
  struct Start {
    std::vector<Anchor> after;  // begins with the latest of these
    Milliseconds gap;
    bool lost = false;  // its cue means nothing
  };

  void link();
  void link_talk(std::size_t index);
  void link_deed(std::size_t index);
  void link_cued(std::size_t index);
  void wait_for_group();
  bool moves_the_hand(const TimedLine& line) const;
  bool is_lost(const Anchor& anchor) const;

  std::optional<Moment> moment_of(const Anchor& anchor) const;
  std::optional<Moment> end_of(std::size_t index) const;
  std::optional<Moment> begin_of(const Start& start) const;
  void place_what_is_known();
  bool run_next(const LengthOf& length_of);
  Moment contents_end() const;
  void finish(const AskedLength& asked, const LengthOf& length_of);

  void report_unclear();
  void report_circle();
  static std::string name_in_words(const TimedLine& line);
  std::string circle_in_words(const std::vector<std::size_t>& way) const;
  void report_before_top(std::size_t index, Moment wanted);
  void report_overfull(const AskedLength& asked, Moment contents);
  void report_silence();
  Finding& report(std::string rule, Severity severity, Span where, std::string message, std::string next_step);

  std::vector<TimedLine> lines_;
  Moment top_, end_;
  ClockSettings settings_;
  Findings& findings_;
  CueFinder finder_;

  std::vector<Start> starts_;
  std::vector<LineTime> times_;
  std::vector<bool> has_run_;
  std::vector<std::optional<Milliseconds>> lengths_;
  std::vector<std::vector<std::size_t>> cutters_;  // of a speech: the lines that cut in on it

  // While linking: where the talk has come to, and what the next `then`, `meanwhile` and speech look back at.
  std::vector<Anchor> hand_;
  std::vector<Anchor> cued_talk_;
  std::vector<std::size_t> waited_for_;  // the last uncued line that takes time, and those meanwhile
  std::optional<std::size_t> last_uncued_;
  std::string last_speaker_;
};

}  // namespace lensward
