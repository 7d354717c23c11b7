#include "read_text.h"

using namespace lensward;

namespace {

std::vector<std::string> texts(const std::vector<Name>& names) {
  std::vector<std::string> result;
  for (const Name& name : names) result.push_back(name.text);
  return result;
}
using Texts = std::vector<std::string>;

// The one clause of `Nell walks, CLAUSE`.
template <class Body>
Body clause(const std::string& written) {
  INFO(written);
  const Reading reading = in_beat("Nell walks, " + written);
  const Clauses& clauses = reading.last<DeedLine>().clauses;
  REQUIRE(clauses.size() == 1);
  CHECK(reading.sources.text(clauses[0].span) == written);
  const Body* body = find<Body>(clauses);
  REQUIRE(body != nullptr);
  return *body;
}
Place place(const std::string& written) { return clause<AtClause>("at " + written).place; }
Amount amount(const std::string& written) { return clause<LengthClause>("over " + written).amount; }

}  // namespace

TEST_CASE("a version of any length is read") {
  const Reading far("staging 1.0" + std::string(80, '2') + " scene\n");
  CHECK(std::get<HeaderLine>(far.script.statements[0].body).minor > 0);
  const Reading near("staging 12.34 scene\n");
  CHECK(std::get<HeaderLine>(near.script.statements[0].body).major == 12);
  CHECK(std::get<HeaderLine>(near.script.statements[0].body).minor == 34);
}

TEST_CASE("headings, files and settings") {
  const Reading film("staging 1.0 film\nfilm Tides \"The tides\"\norder \"scenes/slipway\"\n");
  CHECK(std::get<HeaderLine>(film.script.statements[0].body).kind == FileKind::film);
  CHECK(std::get<HeadingLine>(film.script.statements[1].body).title->words == "The tides");
  CHECK(film.last<UseLine>().kind == UseLine::Kind::order);

  const Reading scene("staging 1.0 scene\nscene Slip-1 \"Title\", number 41A, interior, night, 2 4/8 pages");
  const auto& heading = scene.last<HeadingLine>();
  CHECK(heading.name.text == "Slip-1");
  REQUIRE(heading.clauses.size() == 4);
  const auto filing = [&heading](std::size_t i) { return std::get<FilingClause>(heading.clauses[i].body); };
  CHECK(filing(0).text == "41A");
  CHECK(filing(1).kind == FilingClause::Kind::interior);
  CHECK(filing(2).text == "night");
  CHECK(filing(3).kind == FilingClause::Kind::pages);
  CHECK(filing(3).text == "2 4/8");

  CHECK(in_scene("opening follows Ferry").last<HeadingLine>().of->text == "Ferry");
  const Reading way = in_beat("way B of Launch \"no rope\"");
  CHECK(way.last<HeadingLine>().kind == HeadingLine::Kind::way);
  CHECK(way.last<HeadingLine>().of->text == "Launch");
  CHECK(in_scene("choose way B of Launch").last<ChooseLine>().of.text == "Launch");
  const Reading use = in_scene("use \"sets/boathouse\", fixed");
  CHECK(use.last<UseLine>().path.words == "sets/boathouse");
  CHECK(find<StayClause>(use.last<UseLine>().clauses)->kind == StayClause::Kind::fixed);

  const Reading setting = in_scene("default near 0.6 to 1.8 m");
  CHECK(setting.last<SettingLine>().key.text == "near");
  CHECK(setting.last<SettingLine>().amount->first.unit == "m");
  CHECK(in_scene("default house south").last<SettingLine>().words == "south");
  CHECK(in_scene("default captain Nell").last<SettingLine>().ref->text == "Nell");
  CHECK(in_scene("weigh voice 22 points").last<SettingLine>().amount->first.number == 22);
  CHECK(in_scene("treat masked as error").last<SettingLine>().words == "error");
  CHECK(in_scene("sizing  medium  close-up, cuts 70%").last<SettingLine>().key.text == "medium close-up");
}

