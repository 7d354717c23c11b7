// Centre: the middle of the frame, most of all just after the picture appears.
//
// Kind: evidence.
// Formula: exp(-x²/2σx² - y²/2σy²) of the eyes' place in the picture, x and y from the middle in half widths of the
//   frame, σx² = .22, σy² = .45 σx². Full at the start and at a cut, falling to a half over 1 s.
// Source: Clarke & Tatler 2014 (form seen, numbers from memory); Tatler 2007 (O-01); Rothkegel et al. 2017 (the
//   advantage decays with time, O-02). That a half of it stays is a choice, no source.
// Weakness: measured on still pictures; a film that composes off centre teaches its viewers otherwise.
#include "base/angle.h"
#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr double variance_x = 0.22;
constexpr double variance_y = 0.45 * variance_x;
constexpr Milliseconds settles_over{1000};

}  // namespace

double centre(const CueInput& in) {
  const PicturePoint at = in.person != nullptr ? in.person->eyes : in.thing->middle;
  const CameraState& camera = in.now.view.state;
  const double x = 2 * at.u - 1;
  const double y = (2 * at.v - 1) * camera.gate_height.value / camera.gate_width.value;
  const double prior = exponential(-x * x / (2 * variance_x) - y * y / (2 * variance_y));
  const double fresh = falling(in.now.view.moment - in.now.picture_since, settles_over);
  return prior * (0.5 + 0.5 * fresh);
}

}  // namespace lensward
