// Drafts edited one fact at a time: each edit is told as that, and nothing of other beats is.
#include "compare/compare.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "cli/pipeline.h"
#include "cli/real_host.h"
#include "compare/words.h"
#include "findings/key.h"

using namespace lensward;

namespace {

const std::string yard = R"(staging 1.0 scene
scene Yard "The key", interior, night
person Oda, height 1.7 m
person Tobias, height 1.8 m
person Pell, height 1.75 m
room 7 m by 5 m by 2.8 m
wall South, wild
furniture Table, measures 1.2 m by 80 cm by 75 cm, at (3.5, 3.6) m, front south
door Gate, in the west wall, 2.5 m along, width 0.9 m, inward
light Pendant, practical, at (3.5, 2.2) m, height 2.3 m, gives 420 lux at 1 m
prop Key, with Tobias
camera A, gate 24.9 mm by 13.5 mm, on dolly

opening
  camera A is at (3.5, -2.4) m, height 1.5 m, aims at (3.5, 2.5) m, lens 28 mm, stop T2.8
  camera A focuses on Oda
  Oda stands at (2.6, 2) m, facing south
  Tobias stands at (4.4, 2.6) m, facing south
  Pell stands at (5.4, 3.6) m, facing west

beat Ask
  favour Oda
  Oda to Tobias: "Where is the key to the yard?"
  Tobias to Oda: "I never had it."

beat Answer
  favour Tobias
  Tobias walks to (4, 2) m, on "man"
  Tobias to Oda: "Ask the man who sold you the house."
  Oda to Pell: "Well? Where is it, then?"
)";

Run run_of(const std::string& text) {
  Run run;
  compile("yard.staging", text, Until::rules, run);
  return run;
}

Changes changes_of(const Run& before, const Run& after) {
  return compare({before.plan, before.attention, before.verdicts, before.findings},
                 {after.plan, after.attention, after.verdicts, after.findings});
}
Changes changes_of(const std::string& before, const std::string& after) {
  return changes_of(run_of(before), run_of(after));
}

std::string edited(const std::string& from, const std::string& to, std::string text = yard) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}
Changes after_edit(const std::string& from, const std::string& to) { return changes_of(yard, edited(from, to)); }

// What is told of one beat; empty when it is not mentioned.
std::vector<std::string> told(const Changes& changes, const std::string& beat) {
  std::vector<std::string> sentences;
  for (const BeatChanges& one : changes.beats) {
    if ((one.after.empty() ? one.before : one.after) != beat) continue;
    for (const Change& change : one.changes) sentences.push_back(sentence(change));
  }
  return sentences;
}
std::vector<std::string> told_of_scene(const Changes& changes) {
  std::vector<std::string> sentences;
  for (const Change& change : changes.scene) sentences.push_back(sentence(change));
  return sentences;
}
bool tells(const std::vector<std::string>& sentences, const std::string& wanted) {
  return std::any_of(sentences.begin(), sentences.end(),
                     [&](const std::string& one) { return one.find(wanted) != std::string::npos; });
}

using Sentences = std::vector<std::string>;

}  // namespace

TEST_CASE("a mark elsewhere is told once, in its beat, with the way the picture shows it") {
  const Changes changes = after_edit("Oda stands at (2.6, 2) m", "Oda stands at (2.2, 2) m");
  CHECK(told(changes, "Ask") == Sentences{"`Oda` stands 0.4 m further frame left: mark O1 (2.2, 2) m"});
  CHECK(told(changes, "Answer").empty());
  CHECK(told_of_scene(changes).empty());
}

TEST_CASE("what is smaller than the thresholds is counted") {
  const Changes changes = after_edit("walks to (4, 2) m", "walks to (4.05, 2) m");
  CHECK_FALSE(changes.any());
  CHECK(changes.small > 0);
}

TEST_CASE("a body turned elsewhere is told with the angle") {
  const Changes changes = after_edit("(5.4, 3.6) m, facing west", "(5.4, 3.6) m, facing south");
  CHECK(told(changes, "Ask") == Sentences{"`Pell` is turned 90 deg to the left: bearing 180 deg, was 270 deg"});
  CHECK(told(changes, "Answer").empty());
}

TEST_CASE("lens, stop and focus are told where they begin to differ") {
  CHECK(told(after_edit("lens 28 mm", "lens 35 mm"), "Ask") == Sentences{"lens of camera `A`: 35 mm, was 28 mm"});
  CHECK(told(after_edit("focuses on Oda", "focuses on Tobias"), "Ask") ==
        Sentences{"focus of camera `A`: Tobias, was Oda"});
  const Changes stop = after_edit("stop T2.8", "stop T4");
  CHECK(tells(told(stop, "Ask"), "stop of camera `A`: T4, was T2.8 (1 stop darker)"));
  CHECK_FALSE(tells(told(stop, "Answer"), "stop of camera"));
}

