#include <catch2/catch.hpp>

#include "../lens/scene.h"
#include "base/quantity_text.h"
#include "crew/trades.h"

using namespace lensward;

namespace {

using For = CrewSheet::For;

constexpr Vec3 lens_at{0, -3, 1.5};
constexpr PersonId oda{0}, tobias{1};

// Oda and Tobias, a beat of 4 s named Asking and one named Answer, from 4 s to 20 s.
struct Scene2 : Scene {
  Scene2() : Scene(lens_at, Millimetres{35}, FNumber{2.8}, Metres{3}) {
    person("Oda", {0, 0}, Metres{1.7}, Degrees{180});
    person("Tobias", {1, 0}, Metres{1.8}, Degrees{180});
    plan.beats[0].name = "Asking";
    plan.beats[0].end = Moment{4000};
    Beat answer;
    answer.name = "Answer";
    answer.begin = Moment{4000};
    answer.end = Moment{20000};
    plan.beats.push_back(answer);
  }

  Speech& speech(PersonId speaker, Moment begin, std::vector<std::string> words) {
    Speech speech;
    speech.speaker = speaker;
    speech.begin = begin;
    for (std::string& word : words) {
      const Moment from{begin.count + 500 * static_cast<std::int64_t>(speech.timed.size())};
      speech.timed.push_back({std::move(word), from, from + Milliseconds{400}, {}});
    }
    speech.end = speech.timed.back().end;
    plan.speeches.push_back(speech);
    return plan.speeches.back();
  }

  void deed(BeatLine::Kind kind, const std::string& text) {
    BeatLine line;
    line.kind = kind;
    line.text = text;
    plan.beats[0].lines.push_back(line);
  }

  bool cautions(For whom, const std::string& word) const {
    const auto all = cautions_for(plan, whom);
    return std::ranges::any_of(all, [&](const std::string& one) { return one.find(word) != std::string::npos; });
  }
};

Stage with_walls(std::vector<Wall> walls) {
  Stage stage;
  stage.walls = std::move(walls);
  return stage;
}

}  // namespace

TEST_CASE("a cue is the word that is being said, or how long ago the last one was") {
  Scene2 scene;
  scene.speech(oda, Moment{1000}, {"Do", "sit,", "please."});  // ends at 2.4 s
  CHECK(cue_words(scene.plan, Moment{0}) == "as the scene begins");
  CHECK(cue_words(scene.plan, Moment{500}) == "0.5 s into Asking");
  CHECK(cue_words(scene.plan, Moment{1600}) == "on “Do sit” (Oda)");
  CHECK(cue_words(scene.plan, Moment{3000}) == "0.6 s after “Do sit, please” (Oda)");
  CHECK(cue_words(scene.plan, Moment{3950}) == "1.6 s after “Do sit, please” (Oda)");
  CHECK(cue_words(scene.plan, Moment{4000}) == "1.6 s after “Do sit, please” (Oda), as Answer begins");
}

TEST_CASE("no more of a line than three words to the one that counts") {
  Scene2 scene;
  scene.speech(oda, Moment{1000}, {"Will", "you", "wait", "for", "it?"});
  CHECK(cue_words(scene.plan, Moment{2600}) == "on “you wait for” (Oda)");
  CHECK(cue_words(scene.plan, Moment{1100}) == "as Oda says “Will you wait …”");
}

TEST_CASE("nobody is cued by the line that they begin then") {
  Scene2 scene;
  scene.speech(oda, Moment{1000}, {"Do", "sit."});  // to 1.9 s
  scene.speech(tobias, Moment{2500}, {"No."});      // to 2.9 s
  CHECK(cue_words(scene.plan, Moment{2500}, tobias) == "0.6 s after “Do sit” (Oda)");
  CHECK(cue_words(scene.plan, Moment{2500}, oda) == "as Tobias says “No”");
  CHECK(cue_words(scene.plan, Moment{5000}) == "2.1 s after “No” (Tobias)");
}

TEST_CASE("words long past are no cue") {
  Scene2 scene;
  scene.speech(oda, Moment{4500}, {"So."});
  CHECK(cue_words(scene.plan, Moment{8800}) == "3.9 s after “So” (Oda)");
  CHECK(cue_words(scene.plan, Moment{9000}) == "5 s into Answer");
}

