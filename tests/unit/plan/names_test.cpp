#include "plan/names.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

Name name(const char* text, std::uint32_t at = 0) { return {text, {0, at, at + 3}}; }

Names some_names() {
  Names names;
  names.declare(name("Oda"), PersonId{0});
  names.declare(name("Tobias"), PersonId{1});
  names.declare(name("Linen-Press"), PieceId{0});
  names.declare(name("Bench"), PieceId{1});
  names.declare(name("Yard-Door"), OpeningId{0});
  names.declare(name("Young-Ones"), names.add_group({PersonId{1}, PersonId{0}}));
  return names;
}

}  // namespace

TEST_CASE("a name is found as it is written, and only so") {
  const Names names = some_names();
  CHECK(names.find("Oda") == Named{PersonId{0}});
  CHECK_FALSE(names.find("oda"));
  CHECK_FALSE(names.find("Od"));
}

TEST_CASE("a name is taken once") {
  Names names = some_names();
  CHECK_FALSE(names.declare(name("Oda"), PieceId{3}));
  CHECK(names.find("Oda") == Named{PersonId{0}});
}

TEST_CASE("a seat gives its piece, and nobody else has seats") {
  const Names names = some_names();
  CHECK(names.find("Bench.2") == Named{PieceId{1}});
  CHECK_FALSE(names.find("Oda.2"));
  CHECK_FALSE(names.find("Bench.two"));
  CHECK(seat_in("Bench.12") == 12);
  CHECK_FALSE(seat_in("Bench"));
  CHECK_FALSE(seat_in("Bench."));
}

TEST_CASE("the nearest name is offered for slips of the hand and for nothing else") {
  const Names names = some_names();
  CHECK(names.nearest("Tobais") == "Tobias");
  CHECK(names.nearest("Odda") == "Oda");
  CHECK(names.nearest("linen-press") == "Linen-Press");
  CHECK_FALSE(names.nearest("Wilhelmina"));
  CHECK_FALSE(names.nearest(std::string(5000, 'x')));
}

TEST_CASE("an unknown name is reported once, its further places counted") {
  const Names names = some_names();
  Findings findings;
  CHECK_FALSE(resolve<PersonId>(names, name("Tobais", 10), findings));
  CHECK_FALSE(resolve<PersonId>(names, name("Tobais", 40), findings));
  CHECK_FALSE(resolve<PersonId>(names, name("Tobais", 80), findings));
  CHECK_FALSE(resolve<PersonId>(names, name("Tobais", 80), findings));
  REQUIRE(findings.all().size() == 1);
  const Finding& finding = findings.all().front();
  CHECK(finding.rule == "name.unknown");
  CHECK(finding.message == "nothing is called `Tobais`, here and in 2 more places");
  CHECK(finding.next_step == "did you mean `Tobias`");
  REQUIRE(finding.repairs.size() == 1);
  CHECK(finding.repairs[0].edits[0].text == "Tobias");
}

TEST_CASE("names that begin alike are not one slip") {
  const Names names = some_names();
  Findings findings;
  resolve<PersonId>(names, name("Zed", 10), findings);
  resolve<PersonId>(names, name("Zedekiah", 20), findings);
  CHECK(findings.all().size() == 2);
}

TEST_CASE("a person where a door must be is told so") {
  const Names names = some_names();
  Findings findings;
  CHECK_FALSE(resolve<OpeningId>(names, name("Oda"), findings));
  REQUIRE(findings.all().size() == 1);
  CHECK(findings.all()[0].rule == "name.wrong-kind");
  CHECK(findings.all()[0].message == "`Oda` is a person; a door or window must stand here");
  CHECK(resolve<OpeningId>(names, name("Yard-Door"), findings) == OpeningId{0});
}

TEST_CASE("groups are taken apart, and nobody stands in a list twice") {
  const Names names = some_names();
  Findings findings;
  const auto people = people_named(names, {name("Oda"), name("Young-Ones")}, findings);
  CHECK(people == std::vector<PersonId>{PersonId{0}, PersonId{1}});
  CHECK(findings.all().empty());
}
