// Parts of the state that other parts of it are made of.
#pragma once

#include "figure/figure.h"
#include "plan/plan.h"

namespace lensward {

// Height a body rests on; 0 when there is no seat. A piece without seats is sat on at its top.
Metres seat_height(const Stage& stage, PieceId seat);

// Between the eyes. Needs neither turn nor look, so that people may look at one another.
Vec3 eyes_at(const Plan& plan, PersonId person, Moment moment);

// The body as it stands, sits, turns and looks; hands, stride and dress are left as they are by default. Requires a
// person of the plan.
Pose bare_pose(const Plan& plan, PersonId person, const PersonState& state);

// What a lens is focused on for a target: the eyes as the head is turned, which `eyes_at` leaves out; of anything else
// its `point_of`.
std::optional<Vec3> sharp_point_of(const Plan& plan, const Target& target, Moment moment);

// "at", "ahead", "up", "down", "away".
const char* spelling(Gaze::Manner manner);

// Bearing of the chest.
Degrees facing_at(const Plan& plan, PersonId person, Moment moment);

// Where somebody has a prop or lamp: before the body at the height of the elbow, on the side of the hand that holds it;
// on the chest when it is worn. Requires a person of the plan.
Vec3 carried_at(const Plan& plan, PersonId person, const Target& what, Moment moment);

// Where the lamp stands or is carried. Needs no aim, so that lamps may be aimed at one another.
Vec3 lamp_place(const Plan& plan, LampId lamp, Moment moment);

}  // namespace lensward