TEST_CASE("marks are taped from the two longest walls that stay, at an angle") {
  const Tape tape(with_walls({{"South", {0, 0}, {9, 0}, true, {}},
                              {"East", {9, 0}, {9, 4}, false, {}},
                              {"North", {9, 4}, {0, 4}, false, {}},
                              {"West", {0, 4}, {0, 0}, false, {}}}));
  CHECK(tape.first("mark").heading == "from North wall");
  CHECK(tape.second("mark").heading == "from East wall");
  CHECK(tape.from_first({2, 1}).value == Approx(3));
  CHECK(tape.from_second({2, 1}).value == Approx(7));
  CHECK(tape.from_first({2, 5}).value == Approx(-1));
}

TEST_CASE("a wall that is taken away is measured from only when there is no other") {
  const Tape tape(with_walls({{"South", {0, 0}, {9, 0}, true, {}}, {"West", {0, 4}, {0, 0}, true, {}}}));
  CHECK(tape.first("mark").heading == "from South wall");
  CHECK(tape.from_second({2, 1}).value == Approx(2));
}

TEST_CASE("with no two walls at an angle it is the scene's own axes") {
  const Tape tape(with_walls({{"South", {0, 0}, {9, 0}, false, {}}, {"North", {9, 4}, {0, 4}, false, {}}}));
  CHECK(tape.from_first({2, 1}).value == Approx(2));
  CHECK(tape.from_second({2, 1}).value == Approx(1));
}

TEST_CASE("somebody is at a mark within a foot of it, from when they reach it") {
  Scene2 scene;
  scene.plan.marks.push_back({"O1", oda, {0, 0.25}, Moment{1000}, Origin::said, {}, {}});
  CHECK(mark_at(scene.plan, oda, Moment{500}) == "on the way");
  CHECK(mark_at(scene.plan, oda, Moment{1500}) == "O1");
  scene.plan.marks[0].at = {0, 0.35};
  CHECK(mark_at(scene.plan, oda, Moment{1500}) == "on the way");
  scene.plan.people[0].present = always(false);
  CHECK(mark_at(scene.plan, oda, Moment{1500}) == "away");
}

TEST_CASE("cautions come from names and deeds, by whole words, never from moves called steps") {
  using Kind = BeatLine::Kind;
  Scene2 scene;
  CHECK(cautions_for(scene.plan, For::assistant).empty());
  scene.deed(Kind::move, "Oda steps 0.5 m toward lens");
  CHECK_FALSE(scene.cautions(For::assistant, "Steps, a ladder"));
  scene.deed(Kind::speech, "Oda to Tobias: \"A knife?\"");
  scene.deed(Kind::hands, "Oda relaxes");
  scene.deed(Kind::hands, "Oda does \"cares for the cactus\"");
  CHECK_FALSE(scene.cautions(For::props, "blade"));
  CHECK_FALSE(scene.cautions(For::grip, "vehicle"));
  scene.deed(Kind::hands, "Oda does \"slapping the dough and shoved the bread\"");
  CHECK(scene.cautions(For::props, "Contact"));
  scene.deed(Kind::hands, "Oda does \"sharpens knives\"");
  CHECK(scene.cautions(For::props, "blade"));
  CHECK(scene.cautions(For::actors, "blade"));
  CHECK_FALSE(scene.cautions(For::light, "blade"));
  scene.deed(Kind::move, "Tobias falls");
  CHECK(scene.cautions(For::grip, "A fall"));
  CHECK(scene.cautions(For::grip, "local codes"));
}

