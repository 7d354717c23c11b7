#include "base/quantity_text.h"
#include "lens/seen_motion.h"
#include "optics/pinhole.h"
#include "plan/state.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lead_room_page{
    .sees =
        "The favoured or speaking one stands by the edge of the frame and looks out over it, well to the side, with "
        "less "
        "than half the width of their head in between, for a second. People who walk are let be.",
    .why = "A face against the edge it looks over seems shut in, and pulls the eye out of the picture.",
    .example =
        "Oda is at frame left, facing frame left\n"
        "Oda looks frame left\n"
        "Oda: \"They are late.\"",
    .better =
        "Oda is at frame right, facing frame left\n"
        "Oda looks frame left\n"
        "Oda: \"They are late.\"",
    .source =
        "Brown, Cinematography, from memory (nose room: more space before the face than behind it); half a head: "
        "common "
        "practice, no source.",
};

namespace {

constexpr double half_a_head = 0.5;
// Of a way of looking, on the floor, that counts as sideways: the sine of 30 degrees.
constexpr double sideways = 0.5;
// Frame widths a second; faster than this somebody is on their way.
constexpr double walks = 0.05;

// Of the width of the head, between it and the edge that they look over; nothing when they do not look to the side.
std::optional<Share> room_ahead(const Plan& plan, const View& view, const PersonSeen& seen) {
  const auto eyes = point_of(plan, {Target::Kind::person, seen.person.index, {}}, view.moment);
  if (!eyes || !view.camera.known()) return std::nullopt;
  const Vec2 look = floor_of(person_at(plan, seen.person, view.moment).looks_at - *eyes);
  const Vec2 right = floor_of(axes_of(usable_lens(view.state)).right);
  const double across = dot(look, right) / std::max(length(look), 1e-6);
  if (std::abs(across) < sideways) return std::nullopt;
  const double ahead = across > 0 ? 1 - seen.head_box.right : seen.head_box.left;
  return Share{ahead / std::max(seen.head_box.right - seen.head_box.left, 1e-6)};
}

}  // namespace

void lead_room(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.for_at_least = Milliseconds{1000};
  rule.how_bad = [&](const Slice& slice, const PersonSeen& seen) {
    const bool whole = seen.head_in_frame.value > 0.95 && seen.head_visible.value > 0.25;
    if (!whole || seen.screen_speed > walks) return 0.0;
    const auto room = room_ahead(checked.plan, *slice.view, seen);
    return room && room->value < half_a_head ? half_a_head - room->value : 0.0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const Share room = room_ahead(checked.plan, *slice.view, seen).value_or(Share{});
    return quoted(checked, one.who) + " looks out over the edge of the frame with " + text_of(room) +
           " of a head's width before it " + at_words(slice.begin) + " in " + beat_words(checked, one.beat) + ", for " +
           text_of(together) + "; limit 50 %";
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen&) {
    return "try `camera frames " + name_of(checked.plan, one.who) + " at frame centre`";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
