// What plays: the scene as a page plays it. People, camera and things in hand over time, words as they are spoken, who
// has the eye, moves with their cues, findings. One finished value; nothing is reckoned here that another stage has not
// reckoned. Moments are from the start of the scene.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pages/lay_out.h"
#include "plan/plan.h"

namespace lensward {

// Somebody at a moment. Between two of a track, numbers go evenly from one to the other, within 5 mm, half a degree and
// a two-hundredth of the picture of the plan; everything else stays as it is until the second.
struct ShownPlace {
  Moment at;
  bool present = false;  // nothing below means anything otherwise
  Vec2 floor;
  Degrees facing, head;  // bearings, unwrapped: they never jump by a turn
  Posture posture = Posture::standing;
  bool looks = false;   // at something
  Vec2 look;            // the point on the floor below it
  bool framed = false;  // some of them shows in the picture
  double across = 0;    // of the eyes, 0 left edge of the picture .. 1 right edge
};

// One line of what somebody has to do.
struct ShownMove {
  Moment at;
  std::string cue, what, takes, mark;
};

struct ShownPerson {
  std::string name, number;
  std::vector<ShownPlace> track;
  std::vector<ShownMove> moves;
};

struct ShownCamera {
  Moment at;
  CameraId camera;
  Vec2 floor;
  Degrees pan;         // bearing, unwrapped
  Degrees half_angle;  // of view, across
  Metres focus;
};

struct ShownProp {
  std::string name;
  struct Place {
    Moment at;
    bool there = false;
    Vec2 floor;
  };
  std::vector<Place> track;
};

struct ShownSpeech {
  PersonId speaker;
  std::string to;   // "Maud and Bertil", "everyone"; empty: to nobody in particular
  std::string how;  // "softly, off"; empty: plainly
  Moment begin, end;
  std::vector<Word> words;  // with the signs round them and the blank after
  std::string line;         // whole, though it be cut off
};

// Of the points of all, in percent, in the order of Show::seen; who has the eye and whom the text asks for, as indices
// into it. Holds until the next.
struct ShownEye {
  Moment at;
  int holder = -1;
  std::vector<int> asked;
  std::vector<int> shares;
};

// Whoever or whatever the reckoning of the eye knows.
struct ShownTarget {
  std::string name;
  PersonId person;  // unknown: a thing
};

struct ShownFinding {
  int number = 0;  // as in the book; 0: a remark
  Severity severity = Severity::remark;
  std::optional<Moment> at;
  int beat = -1;
  std::string message, on_set, next_step, line;  // "line 12"
  std::string waived_because;
  Span where;
};

struct ShownVerdict {
  Verdict::Result result = Verdict::Result::not_judged;
  bool waived = false;
  std::string asked, outcome;
};

struct ShownLine {
  Moment at;
  std::string what;
  int speech = -1;                // index into Show::speeches
  std::vector<PersonId> concern;  // whose line it is; empty: nobody's of the cast
};

struct ShownBeat {
  std::string name, title;
  Moment begin, end, decided;
  std::vector<ShownVerdict> verdicts;
  std::vector<ShownLine> lines;  // said and done, in time
  bool judged = true;
};

struct Show {
  std::string name, title, facts;  // "Scene 12 · interior · night"
  Moment end;
  std::vector<std::string> cameras;
  std::vector<ShownPerson> people;  // by PersonId
  std::vector<ShownCamera> camera;  // on air
  std::vector<ShownProp> props;     // by PropId
  std::vector<ShownSpeech> speeches;
  std::vector<ShownTarget> seen;  // people, then things
  std::vector<ShownEye> eye;
  std::vector<ShownBeat> beats;
  std::vector<ShownFinding> findings;  // numbered ones first, then remarks, then waived
  std::vector<std::string> cautions;   // what can hurt somebody, as the crew's sheets say it
};

Show show_of(const Results& results);

// ---- Its parts -----------------------------------------------------------------------------------------------------

std::vector<ShownPerson> shown_people(const Results& results);
std::vector<ShownCamera> shown_camera(const Plan& plan);
std::vector<ShownProp> shown_props(const Plan& plan);

}  // namespace lensward
