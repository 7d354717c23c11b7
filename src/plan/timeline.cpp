#include "plan/timeline.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "base/quantity_text.h"

namespace lensward {
namespace {

using Edge = Anchor::Edge;

bool is_talk(const TimedLine& line) {
  return line.kind == TimedLine::Kind::speech || line.kind == TimedLine::Kind::pause;
}
bool is_cued(const TimedLine& line) { return line.cue != nullptr || line.during != nullptr; }
bool takes_time(const TimedLine& line) { return !line.instant && !line.endless; }

}  // namespace

BeatClock::BeatClock(std::vector<TimedLine> lines, Moment top, ClockSettings settings, Findings& findings)
    : lines_(std::move(lines)),
      top_(top),
      end_(top),
      settings_(std::move(settings)),
      findings_(findings),
      finder_(lines_, settings_.subject, findings_),
      starts_(lines_.size()),
      times_(lines_.size()),
      has_run_(lines_.size()),
      lengths_(lines_.size()),
      cutters_(lines_.size()),
      hand_{Anchor{}} {
  for (std::size_t i = 0; i < lines_.size(); ++i) lengths_[i] = lines_[i].length;
}

bool BeatClock::silent() const {
  return std::none_of(lines_.begin(), lines_.end(),
                      [](const TimedLine& line) { return line.kind == TimedLine::Kind::speech; });
}

// ---- Linking: what each line begins with, before any time is known -------------------------------------------------

void BeatClock::link() {
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (is_cued(lines_[i])) {
      link_cued(i);
    } else if (is_talk(lines_[i])) {
      link_talk(i);
    } else {
      link_deed(i);
    }
  }
}

void BeatClock::wait_for_group() {
  for (const std::size_t line : waited_for_) hand_.push_back({Edge::end, line, 0, {}});
}

void BeatClock::link_talk(std::size_t index) {
  const TimedLine& line = lines_[index];
  Start& start = starts_[index];
  if (line.when == When::then) wait_for_group();
  if (line.when == When::meanwhile && last_uncued_) {
    start = starts_[*last_uncued_];
  } else {
    start.after = hand_;
    start.after.insert(start.after.end(), cued_talk_.begin(), cued_talk_.end());
    cued_talk_.clear();
    if (line.kind == TimedLine::Kind::speech && !last_speaker_.empty() && !line.cutting_in) {
      start.gap = last_speaker_ == line.speaker ? settings_.breath : settings_.turn_gap;
    }
  }
  const Anchor its_end{Edge::end, index, 0, {}};
  if (line.when == When::meanwhile) {
    hand_.push_back(its_end);
    waited_for_.push_back(index);
  } else {
    hand_ = {its_end};
    waited_for_ = {index};
    last_uncued_ = index;
  }
  // A pause is the rest between two speeches: no gap on top of it.
  last_speaker_ = line.kind == TimedLine::Kind::speech ? line.speaker : std::string{};
}

void BeatClock::link_deed(std::size_t index) {
  const TimedLine& line = lines_[index];
  if (line.when == When::then) wait_for_group();
  const bool beside = line.when == When::meanwhile && last_uncued_.has_value();
  if (beside) {
    starts_[index] = starts_[*last_uncued_];
    starts_[index].gap = {};
  } else {
    starts_[index].after = hand_;
    last_uncued_ = index;
  }
  if (takes_time(line)) {
    if (!beside) waited_for_.clear();
    waited_for_.push_back(index);
  }
  if (moves_the_hand(line)) {
    if (!beside) hand_.clear();
    hand_.push_back({Edge::end, index, 0, {}});
  }
}

bool BeatClock::moves_the_hand(const TimedLine& line) const {
  return silent() && line.kind == TimedLine::Kind::deed && !line.runs_on;
}

