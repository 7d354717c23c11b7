#include "plan/beat_alone.h"

#include <catch2/catch.hpp>
#include <string>

#include "plan/make_plan.h"
#include "plan/state.h"
#include "syntax/parse.h"

using namespace lensward;

namespace {

// Two beats. Ann walks in the first; in the second Ben does, and the light dims.
Plan two_beats(const std::string& first_pause, const std::string& second_words) {
  const std::string text = R"(staging 1.0 scene
scene Test
people Ann, Ben
room 6 m by 5 m
light Key, at (1, 1) m
opening
  Ann is at (1, 2) m
  Ben is at (4, 2) m
beat First
  pause )" + first_pause + R"(
  Ann to Ben: "one two three four"
  Ann walks to (1, 3) m, from top
beat Second
  favour Ben
  Ben to Ann: ")" + second_words +
                           R"("
  Ben walks to (4, 4) m, from top
  light Key dims by 1 stop, over 1 s
)";
  SourceSet sources;
  Findings findings;
  const std::int32_t file = sources.add(SourceFile("test.staging", text));
  const Tree tree = parse(sources, file, findings);
  const Script script = read_script(sources, tree, findings);
  return make_plan(sources, script, findings);
}

bool same_lanes(const Plan& one, const Plan& other) {
  return one.people == other.people && one.cameras == other.cameras && one.lamps == other.lamps &&
         one.speeches == other.speeches && one.intents == other.intents;
}

}  // namespace

TEST_CASE("a beat alone is the same however long the beats before it are") {
  const Plan usual = two_beats("1 s", "it was shut when I came by");
  const Plan longer = two_beats("4.321 s", "it was shut when I came by");
  const BeatAlone one = beat_alone(usual, 1), other = beat_alone(longer, 1);
  REQUIRE(usual.beats[1].begin != longer.beats[1].begin);
  CHECK(one.later != other.later);
  CHECK(same_lanes(one.plan, other.plan));
  CHECK(one.intents == std::vector<int>{0});
}

TEST_CASE("a beat alone differs with what happens in it") {
  const Plan usual = two_beats("1 s", "it was shut when I came by");
  const Plan other = two_beats("1 s", "it was shut when I came by last night");
  CHECK_FALSE(same_lanes(beat_alone(usual, 1).plan, beat_alone(other, 1).plan));
}

TEST_CASE("people are in a beat alone where they are in the scene") {
  const Plan scene = two_beats("1 s", "it was shut when I came by");
  for (const int beat : {0, 1}) {
    const BeatAlone alone = beat_alone(scene, beat);
    const Beat& played = scene.beats[static_cast<std::size_t>(beat)];
    for (Moment at = played.begin; at <= played.end; at = at + 50_ms) {
      for (const PersonId person : {PersonId{0}, PersonId{1}}) {
        const PersonState told = person_at(scene, person, at), state = person_at(alone.plan, person, at + alone.later);
        CHECK(state.at == told.at);
        CHECK(state.facing == told.facing);
        CHECK(state.looks_at == told.looks_at);
      }
      CHECK(lamp_at(alone.plan, LampId{0}, at + alone.later).level == lamp_at(scene, LampId{0}, at).level);
    }
  }
}
