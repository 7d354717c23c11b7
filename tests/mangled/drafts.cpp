// One draft after another, with what was made of the beats before it kept: each must come out as if it were the first.
//   drafts_tests EXAMPLES [--edits COUNT] [--seed SEED] [SCENE]
// First every beat of the examples is looked at on its own. Then COUNT changes of the kinds that somebody who writes
// makes follow one another in a scene; now and then all is taken back. The text under way stands in drafts.staging in
// the working directory, also after a crash.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <variant>
#include <vector>

#include "by_chance.h"
#include "cli/pipeline.h"
#include "lens/see.h"
#include "lens/seen_thing.h"
#include "plan/beat_alone.h"
#include "report/text.h"

using namespace lensward;
using namespace lensward::test;

namespace {

Run run_of(const Example& example, const std::string& text, const std::shared_ptr<BeatsKnown>& known) {
  MemoryHost host;
  host.files = {example.files.begin(), example.files.end()};
  host.files[example.scene] = text;
  Run run;
  if (known) run.known = known;
  const auto file = read_file(host, example.scene, run);
  if (const int* index = std::get_if<int>(&file)) compile(*index, Until::rules, run);
  return run;
}

// ---- Beats on their own -------------------------------------------------------------------------------------------

std::string difference_between(const View& one, const View& other) {
  if (one.camera != other.camera || one.state != other.state) return "the camera";
  if (one.things != other.things) return "a thing";
  for (std::size_t i = 0; i < std::min(one.people.size(), other.people.size()); ++i) {
    if (one.people[i] != other.people[i]) return "person " + std::to_string(one.people[i].person.index);
  }
  return one == other ? "" : "who is there";
}

// What differs between a beat of the scene and the same alone; empty: nothing.
std::string fault_of_beat(const Plan& plan, const Attention& attention, int index) {
  const Beat& beat = plan.beats[static_cast<std::size_t>(index)];
  const BeatAlone alone = beat_alone(plan, index);
  Onlooker onlooker(1, things_named(plan));
  for (const View& view : attention.views) {
    if (view.moment < beat.begin - before_a_beat || view.moment > beat.end) continue;
    View seen = onlooker.see(alone.plan, view.moment + alone.later);
    seen.moment = view.moment;
    const std::string difference = difference_between(seen, view);
    if (!difference.empty())
      return difference + " of beat " + beat.name + " at " + std::to_string(view.moment.count) + " ms";
  }
  return {};
}

bool beats_hold_alone(const std::vector<Example>& examples) {
  int beats = 0;
  for (const Example& example : examples) {
    const Run run = run_of(example, example.text(), nullptr);
    for (std::size_t beat = 0; beat < run.plan.beats.size(); ++beat) {
      ++beats;
      const std::string fault = fault_of_beat(run.plan, run.attention, static_cast<int>(beat));
      if (fault.empty()) continue;
      std::printf("%s: %s\n", example.scene.c_str(), fault.c_str());
      return false;
    }
  }
  std::printf("%d beats alone\n", beats);
  return beats > 0;
}

// ---- Drafts -------------------------------------------------------------------------------------------------------

std::string fault_of_draft(const Run& run, const Run& fresh) {
  if (findings_text(run.sources, run.findings, false) != findings_text(fresh.sources, fresh.findings, false))
    return "other findings";
  if (run.attention.samples != fresh.attention.samples) return "another tally";
  if (run.attention.views != fresh.attention.views) return "another view";
  return {};
}

struct Options {
  std::string examples, scene = "monday.staging";
  int edits = 200;
  std::uint64_t seed = 1;
};

// Every so many drafts is compared with a fresh run, every so many all is taken back.
constexpr int compared = 5, taken_back = 12;

bool drafts_hold(const Example& example, const Options& options) {
  const auto known = std::make_shared<BeatsKnown>();
  const std::vector<std::string> begin = lines_of(example.text());
  std::vector<std::string> lines = begin;
  Chance chance(options.seed);
  for (int edit = 1; edit <= options.edits; ++edit) {
    if (edit % taken_back == 0 || lines.empty()) {
      lines = begin;
    } else {
      change_as_a_writer_does(lines, begin, chance);
    }
    const std::string text = joined(lines);
    std::ofstream("drafts.staging", std::ios::binary) << text;
    const Run run = run_of(example, text, known);
    if (edit % compared != 0 && edit % taken_back != 0) continue;
    const std::string fault = fault_of_draft(run, run_of(example, text, nullptr));
    if (fault.empty()) continue;
    std::printf("%s, edit %d of seed %llu: %s than of a fresh run\n  the text stands in drafts.staging\n",
                example.scene.c_str(), edit, static_cast<unsigned long long>(options.seed), fault.c_str());
    return false;
  }
  std::printf("%d edits of %s\n", options.edits, example.scene.c_str());
  return true;
}

Options read_options(int count, char** arguments) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string word = arguments[i];
    if (word == "--edits" && i + 1 < count) {
      options.edits = std::atoi(arguments[++i]);
    } else if (word == "--seed" && i + 1 < count) {
      options.seed = std::strtoull(arguments[++i], nullptr, 10);
    } else if (word.ends_with(".staging")) {
      options.scene = word;
    } else {
      options.examples = word;
    }
  }
  return options;
}

}  // namespace

int main(int count, char** arguments) {
  const Options options = read_options(count, arguments);
  if (options.examples.empty() || options.edits < 1) {
    std::puts("drafts_tests EXAMPLES [--edits COUNT] [--seed SEED] [SCENE]");
    return 2;
  }
  const std::vector<Example> examples = examples_in(options.examples);
  const auto example =
      std::find_if(examples.begin(), examples.end(), [&](const Example& one) { return one.scene == options.scene; });
  if (example == examples.end()) return 2;
  return beats_hold_alone(examples) && drafts_hold(*example, options) ? 0 : 1;
}
