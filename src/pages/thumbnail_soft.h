// Somebody out of focus: a blurred layer of pixels over the drawing.
#pragma once

#include <functional>

#include "lens/picture.h"
#include "pages/thumbnail_face.h"

namespace lensward {

// What shows of a person, in the colours of their materials with their own ink, blurred by a disc of `radius` pixels of
// the picture. Requires that at least one pixel of them shows and radius > 0.
Picture soft_layer(const ScenePicture& picture, PersonId person, double radius,
                   const std::function<Ink(Material)>& colour, const FrameOnPage& frame);

}  // namespace lensward
