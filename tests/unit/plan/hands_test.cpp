// Hands, what they hold and reach, and what they do to doors, cloths and lamps. The scene is a ferry's galley; lengths
// of deeds and the reach of an arm are those of the language's reference, places are worked by hand.
#include "plan/hands.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "plan/make_plan.h"
#include "syntax/parse.h"

using namespace lensward;

namespace {

struct Galley {
  Plan plan;
  Findings findings;

  explicit Galley(const std::string& beats, const std::string& more = "", const std::string& openings = "") {
    const std::string text =
        "staging 1.0 scene\nscene Galley\npeople Wren, Jun, Pell\nroom 7 m by 5 m\n"
        "furniture Table, at (3.5, 2) m\nfurniture Sink, at (0.6, 4.7) m\nfurniture Stool, at (5.5, 2) m\n"
        "furniture Cloth, on the Table, hangs to 30 cm\n"
        "prop Tickets, measures 15 cm by 7 cm, with Wren\nprop Ladle, across 20 cm, on the Table\n"
        "prop Jug, across 20 cm, on the Sink\ndoor Hatch, in the east wall, 2 m along, width 0.9 m\n"
        "light Torch, across 4 cm, gives 900 lux at 2 m, beam 20 deg\n"
        "camera A, at (3.5, -2) m, height 1.5 m, aims at (3.5, 3) m, lens 35 mm, stop T2.8\n" +
        more +
        "opening\nWren is at (3, 1.3) m, facing north\nJun is at (4, 1.3) m, facing north\n"
        "Pell is at (6, 4) m, facing west\n" +
        openings + beats;
    SourceSet sources;
    const std::int32_t file = sources.add(SourceFile("galley.staging", text));
    const Tree tree = parse(sources, file, findings);
    plan = make_plan(sources, read_script(sources, tree, findings), findings);
  }

  const Finding* first(const std::string& rule) const {
    const auto found = std::find_if(findings.all().begin(), findings.all().end(),
                                    [&](const Finding& finding) { return finding.rule == rule; });
    return found == findings.all().end() ? nullptr : &*found;
  }
  int errors() const { return findings.count(Severity::error); }
  PersonState at(int person, Moment moment) const { return person_at(plan, PersonId{person}, moment); }
};

constexpr int wren = 0, jun = 1;
const Target tickets{Target::Kind::prop, 0, {}}, ladle{Target::Kind::prop, 1, {}};

}  // namespace

TEST_CASE("what is put on a table lies on its top, before whoever puts it") {
  const Galley galley("beat One\nWren puts the Tickets on the Table\n");
  CHECK(galley.errors() == 0);
  const auto at = point_of(galley.plan, tickets, galley.plan.duration());
  REQUIRE(at);
  // 1.8 m by 0.8 m about (3.5, 2), 0.75 m high; a hand's breadth, 0.12 m, in from the south edge.
  CHECK(at->x == Approx(3));
  CHECK(at->y == Approx(1.6 + 0.12));
  CHECK(at->z == Approx(0.75));
  CHECK(galley.at(wren, galley.plan.duration()).holding.kind == Target::Kind::nothing);
}

TEST_CASE("the right hand takes before the left, and two hands hold two things") {
  const Galley galley("beat One\nWren takes the Ladle\n");
  const PersonState state = galley.at(wren, galley.plan.duration());
  CHECK(state.right_hand == tickets);
  CHECK(state.left_hand == ladle);
  CHECK(state.holding == ladle);
  CHECK(holds(state, tickets));
}

TEST_CASE("own left hand and both hands are kept apart") {
  const Galley galley(
      "beat One\nJun takes the Ladle, with own left hand\nthen Jun puts the Ladle on the Table\n"
      "then Jun takes the Ladle, with both hands\n");
  CHECK(galley.errors() == 0);
  CHECK(galley.at(jun, 600_ms).left_hand == ladle);
  CHECK(galley.at(jun, 600_ms).right_hand.kind == Target::Kind::nothing);
  const PersonState both = galley.at(jun, galley.plan.duration());
  CHECK(both.left_hand == ladle);
  CHECK(both.right_hand == ladle);
}

TEST_CASE("a hand that holds something takes nothing else") {
  const Galley told("beat One\nWren takes the Ladle, with own right hand\n");
  REQUIRE(told.first("hands-full"));
  CHECK(told.first("hands-full")->message == "`Wren`'s right hand holds `Tickets` and cannot take `Ladle`");
  const Galley both("beat One\nWren takes the Ladle, with both hands\n");
  CHECK(both.first("hands-full"));
  const Galley third("beat One\nWren takes the Ladle\nthen Wren takes the Spoon\n",
                     "prop Spoon, across 15 cm, on the Table\n");
  REQUIRE(third.first("hands-full"));
  CHECK(third.first("hands-full")->message.find("both of `Wren`'s hands are full") == 0);
}

TEST_CASE("whoever does not have it cannot put it down or hand it over") {
  const Galley other("beat One\nJun puts the Tickets on the Table\n");
  REQUIRE(other.first("whose-hands"));
  CHECK(other.first("whose-hands")->next_step == "write above it `Wren gives the Tickets to Jun`");
  const Galley nobody("beat One\nJun gives the Ladle to Wren\n");
  REQUIRE(nobody.first("whose-hands"));
  CHECK(nobody.first("whose-hands")->repairs.front().edits.front().text == "Jun takes the Ladle\nthen ");
  const Galley wrong("beat One\nWren puts the Tickets on the Table, with own left hand\n");
  REQUIRE(wrong.first("whose-hands"));
  CHECK(wrong.first("whose-hands")->next_step == "write `with own right hand`, or leave the hand out");
}

