#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage off_the_edge_page{
    .sees =
        "The favoured one or the speaker whose eyes are within 5 % of the left or right edge of the frame, or "
        "whose head the edge cuts, for half a second.",
    .why = "A face at the edge reads as about to leave, and a cinema's masking may take it.",
    .example =
        "favour Oda\n"
        "Oda is at frame left edge",
    .better =
        "favour Oda\n"
        "Oda is at frame left third",
    .source = "EBU R 95: graphics margin 5 % of each edge; SMPTE ST 2046-1: safe title 90 %.",
};

namespace {

constexpr double safe_margin = 0.05;

// How far the eyes are in from the nearer side, in frame widths; negative beyond the edge.
double inside_by(const PersonSeen& seen) { return std::min(seen.eyes.u, 1 - seen.eyes.u); }

// How much of the head's box lies beyond a side, in frame widths.
double cut_off(const PersonSeen& seen) { return std::max(-seen.head_box.left, seen.head_box.right - 1); }

// A hair's breadth is no cut.
constexpr double cut_at_least = 0.005;

std::string place_words(const PersonSeen& seen) {
  const std::string side = seen.eyes.u < 0.5 ? "left" : "right";
  if (inside_by(seen) < 0) return "beyond the frame's " + side + " edge";
  if (inside_by(seen) < safe_margin) return text_of(Share{inside_by(seen)}) + " in from frame " + side;
  return "with the head cut by the frame's " + side + " edge";
}

}  // namespace

void off_the_edge(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.how_bad = [](const Slice&, const PersonSeen& seen) {
    const bool partly = seen.head_in_frame.value > 0.1;
    if (!partly || (inside_by(seen) >= safe_margin && cut_off(seen) < cut_at_least)) return 0.0;
    return 1 - inside_by(seen) + std::max(cut_off(seen), 0.0);
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    return quoted(checked, one.who) + (one.speaks ? " speaks " : " is favoured ") + place_words(seen) + " " +
           at_words(slice.begin) + " in " + beat_words(checked, one.beat) + ", for " + text_of(together) +
           "; limit 5 %";
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen& seen) {
    return "try `camera frames " + name_of(checked.plan, one.who) + " at frame " +
           (seen.eyes.u < 0.5 ? "left" : "right") + " third`";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
