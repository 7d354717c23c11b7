#include "findings/finding.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

Finding made(const char* rule, std::uint32_t begin, const char* message = "m") {
  Finding finding;
  finding.rule = rule;
  finding.where = {0, begin, begin + 1};
  finding.message = message;
  return finding;
}

std::string order_of(const Findings& findings) {
  std::string order;
  for (const Finding& finding : findings.all()) order += finding.rule + ' ';
  return order;
}

}  // namespace

TEST_CASE("findings stand by file, place, time and rule") {
  Findings findings;
  findings.add(made("late", 9));
  findings.add(made("first", 3));
  findings.add(made("timed-b", 5)).at = 200_ms;
  findings.add(made("timed-a", 5)).at = 100_ms;
  findings.add(made("rule-b", 5));
  findings.add(made("rule-a", 5));
  findings.add(made("other-file", 0)).where.file = 1;
  sort_findings(findings);
  CHECK(order_of(findings) == "first rule-a rule-b timed-a timed-b late other-file ");
}

TEST_CASE("equal findings keep the order they were made in") {
  Findings findings;
  findings.add(made("same", 3, "zebra"));
  findings.add(made("same", 3, "ant"));
  sort_findings(findings);
  CHECK(findings.all()[0].message == "zebra");
  CHECK(findings.all()[1].message == "ant");
}

TEST_CASE("exact repeats are dropped, the first kept") {
  Findings findings;
  findings.add(made("same", 3)).on_set = "kept";
  findings.add(made("same", 3, "another"));
  findings.add(made("same", 3)).at = 100_ms;
  findings.add(made("same", 4));
  sort_findings(findings);
  REQUIRE(findings.all().size() == 3);
  CHECK(findings.all()[0].on_set == "kept");
}

TEST_CASE("waived findings are not counted") {
  Findings findings;
  findings.add(made("a", 1)).severity = Severity::error;
  findings.all().back().waived_because = "he is the turned back";
  findings.add(made("b", 2)).severity = Severity::warning;
  CHECK(findings.count(Severity::error) == 0);
  CHECK(findings.count(Severity::warning) == 1);
  CHECK_FALSE(findings.any_at_or_above(Severity::error));
  CHECK(findings.any_at_or_above(Severity::warning));
  CHECK(findings.any_at_or_above(Severity::remark));
}
