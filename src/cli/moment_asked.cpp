#include "cli/moment_asked.h"

#include <algorithm>

#include "base/quantity_text.h"
#include "cli/commands.h"
#include "pages/lay_out.h"

namespace lensward {
namespace {

// Digits off the front of the words; nothing for none or for more than nine.
std::optional<std::int64_t> take_digits(std::string_view& words) {
  const std::size_t count = std::min(words.find_first_not_of("0123456789"), words.size());
  if (count == 0 || count > 9) return std::nullopt;
  std::int64_t value = 0;
  for (char digit : words.substr(0, count)) value = value * 10 + (digit - '0');
  words.remove_prefix(count);
  return value;
}

// ".4" as 400; a fourth digit and those after it are cut off.
std::optional<std::int64_t> take_thousandths(std::string_view& words) {
  if (!words.starts_with('.')) return 0;
  words.remove_prefix(1);
  std::int64_t value = 0, unit = 100;
  if (words.empty() || words[0] < '0' || words[0] > '9') return std::nullopt;
  for (; !words.empty() && words[0] >= '0' && words[0] <= '9'; words.remove_prefix(1), unit /= 10) {
    value += (words[0] - '0') * unit;
  }
  return value;
}

int beat_asked_for(const Plan& plan, const std::string& name) {
  std::string known;
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    if (plan.beats[i].name == name) return static_cast<int>(i);
    known += (i > 0 ? ", " : "") + plan.beats[i].name;
  }
  throw CannotRun("there is no beat `" + name + "`; the beats are " + known);
}

std::string stretch_of(const Beat& beat) {
  return "beat `" + beat.name + "` runs from " + clock_text(beat.begin) + " to " + clock_text(beat.end);
}

Moment moment_from(const Run& run, int beat, const std::string& at) {
  const auto asked = read_time(at);
  if (!asked) throw CannotRun("`" + at + "` is no time; write 12.4, 1:02.5 or, from the top of a beat, +2.5");
  if (asked->from_beat && beat < 0) throw CannotRun("`" + at + "` counts from the top of a beat: say --beat NAME too");
  const Plan& plan = run.plan;
  const Moment moment = asked->from_beat ? asked->time + plan.beats[static_cast<std::size_t>(beat)].begin : asked->time;
  if (moment > plan.duration()) {
    throw CannotRun(clock_text(moment) + " is past the end: the scene runs to " + clock_text(plan.duration()));
  }
  if (beat >= 0) {
    const Beat& named = plan.beats[static_cast<std::size_t>(beat)];
    if (moment < named.begin || moment > named.end) {
      throw CannotRun(clock_text(moment) + " is outside the beat: " + stretch_of(named));
    }
  }
  return moment;
}

}  // namespace

std::optional<AskedTime> read_time(const std::string& words) {
  std::string_view rest = words;
  AskedTime asked;
  if (rest.starts_with('+')) {
    asked.from_beat = true;
    rest.remove_prefix(1);
  }
  auto whole = take_digits(rest);
  if (!whole) return std::nullopt;
  if (rest.starts_with(':')) {
    rest.remove_prefix(1);
    const auto seconds = take_digits(rest);
    if (!seconds || *seconds > 59) return std::nullopt;
    *whole = *whole * 60 + *seconds;
  }
  const auto thousandths = take_thousandths(rest);
  if (!thousandths) return std::nullopt;
  if (rest.starts_with(' ')) rest.remove_prefix(1);
  if (!rest.empty() && rest != "s") return std::nullopt;
  asked.time = {*whole * 1000 + *thousandths};
  return asked;
}

AskedMoment moment_asked(const Run& run, const std::optional<std::string>& beat, const std::optional<std::string>& at) {
  if (run.plan.beats.empty()) throw CannotRun("the scene has no beats, so there is no moment to show");
  AskedMoment asked;
  if (beat) asked.beat = beat_asked_for(run.plan, *beat);
  if (at) {
    asked.moment = moment_from(run, asked.beat, *at);
    if (asked.beat < 0) asked.beat = beat_at(run.plan, asked.moment);
    return asked;
  }
  if (asked.beat < 0) asked.beat = 0;
  asked.moment = deciding_moment(run.results(), asked.beat);
  return asked;
}

}  // namespace lensward
