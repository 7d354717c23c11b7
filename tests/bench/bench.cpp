// What things cost. Read medians, and compare within one run only: machines are noisy.
//   bench --benchmark_repetitions=11 --benchmark_report_aggregates_only=true
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

#include "cli/pipeline.h"
#include "emphasis/judge.h"
#include "emphasis/weigh.h"
#include "export/export.h"
#include "lens/see.h"
#include "pages/lay_out.h"
#include "plan/make_plan.h"
#include "process.h"
#include "rules/check.h"
#include "syntax/parse.h"
#include "tests/mangled/by_chance.h"

namespace lensward::bench {
namespace {

constexpr const char* draft = LENSWARD_EXAMPLES_DIR "/monday.staging";
constexpr const char* quay = LENSWARD_EXAMPLES_DIR "/quay.staging";
constexpr const char* scene = LENSWARD_EXAMPLES_DIR "/one-vote.staging";

std::string text_of_file(const char* path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

struct Stages {
  SourceSet sources;
  Findings findings;
  Plan plan;

  explicit Stages(const std::string& text) {
    const std::int32_t file = sources.add(SourceFile("scene.staging", text));
    const Tree tree = parse(sources, file, findings);
    plan = make_plan(sources, read_script(sources, tree, findings), findings);
  }
};

// The beats of a scene over and over, to a length.
std::string repeated(const char* path, std::size_t bytes) {
  const std::string text = text_of_file(path);
  const std::string beats = text.substr(text.find("\nbeat "));
  std::string whole = text;
  while (whole.size() < bytes) whole += beats;
  return whole;
}

void parse_two_megabytes(benchmark::State& state) {
  SourceSet sources;
  const std::string text = repeated(scene, (2U << 20U) - 8192);
  const std::int32_t file = sources.add(SourceFile("long.staging", text));
  for (auto _ : state) {
    Findings findings;
    benchmark::DoNotOptimize(parse(sources, file, findings).leaves.data());
  }
  state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations() * text.size()));
}

void text_to_plan(benchmark::State& state) {
  const std::string text = text_of_file(scene);
  for (auto _ : state) benchmark::DoNotOptimize(Stages(text).plan.beats.data());
}

void one_view(benchmark::State& state) {
  const Stages stages(text_of_file(scene));
  std::int64_t step = 0;
  for (auto _ : state) {
    const Moment moment{(step++ * 977) % stages.plan.duration().count};
    benchmark::DoNotOptimize(see(stages.plan, moment).people.data());
  }
}

void weigh_the_scene(benchmark::State& state) {
  const Stages stages(text_of_file(scene));
  for (auto _ : state) benchmark::DoNotOptimize(weigh(stages.plan).samples.data());
}

void lay_out_and_export_the_book(benchmark::State& state) {
  Stages stages(text_of_file(scene));
  const Attention attention = weigh(stages.plan);
  const std::vector<Verdict> verdicts = judge(stages.plan, attention);
  check_rules(stages.plan, attention, verdicts, stages.findings);
  const Results results{stages.sources, stages.plan, attention, verdicts, stages.findings};
  for (auto _ : state) benchmark::DoNotOptimize(to_pdf(lay_out_book(results)).data());
}

void process(benchmark::State& state, std::vector<std::string> words) {
  words.insert(words.begin(), LENSWARD_PROGRAM);
  double cpu = 0;
  for (auto _ : state) {
    bool ran = false;
    const ProcessCost cost = run_process(words, ran);
    if (!ran) {
      state.SkipWithError("did not run");
      break;
    }
    state.SetIterationTime(cost.wall_seconds);
    cpu += cost.cpu_seconds;
  }
  state.counters["cpu_ms"] = benchmark::Counter(cpu * 1000, benchmark::Counter::kAvgIterations);
}

// From a keystroke to what there is to say, when one line is another than a moment before: of many such changes.
void edit_to_findings(benchmark::State& state, const char* path) {
  const auto known = std::make_shared<BeatsKnown>();
  const auto check = [&](const std::string& text) {
    Run run;
    run.known = known;
    compile("scene.staging", text, Until::rules, run);
    benchmark::DoNotOptimize(run.findings.all().data());
  };
  const std::string begin = text_of_file(path);
  check(begin);
  const std::size_t beats = begin.find("\nbeat ") + 1;
  const std::vector<std::string> lines = test::lines_of(begin.substr(beats));
  test::Chance chance(1);
  std::vector<double> took;
  for (auto _ : state) {
    std::vector<std::string> changed = lines;
    test::change_as_a_writer_does(changed, lines, chance);
    const auto start = std::chrono::steady_clock::now();
    check(begin.substr(0, beats) + test::joined(changed));
    took.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    state.SetIterationTime(took.back());
  }
  std::sort(took.begin(), took.end());
  const auto at = [&](double share) {
    return took[static_cast<std::size_t>(share * static_cast<double>(took.size() - 1))];
  };
  state.counters["median_ms"] = at(0.5) * 1000;
  state.counters["p95_ms"] = at(0.95) * 1000;
}

BENCHMARK(parse_two_megabytes)->Unit(benchmark::kMillisecond);
BENCHMARK(text_to_plan)->Unit(benchmark::kMillisecond);
BENCHMARK(one_view)->Unit(benchmark::kMillisecond);
BENCHMARK(weigh_the_scene)->Unit(benchmark::kMillisecond);
BENCHMARK(lay_out_and_export_the_book)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(edit_to_findings, draft, draft)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(200);
BENCHMARK_CAPTURE(edit_to_findings, quay, quay)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(200);
BENCHMARK_CAPTURE(edit_to_findings, scene, scene)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(200);
BENCHMARK_CAPTURE(process, version, {"--version"})->UseManualTime()->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, check_draft, {"check", draft})->UseManualTime()->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, check_scene, {"check", scene})->UseManualTime()->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, mend_one_finding, {"mend", scene, "--line", "121"})
    ->UseManualTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, mend_scene, {"mend", scene})->UseManualTime()->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, compare_scene, {"compare", scene, scene})->UseManualTime()->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, sheets_of_scene, {"sheets", scene, "-o", "bench-sheets"})
    ->UseManualTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(process, book_of_scene, {"book", scene, "-o", "bench-book.pdf"})
    ->UseManualTime()
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lensward::bench

BENCHMARK_MAIN();