TEST_CASE("a lamp that gives more is told in stops, of the scene") {
  const Changes changes = after_edit("gives 420 lux", "gives 840 lux");
  CHECK(told_of_scene(changes) == Sentences{"lamp `Pendant` gives 840 cd, was 420 cd (1 stop more)"});
}

TEST_CASE("lines changed, dropped and added are told with their words, and the length that follows") {
  const Changes longer = after_edit("I never had it.", "I never had it. Not once.");
  CHECK(tells(told(longer, "Ask"), "`Tobias` says \"I never had it. Not once.\", was \"I never had it.\""));
  CHECK(tells(told(longer, "Ask"), "the beat lasts 5.8 s, was 4.6 s"));
  CHECK(told(longer, "Answer").empty());

  const std::string line = "  Tobias to Oda: \"I never had it.\"\n";
  const Changes dropped = after_edit(line, "");
  CHECK(tells(told(dropped, "Ask"), "line dropped of `Tobias`: \"I never had it.\""));
  // The eye that was on Tobias then is elsewhere as the next beat begins; nothing else differs there.
  for (const std::string& one : told(dropped, "Answer")) CHECK(one.find(" the eye: ") != std::string::npos);
  CHECK(tells(told(changes_of(edited(line, ""), yard), "Ask"), "new line of `Tobias`: \"I never had it.\""));
}

TEST_CASE("intents that came, went and came out otherwise are told before the eye") {
  const Changes other = after_edit("favour Tobias", "favour Pell");
  const Sentences sentences = told(other, "Answer");
  CHECK(tells(sentences, "no longer asked: `favour Tobias`"));
  CHECK(tells(sentences, "new: `favour Pell`; it came out as: fails as wandering-eye"));
  CHECK(told(other, "Ask").empty());

  const Changes held = after_edit("  Oda to Pell: \"Well? Where is it, then?\"\n", "");
  for (const BeatChanges& beat : held.beats) {
    if (beat.after != "Answer") continue;
    REQUIRE(beat.changes.size() > 3);
    CHECK(beat.changes[0].aspect == Aspect::finding);
    CHECK(sentence(beat.changes[1]) == "`favour Tobias`: holds, was fails");
    CHECK(beat.changes[2].aspect == Aspect::eye);
  }
}

TEST_CASE("who gains the eye is told with shares and the cue that changed most") {
  const Changes changes = after_edit("  Oda to Pell: \"Well? Where is it, then?\"\n", "");
  CHECK(tells(told(changes, "Answer"), "`Tobias` gains the eye: 100 % of the beat, was 61 %"));
  CHECK(tells(told(changes, "Answer"), "`Oda` loses the eye: 0 % of the beat, was 39 %; most by `voice` of `Oda`"));
}

TEST_CASE("props and hands are told, and looks") {
  const Changes key = after_edit("  favour Oda\n", "  favour Oda\n  Tobias puts the Key on the Table\n");
  CHECK(told(key, "Ask") == Sentences{"`Tobias` does: puts Key now", "prop `Key` is with Table, was with Tobias"});
  CHECK(told(key, "Answer").empty());
  const Changes look = changes_of(yard, yard + "  Pell looks at Tobias\n");
  CHECK(told(look, "Answer") == Sentences{"`Pell` looks at Tobias now"});
}

TEST_CASE("an exit is told with its time") {
  const Changes changes = changes_of(yard, yard + "  Pell exits by the Gate\n");
  CHECK(tells(told(changes, "Answer"), "`Pell` leaves now"));
  CHECK(told(changes, "Ask").empty());
}

TEST_CASE("a renamed beat keeps its findings; added, dropped and moved beats are told") {
  const Changes renamed = after_edit("beat Answer", "beat Reply");
  REQUIRE(renamed.beats.size() == 2);
  CHECK(renamed.beats[1].fate == BeatChanges::Fate::renamed);
  CHECK(renamed.beats[1].before == "Answer");
  CHECK(renamed.beats[1].changes.empty());

  const std::string more = yard + "\nbeat After\n  favour Pell\n  Pell to Oda: \"Sold it.\"\n";
  const Changes added = changes_of(yard, more), dropped = changes_of(more, yard);
  REQUIRE(added.beats.size() == 3);
  CHECK(added.beats[2].fate == BeatChanges::Fate::added);
  REQUIRE(dropped.beats.size() == 3);
  CHECK(dropped.beats[2].fate == BeatChanges::Fate::dropped);

  const std::string silent = "\nbeat Hush\n  pause 2 s\n\nbeat Ask";
  const std::string hush_last = yard + "\nbeat Hush\n  pause 2 s\n";
  const Changes moved = changes_of(edited("\nbeat Ask", silent), hush_last);
  CHECK(std::count_if(moved.beats.begin(), moved.beats.end(), [](const auto& beat) { return beat.moved; }) == 1);
}