TEST_CASE("declarations") {
  const Reading people = in_scene("people Nell, the Abel, and 里美");
  CHECK(people.last<PeopleLine>().listed);
  CHECK(texts(people.last<PeopleLine>().names) == Texts{"Nell", "Abel", "里美"});
  const Reading person = in_scene("person Nell, called \"Nell Aas\", height 5 ft 7 in");
  CHECK_FALSE(person.last<PeopleLine>().listed);
  CHECK(find<LabelClause>(person.last<PeopleLine>().clauses)->quoted.words == "Nell Aas");
  const Figure height = find<MeasureClause>(person.last<PeopleLine>().clauses)->amount.first;
  CHECK(height.number == 67);
  CHECK(height.unit == "in");
  CHECK(person.sources.text(height.span) == "5 ft 7 in");

  const Reading room = in_scene("room 7 m by 5 m by 2.7 m, walls light");
  REQUIRE(room.last<RoomLine>().figures.size() == 3);
  CHECK(room.last<RoomLine>().figures[2].number == 2.7);
  const Reading range = in_scene("furniture Range, stove, deep, frame left");
  const auto& furniture = range.last<DeclarationLine>();
  CHECK(furniture.kind == DeclarationLine::Kind::furniture);
  CHECK(find<PieceClause>(furniture.clauses)->kind == PieceKind::stove);
  CHECK(find<WhereClause>(furniture.clauses)->place.word == Place::Word::deep);
  CHECK(in_scene("story Debt, of Nell and Abel").last<DeclarationLine>().kind == DeclarationLine::Kind::story);
  CHECK(in_scene("camera A, on dolly").last<DeclarationLine>().kind == DeclarationLine::Kind::camera);
  const Reading mark = in_beat("mark N1 at (2 m, 2 m)");
  CHECK(mark.last<MarkLine>().name.text == "N1");
  CHECK(mark.last<MarkLine>().at->coordinates[1].number == 2);
}

TEST_CASE("intents") {
  using Kind = IntentLine::Kind;
  const auto intent = [](const std::string& line) { return in_beat(line).last<IntentLine>(); };
  CHECK(intent("favour Nell").kind == Kind::favour);
  CHECK(intent("favor nobody").kind == Kind::favour_nobody);
  CHECK(texts(intent("favour Nell ahead of Abel and Wren").ahead_of) == Texts{"Abel", "Wren"});
  CHECK(texts(intent("share Nell, Abel and Wren").names) == Texts{"Nell", "Abel", "Wren"});
  CHECK(texts(intent("pass from Nell to Abel, on [Turn]").names) == Texts{"Nell", "Abel"});
  const IntentLine play = intent("play \"the rope\" of Abel on Nell");
  CHECK(play.kind == Kind::play);
  CHECK(play.words->words == "the rope");
  CHECK(play.whose->text == "Abel");
  CHECK(texts(play.names) == Texts{"Nell"});
  CHECK(texts(intent("play Oath on Nell").names) == Texts{"Oath", "Nell"});
  CHECK(texts(intent("throw away Oath").names) == Texts{"Oath"});
  CHECK(intent("plant Deed").kind == Kind::plant);
  CHECK(intent("pay  off Deed").kind == Kind::pay_off);
  CHECK(intent("hide Nell").kind == Kind::hide);
  CHECK(intent("hint Nell").kind == Kind::hint);
  CHECK(intent("reveal Nell").kind == Kind::reveal);
  CHECK(intent("draw the eye to Nell").kind == Kind::draw_the_eye);
  CHECK(intent("settle 1 s").amount->first.number == 1);
  CHECK(intent("button on Nell").kind == Kind::button);
  CHECK(in_beat("story Debt runs  under").last<StoryLine>().state == StoryLine::State::runs_under);
  CHECK(in_beat("story Debt breaks in").last<StoryLine>().state == StoryLine::State::breaks_in);
}

TEST_CASE("time, notes and changes") {
  CHECK(in_beat("lasts 8 s or more").last<LastsLine>().amount.form == Amount::Form::or_more);
  CHECK(in_beat("about 25 s").last<LastsLine>().about);
  CHECK(in_beat("later 20 min").last<LaterLine>().amount->first.unit == "min");
  CHECK_FALSE(in_beat("later").last<LaterLine>().amount);
  CHECK(in_beat("draw plan, from top").last<DrawLine>().plan);
  const Reading waive = in_beat("waive masked for Nell and Abel, because \"so\"");
  CHECK(waive.last<WaiveLine>().rule.text == "masked");
  CHECK(texts(waive.last<WaiveLine>().people) == Texts{"Nell", "Abel"});
  CHECK(in_beat("note for camera \"wide\"").last<NoteLine>().department == "camera");
  CHECK(in_beat("extra Fog \"both sides\"").last<ExtraLine>().text->words == "both sides");
  CHECK(in_beat("then pause 1.5 s").last<PauseLine>().amount.first.number == 1.5);
  CHECK(in_beat("then pause 1 s").script.statements.back().when == When::then);
  CHECK(in_beat("cut to camera B").last<CutLine>().camera.text == "B");
  CHECK(in_beat("meanwhile sound Gull, for 2 s").last<SoundLine>().name.text == "Gull");

  const Reading change = in_beat("way B of B\ninstead of Nell walks : then Abel walks to the Hull");
  REQUIRE(change.script.statements.size() == 6);
  CHECK(std::get<ChangeLine>(change.script.statements[4].body).opening_words.words == "Nell walks");
  CHECK(change.last<DeedLine>().who.names[0].text == "Abel");
  CHECK(change.script.statements[5].in_place_of_line);
  CHECK(change.script.statements[5].when == When::then);
  CHECK(in_beat("way B of B\nwithout Nell walks  -- no").last<ChangeLine>().opening_words.words == "Nell walks");
}

