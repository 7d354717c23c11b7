// The drawing hand of the pages: shapes, words and tones as items of a sheet. All lengths in millimetres of paper.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/units.h"
#include "pages/sheet.h"

namespace lensward {

// Line weights of the house, thinnest for what is only measured, heaviest for what is cut by the eye.
inline constexpr double hairline = 0.12, thin_line = 0.2, plain_line = 0.3, heavy_line = 0.55;

Stroke pen(Ink ink, double width);
Stroke dashed(Ink ink, double width, std::vector<double> dash);
Stroke no_stroke();
Fill flat(Ink ink);
Fill hatched(Ink ink, double gap, double angle = 45, double width = 0.13);

// Outlines.
std::vector<PathStep> polyline(const std::vector<Vec2>& points);
std::vector<PathStep> polygon(const std::vector<Vec2>& points);
std::vector<PathStep> rectangle(Vec2 corner, Vec2 size);
// An ellipse by its two half axes, which need not be at right angles to each other.
std::vector<PathStep> ellipse(Vec2 middle, Vec2 half_x, Vec2 half_y);
std::vector<PathStep> circle(Vec2 middle, double radius);
// From `from` to `to` round the middle, by the shorter way; both at the distance of `from`. One curve: for a quarter or
// less.
std::vector<PathStep> short_arc(Vec2 middle, Vec2 from, Vec2 to);

Item shape(std::vector<PathStep> steps, Fill fill, Stroke stroke);
Item line(Vec2 from, Vec2 to, Stroke stroke);
Item words(Vec2 at, std::string text, Face face, double size, Ink ink = Ink::black,
           Text::Anchor anchor = Text::Anchor::left);

// Moves an item and all that is in it.
void shift(Item& item, Vec2 by);

// The part of the words that fits into `width`, ending in an ellipsis when something had to go.
std::string shortened(const std::string& text, Face face, double size, double width);

// An id part of letters, digits and hyphens in lower case; other ASCII becomes a hyphen: "Linen-Press" ->
// "linen-press".
std::string id_part(const std::string& name);

}  // namespace lensward
