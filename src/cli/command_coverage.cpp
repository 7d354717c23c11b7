#include "cli/commands.h"
#include "coverage/words.h"
#include "report/outline.h"

namespace lensward {

int command_coverage(const CoverageOptions& options, Surroundings& around) {
  const Run run = compiled(options.file, Until::verdicts, around);
  require_scene(run, options.file);
  const Coverage coverage = coverage_of(run.plan, run.verdicts);
  put("-", options.as == "json" ? json_text(coverage_json(run.plan, coverage)) : coverage_text(run.plan, coverage),
      around);
  return 0;
}

}  // namespace lensward
