// What is drawn on a body's surface: brows, eyes, nose and mouth, seams of the clothes, where the turn of head and body
// puts it and only where it can be seen.
#pragma once

#include <vector>

#include "lens/picture.h"
#include "pages/sheet.h"

namespace lensward {

// From the picture's own shares, 0..1 from its left top corner, to the page.
struct FrameOnPage {
  Vec2 at, size;  // mm
  Vec2 place(PicturePoint point) const { return at + Vec2{point.u * size.x, point.v * size.y}; }
};

struct FacePen {
  Ink lines = Ink::black, fine = Ink::dark;
  double wider = 0;  // mm added to every line
};

// Nothing for a head smaller than 1.2 mm on the page, or than five times what the pen is wider. `speaks` opens the
// mouth.
std::vector<Item> face_marks(const ScenePicture& picture, const Plan& plan, PersonId person, bool speaks,
                             const FacePen& pen, const FrameOnPage& frame);

// Collars, lapels and plackets, where they can be seen.
std::vector<Item> seam_marks(const ScenePicture& picture, PersonId person, double width, const FrameOnPage& frame);

}  // namespace lensward
