#include "cli/pipeline.h"

#include "emphasis/judge.h"
#include "emphasis/weigh.h"
#include "plan/make_plan.h"
#include "rules/check.h"
#include "syntax/parse.h"

namespace lensward {

void compile(std::string name, std::string bytes, Until until, Run& run) {
  const std::int32_t file = run.sources.add(SourceFile(std::move(name), std::move(bytes)));
  run.tree = parse(run.sources, file, run.findings);
  run.script = read_script(run.sources, run.tree, run.findings);
  if (until == Until::syntax) return;
  run.plan = make_plan(run.sources, run.script, run.findings);
  if (until == Until::plan) return;
  run.attention = weigh(run.plan);
  run.verdicts = judge(run.plan, run.attention);
  check_rules(run.plan, run.attention, run.verdicts, run.findings);
  sort_findings(run.findings);
}

}  // namespace lensward
