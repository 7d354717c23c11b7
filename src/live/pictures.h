// What the lens sees while the scene plays, as pictures: one wherever enough has changed, and a larger one for each
// beat.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "pages/lay_out.h"

namespace lensward {

inline constexpr int play_width = 480, still_width = 720;  // dots

struct Pictures {
  double ratio = 0.5625;  // height over width
  struct Showing {
    Moment from;  // and of: it shows this very moment
    std::size_t picture = 0;
  };
  std::vector<Showing> play;       // in time; the first at 0
  std::vector<std::string> pngs;   // no two alike
  std::vector<std::string> beats;  // PNG for each beat, at its deciding moment
};

// When to draw: at most `most` moments, closer together where more changes. The first is 0. Empty without attention.
std::vector<Moment> picture_moments(const Results& results, std::size_t most);

// Called as each picture begins, one call at a time, from whichever thread draws it.
using PictureBegins = std::function<void(std::size_t done, std::size_t of)>;

// Nothing without a camera or without beats.
Pictures pictures_of(const Results& results, const PictureBegins& begins = {});

// ---- One by one ----------------------------------------------------------------------------------------------------

// As many as a page of three megabytes holds, and two cores draw in the time that somebody waits.
inline constexpr std::size_t most_pictures = 104;

// Height over width of all pictures: that of the first; 0.5625 without a camera.
double picture_ratio(const Plan& plan);

// A PNG. What another gate sees is set into the middle. Requires a camera.
std::string picture_at(const Plan& plan, Moment moment, double ratio, int width);

}  // namespace lensward