TEST_CASE("a finding stays the same finding when a line is put in above it") {
  const auto keys = [](const Run& run) {
    std::vector<FindingKey> all;
    for (const Finding& finding : run.findings.all()) {
      if (finding.severity != Severity::remark) all.push_back(key_of(finding));
    }
    return all;
  };
  const auto before = keys(run_of(yard));
  CHECK_FALSE(before.empty());
  CHECK(keys(run_of(edited("beat Ask\n", "-- nothing that is played\nbeat Ask\n"))) == before);
}

TEST_CASE("markdown keeps the writer's words from being markup, and text from steering a terminal") {
  Changes changes;
  changes.beats.push_back({BeatChanges::Fate::kept, false, "Ask", "Ask", {}});
  changes.beats[0].changes.push_back({Aspect::line, ChangeWay::added, "Oda", "", "<b>*no*</b>\x1b[31m", "", 0});
  CHECK(changes_markdown(changes) ==
        "no error or warning came or went\n\n### beat `Ask`\n\n- new line of `Oda`: "
        "\"\\<b\\>\\*no\\*\\</b\\>\xEF\xBF\xBD\\[31m\"\n");
  CHECK(changes_json(changes)["schema"] == "lensward/changes/1");
  CHECK(changes_json(changes)["beats"][0]["changes"][0]["aspect"] == "line");
}

// ---- What holds of every pair of drafts -----------------------------------------------------------------------------

namespace {

Run example(const std::string& name) {
  RealHost host;
  Run run;
  const auto file = read_file(host, std::string(LENSWARD_TESTS_DIR) + "/../examples/" + name, run);
  REQUIRE(std::holds_alternative<int>(file));
  compile(std::get<int>(file), Until::rules, run);
  REQUIRE(run.has_scene());
  return run;
}

std::size_t listed(const Changes& changes) {
  std::size_t count = changes.scene.size();
  for (const BeatChanges& beat : changes.beats) count += beat.changes.size();
  return count;
}
std::ptrdiff_t of_way(const Changes& changes, ChangeWay way) {
  std::ptrdiff_t count = 0;
  const auto add = [&](const std::vector<Change>& list) {
    count += std::count_if(list.begin(), list.end(), [&](const Change& change) { return change.way == way; });
  };
  add(changes.scene);
  for (const BeatChanges& beat : changes.beats) add(beat.changes);
  return count;
}

void check_mirrored(const Changes& there, const Changes& back) {
  CHECK(listed(there) == listed(back));
  CHECK(there.small == back.small);
  CHECK(there.remarks_came == back.remarks_went);
  CHECK(of_way(there, ChangeWay::added) == of_way(back, ChangeWay::dropped));
  CHECK(of_way(there, ChangeWay::dropped) == of_way(back, ChangeWay::added));
  CHECK(there.any() == back.any());
}

}  // namespace

TEST_CASE("a scene compared with itself, or with other comments and spaces, has no difference at all") {
  for (const char* name : {"monday.staging", "kitchen.staging", "one-vote.staging", "quay.staging"}) {
    CAPTURE(name);
    const Run run = example(name);
    const Changes self = changes_of(run, run);
    CHECK_FALSE(self.any());
    CHECK(self.small + self.remarks_came + self.remarks_went == 0);

    std::string text(run.sources.file(run.tree.file).bytes());
    const std::size_t line = text.find('\n') + 1;
    text.insert(line, "-- a word to whoever reads this\n\n");
    const Changes commented = changes_of(run, run_of(text + "\n-- the end\n"));
    CHECK(changes_text(commented) == "no difference that matters on the floor\n");
  }
}

TEST_CASE("there and back are mirror images") {
  const Run before = run_of(yard);
  for (const auto& [from, to] :
       std::vector<std::pair<std::string, std::string>>{{"stop T2.8", "stop T4"},
                                                        {"favour Tobias", "favour Pell"},
                                                        {"beat Answer", "beat Reply"},
                                                        {"I never had it.", "Not I."},
                                                        {"gives 420 lux", "gives 840 lux"},
                                                        {"walks to (4, 2) m", "walks to (3, 1.5) m"},
                                                        {"  Oda to Pell: \"Well? Where is it, then?\"\n", ""}}) {
    CAPTURE(from);
    const Run after = run_of(edited(from, to));
    check_mirrored(changes_of(before, after), changes_of(after, before));
  }
  const Run one = example("monday.staging"), other = example("kitchen.staging");
  check_mirrored(changes_of(one, other), changes_of(other, one));
}