void BeatClock::link_cued(std::size_t index) {
  const TimedLine& line = lines_[index];
  Start& start = starts_[index];
  const std::optional<Anchor> anchor =
      line.cue != nullptr ? finder_.find(*line.cue) : finder_.find(*line.during, false);
  if (!anchor) {
    start.lost = true;
    return;
  }
  start.after = {*anchor};
  if (line.during != nullptr && line.cue == nullptr) lengths_[index].reset();
  if (line.kind != TimedLine::Kind::speech) return;
  cued_talk_.push_back({Edge::end, index, 0, {}});
  last_speaker_ = line.speaker;
  const bool on_speech = anchor->edge == Edge::word_begin || anchor->edge == Edge::word_end ||
                         anchor->edge == Edge::mark || anchor->edge == Edge::begin;
  if (line.cutting_in && on_speech && lines_[anchor->line].kind == TimedLine::Kind::speech) {
    cutters_[anchor->line].push_back(index);
  }
}

// ---- Times ---------------------------------------------------------------------------------------------------------

std::optional<Moment> BeatClock::end_of(std::size_t index) const {
  if (!times_[index].placed || !lengths_[index]) return std::nullopt;
  Moment end = times_[index].begin + *lengths_[index];
  for (const std::size_t cutter : cutters_[index]) {
    if (starts_[cutter].lost) continue;
    if (!times_[cutter].placed) return std::nullopt;
    end = std::min(end, times_[cutter].begin);
  }
  return std::max(end, times_[index].begin);
}

std::optional<Moment> BeatClock::moment_of(const Anchor& anchor) const {
  if (anchor.edge == Edge::top) return top_ + anchor.offset;
  if (anchor.edge == Edge::beat_end) return std::nullopt;
  const LineTime& time = times_[anchor.line];
  if (!time.placed) return std::nullopt;
  const TimedLine& line = lines_[anchor.line];
  switch (anchor.edge) {
    case Edge::word_begin:
      return time.begin + line.spoken->timed[anchor.word].begin + anchor.offset;
    case Edge::word_end:
      return time.begin + line.spoken->timed[anchor.word].end + anchor.offset;
    case Edge::mark:
      return time.begin + line.spoken->marks[anchor.word].at + anchor.offset;
    case Edge::begin:
      return time.begin + anchor.offset;
    default:
      break;
  }
  const std::optional<Moment> end = end_of(anchor.line);
  if (!end) return end;
  if (anchor.edge == Edge::end) return *end + anchor.offset;
  return Moment{(time.begin.count + end->count) / 2} + anchor.offset;
}

// Lines that hang from a lost one are lost with it; what merely queues behind a lost one does not wait for it.
bool BeatClock::is_lost(const Anchor& anchor) const {
  return anchor.edge != Edge::top && anchor.edge != Edge::beat_end && starts_[anchor.line].lost;
}

std::optional<Moment> BeatClock::begin_of(const Start& start) const {
  Moment latest = start.after.size() == 1 ? Moment{INT64_MIN / 2} : top_;
  for (const Anchor& anchor : start.after) {
    if (is_lost(anchor)) continue;
    const std::optional<Moment> moment = moment_of(anchor);
    if (!moment) return std::nullopt;
    latest = std::max(latest, *moment);
  }
  return std::max(latest, Moment{INT64_MIN / 4}) + start.gap;
}

void BeatClock::place_what_is_known() {
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (times_[i].placed || starts_[i].lost) continue;
      if (is_cued(lines_[i]) && is_lost(starts_[i].after.front())) {
        starts_[i].lost = changed = true;
        continue;
      }
      const std::optional<Moment> begin = begin_of(starts_[i]);
      if (!begin) continue;
      if (*begin < top_ && is_cued(lines_[i])) report_before_top(i, *begin);
      times_[i] = {true, std::max(*begin, top_), {}};
      changed = true;
    }
  }
}

