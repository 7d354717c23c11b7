// An opening that follows another scene begins as that scene ended.
#pragma once

#include <set>
#include <string>

#include "plan/building.h"
#include "plan/plan.h"
#include "syntax/script.h"

namespace lensward {

// The opening's heading when it follows another scene, else null; the name of the scene, empty without a heading.
const HeadingLine* following_opening(const Script& script);
std::string scene_name(const Script& script);

// `name.unknown`: no earlier scene of the film is called so.
void report_nothing_to_follow(const Name& scene, Findings& findings);

// By name, everybody who is there when the plan ends.
std::set<std::string> people_at_end(const Plan& plan);

// Puts people and props where `before` left them: place, facing, posture, seat and what they hold. What this scene does
// not have is left out; places hold good only in the same room. People placed in this opening are placed by it.
// Requires sized tracks, with everybody's presence set.
void carry_over(const Plan& before, Building& building);

// `does-not-follow` where the scene as it begins differs from how `before` ended: places by more than the tolerance of
// a mark, posture, hands, who is there, and dress. Requires a built opening.
void check_follows(const Plan& before, const HeadingLine& opening, Building& building);

}  // namespace lensward
