// What one camera sees at one moment.
#pragma once

#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "optics/pinhole.h"
#include "plan/plan.h"

namespace lensward {

// A rectangle of the picture; 0..1 from the left and the top edge, beyond that outside the frame.
struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;

  bool operator==(const Box&) const = default;
};

// How a named thing other than a person is seen.
struct ThingSeen {
  Target target;
  Share visible{0};  // of its own outline, in frame and unmasked
  Box box;           // of its visible part; all zero when none is visible
  PicturePoint middle;
  Metres distance;  // along the lens axis
  Millimetres blur;

  bool operator==(const ThingSeen&) const = default;
};

struct PersonSeen {
  PersonId person;
  bool in_front = false;  // of the lens plane; nothing below means anything otherwise
  Metres distance;        // of the eyes along the lens axis
  PicturePoint eyes;
  Box body_box, head_box;  // of the whole outline, masked or not, in frame or not; zero from 8 frames away on
  Share head_height{0};    // chin to crown as a share of the frame's height
  // Shares of their own outline (as if alone before the lens) that are in frame and unmasked.
  Share head_in_frame{0};  // in frame, masked or not
  Share head_visible{0};   // in frame and unmasked
  Share face_visible{0};   // the same of the face without hair; 0 when none of it is turned to the lens
  Share body_visible{0};
  Share head_and_chest_visible{0};
  std::vector<Target> masked_by;  // the most masking first; people and pieces
  Degrees face_angle;             // between the way the face points and the lens, 0..180, in three dimensions
  Degrees body_angle;  // of the chest to the lens, seen on the floor, -180..180; positive: turned to frame right
  BodyView view = BodyView::frontal;  // of the chest
  Millimetres blur;                   // disc on the gate, of the face
  Share blur_of_frame{0};             // against the gate's height
  Share blur_of_head{0};
  Lux incident;             // at the face
  Nits luminance;           // of the face as the eye gets it
  Stops exposure;           // of the incident light against what the stop asks for; negative is under
  Stops against_behind;     // face less what stands behind it
  double screen_speed = 0;  // body, frame widths a second
  double gap = 1;           // clear space to the nearest other outline, in frame widths

  bool operator==(const PersonSeen&) const = default;
};

struct View {
  Moment moment;
  CameraId camera;
  CameraState state;
  std::vector<PersonSeen> people;  // everyone present, in the stage's order
  std::vector<ThingSeen> things;   // props and pieces somebody's intent or eyes name

  bool operator==(const View&) const = default;
};

}  // namespace lensward