TEST_CASE("what hangs, flickers or moves is found in the plan") {
  Scene2 scene;
  scene.lamp({0, 0, 2.4}, Candela{100});
  // Assumed, it is the sky or what is there anyway.
  CHECK_FALSE(scene.cautions(For::light, "Lamps get hot"));
  CHECK_FALSE(scene.cautions(For::light, "Higher than two metres"));
  scene.plan.stage.lamps[0].declared = scene.plan.facts.heading = {0, 1, 2};
  CHECK_FALSE(scene.cautions(For::light, "Lamps get hot"));
  scene.plan.stage.lamps[0].declared = {0, 5, 9};
  scene.plan.lamps[0].place = always(Vec3{0, 0, 1.5});
  CHECK(scene.cautions(For::light, "Lamps get hot"));
  CHECK_FALSE(scene.cautions(For::light, "Higher than two metres"));
  scene.plan.lamps[0].place = always(Vec3{0, 0, 2.4});
  CHECK(scene.cautions(For::light, "Higher than two metres"));
  CHECK_FALSE(scene.cautions(For::light, "three times a second"));
  Lane<Share>& level = scene.plan.lamps[0].level;
  level.clear();
  for (std::int64_t i = 0; i < 4; ++i)
    level.push_back({Moment{200 * i}, Moment{200 * i}, Share{i % 2 * 1.0}, Share{1 - i % 2 * 1.0}, Origin::said, {}});
  CHECK(scene.cautions(For::light, "three times a second"));
  // Three changes within a second are not more than three.
  level.erase(level.begin() + 3);
  CHECK_FALSE(scene.cautions(For::light, "three times a second"));
}

TEST_CASE("a camera that moves is cautioned of, among people when it comes near") {
  Scene2 scene;
  CHECK_FALSE(scene.cautions(For::grip, "camera moves"));
  scene.plan.cameras[0].place = changing(Moment{0}, Moment{2000}, lens_at, lens_at + Vec3{0, 1, 0});
  CHECK(scene.cautions(For::grip, "The camera moves: keep"));
  scene.plan.cameras[0].place = changing(Moment{0}, Moment{2000}, lens_at, lens_at + Vec3{0, 2, 0});
  CHECK(scene.cautions(For::grip, "The camera moves among people"));
}

TEST_CASE("a lens that rides with somebody moves") {
  Scene2 scene;
  PersonTrack& track = scene.plan.people[0];
  track.feet = {{Moment{1000}, Moment{3000}, {}, Walk{{{0, 0}, {2, 0}}}, Origin::said, {}}};
  CHECK(lens_moves(scene.plan, CameraId{0}).empty());
  scene.plan.cameras[0].rides = always(Target{Target::Kind::person, 0, {}});
  scene.plan.cameras[0].ride_off = always(Vec3{0, -3, 0});
  const auto moves = lens_moves(scene.plan, CameraId{0});
  REQUIRE(moves.size() == 1);
  CHECK(moves[0].begin >= Moment{960});
  CHECK(moves[0].end <= Moment{3040});
}

TEST_CASE("a set-up is no move, and is told by itself") {
  Scene2 scene;
  scene.plan.cameras[0].place.push_back({Moment{5010}, Moment{5010}, lens_at, {3, -2, 1.5}, Origin::said, {}});
  CHECK(lens_moves(scene.plan, CameraId{0}).empty());
  CHECK(set_up_anew(scene.plan, CameraId{0}) == std::vector<Moment>{Moment{5010}});
}

TEST_CASE("people are called as on the pages, by whole names and outside what is said") {
  Scene2 scene;
  scene.plan.stage.people[0].called = "Aunt Rose";
  BeatLine line;
  line.text = "Oda to Odalie: \"Oda knows\"";
  CHECK(deed_words(scene.plan, line) == "Aunt Rose to Odalie: \"Oda knows\"");
}

TEST_CASE("a note that no sheet claims is the assistant director's") {
  Scene2 scene;
  scene.plan.notes = {{"stunts", "at noon", Moment{}, {}}, {"focus", "hold", Moment{}, {}}};
  const auto notes_of = [&](For whom) {
    CrewSheet sheet{whom, "", {}, {}, {}};
    add_notes(scene.plan, sheet);
    return sheet.tables.empty() ? 0 : static_cast<int>(sheet.tables[0].rows.size());
  };
  CHECK(notes_of(For::assistant) == 1);
  CHECK(notes_of(For::camera) == 1);
  CHECK(notes_of(For::light) == 0);
}