bool BeatClock::run_next(const LengthOf& length_of) {
  std::optional<std::size_t> next;
  const auto rank = [&](std::size_t i) { return std::tuple(times_[i].begin, lines_[i].leans_on_others, i); };
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (times_[i].placed && !has_run_[i] && (!next || rank(i) < rank(*next))) next = i;
  }
  if (!next) return false;
  has_run_[*next] = true;
  const Milliseconds asked = length_of(*next, times_[*next].begin);
  if (lengths_[*next]) return true;
  lengths_[*next] = asked;
  if (const CuePoint* during = lines_[*next].during) {
    const std::optional<Anchor> anchor = finder_.find(*during, true);
    const std::optional<Moment> end = anchor ? moment_of(*anchor) : std::nullopt;
    if (end) lengths_[*next] = std::max(*end - times_[*next].begin, Milliseconds{});
  }
  return true;
}

void BeatClock::run(const AskedLength& asked, const LengthOf& length_of) {
  link();
  place_what_is_known();
  while (run_next(length_of)) place_what_is_known();
  finish(asked, length_of);
  report_unclear();
  report_circle();
  report_silence();
}

Moment BeatClock::contents_end() const {
  Moment end = top_;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (!times_[i].placed) continue;
    end = std::max(end, times_[i].begin);
    const bool holds = !lines_[i].runs_on && (!lines_[i].endless || moves_the_hand(lines_[i]));
    if (const std::optional<Moment> its_end = end_of(i); its_end && holds) end = std::max(end, *its_end);
  }
  return end;
}

void BeatClock::finish(const AskedLength& asked, const LengthOf& length_of) {
  const Moment contents = contents_end();
  const Moment told = top_ + asked.length;
  end_ = contents;
  if (asked.form == AskedLength::Form::exactly || asked.form == AskedLength::Form::at_least) {
    end_ = std::max(contents, told);
  }
  const bool too_full = asked.form == AskedLength::Form::exactly || asked.form == AskedLength::Form::at_most;
  if (too_full && contents > told) report_overfull(asked, contents);
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    const bool waits =
        !times_[i].placed && !starts_[i].lost && lines_[i].cue != nullptr && lines_[i].cue->kind == Cue::Kind::at_end;
    if (!waits) continue;
    times_[i] = {true, end_, {}};
    lengths_[i] = length_of(i, end_);
  }
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (const std::optional<Moment> end = end_of(i)) times_[i].end = *end;
  }
}

std::optional<Moment> BeatClock::moment_of(const Cue& cue) {
  if (cue.kind == Cue::Kind::at_end) return end_;
  const std::optional<Anchor> anchor = finder_.find(cue);
  report_unclear();
  const std::optional<Moment> moment = anchor ? moment_of(*anchor) : std::nullopt;
  return moment ? std::optional{std::max(*moment, top_)} : std::nullopt;
}

std::optional<Moment> BeatClock::moment_of(const CuePoint& point, bool its_end) {
  const std::optional<Anchor> anchor = finder_.find(point, its_end);
  report_unclear();
  return anchor ? moment_of(*anchor) : std::nullopt;
}

std::optional<std::size_t> BeatClock::speech_of(const Quoted& words, const std::optional<Name>& whose) {
  const std::optional<CueFinder::Match> match = finder_.find_words(words.words, whose, std::nullopt, words.span);
  report_unclear();
  return match ? std::optional{match->line} : std::nullopt;
}

// ---- What is wrong -------------------------------------------------------------------------------------------------

Finding& BeatClock::report(std::string rule, Severity severity, Span where, std::string message,
                           std::string next_step) {
  Finding finding;
  finding.rule = std::move(rule);
  finding.severity = severity;
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  finding.subject = settings_.subject;
  return findings_.add(std::move(finding));
}

void BeatClock::report_unclear() {
  for (const CueFinder::Unclear& unclear : finder_.take_unclear()) {
    std::string times;
    for (const CueFinder::Match& match : unclear.matches) {
      if (!times.empty()) times += ", ";
      const std::optional<Moment> at = moment_of(Anchor{Edge::word_begin, match.line, match.first, {}});
      times += at ? text_of(*at) : "never";
    }
    report("time.cue-unclear", Severity::error, unclear.span,
           "\"" + unclear.words + "\" is said " + std::to_string(unclear.matches.size()) + " times: " + times,
           "quote more words, say whose (`on \"" + unclear.words + "\" of …`) or which (`on the second \"" +
               unclear.words + "\"`), or put a mark such as `[Turn]` in the speech");
  }
}

