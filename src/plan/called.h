// What pages and sheets call people, things, directions and lenses.
#pragma once

#include <string>

#include "plan/plan.h"

namespace lensward {

// Requires a person of the plan.
const Person& person_of(const Plan& plan, PersonId person);
// The name the pages use; of other things the name they bear; of nothing "nobody".
std::string called(const Plan& plan, PersonId person);
std::string called(const Plan& plan, const Target& target);
// The cast number when one is filed, else the place in the company counted from 1.
std::string ordinal(const Plan& plan, PersonId person);

// What a camera stands on, "on dolly"; empty when nobody told. Requires a camera of the plan.
std::string support_words(const Plan& plan, CameraId camera);
// "28 mm T2.8, 1.45 m up".
std::string optics_words(const CameraState& camera);

// "north-east", the nearest of eight.
std::string compass_words(Degrees bearing);

// The scene's name and title as one.
std::string title_of(const SceneFacts& facts);

}  // namespace lensward