TEST_CASE("speech") {
  const Reading reading = in_beat(
      "then Nell and Abel to everyone but Wren, softly, named Oath:\n  \"Hold it. [Turn]  Now [pause 0.8 s] go.\"\n"
      "-- a remark between\n  “More.”\n + runs on");
  const auto& speech = reading.last<SpeechLine>();
  CHECK(texts(speech.speaker.names) == Texts{"Nell", "Abel"});
  CHECK(speech.addressee == SpeechLine::Addressee::everyone);
  CHECK(speech.clauses.size() == 3);
  REQUIRE(speech.parts.size() == 6);
  CHECK(speech.parts[0].words == "Hold it. ");
  CHECK(speech.parts[1].kind == SpeechPart::Kind::mark);
  CHECK(speech.parts[1].mark.text == "Turn");
  CHECK(speech.parts[2].words == "  Now ");
  CHECK(speech.parts[3].rest.number == 0.8);
  CHECK(speech.parts[3].rest.unit == "s");
  CHECK(reading.sources.text(speech.parts[4].span) == " go.");
  CHECK(speech.parts[5].words == "More.");

  CHECK(in_beat("Nell: \"Yes.\"").last<SpeechLine>().addressee == SpeechLine::Addressee::unsaid);
  CHECK(in_beat("Nell to nobody: \"Yes.\"").last<SpeechLine>().addressee == SpeechLine::Addressee::nobody);
  CHECK(in_beat("everyone but Abel: \"Yes.\"").last<SpeechLine>().speaker.but[0].text == "Abel");
  CHECK(in_beat("Nell: 「はい。」").last<SpeechLine>().parts[0].words == "はい。");
}

TEST_CASE("deeds") {
  const auto verb = [](const std::string& line) { return in_beat(line).last<DeedLine>().verb; };
  CHECK(verb("Nell walks to the Hull") == "walks");
  CHECK(verb("Nell turns away from Abel") == "turns");
  CHECK(verb("Nell turns  away, on \"so\"") == "turns away");
  CHECK(verb("Nell opens up") == "opens up");
  CHECK(verb("camera pushes in 40 cm") == "pushes in");
  CHECK(verb("camera A racks focus to Nell") == "racks focus");
  CHECK(verb("Nell closes own eyes") == "closes own eyes");
  CHECK(verb("Nell is on Bench.3") == "is");
  CHECK(verb("Nell looks down") == "looks down");

  const Reading camera = in_beat("camera A also frames Nell and Abel at frame left third, focus Nell");
  const auto& framing = camera.last<DeedLine>();
  CHECK(framing.subject == DeedLine::Subject::camera);
  CHECK(framing.who.names[0].text == "A");
  CHECK(framing.also);
  REQUIRE(framing.objects.size() == 2);
  CHECK(framing.objects[1].name.text == "Abel");
  CHECK(framing.clauses.size() == 2);
  CHECK(camera.sources.text(framing.verb_span) == "frames");
  CHECK(in_beat("camera pans 10 deg toward frame left").last<DeedLine>().who.names.empty());
  CHECK(in_beat("light Lamp, Spot go out").last<DeedLine>().subject == DeedLine::Subject::light);
  CHECK(in_beat("Abel does \"coils rope\", busy").last<DeedLine>().quoted->words == "coils rope");
  CHECK(in_beat("everyone but Nell looks at Abel").last<DeedLine>().who.but[0].text == "Nell");
  const Reading more = in_beat("Nell walks to the Hull\n+ slowly, named Crossing\n\n+ with both hands");
  CHECK(more.last<DeedLine>().clauses.size() == 4);
}

