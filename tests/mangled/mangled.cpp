// Scenes cut short and scenes mangled by chance: each must still be read, tidied and planned.
//   mangled_tests EXAMPLES [--rounds COUNT] [--seed SEED] [--thorough]
// Every prefix of the longest example is read; those that end a line, with --thorough all of them, are also tidied and
// planned. COUNT times a few lines of an example are taken out, exchanged, joined or doubled, or a line or byte of it
// changed. The text under way stands in mangled.staging in the working directory, also after a crash.
#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "../fuzz/properties.h"
#include "by_chance.h"

namespace fs = std::filesystem;
using namespace lensward::test;

namespace {

// Far above what any of them takes, with sanitizers on a busy machine too.
constexpr std::chrono::seconds longest_round{20};

std::string mangled(const std::string& text, const std::vector<std::string>& others, Chance& chance) {
  std::vector<std::string> lines = lines_of(text);
  for (std::size_t left = 1 + chance.below(4); left > 0; --left) change_lines(lines, others, chance);
  return joined(lines);
}

class Trial {
 public:
  // False, having told it, when something does not hold of the text in the place of the example's scene. `far`: it is
  // tidied and planned too.
  bool holds(const Example& example, const std::string& text, bool far, const std::string& called) {
    std::ofstream("mangled.staging", std::ios::binary) << text;
    const auto begin = std::chrono::steady_clock::now();
    std::string fault = fault_of_reading(text);
    if (fault.empty() && far) fault = fault_of_tidying(text);
    if (fault.empty() && far) {
      Files files = example.files;
      files[example.scene] = text;
      fault = fault_of_planning(files, example.scene);
    }
    if (fault.empty() && std::chrono::steady_clock::now() - begin > longest_round) fault = "it takes too long";
    ++count_;
    if (fault.empty()) return true;
    std::printf("%s, %s: %s\n  the text stands in %s\n", example.scene.c_str(), called.c_str(), fault.c_str(),
                fs::absolute("mangled.staging").c_str());
    return false;
  }
  int count() const { return count_; }

 private:
  int count_ = 0;
};

bool prefixes_hold(const Example& example, bool thorough, Trial& trial) {
  const std::string& text = example.text();
  for (std::size_t size = 0; size <= text.size(); ++size) {
    const bool far = thorough || (size > 0 && text[size - 1] == '\n');
    if (!trial.holds(example, text.substr(0, size), far, "its first " + std::to_string(size) + " bytes")) {
      return false;
    }
  }
  return true;
}

struct Options {
  fs::path examples;
  int rounds = 300;
  std::uint64_t seed = 1;
  bool thorough = false;
};

bool rounds_hold(const std::vector<Example>& examples, const Options& options, Trial& trial) {
  std::vector<std::string> all_lines;
  for (const Example& example : examples) {
    for (std::string& line : lines_of(example.text())) all_lines.push_back(std::move(line));
  }
  for (int round = 0; round < options.rounds; ++round) {
    Chance chance(options.seed * 1'000'000 + static_cast<std::uint64_t>(round));
    const Example& example = examples[chance.below(examples.size())];
    const std::string called = "round " + std::to_string(round) + " of seed " + std::to_string(options.seed);
    if (!trial.holds(example, mangled(example.text(), all_lines, chance), true, called)) return false;
  }
  return true;
}

Options read_options(int count, char** arguments) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string word = arguments[i];
    if (word == "--rounds" && i + 1 < count) {
      options.rounds = std::atoi(arguments[++i]);
    } else if (word == "--seed" && i + 1 < count) {
      options.seed = std::strtoull(arguments[++i], nullptr, 10);
    } else if (word == "--thorough") {
      options.thorough = true;
    } else {
      options.examples = word;
    }
  }
  return options;
}

}  // namespace

int main(int count, char** arguments) {
  const Options options = read_options(count, arguments);
  if (options.examples.empty() || options.rounds < 1) {
    std::puts("mangled_tests EXAMPLES [--rounds COUNT] [--seed SEED] [--thorough]");
    return 2;
  }
  const std::vector<Example> examples = examples_in(options.examples);
  if (examples.empty()) return 2;
  const Example& longest = *std::max_element(
      examples.begin(), examples.end(), [](const auto& a, const auto& b) { return a.text().size() < b.text().size(); });
  Trial trial;
  const bool good = prefixes_hold(longest, options.thorough, trial) && rounds_hold(examples, options, trial);
  std::printf("%d texts, prefixes of %s and %d rounds of seed %llu\n", trial.count(), longest.scene.c_str(),
              options.rounds, static_cast<unsigned long long>(options.seed));
  return good ? 0 : 1;
}
