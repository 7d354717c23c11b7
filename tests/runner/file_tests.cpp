// The one runner of file cases: checks them, and with --update writes what they now say.
//   file_tests [--update] CASES EXAMPLES [words of a case's name …]
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "case_file.h"
#include "compile.h"

namespace fs = std::filesystem;
namespace test = lensward::test;

namespace {

struct Options {
  bool update = false;
  fs::path cases, examples;
  std::vector<std::string> words;
};

Options read_options(int count, char** arguments) {
  Options options;
  std::vector<std::string> rest;
  for (int i = 1; i < count; ++i) {
    if (std::string(arguments[i]) == "--update")
      options.update = true;
    else
      rest.emplace_back(arguments[i]);
  }
  if (rest.size() < 2) return options;
  options.cases = rest[0];
  options.examples = rest[1];
  options.words.assign(rest.begin() + 2, rest.end());
  return options;
}

std::vector<fs::path> staging_files(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() == ".staging") files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

std::string read_whole(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

// Settles one file: same, rewritten or different. Prints the first lines that differ.
bool settle(const fs::path& path, const std::string& now, const Options& options) {
  const std::string before = fs::exists(path) ? read_whole(path) : "";
  if (now == before) return true;
  if (options.update) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << now;
    std::printf("updated %s\n", path.c_str());
    return true;
  }
  std::istringstream old_lines(before), new_lines(now);
  std::string was, is;
  int line = 0, shown = 0;
  while (shown < 6) {
    const bool more_old = static_cast<bool>(std::getline(old_lines, was));
    const bool more_new = static_cast<bool>(std::getline(new_lines, is));
    if (!more_old && !more_new) break;
    ++line;
    if (more_old && more_new && was == is) continue;
    std::printf("  line %d\n    expected: %s\n    now:      %s\n", line, more_old ? was.c_str() : "(end)",
                more_new ? is.c_str() : "(end)");
    ++shown;
  }
  return false;
}

void how_to(const std::string& name, const Options& options) {
  std::printf("  again:  file_tests %s %s %s\n  accept: file_tests --update %s %s %s\n", options.cases.c_str(),
              options.examples.c_str(), name.c_str(), options.cases.c_str(), options.examples.c_str(), name.c_str());
}

bool wanted(const fs::path& path, const Options& options) {
  return options.words.empty() || std::ranges::any_of(options.words, [&](const std::string& word) {
           return path.string().find(word) != std::string::npos;
         });
}

bool run_case(const fs::path& path, const Options& options) {
  const auto file = test::read_case(path.string());
  if (!file) return false;
  const test::Compiled compiled = test::compile(*file);
  bool good = settle(path, test::with_notes(*file, compiled.notes), options);
  if (file->expects.empty()) {
    std::printf("%s expects nothing\n", path.c_str());
    good = false;
  }
  const bool of_findings =
      std::ranges::any_of(file->expects, [](const test::Expect& expect) { return expect.waist == "findings"; });
  if (of_findings && compiled.any_error != file->name.starts_with("fail_")) {
    std::printf("%s: the name of a case of findings begins with fail_ if and only if there is an error\n",
                path.c_str());
    good = false;
  }
  return good;
}

// The other files of a film are read by its scenes.
bool run_example(const fs::path& path, const Options& options) {
  if (test::kind_of_file(path.string()) != lensward::FileKind::scene) return true;
  std::string now;
  for (const std::string& finding : test::findings_of(path.string(), options.examples.string())) now += finding + "\n";
  const fs::path golden = fs::relative(path, options.examples).replace_extension(".findings");
  return settle(options.cases / "examples" / golden, now, options);
}

}  // namespace

int main(int count, char** arguments) {
  const Options options = read_options(count, arguments);
  if (options.cases.empty()) {
    std::printf("file_tests [--update] CASES EXAMPLES [words of a case's name ...]\n");
    return 2;
  }
  int run = 0, failed = 0;
  const auto each = [&](const fs::path& folder, bool (*one)(const fs::path&, const Options&)) {
    for (const fs::path& path : staging_files(folder)) {
      if (!wanted(path, options)) continue;
      ++run;
      if (one(path, options)) continue;
      ++failed;
      std::printf("FAILED %s\n", path.c_str());
      how_to(path.stem().string(), options);
    }
  };
  each(options.cases, run_case);
  each(options.examples, run_example);
  std::printf("%d cases, %d failed\n", run, failed);
  return failed > 0 || run == 0 ? 1 : 0;
}
