// The plan: who is where, doing what, from when to when, and how we know. One finished value, made from the script and
// never edited by a later stage. Every time is in whole milliseconds from the start of the scene.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "base/words.h"
#include "figure/proportions.h"
#include "optics/pinhole.h"
#include "plan/stage.h"
#include "source/span.h"

namespace lensward {

// A stretch of one lane: its value goes from `from` to `to` between begin and end and stays at `to` afterwards, until
// the next segment of the lane begins. Segments of a lane are in order of begin; an instant has begin == end.
template <class Value>
struct Segment {
  Moment begin, end;
  Value from, to;
  Origin origin = Origin::said;
  Span said_at;  // the line that says it; empty for what is assumed from the start

  bool operator==(const Segment&) const = default;
};
template <class Value>
using Lane = std::vector<Segment<Value>>;

// Something eyes, bodies, lamps and focus can be directed at. Followed as it moves.
struct Target {
  enum class Kind { nothing, person, piece, prop, opening, lens, point, lamp };
  Kind kind = Kind::nothing;
  int index = -1;  // into the stage's vector of that kind
  Vec3 point;      // of a point

  bool operator==(const Target&) const = default;
};

// Feet. Standing is a path of one point.
struct Walk {
  std::vector<Vec2> path;
  Metres length() const;
  Vec2 at(double share) const;  // share of the length walked, 0..1; Requires a non-empty path

  bool operator==(const Walk&) const = default;
};

// Where the chest points: a bearing, or a target that is followed.
struct Facing {
  Degrees bearing;
  Target follows;  // Kind::nothing: the bearing stands

  bool operator==(const Facing&) const = default;
};

struct Gaze {
  enum class Manner { at_target, ahead, up, down, away };
  Manner manner = Manner::ahead;
  Target target;

  bool operator==(const Gaze&) const = default;
};

struct Stance {
  Posture posture = Posture::standing;
  PieceId seat;  // what is sat, leaned, lain on; may be unknown

  bool operator==(const Stance&) const = default;
};

// Something done with the hands, for the movement cue and the pages.
struct Business {
  Moment begin, end;
  std::string what;       // "puts Letter", "shakes the pan"
  double strength = 0.7;  // how much it moves: small .3, busy .6, large 1, a hand deed .7
  Target object;
  Span said_at;

  bool operator==(const Business&) const = default;
};

struct Mark {        // a place where somebody comes to rest
  std::string name;  // "O1"; given when the writer named none
  PersonId person;
  Vec2 at;
  Moment reached;
  Origin origin = Origin::said;
  Span said_at;
  std::vector<Vec2> area;  // outline of the vague place it was settled in; empty when exact

  bool operator==(const Mark&) const = default;
};

struct PersonTrack {
  Lane<bool> present;
  Lane<Walk> feet;  // from is unused: the path holds both ends
  Lane<Facing> body;
  Lane<Stance> stance;
  Lane<Gaze> eyes;  // in effect from end; the head is on its way between begin and end
  std::vector<Business> hands;
  Lane<Target> left_hand, right_hand;  // a prop in that hand; nothing: free. Both hands on one prop: in both lanes

  bool operator==(const PersonTrack&) const = default;
};

struct CameraTrack {
  Lane<Vec3> place;    // the entrance pupil, metres
  Lane<Vec2> aim;      // x: pan bearing in degrees (unwrapped), y: tilt in degrees, up positive
  Lane<Target> keeps;  // pan follows this so as to hold it at keeps_at of the picture's width
  Lane<Share> keeps_at;
  Lane<Target> rides;            // the camera keeps its distance from this, `by tracking`
  Lane<Vec3> ride_off;           // from the middle of what it rides with to the lens
  Lane<Target> keeps_size;       // the lens keeps the size of this, `by zooming`
  Lane<Millimetres> size_focal;  // focal length for each metre of depth
  Lane<Millimetres> focal;
  Lane<FNumber> stop;
  Lane<Metres> focus;     // used while focus_on is nothing
  Lane<Target> focus_on;  // focus stays with this

  bool operator==(const CameraTrack&) const = default;
};

struct LampTrack {
  Lane<Vec3> place;
  Lane<Vec3> aim;        // the point aimed at
  Lane<Target> aim_at;   // aim stays with this; nothing: aim counts
  Lane<Share> level;     // 0 out, 1 full
  Lane<Target> carried;  // by a person; nothing: place counts

  bool operator==(const LampTrack&) const = default;
};

// What can be opened, lifted or thrown over: doors and windows, and furniture.
struct OpeningTrack {
  Lane<Share> open;  // 0 shut, 1 open; empty: opened by whoever goes through