TEST_CASE("amounts") {
  CHECK(amount("2 s").first.number == 2);
  CHECK(amount("two steps").first.unit == "steps");
  CHECK(amount("twelve steps").first.number == 12);
  CHECK(amount("-0.5 stops").first.number == -0.5);
  CHECK(amount("−3 deg").first.number == -3);
  CHECK(amount("+3 deg").first.number == 3);
  CHECK(amount("40%").first.unit == "%");
  CHECK(amount("3 min 20 s").first.number == 200);
  CHECK(amount("-1 ft 6 in").first.number == -18);
  CHECK(amount("1 m 5 cm").first.number == 105);
  CHECK(amount("about 3 s").form == Amount::Form::about);
  CHECK(amount("3 s or less").form == Amount::Form::or_less);
  const Amount range = amount("2 to 3 s");
  CHECK(range.form == Amount::Form::range);
  CHECK(range.first.unit == "s");
  CHECK(range.second->number == 3);
}

TEST_CASE("places") {
  using Word = Place::Word;
  const Place measured = place("0.6 m off Nell's left");
  CHECK(measured.word == Word::off);
  CHECK(measured.measure->first.number == 0.6);
  CHECK(measured.things[0].kind == Thing::Kind::own_side);
  CHECK(measured.things[0].name.text == "Nell");
  CHECK(measured.things[0].own_side == OwnSide::left);

  CHECK(place("(3, -1.5) m").coordinates[1].number == -1.5);
  CHECK(place("(3, 1) m").coordinates[0].unit == "m");
  CHECK(place("(20 ft 8 in, 3 ft)").coordinates[0].number == 248);
  CHECK(place("in front of the Hull").word == Word::in_front_of);
  CHECK(place("just inside the Hatch").word == Word::just_inside);
  CHECK(place("near Bench.2").things[0].name.text == "Bench.2");
  CHECK(place("the Hull").word == Word::thing);
  CHECK(place("lens").things[0].kind == Thing::Kind::lens);
  CHECK(place("camera B").things[0].kind == Thing::Kind::camera);
  CHECK(place("everyone but Nell").things[0].but[0].text == "Nell");
  CHECK(place("nobody").things[0].kind == Thing::Kind::nobody);
  CHECK(place("Nell, Abel and Wren").things.size() == 3);
  CHECK(place("camera B right of the Hull").camera->text == "B");
  CHECK(place("camera B right of the Hull").word == Word::camera_right_of);
  CHECK(place("camera side of Nell").word == Word::camera_side_of);
  CHECK(place("stage left of Nell").word == Word::stage_left_of);
  CHECK(place("downstage of Nell").word == Word::downstage_of);
  CHECK(place("between Nell and the Hull").things[1].name.text == "Hull");
  CHECK(place("opposite Nell across the Hull").things.size() == 2);
  CHECK(place("beyond Nell of camera B").camera->text == "B");
  CHECK(place("away from Nell").word == Word::away_from);
  CHECK(place("toward lens").word == Word::toward);
  CHECK(place("towards frame left").side == Side::left);
  CHECK(place("north-east of Nell and Abel").compass == Compass::north_east);
  CHECK(place("north-east of Nell and Abel").things.size() == 2);
  CHECK(place("0.7 m from the west wall").things[0].kind == Thing::Kind::wall);
  CHECK(place("0.7 m from the west wall").word == Word::from);
  CHECK(place("the south-west corner").things[0].kind == Thing::Kind::corner);
  CHECK(place("deeper").word == Word::deeper);
  CHECK(place("north").word == Word::bearing);
  CHECK(place("middle ground").word == Word::middle_ground);
  CHECK(place("center").word == Word::centre);
  CHECK(place("0.5 m forward").word == Word::forward);

  const Place frame = place("frame left third of camera B");
  CHECK(frame.frame_part == Place::FramePart::third);
  CHECK(frame.side == Side::left);
  CHECK(frame.camera->text == "B");
  CHECK(place("frame right").frame_part == Place::FramePart::area);
  CHECK(place("frame high").frame_part == Place::FramePart::high);
  CHECK(place("frame centre").frame_part == Place::FramePart::centre);
  CHECK(place("frame 40%").percent->number == 40);

  const Thing end = place("the west end of the Hull").things[0];
  CHECK(end.kind == Thing::Kind::portion);
  CHECK(end.part == Thing::Part::end);
  CHECK(end.compass == Compass::west);
  CHECK(place("the near side of the Hull").things[0].part_side == Thing::PartSide::near_lens);
  CHECK(place("the camera B left edge of the Hull").things[0].part_side == Thing::PartSide::camera_left);
  CHECK(place("the camera B left edge of the Hull").things[0].camera->text == "B");
  CHECK(place("the middle of the Hull").things[0].kind == Thing::Kind::middle);
  CHECK(place("the Hull’s back corner").things[0].part == Thing::Part::corner);
  CHECK(place("the Hull’s back corner").things[0].name.text == "Hull");
}

