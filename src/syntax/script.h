// The abstract syntax: what each line says, folded out of the lossless tree. Names are text and numbers carry the unit
// as written; nothing is resolved here. Every part keeps its span.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/units.h"
#include "base/words.h"
#include "source/span.h"

namespace lensward {

// A name as written, without `the`; a path keeps its dots: "Bench.2".
struct Name {
  std::string text;
  Span span;
};

// Words between quotation marks, without the marks. The span is of the words.
struct Quoted {
  std::string words;
  Span span;
};

// One number with its unit word; unit is empty when none was written. "5 ft 7 in" is held in inches: 67 "in".
struct Figure {
  double number = 0;
  std::string unit;
  Span span;
};

// A figure that may be inexact.
struct Amount {
  enum class Form { exact, about, range, or_more, or_less };
  Form form = Form::exact;
  Figure first;
  std::optional<Figure> second;  // the greater end of a range
  Span span;
};

// ---- Things and places (grammar, part F) -------------------------------------------------------------------------

// Something a place or a look can refer to.
struct Thing {
  enum class Kind { named, lens, camera, portion, middle, wall, corner, own_side, everyone, nobody };
  enum class Part { none, end, side, edge, corner, half };
  enum class PartSide { compass, near_lens, far_from_lens, camera_left, camera_right };

  Kind kind = Kind::named;
  Name name;              // the person, piece, camera or owner; empty for lens, wall, corner, everyone, nobody
  std::vector<Name> but;  // everyone but these
  Part part = Part::none;
  PartSide part_side = PartSide::compass;
  Compass compass = Compass::north;  // of a portion, wall or corner
  OwnSide own_side = OwnSide::front;
  std::optional<Name> camera;  // the camera A left edge of X
  Span span;
};

// The words that name a place or an area, with what they refer to.
struct Place {
  enum class Word {
    coordinates,  // (3, 2) m
    thing,        // `to Oda`, `at the Range`: a thing alone
    behind,
    beside,
    by,
    near,
    against,
    under,
    over,
    on,
    in,
    inside,
    outside,
    in_front_of,
    just_inside,
    compass_of,  // north of X, north of X and Y
    beyond,      // beyond X [of camera A]
    camera_left_of,
    camera_right_of,
    camera_side_of,
    stage_left_of,
    stage_right_of,
    upstage_of,
    downstage_of,
    between,   // between X and Y
    opposite,  // opposite X [across Y]
    toward,    // toward X, toward frame left
    away_from,
    off,
    frame,  // frame left third, frame 40%, frame centre, frame high
    foreground,
    middle_ground,
    deep,
    background,
    centre,
    bearing,  // north, deeper
    deeper,
    from,
    forward,
    back,
    up,
    down,
  };
  enum class FramePart { area, edge, quarter, third, centre, high, low, percent };

