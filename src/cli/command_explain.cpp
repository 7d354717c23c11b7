#include "cli/commands.h"
#include "cli/line_text.h"
#include "cli/moment_asked.h"
#include "cli/tally_text.h"
#include "rules/pages.h"

namespace lensward {
namespace {

// FILE:LINE taken apart; no file when the words are no such thing.
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

bool asks_for_a_moment(const ExplainOptions& options) { return options.at || options.beat; }

std::string explained_line(const PlaceAsked& place, const ExplainOptions& options, Surroundings& around) {
  if (options.csv) throw CannotRun("--csv is of a whole scene: leave the line out of `" + options.what + "`");
  const Run run = compiled(place.file, Until::rules, around);
  const int lines = run.sources.file(run.tree.file).line_count();
  if (place.line < 1 || place.line > lines) {
    throw CannotRun("there is no line " + std::to_string(place.line) + " in " + place.file + ", which has " +
                    std::to_string(lines));
  }
  std::string text = line_text(run, place.line);
  if (!asks_for_a_moment(options)) return text;
  return text + '\n' + tally_text(run, moment_asked(run, options.beat, options.at).moment);
}

std::string explained_scene(const ExplainOptions& options, Surroundings& around) {
  const Run run = compiled(options.what, Until::verdicts, around);
  require_scene(run, options.what);
  if (options.csv) return tally_csv(run);
  if (!asks_for_a_moment(options)) return verdicts_text(run);
  return tally_text(run, moment_asked(run, options.beat, options.at).moment);
}

[[noreturn]] void refuse_unknown(const std::string& what) {
  const auto meant = nearest_rule(what);
  throw CannotRun("there is no rule and no file `" + what + "`; " +
                  (meant ? "did you mean `" + std::string(*meant) + "`?" : "`lensward explain rules` lists the rules"));
}

std::string explained(const ExplainOptions& options, Surroundings& around) {
  const std::string& what = options.what;
  const bool of_a_file = asks_for_a_moment(options) || options.csv;
  if (const auto page = what == "rules" ? rules_document() : rule_page(what)) {
    if (!of_a_file) return *page;
    throw CannotRun("`" + what + "` names rules: --at, --beat and --csv go with a staging file");
  }
  if (what == "-" || around.host.canonical(what)) return explained_scene(options, around);
  const PlaceAsked place = place_in(what);
  if (!place.file.empty()) return explained_line(place, options, around);
  if (what.find_first_of("./") == std::string::npos || nearest_rule(what)) refuse_unknown(what);
  return explained_scene(options, around);
}

}  // namespace

int command_explain(const ExplainOptions& options, Surroundings& around) {
  put("-", explained(options, around), around);
  return 0;
}

}  // namespace lensward
