#include "cli/commands.h"
#include "cli/line_text.h"
#include "cli/moment_asked.h"
#include "cli/tally_text.h"
#include "rules/pages.h"

namespace lensward {
namespace {

// FILE:LINE taken apart; line 0 when the words are no such thing.
struct PlaceAsked {
  std::string file;
  int line = 0;
};
PlaceAsked place_in(const std::string& words) {
  const std::size_t colon = words.rfind(':');
  if (colon == std::string::npos || colon == 0) return {};
  const std::string digits = words.substr(colon + 1);
  if (digits.empty() || digits.size() > 8 || digits.find_first_not_of("0123456789") != std::string::npos) return {};
  return {words.substr(0, colon), std::stoi(digits)};
}

std::string explained_line(const PlaceAsked& place, Surroundings& around) {
  const Run run = compiled(place.file, Until::rules, around);
  const int lines = run.sources.file(0).line_count();
  if (place.line < 1 || place.line > lines) {
    throw CannotRun("there is no line " + std::to_string(place.line) + " in " + place.file + ", which has " +
                    std::to_string(lines));
  }
  return line_text(run, place.line);
}

Run compiled_scene(const std::string& path, Surroundings& around) {
  try {
    return compiled(path, Until::rules, around);
  } catch (const CannotRun& reason) {
    throw CannotRun(std::string(reason.what()) + ", and no rule has that name");
  }
}

std::string explained_scene(const ExplainOptions& options, Surroundings& around) {
  const Run run = compiled_scene(options.what, around);
  require_scene(run, options.what);
  if (options.csv) return tally_csv(run);
  if (!options.at && !options.beat) return verdicts_text(run);
  return tally_text(run, moment_asked(run, options.beat, options.at).moment);
}

}  // namespace

int command_explain(const ExplainOptions& options, Surroundings& around) {
  if (!options.at && !options.beat && !options.csv) {
    if (const auto page = options.what == "rules" ? rules_document() : rule_page(options.what)) {
      put("-", *page, around);
      return 0;
    }
    const PlaceAsked place = place_in(options.what);
    if (!place.file.empty()) {
      put("-", explained_line(place, around), around);
      return 0;
    }
  }
  put("-", explained_scene(options, around), around);
  return 0;
}

}  // namespace lensward
