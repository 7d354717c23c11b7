// Hand-made plans for the page tests: a kitchen with five people, and crowds that strain the page.
#pragma once

#include <string>
#include <vector>

#include "emphasis/judge.h"
#include "emphasis/weigh.h"
#include "pages/lay_out.h"

namespace lensward::sample {

struct Scene {
  SourceSet sources;
  Plan plan;
  Attention attention;
  std::vector<Verdict> verdicts;
  Findings findings;

  Results results() const { return {sources, plan, attention, verdicts, findings}; }
  // Weighs and judges the plan as it stands now.
  void reckon() {
    attention = weigh(plan);
    verdicts = judge(plan, attention);
  }
};

inline Segment<Walk> stand(Moment at, Vec2 where) { return {at, at, {}, Walk{{where}}, Origin::said, {}}; }
inline Segment<Walk> walk(Moment begin, Moment end, std::vector<Vec2> path) {
  return {begin, end, {}, Walk{std::move(path)}, Origin::said, {}};
}
template <class Value>
Segment<Value> from_start(Value value) {
  return {Moment{}, Moment{}, value, value, Origin::said, {}};
}
template <class Value>
Segment<Value> at(Moment moment, Value value) {
  return {moment, moment, value, value, Origin::said, {}};
}

inline PersonId add_person(Plan& plan, const std::string& name, Vec2 where, Target looks_at, Tone dress,
                           bool present = true) {
  Person person;
  person.name = name;
  person.dress = dress;
  plan.stage.people.push_back(person);
  PersonTrack track;
  track.present.push_back(from_start(present));
  track.feet.push_back(stand({}, where));
  track.body.push_back(from_start(Facing{Degrees{0}, looks_at}));
  track.stance.push_back(from_start(Stance{}));
  track.eyes.push_back(from_start(Gaze{Gaze::Manner::at_target, looks_at}));
  track.right_hand.push_back(from_start(Target{}));
  plan.people.push_back(track);
  return PersonId{static_cast<int>(plan.people.size()) - 1};
}

inline Target person(int index) { return {Target::Kind::person, index, {}}; }
inline Target piece(int index) { return {Target::Kind::piece, index, {}}; }

inline void add_piece(Plan& plan, const std::string& name, PieceKind kind, Vec2 at, Vec2 size, double height,
                      Degrees front) {
  Piece made;
  made.name = name;
  made.kind = kind;
  made.at = at;
  made.length = Metres{size.x};
  made.depth = Metres{size.y};
  made.height = Metres{height};
  made.front = front;
  made.seats = kind == PieceKind::sofa || kind == PieceKind::bench ? 3 : 1;
  plan.stage.pieces.push_back(made);
}

inline void add_room(Plan& plan, double width, double depth) {
  plan.stage.room.outline = {{0, 0}, {width, 0}, {width, depth}, {0, depth}};
  const auto& outline = plan.stage.room.outline;
  const char* names[] = {"South", "East", "North", "West"};
  for (std::size_t i = 0; i < 4; ++i) {
    Wall wall;
    wall.name = names[i];
    wall.from = outline[i];
    wall.to = outline[(i + 1) % 4];
    wall.wild = i == 0;
    plan.stage.walls.push_back(wall);
  }
}

inline void add_opening(Plan& plan, const std::string& name, Opening::Kind kind, Vec2 middle, Vec2 into_room,
                        double width) {
  Opening opening;
  opening.name = name;
  opening.kind = kind;
  opening.middle = middle;
  opening.into_room = into_room;
  opening.width = Metres{width};
  plan.stage.openings.push_back(opening);
}

inline void add_camera(Plan& plan, Vec3 place, Degrees pan) {
  Camera camera;
  camera.name = "A";
  plan.stage.cameras.push_back(camera);
  CameraTrack track;
  track.place.push_back(from_start(place));
  track.aim.push_back(from_start(Vec2{pan.value, -3}));
  track.keeps.push_back(from_start(Target{}));
  track.keeps_at.push_back(from_start(Share{0.5}));
  track.focal.push_back(from_start(Millimetres{27}));
  track.stop.push_back(from_start(FNumber{2.8}));
  track.focus.push_back(from_start(Metres{3.4}));
  track.focus_on.push_back(from_start(Target{}));
  plan.cameras.push_back(track);
  plan.cuts.push_back({Moment{}, CameraId{0}, {}});
}

inline void add_lamp(Plan& plan, const std::string& name, Lamp::Kind kind, Vec3 place, Vec3 aim) {
  Lamp lamp;
  lamp.name = name;
  lamp.kind = kind;
  if (kind != Lamp::Kind::practical) lamp.beam = Degrees{40};
  lamp.intensity = Candela{1800};
  plan.stage.lamps.push_back(lamp);
  LampTrack track;
  track.place.push_back(from_start(place));
  track.aim.push_back(from_start(aim));
  track.level.push_back(from_start(Share{1}));
  plan.lamps.push_back(track);
}

inline int add_speech(Plan& plan, int speaker, std::vector<PersonId> to, Moment begin, Moment end, std::string words) {
  Speech speech;
  speech.speaker = PersonId{speaker};
  speech.to = std::move(to);
  speech.to_everyone = speech.to.empty();
  speech.begin = begin;
  speech.end = end;
  speech.words = std::move(words);
  plan.speeches.push_back(speech);
  return static_cast<int>(plan.speeches.size()) - 1;
}

inline BeatLine spoken(const Plan& plan, int speech) {
  const Speech& said = plan.speeches[static_cast<std::size_t>(speech)];
  BeatLine line;
  line.kind = BeatLine::Kind::speech;
  line.text = said.words;
  line.begin = said.begin;
  line.end = said.end;
  line.speech = speech;
  line.people = {said.speaker};
  return line;
}

inline BeatLine done(BeatLine::Kind kind, Moment begin, Moment end, std::string text, std::vector<PersonId> people) {
  BeatLine line;
  line.kind = kind;
  line.text = std::move(text);
  line.begin = begin;
  line.end = end;
  line.people = std::move(people);
  return line;
}

inline void add_intent(Plan& plan, Target whom, Moment begin, Moment end, std::string words) {
  Intent intent;
  intent.targets = {whom};
  intent.begin = begin;
  intent.end = end;
  intent.words = std::move(words);
  plan.intents.push_back(intent);
}

inline void add_finding(Scene& scene, const char* rule, Severity severity, const char* beat, Moment moment,
                        std::string message, std::string next_step = {}) {
  Finding finding;
  finding.rule = rule;
  finding.severity = severity;
  finding.where = {0, 0, 4};
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  finding.at = moment;
  finding.subject = {"Monday", beat, {}};
  scene.findings.add(std::move(finding));
}

inline void fill_kitchen(Plan& plan) {
  plan.facts.name = "Monday";
  plan.facts.title = "Last night of the season";
  plan.facts.number = "41A";
  plan.facts.pages = "2 4/8 pages";
  plan.facts.hour = "night";
  plan.facts.interior = true;
  add_room(plan, 7, 5);
  add_opening(plan, "Yard Door", Opening::Kind::door, {7, 1.4}, {-1, 0}, 0.9);
  add_opening(plan, "Window", Opening::Kind::window, {4.4, 5}, {0, -1}, 1.4);
  add_piece(plan, "Range", PieceKind::stove, {1.7, 4.7}, {0.9, 0.6}, 0.9, Degrees{180});
  add_piece(plan, "Table", PieceKind::table, {3.5, 2.5}, {1.8, 0.8}, 0.75, Degrees{180});
  add_piece(plan, "Sink", PieceKind::sink, {6.4, 4.7}, {1.2, 0.6}, 0.9, Degrees{180});
  add_piece(plan, "Larder", PieceKind::cupboard, {0.27, 3.2}, {1.0, 0.5}, 2.0, Degrees{90});
  add_piece(plan, "Settle", PieceKind::bench, {0.3, 1.3}, {1.5, 0.4}, 0.45, Degrees{90});
  add_camera(plan, {3.5, -1.0, 1.5}, Degrees{0});
  add_lamp(plan, "Pendant", Lamp::Kind::practical, {3.5, 2.5, 1.9}, {3.5, 2.5, 0});
  add_lamp(plan, "Key", Lamp::Kind::soft, {0.7, 0.2, 2.3}, {2.4, 2.6, 1.4});
}

inline void fill_company(Plan& plan) {
  const Target table = piece(1), range = piece(0);
  add_person(plan, "Oda", {2.0, 1.9}, person(1), Tone::dark);
  add_person(plan, "Tobias", {1.7, 3.95}, range, Tone::light);
  add_person(plan, "Wren", {5.8, 3.9}, person(3), Tone::mid);
  add_person(plan, "Jun", {6.5, 3.8}, person(2), Tone::dark);
  add_person(plan, "Pell", {6.6, 1.4}, table, Tone::mid, false);
  // Tobias turns to Oda, then crosses to the table; Pell comes in by the door.
  plan.people[1].eyes.push_back(at(Moment{3400}, Gaze{Gaze::Manner::at_target, person(0)}));
  plan.people[1].body.push_back(at(Moment{3400}, Facing{Degrees{0}, person(0)}));
  plan.people[1].feet.push_back(walk(Moment{5200}, Moment{8000}, {{1.7, 3.95}, {2.4, 3.5}, {3.4, 3.15}}));
  plan.people[4].present.push_back(at(Moment{8200}, true));
  plan.people[4].feet.push_back(walk(Moment{8200}, Moment{10600}, {{7.2, 1.4}, {6.0, 1.5}, {5.0, 2.1}}));
  plan.people[0].eyes.push_back(at(Moment{9000}, Gaze{Gaze::Manner::at_target, person(4)}));
  plan.marks = {{"O1", PersonId{0}, {2.0, 1.9}, Moment{}, Origin::settled, {}, {}},
                {"T1", PersonId{1}, {1.7, 3.95}, Moment{}, Origin::bound, {}, {}},
                {"T2", PersonId{1}, {3.4, 3.15}, Moment{8000}, Origin::bound, {}, {}},
                {"W1", PersonId{2}, {5.8, 3.9}, Moment{}, Origin::settled, {}, {}},
                {"J1", PersonId{3}, {6.5, 3.8}, Moment{}, Origin::settled, {}, {}},
                {"P1", PersonId{4}, {5.0, 2.1}, Moment{10600}, Origin::settled, {}, {}}};
}

inline void fill_beats(Plan& plan) {
  using Kind = BeatLine::Kind;
  const int first =
      add_speech(plan, 0, {PersonId{1}}, Moment{400}, Moment{4800}, "Leave the pan. I signed the papers on Monday.");
  const int second =
      add_speech(plan, 1, {PersonId{0}}, Moment{5400}, Moment{9400}, "Twenty-two years I've cooked in this room.");
  const int third = add_speech(plan, 4, {}, Moment{10200}, Moment{12000}, "Sorry. Is there a cook?");
  Beat papers{.name = "Papers", .title = "I signed on Monday", .begin = Moment{}, .end = Moment{5200}};
  papers.lines = {spoken(plan, first),
                  done(Kind::move, Moment{3400}, Moment{4200}, "Tobias turns frontal, on \"Monday\"", {PersonId{1}})};
  Beat stranger{.name = "Stranger", .title = "", .begin = Moment{5200}, .end = Moment{12600}};
  stranger.lines = {done(Kind::move, Moment{5200}, Moment{8000}, "Tobias walks to the Table", {PersonId{1}}),
                    spoken(plan, second),
                    done(Kind::move, Moment{8200}, Moment{10600}, "Pell enters frame right, on [Room]", {PersonId{4}}),
                    spoken(plan, third)};
  plan.beats = {papers, stranger};
  add_intent(plan, person(0), Moment{}, Moment{5200}, "favour Oda");
  add_intent(plan, person(1), Moment{5200}, Moment{8200}, "favour Tobias");
  add_intent(plan, person(4), Moment{8200}, Moment{12600}, "favour Pell, on [Room]");
}

inline Scene kitchen() {
  Scene scene;
  scene.sources.add(SourceFile("monday.staging", "scene Monday \"Last night of the season\"\npeople Oda, Tobias\n"));
  fill_kitchen(scene.plan);
  fill_company(scene.plan);
  fill_beats(scene.plan);
  scene.plan.assumptions = {{"no camera told, so A: 27 mm at T2.8, 1.5 m up, 1 m outside the middle of the south wall",
                             "camera A at (3.5, -1) m, height 1.5 m, aims north, 27 mm, T2.8",
                             {}},
                            {"Oda's height is not told, so 1.70 m", "person Oda, height 1.70 m", {}}};
  scene.plan.waivers = {{"masked", {"Jun"}, Moment{}, Moment{5200}, "he is the turned back in this group", {}}};
  scene.plan.notes = {{"camera", "nobody should feel the reframing before the turn", Moment{5200}, {}}};
  scene.reckon();
  add_finding(scene, "wandering-eye", Severity::error, "Stranger", Moment{8600},
              "`Tobias` has the eye at 0:08.6 where `Pell` is asked for, by 14 points; limit 0",
              "let Pell enter before Tobias has stopped");
  add_finding(scene, "hidden-speaker", Severity::warning, "Papers", Moment{2100},
              "`Jun` is 62 % hidden by `Wren`; limit 50 %");
  add_finding(scene, "no-mark", Severity::remark, "Papers", Moment{}, "`Oda` stands in a vague place, settled at O1");
  return scene;
}

// As many people as asked, evenly over a room, with names as long as asked and one beat of as many lines as asked.
inline Scene crowd(int people, int name_length, double room, int lines) {
  Scene scene;
  Plan& plan = scene.plan;
  scene.sources.add(SourceFile("crowd.staging", "scene Crowd\n"));
  plan.facts.name = "Crowd";
  add_room(plan, room, room * 0.6);
  add_camera(plan, {room / 2, -1.2, 1.6}, Degrees{0});
  int across = 1;
  while (across * across < people) ++across;
  for (int i = 0; i < people; ++i) {
    std::string name = "P" + std::to_string(i + 1);
    const std::string filler = " of the Lower Quay Harbour Choir and Reading Society";
    while (static_cast<int>(name.size()) < name_length) name += filler;
    name.resize(static_cast<std::size_t>(std::max(name_length, 3)), 'x');
    const double x = room * (0.5 + i % across) / across;
    const double y = room * 0.6 * (0.5 + static_cast<double>(i / across)) / across;
    add_person(plan, name, {x, y}, person((i + 1) % people), static_cast<Tone>(i % 3));
  }
  Beat beat{.name = "Crush", .title = "Everyone at once", .begin = Moment{}, .end = Moment{1000 + lines * 2000}};
  for (int i = 0; i < lines; ++i) {
    const int speech = add_speech(plan, i % people, {}, Moment{500 + i * 2000}, Moment{2300 + i * 2000},
                                  "This is what I have to say, and I shall say it at some length before I sit down.");
    beat.lines.push_back(spoken(plan, speech));
  }
  plan.beats = {beat};
  if (people > 0) add_intent(plan, person(0), Moment{}, beat.end, "favour P1");
  scene.reckon();
  return scene;
}

}  // namespace lensward::sample