  bool operator==(const OpeningTrack&) const = default;
};
struct PieceTrack {
  Lane<Share> open;   // doors and lids; of cloths and curtains: lifted, drawn
  Lane<bool> fallen;  // lies on its side

  bool operator==(const PieceTrack&) const = default;
};

// Where a prop rests: with a person (in their hands, else worn), on a piece, at a point; nothing while it is not there.
// On a piece `point` is where on its top; (0, 0, 0): in the middle.
struct PropTrack {
  Lane<Target> rests;

  bool operator==(const PropTrack&) const = default;
};

// One word as spoken.
struct Word {
  std::string text;
  Moment begin, end;
  Span span;

  bool operator==(const Word&) const = default;
};
struct SpeechMarkTime {
  std::string name;
  Moment at;
  Span span;

  bool operator==(const SpeechMarkTime&) const = default;
};

struct Speech {
  PersonId speaker;
  std::vector<PersonId> to;  // empty: to nobody in particular
  bool to_everyone = false;
  Moment begin, end;
  Loudness loudness = Loudness::plain;
  bool off = false;
  std::string words;  // as spoken, marks and rests taken out
  std::vector<Word> timed;
  std::vector<SpeechMarkTime> marks;
  std::string label;
  bool overlap_told = false;  // a cue, `cutting in` or `cut off` says how it meets the speech before
  bool length_told = false;   // `for 4 s`
  bool trailing_off = false;
  Span said_at;

  bool operator==(const Speech&) const = default;
};

// Something heard that nobody says.
struct Sound {
  std::string name;
  Moment begin, end;
  Span said_at;
};

// A `draw frame` or `draw plan` line: a picture the pages are to show.
struct PictureWanted {
  bool plan = false;
  Moment at;
  Span said_at;
};

// A walk that has to be done by a cue: `until`, `while`. `needs` is what it takes at its own speed.
struct MoveByCue {
  PersonId person;
  Moment begin, by;
  Milliseconds needs;
  Span said_at;
};

// `camera A keeps south of Oda and Tobias`: the side of the line between two that it stays on.
struct KeptSide {
  CameraId camera;
  std::vector<Target> between;
  Compass side = Compass::south;
  Moment begin, end;
  Span said_at;
};

// `camera A splits focus between Oda and Pell`: as sharp on one as on the other, from the end of that on.
struct FocusSplit {
  CameraId camera;
  Target one, other;
  Moment end;
  Span said_at;
};

struct Intent {
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
  enum class Strength { usual, just, outright, in_plain_sight };
  Kind kind = Kind::favour;
  std::vector<Target> targets;   // people, pieces or props; for pass: from, to
  std::vector<Target> ahead_of;  // share: whom it leans to; draw the eye: whoever does the covered deed
  Strength strength = Strength::usual;
  std::optional<Points> margin;
  Milliseconds rests;  // settle: how long the eye must have; 0: not told
  Moment begin, end;   // the stretch it is judged over
  bool cued = false;
  std::string words;  // as written, for reports: "favour Oda"
  Span said_at;

  bool operator==(const Intent&) const = default;
};

struct StoryState {
  enum class State { leads, runs_under, comes_up, breaks_in, drops_out, closes };
  StoryId story;
  State state = State::leads;
  Moment begin, end;
  Span said_at;

  bool operator==(const StoryState&) const = default;
};

struct Waiver {
  std::string rule;
  std::vector<std::string> people;  // empty: everyone
  Moment begin, end;
  std::string because;
  Span said_at;
};

struct CrewNote {
  std::string department;
  std::string text;
  Moment at;
  Span said_at;
};

// A line of the beat as the pages print it, in the order written.
struct BeatLine {
  enum class Kind { speech, move, look, hands, camera, light, sound, pause, intent, story, other };
  Kind kind = Kind::other;
  std::string text;  // as written, without comment
  Moment begin, end;
  int speech = -1;           // index into Plan::speeches
  std::string verb;          // of a deed, as the tables have it
  bool length_told = false;  // `for`, `over`
  std::vector<PersonId> people;
  Span said_at;
};

struct Beat {
  std::string name;
  std::string title;
  Moment begin, end;
  bool judged = true;   // false when a line of it could not be read
  bool silent = false;  // nobody speaks
  std::vector<BeatLine> lines = {};
  std::optional<Milliseconds> about = std::nullopt;  // `about 25 s`: the length that is hoped for
  Span about_at = {};
  Span heading = {};
};

struct CutTo {
  Moment at;
  CameraId camera;
  Span said_at;