  Word word = Word::thing;
  std::vector<Thing> things;
  std::optional<Amount> measure;    // `0.7 m from X`, `two steps toward X`
  std::vector<Figure> coordinates;  // two, each with its unit
  std::optional<Side> side;         // of `frame left …` and `toward frame left`
  FramePart frame_part = FramePart::area;
  std::optional<Figure> percent;  // frame 40%
  std::optional<Compass> compass;
  std::optional<Name> camera;  // `of camera A`, `camera A left of`
  Span span;
};

// ---- Cues ----------------------------------------------------------------------------------------------------------

// What a cue hangs from: words of a speech, a [Mark] in one, or a deed (by its label, or by who does it).
struct CuePoint {
  enum class Kind { words, mark, deed };
  Kind kind = Kind::words;
  std::optional<int> ordinal;  // 1, 2, 3; -1 is the last
  Quoted words;
  std::optional<Name> of;  // "no" of Piet
  Name name;               // the mark, the label, or the doer
  std::string verb;        // `Tove rises`; empty when the name alone is given
  Span span;
};

struct Cue {
  enum class Kind { on, as, midway, after, before, into, from_top, at_end };
  Kind kind = Kind::on;
  std::optional<Amount> offset;
  CuePoint point;  // unused for from_top and at_end
  Span span;
};

// ---- Clauses (grammar, part E) -------------------------------------------------------------------------------------

struct CueClause {
  Cue cue;
};
struct UntilClause {
  CuePoint point;
};
struct WhileClause {
  CuePoint point;
};
struct LengthClause {
  bool over = false;
  Amount amount;
};  // `for` or `over`
struct ToClause {
  std::optional<ShotSize> size;
  std::vector<Name> on;  // medium shot on Oda
  std::optional<Amount> amount;
  std::optional<Place> place;
};
struct AtClause {
  Place place;
};
struct ShiftClause {  // two steps toward lens, 20 cm, 1 stop
  Amount amount;
  std::optional<Place> place;
};
struct WhereClause {
  Place place;
};
struct RigClause {
  std::string rig;
};  // on dolly
struct RouteClause {
  enum class Kind { via, round, past, passing, from, by_panning, by_tilting, by_tracking, by_zooming };
  Kind kind = Kind::via;
  std::optional<Place> place;
  std::optional<Place> to;  // from X to Y
};
struct FacingClause {
  bool away_from = false;
  std::optional<Place> at;         // a thing, coordinates or a compass bearing
  std::optional<Amount> off_lens;  // 30 deg off lens
  std::optional<Side> toward_frame;
};
struct BodyClause {
  BodyView view = BodyView::frontal;
  std::optional<Side> toward_frame;
  std::optional<Thing> toward;
  std::optional<Name> camera;
};
struct LeanClause {
  Name name;
};
struct PostureClause {
  Posture posture = Posture::standing;
};
struct SizeClause {
  ShotSize size = ShotSize::medium_shot;
  std::vector<Name> on;
};
struct HandsClause {
  enum class Kind { both, left, right, with };
  Kind kind = Kind::both;
  std::vector<Name> with;
};
struct MeasureClause {  // height 1.5 m, speaks 140 words/min, 1.4 m along, seats 3
  std::string word;
  Amount amount;
};
struct DimsClause {  // measures 2 m by 0.8 m by 0.7 m; gate 24.9 mm by 14 mm
  bool gate = false;
  std::vector<Figure> figures;
};
struct LensClause {
  std::optional<Figure> focal;
  std::optional<Name> lens;
};
struct StopClause {
  bool widest = false;
  bool t_stop = true;  // T2.8, else f/2.8
  double number = 2.8;
};
struct FocusClause {
  std::optional<Amount> distance;
  std::optional<Thing> on;
};
struct AimsClause {
  Place place;
};
struct GivesClause {  // gives 600 lux at 2 m; gives 800 lm
  Figure figure;
  std::optional<Figure> range;
};
struct FrontClause {
  Compass compass = Compass::south;
};
struct HangsClause {
  Amount to;
};
struct OfClause {  // of Oda and Tobias; of camera C
  bool camera = false;
  std::vector<Name> names;
};
struct LabelClause {
  enum class Kind { called, language, named, mark, because, extra };
  Kind kind = Kind::named;
  Name name;      // named, mark, extra
  Quoted quoted;  // called, language, because, extra
};
struct PaceClause {
  Pace pace = Pace::usual;
};
struct VoiceClause {
  enum class Kind { loudness, off, trailing_off, cutting_in, cut_off };
  Kind kind = Kind::loudness;
  Loudness loudness = Loudness::plain;
  std::optional<CuePoint> at;  // cut off on "once"
};
struct ScaleClause {
  Scale scale = Scale::usual;
};
struct StrengthClause {
  enum class Kind { just, outright, in_plain_sight };
  Kind kind = Kind::just;
};
struct StayClause {
  enum class Kind { runs_on, fixed, touching };
  Kind kind = Kind::runs_on;
};
struct TraitClause {  // practical, wild, inward, both ways, open underneath, walls light, dressed dark, tape red …
  std::string word;   // "both ways", "open underneath", "walls", "dressed", "tape"
  std::string value;  // the tone or tape colour; else empty
};
struct PieceClause {
  PieceKind kind = PieceKind::box;
};
struct FilingClause {  // number 41A, interior, night, 2 4/8 pages
  enum class Kind { number, interior, exterior, hour, pages };
  Kind kind = Kind::number;
  std::string text;  // as written: "41A", "night", "2 4/8"
};

using ClauseBody =
    std::variant<CueClause, UntilClause, WhileClause, LengthClause, ToClause, AtClause, ShiftClause, WhereClause,
                 RigClause, RouteClause, FacingClause, BodyClause, LeanClause, PostureClause, SizeClause, HandsClause,
                 MeasureClause, DimsClause, LensClause, StopClause, FocusClause, AimsClause, GivesClause, FrontClause,
                 HangsClause, OfClause, LabelClause, PaceClause, VoiceClause, ScaleClause, StrengthClause, StayClause,
                 TraitClause, PieceClause, FilingClause>;

struct Clause {
  ClauseBody body;
  Span span;
};
using Clauses = std::vector<Clause>;

// The first clause of a kind, or null.
template <class Body>
const Body* find(const Clauses& clauses) {
  for (const Clause& clause : clauses) {
    if (const Body* body = std::get_if<Body>(&clause.body)) return body;
  }
  return nullptr;
}

// ---- Lines ---------------------------------------------------------------------------------------------------------

// Who a line is about.
struct Who {
  bool everyone = false;
  std::vector<Name> but;  // everyone but these
  std::vector<Name> names;
  Span span;
};

struct HeaderLine {  // staging 1.0 scene
  int major = 1;
  int minor = 0;
  FileKind kind = FileKind::scene;
};
struct HeadingLine {
  enum class Kind { film, company, kit, set, scene, opening, beat, way };
  Kind kind = Kind::beat;
  Name name;               // empty for opening
  std::optional<Name> of;  // way B of Rebuke; opening follows Sunday
  std::optional<Quoted> title;
  Clauses clauses;
};
struct UseLine {  // use "sets/mess-room", fixed; order "…"; font "…"
  enum class Kind { use, order, font };
  Kind kind = Kind::use;
  Quoted path;
  Clauses clauses;
};
struct ChooseLine {
  Name way;
  Name of;
};
struct PeopleLine {  // people Oda, Tobias; also `person X, …`, which has one name
  std::vector<Name> names;
  bool listed = true;
  Clauses clauses;
};
struct RoomLine {
  std::vector<Figure> figures;  // two or three
  Clauses clauses;
};
struct DeclarationLine {
  enum class Kind { group, crowd, story, camera, lens, light, prop, furniture, wall, door, window, area };
  Kind kind = Kind::furniture;
  Name name;
  Clauses clauses;
};
struct SettingLine {
  enum class Kind { default_value, weigh, treat, sizing };
  Kind kind = Kind::default_value;
  Name key;  // also the shot size of `sizing`, as written
  std::optional<Amount> amount;
  std::optional<Quoted> quoted;
  std::optional<Name> ref;
  std::string words;  // `default house south`, `treat masked as error`
  Clauses clauses;
};
struct ChangeLine {  // instead of OPENING WORDS: line; without OPENING WORDS
  bool without = false;
  Quoted opening_words;
  // The replacing line stands as the next statement of the script, with in_place_of_line set.
};
struct IntentLine {
  enum class Kind {
    favour,
    favour_nobody,
    share,
    pass,
    play,
    throw_away,
    plant,
    pay_off,
    hide,
    hint,
    reveal,
    draw_the_eye,
    settle,
    button,
  };
  Kind kind = Kind::favour;
  std::vector<Name> names;       // favoured, shared, hidden …; for pass: from, to
  std::vector<Name> ahead_of;    // favour P ahead of Q
  std::optional<Quoted> words;   // play "…" on X; throw away "…"
  std::optional<Name> whose;     // "…" of Piet
  std::optional<Amount> amount;  // settle 1 s
  Clauses clauses;
};
struct StoryLine {
  enum class State { leads, runs_under, comes_up, breaks_in, drops_out, closes };
  Name story;
  State state = State::leads;
  Clauses clauses;
};
struct LastsLine {
  bool about = false;
  Amount amount;
};
struct LaterLine {
  std::optional<Amount> amount;
};
struct DrawLine {
  bool plan = false;
  Clauses clauses;
};
struct WaiveLine {
  Name rule;
  std::vector<Name> people;
  Clauses clauses;
};
struct NoteLine {
  std::string department;  // empty: for everyone
  Quoted text;
  Clauses clauses;
};
struct ExtraLine {
  Name heading;
  std::optional<Quoted> text;
  Clauses clauses;
};
struct MarkLine {
  Name name;
  std::optional<Place> at;
  Clauses clauses;
};

enum class When { unsaid, then, meanwhile };

// A part of what is spoken: words, a [Mark] to cue on, or a [pause …].
struct SpeechPart {
  enum class Kind { words, mark, rest };
  Kind kind = Kind::words;
  std::string words;  // as written, for words
  Name mark;
  Figure rest;
  Span span;
};
struct SpeechLine {
  Who speaker;
  enum class Addressee { unsaid, named, everyone, nobody };
  Addressee addressee = Addressee::unsaid;
  std::vector<Name> to;
  Clauses clauses;
  std::vector<SpeechPart> parts;
};
struct DeedLine {
  enum class Subject { people, camera, light };
  Subject subject = Subject::people;
  Who who;  // for a camera or light: its names; empty names = the camera on air
  bool also = false;
  std::string verb;  // as written with its particle: "walks", "turns away", "pushes in", "racks focus"
  Span verb_span;
  std::optional<Quoted> quoted;  // does "…"
  std::vector<Thing> objects;
  Clauses clauses;
};
struct PauseLine {
  Amount amount;
  Clauses clauses;
};
struct CutLine {
  Name camera;
  Clauses clauses;
};
struct SoundLine {
  Name name;
  Clauses clauses;
};

// A line that cannot be read. Its first word still says what it would have been, so that parts keep their bounds.
struct BrokenLine {
  std::string first_word;
};

using LineBody =
    std::variant<HeaderLine, HeadingLine, UseLine, ChooseLine, PeopleLine, RoomLine, DeclarationLine, SettingLine,
                 ChangeLine, IntentLine, StoryLine, LastsLine, LaterLine, DrawLine, WaiveLine, NoteLine, ExtraLine,
                 MarkLine, SpeechLine, DeedLine, PauseLine, CutLine, SoundLine, BrokenLine>;

// One statement: its line, with the `+` lines and further lines of speech folded in.
struct Statement {
  LineBody body;
  When when = When::unsaid;
  bool in_place_of_line = false;  // the line behind an `instead of …:` just above
  Span span;                      // from the first word to the last byte before a comment or line end
};

struct Script {
  std::int32_t file = 0;
  std::vector<Statement> statements;
};

}  // namespace lensward
