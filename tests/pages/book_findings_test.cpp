// Every finding of every example, looked for in its book.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "cli/pipeline.h"
#include "cli/real_host.h"
#include "pages/book_parts.h"
#include "pages/chart.h"
#include "pages/words.h"
#include "sheet_words.h"

using namespace lensward;

namespace {

namespace fs = std::filesystem;

// Without blanks, so that it does not matter where lines were broken.
std::string squeezed(std::string text) {
  std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
  return text;
}

std::string printed(const Finding& finding) { return squeezed(plain(finding.message)); }

// Some messages are said of several moments; then as often as that.
int times_found(const Results& results, const Finding& finding, bool (*counts)(const Finding&)) {
  return static_cast<int>(std::ranges::count_if(results.findings.all(), [&](const Finding& other) {
    return counts(other) && printed(other).find(printed(finding)) != std::string::npos;
  }));
}

bool is_numbered(const Finding& finding) { return !finding.waived_because && finding.severity != Severity::remark; }
bool is_pinned(const Finding& finding) { return is_numbered(finding) && finding.at.has_value(); }
bool is_remark(const Finding& finding) { return !finding.waived_because && finding.severity == Severity::remark; }

void check_book(const Run& run) {
  const Results results = run.results();
  const std::string cover = squeezed(words_of(lay_out_cover(results))),
                    chart = squeezed(words_of(lay_out_chart(results)));
  const std::string book = squeezed(words_of(lay_out_book(results).sheets));
  for (const Finding& finding : results.findings.all()) {
    INFO(finding.message);
    if (is_numbered(finding)) CHECK(times(cover, printed(finding)) >= times_found(results, finding, is_numbered));
    if (is_pinned(finding)) CHECK(times(chart, printed(finding)) == times_found(results, finding, is_pinned));
    if (is_remark(finding)) CHECK(times(book, printed(finding)) == times_found(results, finding, is_remark));
  }
}

Run compiled(const std::string& path) {
  RealHost host;
  Run run;
  const auto read = read_file(host, std::string(LENSWARD_EXAMPLES) + "/" + path, run);
  REQUIRE(std::holds_alternative<int>(read));
  compile(std::get<int>(read), Until::rules, run);
  REQUIRE(run.has_scene());
  return run;
}

}  // namespace

TEST_CASE("no finding of an example is missing from its book, and no remark is told twice") {
  for (const char* path :
       {"one-vote.staging", "monday.staging", "quay.staging", "kitchen.staging", "ferry/scenes/mess-room.staging"}) {
    INFO(path);
    check_book(compiled(path));
  }
}

TEST_CASE("a beat with one line too many for its column, and a chart with eleven findings, keep to their page") {
  const Run run = compiled("one-vote.staging");
  CHECK(lay_out_chart(run.results()).size() == 1);
  for (int beat = 0; beat < static_cast<int>(run.plan.beats.size()); ++beat) {
    INFO(run.plan.beats[static_cast<std::size_t>(beat)].name);
    CHECK(lay_out_beat(run.results(), beat).sheets.size() == 1);
  }
}
