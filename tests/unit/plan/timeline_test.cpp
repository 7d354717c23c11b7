// The clock of a beat, against the rules of the language's reference, section "The clock". Times worked by hand: at 150
// words a minute a word takes 400 ms; the gap between two speakers is 200 ms, between two speeches of one 500 ms.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "plan/make_plan.h"
#include "syntax/parse.h"

using namespace lensward;

namespace {

struct Made {
  Plan plan;
  Findings findings;

  int count(const std::string& rule) const {
    return static_cast<int>(std::count_if(findings.all().begin(), findings.all().end(),
                                          [&](const Finding& finding) { return finding.rule == rule; }));
  }
  const Finding& first(const std::string& rule) const {
    return *std::find_if(findings.all().begin(), findings.all().end(),
                         [&](const Finding& finding) { return finding.rule == rule; });
  }
  const BeatLine& line(const std::string& opening) const {
    for (const Beat& beat : plan.beats) {
      for (const BeatLine& line : beat.lines) {
        if (line.text.rfind(opening, 0) == 0) return line;
      }
    }
    FAIL("no line opens with " << opening);
    return plan.beats.front().lines.front();
  }
};

Made made(const std::string& beats) {
  SourceSet sources;
  const std::string above =
      "staging 1.0 scene\nscene Test\npeople Ann, Ben, Cat\nroom 8 m by 6 m\nfurniture Table, at (4, 3) m\nprop Cup, "
      "on the Table\nopening\nAnn is at (2, 2) m, facing Ben\nBen is at (3, 2) m, facing Ann\nCat is at (6, 4) m, "
      "facing Ben\n";
  const std::int32_t file = sources.add(SourceFile("test.staging", above + beats));
  Made all;
  const Tree tree = parse(sources, file, all.findings);
  const Script script = read_script(sources, tree, all.findings);
  all.plan = make_plan(sources, script, all.findings);
  return all;
}

}  // namespace

TEST_CASE("speeches queue, with a gap between speakers and a breath between speeches of one") {
  const Made all = made("beat One\nAnn: \"one two\"\nBen: \"three\"\nBen: \"four\"\n");
  REQUIRE(all.plan.speeches.size() == 3);
  CHECK(all.plan.speeches[0].begin == 0_ms);
  CHECK(all.plan.speeches[0].end == 800_ms);
  CHECK(all.plan.speeches[1].begin == 1000_ms);
  CHECK(all.plan.speeches[2].begin == 1900_ms);
  CHECK(all.plan.duration() == 2300_ms);
}

TEST_CASE("a pause queues and stands in for the gap") {
  const Made all = made("beat One\nAnn: \"one\"\npause 1 s\nBen: \"two\"\n");
  CHECK(all.plan.speeches[1].begin == 1400_ms);
}

TEST_CASE("other uncued lines begin where they stand and hold up no speech") {
  const Made all = made("beat One\nAnn: \"one two\"\nCat takes the Cup\nBen: \"three\"\n");
  CHECK(all.line("Cat takes").begin == 800_ms);
  CHECK(all.line("Cat takes").end == 1800_ms);
  CHECK(all.plan.speeches[1].begin == 1000_ms);
  CHECK(all.plan.duration() == 1800_ms);
}

TEST_CASE("then waits for the last line that takes time, passing over looks") {
  const Made all = made("beat One\nCat takes the Cup\nAnn looks at Cat\nthen Ben: \"one\"\n");
  CHECK(all.line("Ann looks").begin == 0_ms);
  CHECK(all.plan.speeches[0].begin == 1000_ms);
}

TEST_CASE("then waits for what is done meanwhile too") {
  const Made all = made("beat One\nCat takes the Cup\nmeanwhile Ann opens up, over 3 s\nthen Ben: \"one\"\n");
  CHECK(all.line("meanwhile Ann").begin == 0_ms);
  CHECK(all.plan.speeches[0].begin == 3000_ms);
}

TEST_CASE("on is a word's start, after its end, with offsets") {
  const Made all = made(
      "beat One\nAnn: \"one two three\"\nBen looks at Ann, on \"two\"\nCat looks at Ann, 0.5 s after \"two\"\nCat "
      "looks "
      "at Ben, 0.1 s before \"three\"\n");
  CHECK(all.line("Ben looks").begin == 400_ms);
  CHECK(all.line("Cat looks at Ann").begin == 1300_ms);
  CHECK(all.line("Cat looks at Ben").begin == 700_ms);
}

TEST_CASE("lines hang from marks, labels, deeds, the top and the end") {
  const Made all = made(
      "beat One\nAnn, named Ask: \"one [Turn] two\"\nBen looks at Ann, on [Turn]\nCat takes the Cup, after Ask\nBen "
      "opens "
      "up, midway through Cat takes\nAnn opens up, 0.3 s into Cat takes\ncut to A, at end\nCat looks at Ben, 0.2 s "
      "from "
      "top\nAnn glances at Ben, after Cat takes\n");
  CHECK(all.line("Ben looks").begin == 400_ms);
  CHECK(all.line("Cat takes").begin == 800_ms);
  CHECK(all.line("Ben opens").begin == 1300_ms);
  CHECK(all.line("Ann opens").begin == 1100_ms);
  CHECK(all.line("Cat looks").begin == 200_ms);
  CHECK(all.line("Ann glances").begin == 1800_ms);
  CHECK(all.line("cut to A").begin == 2800_ms);
  CHECK(all.plan.duration() == 2800_ms);
}

