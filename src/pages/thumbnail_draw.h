// The picture inside a frame: the set, then the people from far to near.
#pragma once

#include <string>
#include <vector>

#include "pages/thumbnail_face.h"
#include "plan/plan.h"

namespace lensward {

// Somebody of whom at least a pixel shows.
struct Sitter {
  PersonId person;
  Metres depth;       // along the lens axis
  double blur = 0;    // disc on the page, mm
  double weight = 1;  // of lines, by distance and by the size of the frame
  double across = 0;  // where the head stands in the picture, 0 left edge .. 1 right edge
  int pixels = 0;     // that show, of a picture 960 wide
  bool favoured = false;
  bool soft = false;
};

struct DrawnFrame {
  Group group;
  std::vector<Sitter> sitters;  // from far to near
};

// Requires a plan with a camera. With quick pains it takes a quarter of the time and reads as well at 120 mm, where no
// line is to be looked at for long.
DrawnFrame draw_frame(const Plan& plan, Moment moment, const FrameOnPage& frame, const Target& favoured,
                      const std::string& id, Pains pains = Pains::full);

}  // namespace lensward
