#include "cli/pipeline.h"

#include <algorithm>

#include "emphasis/judge.h"
#include "emphasis/weigh.h"
#include "plan/make_plan.h"
#include "rules/check.h"
#include "syntax/parse.h"

namespace lensward {
namespace {

// Reading reports lines; a file without any would pass unnoticed.
void report_empty_file(std::int32_t file, const Script& script, Findings& findings) {
  const auto told = [&](const Finding& finding) { return finding.where.file == file; };
  if (!script.statements.empty() || std::ranges::any_of(findings.all(), told)) return;
  Finding finding;
  finding.rule = "parse.header-missing";
  finding.where = {file, 0, 0};
  finding.message = "there is not one line in this file";
  finding.next_step = "begin it with `staging 1.0 scene`";
  findings.add(std::move(finding));
}

}  // namespace

void compile(std::string name, std::string bytes, Until until, Run& run) {
  const std::int32_t file = run.sources.add(SourceFile(std::move(name), std::move(bytes)));
  run.tree = parse(run.sources, file, run.findings);
  run.script = read_script(run.sources, run.tree, run.findings);
  report_empty_file(file, run.script, run.findings);
  if (until == Until::syntax) return;
  run.plan = make_plan(run.sources, run.script, run.findings);
  if (until == Until::plan) return;
  run.attention = weigh(run.plan);
  run.verdicts = judge(run.plan, run.attention);
  check_rules(run.plan, run.attention, run.verdicts, run.findings);
  sort_findings(run.findings);
}

}  // namespace lensward
