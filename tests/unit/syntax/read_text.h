// Reading text in tests, and finding files beside them.
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "syntax/parse.h"

namespace lensward {

// A text read through both stages.
struct Reading {
  SourceSet sources;
  Findings findings;
  Tree tree;
  Script script;

  explicit Reading(const std::string& text) {
    const std::int32_t file = sources.add(SourceFile("test.staging", text));
    tree = parse(sources, file, findings);
    script = read_script(sources, tree, findings);
  }

  // "3:14 parse.left-over [stove]" for each finding, in the order found.
  std::vector<std::string> said() const {
    std::vector<std::string> lines;
    for (const Finding& finding : findings.all()) {
      const Position at = sources.begin_of(finding.where);
      lines.push_back(std::to_string(at.line) + ":" + std::to_string(at.column) + " " + finding.rule + " [" +
                      std::string(sources.text(finding.where)) + "]");
    }
    return lines;
  }

  // The body of the last statement, which must be of this kind.
  template <class Line>
  const Line& last() const {
    REQUIRE(said() == std::vector<std::string>{});
    REQUIRE(!script.statements.empty());
    const Line* line = std::get_if<Line>(&script.statements.back().body);
    REQUIRE(line != nullptr);
    return *line;
  }
};

// One line in a beat, below all that a beat needs.
inline Reading in_beat(const std::string& line) { return Reading("staging 1.0 scene\nscene S\nbeat B\n" + line); }
// One line above the opening.
inline Reading in_scene(const std::string& line) { return Reading("staging 1.0 scene\nscene S\n" + line); }

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline std::string every_form() {
  return file_text(std::filesystem::path(LENSWARD_TESTS_DIR) / "unit/syntax/every_form.staging");
}

// The examples that ship, and every_form.staging.
inline std::vector<std::string> whole_texts() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(LENSWARD_TESTS_DIR) / "../examples")) {
    if (entry.path().extension() == ".staging") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  REQUIRE(!paths.empty());
  std::vector<std::string> texts = {every_form()};
  for (const auto& path : paths) texts.push_back(file_text(path));
  return texts;
}

}  // namespace lensward