TEST_CASE("a cued speech holds up the next uncued speech") {
  const Made all = made("beat One\nAnn: \"one two three\"\nBen, on \"two\": \"four five six seven\"\nAnn: \"eight\"\n");
  CHECK(all.plan.speeches[1].begin == 400_ms);
  CHECK(all.plan.speeches[2].begin == 2200_ms);
}

TEST_CASE("cutting in ends what is being said") {
  const Made all =
      made("beat One\nAnn: \"one two three four\"\nBen, cutting in, on \"three\": \"five\"\nCat: \"six\"\n");
  CHECK(all.plan.speeches[0].end == 800_ms);
  CHECK(all.plan.speeches[1].begin == 800_ms);
  CHECK(all.plan.speeches[2].begin == 1400_ms);
}

TEST_CASE("a speech cut off ends on its word") {
  const Made all = made("beat One\nAnn, cut off on \"three\": \"one two three four\"\nBen: \"five\"\n");
  CHECK(all.plan.speeches[0].end == 800_ms);
  CHECK(all.plan.speeches[1].begin == 1000_ms);
}

TEST_CASE("in a beat without speech uncued lines follow one another") {
  const Made all =
      made("beat One\nCat takes the Cup\nAnn opens up\nmeanwhile Ben opens up\nCat puts the Cup on the Table\n");
  CHECK(all.line("Ann opens").begin == 1000_ms);
  CHECK(all.line("meanwhile Ben").begin == 1000_ms);
  CHECK(all.line("Cat puts").begin == 1500_ms);
  CHECK(all.count("time.silent-beat") == 1);
}

TEST_CASE("lasts fixes a length, or more sets a least, and too little is an error") {
  CHECK(made("beat One\nlasts 8 s\nAnn: \"one\"\n").plan.duration() == 8000_ms);
  CHECK(made("beat One\nlasts 5 s or more\npause 6 s\n").plan.duration() == 6000_ms);
  const Made full = made("beat One\nlasts 2 s\npause 3.05 s\n");
  REQUIRE(full.count("time.overfull") == 1);
  CHECK(full.first("time.overfull").message == "the beat is told to last 2 s but its contents need 3.1 s");
  CHECK(made("beat One\nlasts 4 s\npause 3 s\n").count("time.overfull") == 0);
}

TEST_CASE("what runs on does not hold the beat, and may not pass the scene's end") {
  const Made all =
      made("beat One\nAnn: \"one\"\ncamera A booms up 1 m, over 3 s, from top, runs on\nbeat Two\npause 4 s\n");
  CHECK(all.plan.beats[0].end == 400_ms);
  CHECK(all.count("time.never-ends") == 0);
  CHECK(made("beat One\nAnn: \"one\"\ncamera A booms up 1 m, over 3 s, from top, runs on\n").count("time.never-ends") ==
        1);
}

TEST_CASE("a cue word said twice is refused with its times") {
  const Made all = made("beat One\nAnn: \"one two two\"\nBen looks at Ann, on \"two\"\n");
  REQUIRE(all.count("time.cue-unclear") == 1);
  CHECK(all.first("time.cue-unclear").message == "\"two\" is said 2 times: 0.4 s, 0.8 s");
  CHECK_FALSE(all.plan.beats[0].judged);
  const Made which = made("beat One\nAnn: \"one two two\"\nBen looks at Ann, on the second \"two\"\n");
  CHECK(which.line("Ben looks").begin == 800_ms);
  const Made whose = made("beat One\nAnn: \"no\"\nBen: \"no\"\nCat looks at Ann, on \"no\" of Ben\n");
  CHECK(whose.line("Cat looks").begin == 600_ms);
}

TEST_CASE("a cue that nobody says is missing, with the nearest word") {
  const Made all = made("beat One\nAnn: \"the boats sail\"\nBen looks at Ann, on \"boat\"\n");
  REQUIRE(all.count("time.cue-missing") == 1);
  CHECK(all.first("time.cue-missing").next_step.find("`on \"boats\"`") != std::string::npos);
  CHECK_FALSE(all.plan.beats[0].judged);
}

TEST_CASE("deeds that wait for one another are a circle, once") {
  const Made all = made("beat One\nAnn opens up, after Ben opens\nBen opens up, after Ann opens\nCat takes the Cup\n");
  REQUIRE(all.count("time.circle") == 1);
  CHECK(all.first("time.circle").labels.size() == 1);
  CHECK(all.line("Cat takes").end == 1000_ms);
}

TEST_CASE("two whens, and before the top") {
  CHECK(made("beat One\nAnn: \"one\"\nthen Ben opens up, on \"one\"\n").count("time.two-whens") == 1);
  const Made early = made("beat One\nAnn: \"one\"\nBen opens up, 0.4 s before \"one\"\n");
  CHECK(early.count("time.before-top") == 1);
}

TEST_CASE("two walks of one person at one time clash, a look gives way") {
  CHECK(made("beat One\nAnn: \"one\"\nCat walks to (2, 5) m\nCat walks to (7, 5) m\n").count("time.lane-clash") == 1);
  CHECK(made("beat One\nAnn: \"one\"\nCat looks at Ann\nCat looks at Ben\n").count("time.lane-clash") == 0);
}

TEST_CASE("everyone's look can be hung from by any of them") {
  const Made all =
      made("beat One\nAnn: \"one\"\neveryone but Ann looks at Ann\nAnn looks at Cat, 1 s after Cat looks\n");
  CHECK(all.line("Ann looks").begin == 1800_ms);
}