void BeatClock::report_circle() {
  std::vector<std::size_t> waiting;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (!times_[i].placed && !starts_[i].lost) waiting.push_back(i);
  }
  if (waiting.empty()) return;
  // From any waiting line, going on to what it waits for must come back to a line already met: that is the circle.
  std::vector<std::size_t> way{waiting.front()};
  for (;;) {
    const std::vector<Anchor>& after = starts_[way.back()].after;
    const auto blocked = std::find_if(after.begin(), after.end(), [&](const Anchor& anchor) {
      return anchor.edge != Edge::top && anchor.edge != Edge::beat_end && !moment_of(anchor) && !is_lost(anchor);
    });
    if (blocked == after.end()) return;
    std::size_t next = blocked->line;
    for (const std::size_t cutter : cutters_[next]) {
      if (times_[next].placed && !times_[cutter].placed) next = cutter;
    }
    const auto met = std::find(way.begin(), way.end(), next);
    way.erase(way.begin(), met == way.end() ? way.begin() : met);
    if (met != way.end() || way.size() > lines_.size()) break;
    way.push_back(next);
  }
  std::sort(way.begin(), way.end());
  Finding& finding = report("time.circle", Severity::error, lines_[way.front()].span,
                            way.size() == 1 ? "this waits for itself" : circle_in_words(way),
                            "give one of them a cue from the words, or none");
  for (std::size_t i = 1; i < way.size(); ++i) finding.labels.push_back({lines_[way[i]].span, "waits too"});
}

// `Turn`, `Abel turns`: as a writer would point at the line.
std::string BeatClock::name_in_words(const TimedLine& line) {
  if (!line.label.empty()) return '`' + line.label + '`';
  if (line.spoken) return "the speech of `" + line.speaker + '`';
  return '`' + (line.doers.empty() ? line.verb : line.doers.front() + " " + line.verb) + '`';
}

std::string BeatClock::circle_in_words(const std::vector<std::size_t>& way) const {
  std::string words;
  for (std::size_t i = 0; i < way.size(); ++i) {
    if (i > 0) words += i + 1 == way.size() ? " and " : ", ";
    words += name_in_words(lines_[way[i]]);
  }
  return words + (way.size() == 2 ? " wait for each other" : " wait for one another, in a circle");
}

void BeatClock::report_before_top(std::size_t index, Moment wanted) {
  report("time.before-top", Severity::error, lines_[index].span,
         "this would begin " + text_of(top_ - wanted) + " before its beat does",
         "move it to the beat above, with `runs on`, or cue it `from top`");
}

void BeatClock::report_overfull(const AskedLength& asked, Moment contents) {
  // Rounded up, so that the length offered does hold the beat.
  const Milliseconds needs{(contents - top_).count + 99};
  const Milliseconds enough{needs.count / 100 * 100};
  report("time.overfull", Severity::error, asked.span,
         "the beat is told to last " + text_of(asked.length) + " but its contents need " + text_of(enough),
         "write `lasts " + text_of(enough) + "`, or delete the line and let the beat follow its contents");
}

void BeatClock::report_silence() {
  if (!silent()) return;
  std::vector<std::size_t> following;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    const TimedLine& line = lines_[i];
    const bool queues = !is_cued(line) && (line.kind == TimedLine::Kind::deed || line.kind == TimedLine::Kind::pause);
    if (queues && line.when == When::unsaid && !line.instant) following.push_back(i);
  }
  if (following.size() < 2) return;
  report("time.silent-beat", Severity::remark, lines_[following[1]].span,
         "nobody speaks in this beat, so lines without a cue follow one another",
         "put `meanwhile` before a line to begin it with the one above");
}

}  // namespace lensward
