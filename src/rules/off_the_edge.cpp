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

}  // namespace

void off_the_edge(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.how_bad = [](const Slice&, const PersonSeen& seen) {
    const bool partly = seen.head_in_frame.value > 0.1;
    return partly && inside_by(seen) < safe_margin ? safe_margin + 0.01 - inside_by(seen) : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const char* side = seen.eyes.u < 0.5 ? "left" : "right";
    const std::string where = inside_by(seen) < 0 ? std::string("beyond the frame's ") + side + " edge"
                                                  : text_of(Share{inside_by(seen)}) + " in from frame " + side;
    return quoted(checked, one.who) + (one.speaks ? " speaks " : " is favoured ") + where + " " +
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
