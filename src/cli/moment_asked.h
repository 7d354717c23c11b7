// The beat and moment a command is asked about.
#pragma once

#include <optional>
#include <string>

#include "cli/pipeline.h"

namespace lensward {

// "12.4", "12.4s", "1:02.5", counted from the start of the scene; "+2.5" from the top of the beat.
struct AskedTime {
  Milliseconds time;
  bool from_beat = false;
};
// Nothing for words that are no time.
std::optional<AskedTime> read_time(const std::string& words);

struct AskedMoment {
  int beat = -1;
  Moment moment;
};
// The beat named, else the one that holds the moment, else the first; the moment asked for, else the one that decides
// the beat. Throws CannotRun for an unknown beat, naming those there are, a time outside the scene or outside the beat
// named, and for a scene without beats.
AskedMoment moment_asked(const Run& run, const std::optional<std::string>& beat, const std::optional<std::string>& at);

}  // namespace lensward