TEST_CASE("cues") {
  const auto cue = [](const std::string& written) { return clause<CueClause>(written).cue; };
  CHECK(cue("on \"so\"").kind == Cue::Kind::on);
  CHECK(cue("on \"so\"").point.words.words == "so");
  CHECK(cue("on the last \"so\" of Abel").point.ordinal == -1);
  CHECK(cue("on the second \"so\" of Abel").point.of->text == "Abel");
  CHECK(cue("on [Turn]").point.kind == CuePoint::Kind::mark);
  CHECK(cue("on [Turn]").point.name.text == "Turn");
  CHECK(cue("as Crossing").point.name.text == "Crossing");
  CHECK(cue("midway through Abel crosses").point.verb == "crosses");
  CHECK(cue("0.5 s after camera A pushes in").offset->first.number == 0.5);
  CHECK(cue("0.5 s after camera A pushes in").point.verb == "pushes in");
  CHECK(cue("after \"so\"").kind == Cue::Kind::after);
  CHECK(cue("1 s before Crossing").kind == Cue::Kind::before);
  CHECK(cue("1 s into Crossing").kind == Cue::Kind::into);
  CHECK(cue("2 s from top").kind == Cue::Kind::from_top);
  CHECK(cue("at the end").kind == Cue::Kind::at_end);
  CHECK(clause<UntilClause>("until [Turn]").point.name.text == "Turn");
  CHECK(clause<WhileClause>("while Crossing").point.name.text == "Crossing");
}