  bool operator==(const CutTo&) const = default;
};

// What the film is told to weigh and allow; the innermost of film, scene and beat wins.
struct Settings {
  Points favour_margin{8};
  Seconds settle{0.4};
  Seconds handover{0.8};
  double sensitivity = 800;  // ISO
  Degrees shutter{180};
  double frame_rate = 24;
  Millimetres sharp_circle{0.025};
  std::map<std::string, double> weights;     // by cue name, points; only those a `weigh` line sets
  std::map<std::string, std::string> treat;  // by rule name: error, warning, remark, off
  // Every other `default` line by its key, in m, s, deg, m/s, shares, stops, points: "walking-pace" 1.1.
  std::map<std::string, double> figures;
  std::map<ShotSize, Sizing> sizings;  // only those a `sizing` line sets

  bool operator==(const Settings&) const = default;
};
// The sizing that a `sizing` line sets, else the usual one.
Sizing sizing_of(const Settings& settings, ShotSize size);

// Filing facts and the scene as a whole.
struct SceneFacts {
  std::string name, title;
  std::string number, pages, hour;
  bool interior = false, exterior = false;
  Span heading;
  std::optional<Milliseconds> asked_length;
};

// A default the program took, told once.
struct Assumption {
  std::string what;  // "no camera told, so A: 35 mm at T2.8, 1.5 m up, 1 m outside the middle of the south wall"
  std::string pin;   // the line or clause that would settle it
  Span at;
};

struct Plan {
  SceneFacts facts;
  Settings settings;
  Stage stage;
  std::vector<PersonTrack> people;     // by PersonId
  std::vector<CameraTrack> cameras;    // by CameraId
  std::vector<LampTrack> lamps;        // by LampId
  std::vector<PropTrack> props;        // by PropId
  std::vector<OpeningTrack> openings;  // by OpeningId
  std::vector<PieceTrack> pieces;      // by PieceId
  std::vector<CutTo> cuts;             // in order; the first is at 0
  std::vector<Beat> beats;
  std::vector<Speech> speeches;
  std::vector<Sound> sounds;
  std::vector<PictureWanted> pictures;
  std::vector<MoveByCue> moves_by_cue;
  std::vector<KeptSide> kept_sides;
  std::vector<FocusSplit> focus_splits;
  std::vector<Intent> intents;
  std::vector<StoryState> stories;
  std::vector<Waiver> waivers;
  std::vector<CrewNote> notes;
  std::vector<Mark> marks;
  std::vector<Assumption> assumptions;

  Moment duration() const { return beats.empty() ? Moment{} : beats.back().end; }
};

// ---- The plan at one moment --------------------------------------------------------------------------------------

struct PersonState {
  bool present = false;
  Vec2 at;
  Vec2 velocity;    // m/s on the floor
  Degrees facing;   // bearing of the chest
  Degrees turning;  // degrees a second
  Posture posture = Posture::standing;
  PieceId seat;
  Vec3 looks_at;  // the point the eyes rest on, ten metres ahead when nothing is looked at
  Target gaze;
  bool gaze_told = false;   // false when nobody told them where to look
  double hands_moving = 0;  // strength of what the hands do, 0..1
  Moment hands_since;
  Target left_hand, right_hand;  // what each holds
  Target holding;                // of the two the one taken last
  Origin place_origin = Origin::said;
};

struct CameraState {
  Vec3 at;
  Degrees pan, tilt, roll;  // pan is a bearing; tilt up positive; roll clockwise positive
  Millimetres focal{35};
  FNumber stop{2.8};
  Metres focus{3};
  Millimetres gate_width{24.89}, gate_height{13.454};

  bool operator==(const CameraState&) const = default;
};

struct LampState {
  Vec3 at, aim;
  Share level{1};
};

// Requires ids of this plan. Any moment is accepted; before the start counts as the start, after the end as the end.
PersonState person_at(const Plan& plan, PersonId person, Moment moment);
// In either hand.
bool holds(const PersonState& state, const Target& what);
CameraState camera_at(const Plan& plan, CameraId camera, Moment moment);
Pinhole pinhole_of(const CameraState& camera);
LampState lamp_at(const Plan& plan, LampId lamp, Moment moment);
// The camera on air.
CameraId on_air(const Plan& plan, Moment moment);
// The beat that holds the moment; -1 when there are none.
int beat_at(const Plan& plan, Moment moment);
// Middle of a target in the world; people: the eyes. Nothing: nullopt.
std::optional<Vec3> point_of(const Plan& plan, const Target& target, Moment moment);
std::string name_of(const Plan& plan, const Target& target);
// Every moment at which some lane, speech or intent of the plan begins or ends, in order, without repeats.
std::vector<Moment> turning_points(const Plan& plan);

}  // namespace lensward