// ---- What a dropped beat leaves behind ------------------------------------------------------------------------------

TEST_CASE("where somebody stands once the beat that moved them is dropped is told in the next beat, once") {
  const std::string after_them =
      yard + "\nbeat After\n  favour Pell\n  Pell to Oda: \"Sold it.\"\n\nbeat Last\n  pause 2 s\n";
  const std::size_t begin = after_them.find("\nbeat Answer"), end = after_them.find("\nbeat After");
  const std::string without = std::string(after_them).erase(begin, end - begin);
  const std::string wanted = "`Tobias` stands 0.72 m deeper, as the beat begins: (4.4, 2.6) m";
  const Changes changes = changes_of(after_them, without);
  CHECK(tells(told(changes, "After"), wanted));
  CHECK_FALSE(tells(told(changes, "Last"), "`Tobias` stands"));
  CHECK_FALSE(tells(told(changes, "After"), "`Oda` stands"));
  CHECK(tells(told(changes_of(without, after_them), "After"), "`Tobias` stands 0.72 m"));
}

TEST_CASE("a finding of no beat is told of the scene, and not of a beat that was dropped") {
  const std::string short_one = edited("interior, night\n", "interior, night\nlasts about 5 s\n");
  const std::string more = short_one + "\nbeat After\n  favour Pell\n  Pell to Oda: \"Sold it.\"\n";
  const Changes changes = changes_of(more, edited("about 5 s", "about 60 s", short_one));
  CHECK(tells(told_of_scene(changes), "[over-time]"));
  CHECK_FALSE(tells(told(changes, "After"), "[over-time]"));
}

TEST_CASE("a camera that moves beside its old way stands elsewhere once") {
  const std::string moving = edited("  favour Oda\n", "  favour Oda\n  camera A pushes in 50 cm, over 2 s, from top\n");
  const Changes changes = changes_of(moving, edited("(3.5, -2.4) m", "(4.1, -2.4) m", moving));
  std::ptrdiff_t times = 0;
  for (const BeatChanges& beat : changes.beats) {
    times += std::count_if(beat.changes.begin(), beat.changes.end(),
                           [](const Change& change) { return change.aspect == Aspect::camera_place; });
  }
  CHECK(times == 1);
}

// ---- The first line, and markup -------------------------------------------------------------------------------------

TEST_CASE("the first line counts what came and went") {
  Changes changes;
  changes.scene.push_back({Aspect::finding, ChangeWay::added, "bump", "", "one", "error", 3});
  changes.beats.push_back({BeatChanges::Fate::kept, false, "Ask", "Ask", {}});
  changes.beats[0].changes.push_back({Aspect::finding, ChangeWay::added, "close-call", "", "two", "warning", 1});
  changes.beats[0].changes.push_back({Aspect::finding, ChangeWay::dropped, "bump", "three", "", "waived", -1});
  CHECK(changes_text(changes).starts_with("3 new errors, 1 new warning, 1 gone\n\nscene "));
  CHECK(changes_json(changes)["new_errors"] == 3);
  CHECK(changes_text(after_edit("lens 28 mm", "lens 35 mm")).starts_with("no error or warning came or went\n"));
}

TEST_CASE("a backtick of the writer's is told as one, and switches nothing") {
  Changes changes;
  changes.beats.push_back({BeatChanges::Fate::kept, false, "Ask", "Ask", {}});
  const auto told_as = [&](const Change& change) {
    changes.beats[0].changes = {change};
    const std::string text = changes_markdown(changes);
    return text.substr(text.find("\n- ") + 3);
  };
  CHECK(told_as({Aspect::line, ChangeWay::added, "Oda", "", "it`s <b> ~~gone~~", "", 0}) ==
        "new line of `Oda`: \"it\\`s \\<b\\> \\~\\~gone\\~\\~\"\n");
  CHECK(told_as({Aspect::line_words, ChangeWay::changed, "Oda", "a`*b*", "c`*d*", "", 0}) ==
        "`Oda` says \"c\\`\\*d\\*\", was \"a\\`\\*b\\*\"\n");
  // A message of which nobody can say whose backticks they are: an odd one opens nothing.
  CHECK(told_as({Aspect::finding, ChangeWay::added, "bump", "", "`Oda` said ` and *no*", "error", 1}) ==
        "new error: `Oda` said \\` and \\*no\\* \\[bump\\]\n");
  changes.beats[0].changes = {{Aspect::finding, ChangeWay::added, "bump", "", "odd `", "error", 1},
                              {Aspect::finding, ChangeWay::added, "bump", "", "*next*", "error", 1}};
  CHECK(changes_markdown(changes).find("\\*next\\*") != std::string::npos);
}