TEST_CASE("a thing nobody has placed is in the hand that puts it down, and told once") {
  const Galley galley(
      "beat One\nJun puts the Rag on the Table\nthen Jun takes the Rag\nthen Jun puts the Rag on the Table\n",
      "prop Rag, across 20 cm\n");
  CHECK(galley.errors() == 0);
  const auto told = std::count_if(galley.plan.assumptions.begin(), galley.plan.assumptions.end(),
                                  [](const Assumption& assumption) { return assumption.pin == "prop Rag, with Jun"; });
  CHECK(told == 1);
}

TEST_CASE("an arm and a lean reach so far and no farther") {
  // 45 % of 1.7 m and 0.3 m: 1.065 m. The Jug is at (0.6, 4.7), 4.16 m from Wren; the Ladle 0.86 m.
  const Galley far("beat One\nWren takes the Jug\n");
  REQUIRE(far.first("out-of-reach"));
  CHECK(far.first("out-of-reach")->message == "`Jug` is out of `Wren`'s reach: 4.16 m away, reach 1.07 m");
  CHECK(far.first("out-of-reach")->repairs.front().edits.front().text == "Wren walks to the Sink\nthen ");
  CHECK_FALSE(Galley("beat One\nWren takes the Ladle\n").first("out-of-reach"));
  // Two arms and a lean: 1.83 m. Jun is 1 m from Wren, Pell 4 m.
  CHECK_FALSE(Galley("beat One\nWren gives the Tickets to Jun\n").first("out-of-reach"));
  CHECK(Galley("beat One\nWren gives the Tickets to Pell\n").first("out-of-reach"));
}

TEST_CASE("two who take one thing at one time clash over it") {
  const Galley galley(
      "beat One\nWren: \"Mine.\"\nWren takes the Ladle, as Wren speaks\nJun takes the Ladle, 0.3 s into Wren speaks\n");
  REQUIRE(galley.first("time.prop-clash"));
  CHECK_FALSE(Galley("beat One\nWren takes the Ladle\nthen Jun takes the Ladle\n").first("time.prop-clash"));
}

TEST_CASE("worn things leave the hands free, dropped ones fall") {
  const Galley galley("beat One\nWren drops the Tickets\n", "prop Coat, measures 60 cm by 40 cm, with Jun\n",
                      "Jun wears the Coat\n");
  CHECK(galley.at(jun, galley.plan.duration()).holding.kind == Target::Kind::nothing);
  CHECK(galley.plan.props[3].rests.back().to == Target{Target::Kind::person, jun, {}});
  const auto at = point_of(galley.plan, tickets, galley.plan.duration());
  REQUIRE(at);
  CHECK(at->z == 0);
}

TEST_CASE("doors are opened and shut, and shut ones opened for whoever goes through") {
  const Galley galley("beat One\nPell opens the Hatch\nthen Pell closes the Hatch\nthen Pell exits by the Hatch\n", "",
                      "Pell is at (6.6, 3.2) m\n");
  const Lane<Share>& open = galley.plan.openings[0].open;
  REQUIRE(open.size() == 4);
  CHECK(open[0].end - open[0].begin == 1500_ms);
  CHECK(open[0].to.value == 1);
  CHECK(open[1].to.value == 0);
  CHECK(open[3].to.value == 0);
}

TEST_CASE("a cloth is lifted and let down") {
  const Galley galley("beat One\nJun lifts the Cloth\nthen Jun drops the Cloth\n");
  const Lane<Share>& open = galley.plan.pieces[3].open;
  REQUIRE(open.size() == 2);
  CHECK(open[0].to.value == 1);
  CHECK(open[1].to.value == 0);
}

TEST_CASE("furniture and props fall") {
  const Galley galley("beat One\nthe Stool falls\nthen the Ladle falls\n");
  CHECK(galley.plan.pieces[2].fallen.back().to);
  const auto at = point_of(galley.plan, ladle, galley.plan.duration());
  REQUIRE(at);
  CHECK(at->z == 0);
}

TEST_CASE("a torch goes where it is carried and points where it is aimed") {
  const Galley galley("beat One\nPell sweeps the Torch from Wren to Jun, over 2 s\n", "", "Pell carries the Torch\n");
  CHECK(galley.errors() == 0);
  const LampState before = lamp_at(galley.plan, LampId{0}, 0_ms);
  const Vec3 wrens = *point_of(galley.plan, {Target::Kind::person, wren, {}}, 0_ms);
  const Vec3 juns = *point_of(galley.plan, {Target::Kind::person, jun, {}}, 0_ms);
  // In the right hand, 20 % of stature ahead and 7 % aside, at the elbow's height: 63 % of 1.7 m.
  CHECK(before.at.x == Approx(6 - 0.34));
  CHECK(before.at.y == Approx(4 + 0.119));
  CHECK(before.at.z == Approx(0.63 * 1.7));
  CHECK(length(before.aim - wrens) < 1e-9);
  CHECK(length(lamp_at(galley.plan, LampId{0}, 1000_ms).aim - (wrens + juns) * 0.5) < 1e-9);
  CHECK(length(lamp_at(galley.plan, LampId{0}, 2500_ms).aim - juns) < 1e-9);
}

TEST_CASE("facing a thing in one's own hand ends") {
  const Galley galley("beat One\nWren faces the Tickets\npause 1 s\n");
  // The hand is 34 cm ahead and 12 cm to the right: 19.3 degrees, once and for all.
  CHECK(galley.at(wren, galley.plan.duration()).facing.value == Approx(19.29).margin(0.01));
}
