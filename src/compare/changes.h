// What a new draft of a scene changed: one value, in the words of the floor.
#pragma once

#include <string>
#include <vector>

#include "base/units.h"

namespace lensward {

// What can change, in the order reports list it: what matters most first.
enum class Aspect {
  finding,
  finding_severity,
  intent,
  verdict,
  eye,
  attention,
  person,
  entrance,
  exit,
  mark,
  posture,
  facing,
  gaze,
  hands,
  line,
  line_words,
  prop,
  prop_place,
  piece,
  piece_place,
  piece_open,
  opening_open,
  camera,
  cut,
  camera_place,
  camera_aim,
  camera_move,
  focal,
  stop,
  focus,
  lamp,
  lamp_level,
  lamp_place,
  lamp_aim,
  lamp_intensity,
  line_time,
  beat_length,
  scene_length,
};
// One word or two for other programs: "lamp level".
const char* name_of(Aspect aspect);

enum class ChangeWay { changed, added, dropped };
const char* name_of(ChangeWay way);

// One fact that differs.
struct Change {
  Aspect aspect = Aspect::mark;
  ChangeWay way = ChangeWay::changed;
  std::string who;            // whom or what it is about; the writer's own name
  std::string before, after;  // values as people read them; empty on the side where there is none
  std::string note;           // the direction, the place, the reason
  double amount = 0;          // after less before, or how far, in the unit of the aspect; 0 for what has no size
};

// How a beat of one draft stands to the other.
struct BeatChanges {
  enum class Fate { kept, renamed, added, dropped };
  Fate fate = Fate::kept;
  bool moved = false;  // stands elsewhere among the beats that both have
  std::string before, after;
  std::vector<Change> changes;  // of a kept or renamed beat, what matters first

  bool any() const { return fate != Fate::kept || moved || !changes.empty(); }
};

// Differences smaller than these are counted, not listed.
struct Thresholds {
  Metres place{0.10};
  Degrees turn{5};
  Milliseconds time{200};
  Stops light{1.0 / 3};
  Points eye{3};
  Share open{0.05};
};

struct Changes {
  std::string scene_before, scene_after;
  std::vector<Change> scene;       // of the scene as a whole
  std::vector<BeatChanges> beats;  // those of the new draft in its order, then the dropped; also unchanged ones
  int small = 0;                   // differences under the thresholds
  int remarks_came = 0, remarks_went = 0;

  // Errors and warnings that came, and findings of either kind that went, each as often as it is found.
  struct Counts {
    int new_errors = 0, new_warnings = 0, gone = 0;
  };
  Counts counts() const;

  // Whether anything stands in it that is more than small differences and remarks.
  bool any() const;
};

}  // namespace lensward
