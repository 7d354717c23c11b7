#include "cli/pipeline.h"

#include <algorithm>
#include <iterator>

#include "emphasis/judge.h"
#include "emphasis/places_tried.h"
#include "emphasis/weigh.h"
#include "plan/follow.h"
#include "plan/make_plan.h"
#include "rules/across_scenes.h"
#include "rules/check.h"
#include "rules/other_ways.h"
#include "syntax/check_names.h"
#include "syntax/merge.h"

namespace lensward {
namespace {

const GatheredFile& file_at(const Run& run, int file) { return run.gathered.files[static_cast<std::size_t>(file)]; }

bool complete(const Run& run, int scene) {
  const std::vector<int> files = files_for(run.gathered, scene);
  return std::all_of(files.begin(), files.end(), [&](int file) { return file_at(run, file).complete; });
}

// The scene's script with everybody who is still there from the scene before.
Script script_for(const Run& run, int scene, const Plan* before) {
  return merged_script(run.sources, run.gathered, scene, before ? people_at_end(*before) : std::set<std::string>{});
}

// The scene that an opening follows, planned; the scenes of a film only ever follow earlier ones, so this ends.
std::optional<Plan> plan_before(const Run& run, int scene, Findings& findings) {
  const GatheredFile& own = file_at(run, scene);
  const HeadingLine* opening = following_opening(own.script);
  if (opening == nullptr) return std::nullopt;
  const std::vector<int> scenes = own.film >= 0 ? file_at(run, own.film).scenes : std::vector<int>{};
  for (int other : scenes) {
    if (other == scene) break;
    if (other < 0 || scene_name(file_at(run, other).script) != opening->of->text) continue;
    if (!complete(run, other)) return std::nullopt;
    Findings unheard;
    const std::optional<Plan> before = plan_before(run, other, unheard);
    return make_plan(run.sources, script_for(run, other, before ? &*before : nullptr), unheard,
                     {.way = std::nullopt, .before = before ? &*before : nullptr});
  }
  report_nothing_to_follow(*opening->of, findings);
  return std::nullopt;
}

bool anybody_is_vague(const Plan& plan) {
  return std::any_of(plan.marks.begin(), plan.marks.end(), [](const Mark& mark) { return !mark.area.empty(); });
}

void tell_ahead(const Run& run) {
  if (!run.ahead || anybody_is_vague(run.plan)) return;
  Findings findings = run.findings;
  check_rules(run.plan, run.attention, run.verdicts, findings, PlacesTried{});
  run.ahead(run, findings);
}

void tell_reached(const Run& run, Until until) {
  if (run.reached) run.reached(run, until);
}

void reckon(const PlanFor& planned_for, Until until, Run& run) {
  run.plan = make_plan(run.sources, run.script, run.findings, planned_for);
  tell_reached(run, Until::plan);
  if (until == Until::plan || run.is_unwanted()) return;
  run.attention = weigh(run.plan, run.unwanted, run.known.get());
  if (run.is_unwanted()) return;
  run.verdicts = judge(run.plan, run.attention);
  tell_reached(run, Until::verdicts);
  if (until == Until::verdicts || run.is_unwanted()) return;
  if (until >= Until::places) tell_ahead(run);
  const PlacesTried tried = until >= Until::places
                                ? try_places(run.plan, run.attention, run.verdicts, run.unwanted, run.known.get())
                                : PlacesTried{};
  if (!run.is_unwanted()) check_rules(run.plan, run.attention, run.verdicts, run.findings, tried);
}

void check_other_ways(const PlanFor& planned_for, Run& run) {
  for (const WayOfScene& way : ways_of(run.script)) {
    if (way.chosen) continue;
    if (run.is_unwanted()) return;
    Run other;
    other.unwanted = run.unwanted;
    other.known = run.known;
    other.sources = run.sources;
    other.script = run.script;
    reckon({.way = way.choice, .before = planned_for.before}, Until::rules, other);
    add_findings_of_way(way, other.plan, other.findings, run.findings);
  }
}

// A waiver of the whole film is stale only when no scene needs it.
void drop_stale_waivers_of_film(std::int32_t own, std::size_t from, Findings& findings) {
  auto& all = findings.all();
  all.erase(std::remove_if(
                all.begin() + static_cast<std::ptrdiff_t>(from), all.end(),
                [&](const Finding& finding) { return finding.rule == "stale-waiver" && finding.where.file != own; }),
            all.end());
}

}  // namespace

std::variant<int, HostError> read_file(Host& host, const std::string& path, Run& run) {
  if (path != "-" && host.names_in(path)) {
    const std::string film = path.ends_with('/') ? path + "film.staging" : path + "/film.staging";
    if (!host.canonical(film)) return HostError{"is a directory, and there is no film.staging in it"};
    return gather(host, film, run.sources, run.gathered, run.findings);
  }
  return gather(host, path, run.sources, run.gathered, run.findings);
}

namespace {

// Findings of other files: this scene's waivers and treatments are not for them.
std::vector<Finding> taken_aside(std::int32_t own, Findings& findings) {
  auto& all = findings.all();
  const auto others = std::stable_partition(all.begin(), all.end(),
                                            [own](const Finding& finding) { return finding.where.file == own; });
  std::vector<Finding> aside(std::make_move_iterator(others), std::make_move_iterator(all.end()));
  all.erase(others, all.end());
  return aside;
}

void compile_alone(int file, Until until, Run& run) {
  const std::size_t told_before = run.findings.all().size();
  run.tree = file_at(run, file).tree;
  run.script = file_at(run, file).script;
  run.plan = {};
  run.attention = {};
  run.verdicts.clear();
  if (until == Until::syntax) return;
  const bool scene = file_at(run, file).kind == FileKind::scene;
  if (scene && complete(run, file)) {
    const std::optional<Plan> before = plan_before(run, file, run.findings);
    run.script = script_for(run, file, before ? &*before : nullptr);
    const PlanFor planned_for{.way = std::nullopt, .before = before ? &*before : nullptr};
    reckon(planned_for, until, run);
    if (until < Until::marks) return;
    if (until == Until::rules) check_other_ways(planned_for, run);
    check_names(run.sources, run.gathered, file, run.findings);
    drop_stale_waivers_of_film(run.tree.file, told_before, run.findings);
  }
}

}  // namespace

void compile(int file, Until until, Run& run) {
  std::vector<Finding> aside = taken_aside(file_at(run, file).tree.file, run.findings);
  compile_alone(file, until, run);
  auto& all = run.findings.all();
  all.insert(all.end(), std::make_move_iterator(aside.begin()), std::make_move_iterator(aside.end()));
  sort_findings(run.findings);
}

void compile_film(int film, Run& run) {
  Ledger ledger;
  for (int scene : file_at(run, film).scenes) {
    if (scene < 0) continue;
    if (run.is_unwanted()) return;
    compile(scene, Until::rules, run);
    ledger.enter(run.plan);
  }
  settle_across_scenes(ledger, run.findings);
  check_names_of_film(run.sources, run.gathered, film, run.findings);
  sort_findings(run.findings);
}

void compile(std::string name, std::string bytes, Until until, Run& run) {
  MemoryHost host;
  host.files.emplace(name, std::move(bytes));
  const auto file = gather(host, name, run.sources, run.gathered, run.findings);
  if (const int* index = std::get_if<int>(&file)) compile(*index, until, run);
}

}  // namespace lensward
