#include <cmath>

#include "base/quantity_text.h"
#include "lens/joints.h"
#include "lens/seen_groups.h"
#include "lens/seen_motion.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage cut_at_the_joint_page{
    .sees =
        "The bottom of the frame within 3 % of its height of the neck, a knee or an ankle of somebody favoured or "
        "speaking, for a second and a third of that stretch, where no furniture hides it. Elbows are let be: a medium "
        "shot goes by them.",
    .why = "A limb that ends at its joint looks cut off; cut above or below, it goes on out of the picture.",
    .example = "camera A frames Oda, medium full shot, headroom 0%",
    .better = "camera A frames Oda, medium full shot",
    .source =
        "Mascelli, The Five C's of Cinematography (never cut at the joints; from memory); 3 % is common "
        "practice, no source.",
};

namespace {

constexpr double near_the_edge = 0.03;

bool is_hidden(GroupMaker& maker, const Plan& plan, const View& view, PersonId person, Vec3 joint) {
  return shaded(maker.groups(plan, view.moment), view.state.at, joint, {Target::Kind::person, person.index, {}});
}

// The joint that the frame's bottom cuts; nothing when it cuts none that is to be seen.
const char* joint_cut(GroupMaker& maker, const Plan& plan, const View& view, const PersonSeen& seen) {
  if (seen.head_visible.value < 0.3) return nullptr;
  const Pinhole lens = usable_lens(view.state);
  for (const Joint& joint : joints_of(plan, seen.person, view.moment)) {
    const auto at = project(lens, joint.at);
    if (!at || at->at.u < 0 || at->at.u > 1 || std::fabs(at->at.v - 1) > near_the_edge) continue;
    if (!is_hidden(maker, plan, view, seen.person, joint.at)) return joint.name;
  }
  return nullptr;
}

}  // namespace

void cut_at_the_joint(const Checked& checked, Reporter& report) {
  GroupMaker maker;
  FrameRule rule;
  rule.for_at_least = Milliseconds{1000};
  rule.of_the_stretch = Share{1.0 / 3};
  rule.how_bad = [&](const Slice& slice, const PersonSeen& seen) {
    return joint_cut(maker, checked.plan, *slice.view, seen) != nullptr ? 1.0 : 0.0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    return "the frame's bottom cuts " + quoted(checked, one.who) + " at the " +
           joint_cut(maker, checked.plan, *slice.view, seen) + " " + at_words(slice.begin) + " in " +
           beat_words(checked, one.beat) + ", for " + text_of(together) +
           "; limit 3 % of the frame's height either way";
  };
  rule.next_step = [](const Featured&, const Slice&, const PersonSeen&) {
    return std::string("tilt the camera a little, or take it nearer or farther");
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
