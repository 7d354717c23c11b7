#include "cli/commands.h"
#include "report/json.h"
#include "report/outline.h"
#include "report/text.h"

namespace lensward {
namespace {

Severity bar_named(const std::string& name) {
  for (Severity severity : {Severity::remark, Severity::warning}) {
    if (name == name_of(severity)) return severity;
  }
  return Severity::error;
}

std::string printed(const Run& run, const std::string& as, bool colour) {
  if (as == "json") return json_text(findings_json(run.sources, run.findings));
  if (as == "lines") return findings_lines(run.sources, run.findings);
  return findings_text(run.sources, run.findings, colour);
}

}  // namespace

// Files that can be read are checked even when another cannot; the status still says that one could not.
int command_check(const CheckOptions& options, Surroundings& around) {
  Run run;
  bool all_read = true;
  for (const std::string& path : options.files) {
    const auto file = read_file(around.host, path, run);
    if (const auto* error = std::get_if<HostError>(&file)) {
      tell("lensward: cannot read " + path + ": " + error->reason);
      all_read = false;
    } else if (run.is_film(std::get<int>(file))) {
      compile_film(std::get<int>(file), run);
    } else {
      compile(std::get<int>(file), Until::rules, run);
    }
  }
  if (run.sources.size() > 0) put("-", printed(run, options.as, around.colour), around);
  if (!all_read) return 2;
  return run.findings.any_at_or_above(bar_named(options.bar)) ? 1 : 0;
}

}  // namespace lensward