TEST_CASE("clauses") {
  CHECK_FALSE(clause<LengthClause>("for 2 s").over);
  CHECK(clause<ToClause>("to medium shot on Nell").size == ShotSize::medium_shot);
  CHECK(clause<ToClause>("to medium shot on Nell").on[0].text == "Nell");
  CHECK(clause<ToClause>("to 40%").amount->first.number == 40);
  CHECK(clause<ToClause>("to 1.8 m north of Nell").place->measure->first.number == 1.8);
  CHECK(clause<ShiftClause>("two steps toward lens").place->word == Place::Word::toward);
  CHECK_FALSE(clause<ShiftClause>("two steps toward lens").place->measure);
  CHECK_FALSE(clause<ShiftClause>("20 cm").place);
  CHECK(clause<WhereClause>("by the Hull").place.word == Place::Word::by);
  CHECK(clause<RigClause>("on dolly").rig == "dolly");
  CHECK(clause<RouteClause>("around the Hull").kind == RouteClause::Kind::round);
  CHECK(clause<RouteClause>("past Nell").kind == RouteClause::Kind::past);
  CHECK(clause<RouteClause>("passing beyond Nell").place->word == Place::Word::beyond);
  CHECK(clause<RouteClause>("via (1, 2) m").kind == RouteClause::Kind::via);
  CHECK(clause<RouteClause>("from Nell to Abel").to->things[0].name.text == "Abel");
  CHECK(clause<RouteClause>("by tracking").kind == RouteClause::Kind::by_tracking);
  CHECK(clause<FacingClause>("facing away from Nell").away_from);
  CHECK(clause<FacingClause>("facing 30 deg off lens toward frame left").off_lens->first.number == 30);
  CHECK(clause<FacingClause>("facing 30 deg off lens toward frame left").toward_frame == Side::left);
  CHECK(clause<FacingClause>("facing east").at->compass == Compass::east);
  CHECK(clause<FacingClause>("facing the east wall").at->things[0].kind == Thing::Kind::wall);
  CHECK(clause<BodyClause>("three-quarter  back").view == BodyView::three_quarter_back);
  CHECK(clause<BodyClause>("back to lens").view == BodyView::back);
  CHECK(clause<BodyClause>("profile toward frame left of camera B").camera->text == "B");
  CHECK(clause<BodyClause>("three-quarter to Abel").toward->name.text == "Abel");
  CHECK(clause<LeanClause>("leaning Nell").name.text == "Nell");
  CHECK(clause<PostureClause>("leaning").posture == Posture::leaning);
  CHECK(clause<SizeClause>("extreme wide shot").size == ShotSize::extreme_wide_shot);
  CHECK(clause<SizeClause>("knee shot on Nell and Abel").on.size() == 2);
  CHECK(clause<HandsClause>("with both hands").kind == HandsClause::Kind::both);
  CHECK(clause<HandsClause>("with own left hand").kind == HandsClause::Kind::left);
  CHECK(clause<HandsClause>("with the Deed").with[0].text == "Deed");
  CHECK(clause<MeasureClause>("color 3200 K").word == "colour");
  CHECK(clause<MeasureClause>("seats 3").amount.first.unit.empty());
  CHECK(clause<MeasureClause>("1.4 m along").word == "along");
  CHECK(clause<DimsClause>("measures 2 m by 0.8 m by 0.7 m").figures.size() == 3);
  CHECK(clause<DimsClause>("gate 24.9 mm by 14 mm").gate);
  CHECK(clause<LensClause>("lens 50 mm").focal->number == 50);
  CHECK(clause<LensClause>("lens L50").lens->text == "L50");
  CHECK(clause<StopClause>("stop T2.8").number == 2.8);
  CHECK_FALSE(clause<StopClause>("widest f/4").t_stop);
  CHECK(clause<StopClause>("widest f/4").widest);
  CHECK(clause<FocusClause>("focus 2.4 m").distance->first.number == 2.4);
  CHECK(clause<FocusClause>("focus Nell").on->name.text == "Nell");
  CHECK(clause<AimsClause>("aims at the Hull").place.things[0].name.text == "Hull");
  CHECK(clause<GivesClause>("gives 600 lux at 2 m").range->number == 2);
  CHECK_FALSE(clause<GivesClause>("gives 800 lm").range);
  CHECK(clause<FrontClause>("front south-west").compass == Compass::south_west);
  CHECK(clause<HangsClause>("hangs to 30 cm").to.first.number == 30);
  CHECK(clause<OfClause>("of camera B").camera);
  CHECK(clause<OfClause>("of Nell and Abel").names.size() == 2);
  CHECK(clause<LabelClause>("named Crossing").name.text == "Crossing");
  CHECK(clause<LabelClause>("mark N1").kind == LabelClause::Kind::mark);
  CHECK(clause<LabelClause>("language \"ja\"").kind == LabelClause::Kind::language);
  CHECK(clause<LabelClause>("because «so»").quoted.words == "so");
  CHECK(clause<LabelClause>("extra Jib \"long arm\"").quoted.words == "long arm");
  CHECK(clause<PaceClause>("briskly").pace == Pace::briskly);
  CHECK(clause<VoiceClause>("whispered").loudness == Loudness::whispered);
  CHECK(clause<VoiceClause>("off").kind == VoiceClause::Kind::off);
  CHECK(clause<VoiceClause>("trailing off").kind == VoiceClause::Kind::trailing_off);
  CHECK(clause<VoiceClause>("cutting in").kind == VoiceClause::Kind::cutting_in);
  CHECK(clause<VoiceClause>("cut off on \"so\"").at->words.words == "so");
  CHECK(clause<ScaleClause>("busy").scale == Scale::busy);
  CHECK(clause<StrengthClause>("in plain sight").kind == StrengthClause::Kind::in_plain_sight);
  CHECK(clause<StrengthClause>("outright").kind == StrengthClause::Kind::outright);
  CHECK(clause<StayClause>("runs on").kind == StayClause::Kind::runs_on);
  CHECK(clause<TraitClause>("open underneath").word == "open underneath");
  CHECK(clause<TraitClause>("walls light").value == "light");
  CHECK(clause<TraitClause>("tape red").word == "tape");
  CHECK(clause<TraitClause>("both ways").value.empty());
  CHECK(clause<PieceClause>("armchair").kind == PieceKind::armchair);
}

TEST_CASE("the span of a statement ends before its comment") {
  const Reading reading = in_beat("  Nell walks to the Hull   -- slowly");
  CHECK(reading.sources.text(reading.script.statements.back().span) == "Nell walks to the Hull");
}
