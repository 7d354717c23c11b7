// Near lens: the larger in the picture draws more.
//
// Kind: evidence.
// Formula: height of the head (of a thing: of its visible part) against the largest head of which a tenth can be seen;
//   never more than 1.
// Source: Jansen et al. 2009 and a 2012 study of depth bias (nearer over farther, also in flat pictures, O-42);
//   Crouzet et al. 2010 (a larger face is found more surely, though hardly sooner, O-06).
// Weakness: size on the screen, not distance felt: a long lens that fills the frame with someone far off counts full.
#include <algorithm>

#include "emphasis/cues.h"

namespace lensward {

double near_lens(const CueInput& in) {
  const double height = height_in_picture(in).value;
  if (!(height > 0)) return 0;
  return std::min(1.0, height / std::max(height, in.now.largest_head.value));
}

}  // namespace lensward
