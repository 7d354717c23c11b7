// Sharp: the eye goes to what is in focus.
//
// Kind: evidence.
// Formula: 1 while the blur disc on the gate is within the sharp circle (0.025 mm), 0 from 6 % of the head's height on,
//   straight between.
// Source: Enns & MacDonald 2013 (sharp regions sooner and more often than blurred ones, O-35); Peterson et al. 2017
//   (the lone sharp one pulls more than a lone blurred one is shunned, O-36). The 6 % is common practice, no source.
// Weakness: counts alike whether one is sharp or all are; how far away the film is seen from is not asked.
#include "emphasis/cues.h"

namespace lensward {

double sharp(const CueInput& in) {
  const Millimetres blur = in.person != nullptr ? in.person->blur : in.thing->blur;
  return sharpness(in.now, blur, height_in_picture(in));
}

}  // namespace lensward