TEST_CASE("loads are summed by circuit, of the lamps that tell theirs") {
  Scene2 scene;
  for (const double draws : {650.0, 300.0, 0.0, 40.0}) {
    scene.lamp({0, -2, 2}, Candela{100});
    if (draws > 0) scene.plan.stage.lamps.back().draws = Watts{draws};
    scene.plan.stage.lamps.back().name = "Lamp-" + number(draws, 0);
  }
  scene.plan.stage.lamps[0].circuit = scene.plan.stage.lamps[1].circuit = 2;
  const CrewSheet sheet = light_sheet(scene.plan);
  const auto loads = std::ranges::find(sheet.tables, std::string("loads"), &CrewTable::key);
  REQUIRE(loads != sheet.tables.end());
  REQUIRE(loads->rows.size() == 2);
  CHECK(std::get<std::string>(loads->rows[0][0]) == "not told");
  CHECK(std::get<std::string>(loads->rows[0][1]) == "40");
  CHECK(std::get<std::string>(loads->rows[1][0]) == "2");
  CHECK(std::get<std::string>(loads->rows[1][1]) == "950");
  CHECK(std::get<std::string>(loads->rows[1][2]) == "Lamp-650 and Lamp-300");
}

TEST_CASE("a mark's distance is told from the focal plane too where the lens tells its pupil") {
  Scene2 scene;
  scene.plan.marks.push_back({"O1", oda, {0, 0}, Moment{0}, Origin::said, {}, {}});
  const auto of_first_mark = [&](const char* field) -> Entry {
    const CrewSheet sheet = camera_sheet(scene.plan);
    const auto table = std::ranges::find(sheet.tables, std::string("distances"), &CrewTable::key);
    const auto at = std::ranges::find(table->fields, std::string(field), &Field::key) - table->fields.begin();
    return table->rows.front()[static_cast<std::size_t>(at)];
  };
  CHECK(std::holds_alternative<std::monostate>(of_first_mark("from_plane_m")));
  Lens lens;
  lens.focal = 35_mm;
  lens.pupil = 0.09_m;
  scene.plan.stage.lenses.push_back(lens);
  const Metres from_pupil = std::get<Metres>(of_first_mark("distance_m"));
  CHECK(std::get<Metres>(of_first_mark("from_plane_m")).value == Approx(from_pupil.value + 0.09));
  scene.plan.stage.lenses[0].focal = 50_mm;
  CHECK(std::holds_alternative<std::monostate>(of_first_mark("from_plane_m")));
}

TEST_CASE("a page prints units, data the bare number") {
  CHECK(page_text(Metres{3.254}, Lengths::metres) == "3.25 m");
  // An inch is 25.4 mm (international yard and pound agreement, 1959): 3.254 m is 128.1 in.
  CHECK(page_text(Metres{3.254}, Lengths::feet) == "10 ft 8 in");
  CHECK(page_text(Metres{-0.2}, Lengths::feet) == "-0 ft 8 in");
  CHECK(page_text(Metres{3.254}, Lengths::both) == "3.25 m (10 ft 8 in)");
  CHECK(data_text(Metres{3.2541}) == "3.254");
  CHECK(page_text(Stops{0.44}, Lengths::metres) == "+0.4");
  CHECK(page_text(Stops{-1.26}, Lengths::metres) == "-1.3");
  CHECK(data_text(OnTheClock{Moment{61250}}) == "61.25");
  CHECK(page_text(Ratio{4}, Lengths::metres) == "4:1");
  CHECK(data_text(std::monostate{}).empty());
}

TEST_CASE("a sheet with nothing on it is not made; rows are as long as their fields") {
  Scene2 scene;
  scene.speech(oda, Moment{1000}, {"Do", "sit."});
  scene.lamp({0, -1, 2.4}, Candela{100});
  const auto sheets = crew_sheets(scene.plan);
  CHECK(std::ranges::none_of(sheets, [](const CrewSheet& one) { return one.whom == For::props; }));
  CHECK(std::ranges::any_of(sheets, [](const CrewSheet& one) { return one.whom == For::light; }));
  for (const CrewSheet& sheet : sheets) {
    CHECK_FALSE(sheet.tables.empty());
    for (const CrewTable& table : sheet.tables) {
      CHECK_FALSE(table.rows.empty());
      for (const auto& row : table.rows) CHECK(row.size() == table.fields.size());
    }
  }
}
