// The page of the book: what fits both A4 and Letter at full size, and the sizes of its type.
#pragma once

#include <string>

#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "pages/labels.h"
#include "pages/sheet.h"

namespace lensward {

inline constexpr double paper_width = 210, paper_height = 297;
// 182 by 254 mm, so that neither an A4 nor a Letter sheet loses anything when printed at 100 %.
inline constexpr Vec2 page_low{14, 21.5}, page_high{196, 275.5};
inline constexpr double page_width = page_high.x - page_low.x;
// The last line of a page is its foot.
inline constexpr double foot_height = 9;
inline constexpr Vec2 body_high{page_high.x, page_high.y - foot_height};

namespace type_size {
inline constexpr double scene_title = 12, beat_title = 8.4, heading = 4.9, speech = 4.1, body = 3.5, small = 2.9;
}

// Baseline to baseline.
constexpr double leading(double size) { return size * 1.28; }

// An empty page of the book with its label-to-be, its title for the outline and its destination.
Sheet blank_page(std::string title, std::string anchor);

// Signs that say a verdict or a severity without colour, about 2.4 mm high, round their middle.
enum class Sign { holds, close, fails, open, error, warning, remark };
Group sign_at(Sign sign, Vec2 middle);
Sign sign_of(Verdict::Result result);
Sign sign_of(Severity severity);

}  // namespace lensward
