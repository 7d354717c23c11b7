// A finding's key: what makes it the same finding after an edit elsewhere.
#include "findings/key.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

Finding wandering() {
  Finding finding;
  finding.rule = "wandering-eye";
  finding.where = {0, 100, 113};
  finding.message = "`Tobias` trails `Pell` by 8 points";
  finding.at = Moment{4000};
  finding.subject = {"Monday", "Stranger", {"Tobias", "Pell"}};
  return finding;
}

}  // namespace

TEST_CASE("lines, moments, measured values and severity leave a finding's key alone") {
  Finding other = wandering();
  other.where = {2, 900, 950};
  other.message = "`Tobias` trails `Pell` by 11 points";
  other.at = Moment{9000};
  other.severity = Severity::warning;
  other.waived_because = "on purpose";
  CHECK(key_of(other) == key_of(wandering()));
}

TEST_CASE("rule, scene, beat and people are each part of the key") {
  Finding rule = wandering(), scene = wandering(), beat = wandering(), people = wandering();
  rule.rule = "close-call";
  scene.subject.scene = "Tuesday";
  beat.subject.beat = "Papers";
  people.subject.people = {"Pell", "Tobias"};
  for (const Finding& other : {rule, scene, beat, people}) CHECK(key_of(other) != key_of(wandering()));
}
