// The light of one moment: the lamps that are lit, and what of them reaches a surface.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "lens/seen_groups.h"
#include "plan/plan.h"

namespace lensward {

struct LitLamp {
  LampId lamp;
  Vec3 at;
  Vec3 axis;          // unit; zero: it shines all round
  Candela intensity;  // along the axis, at its present level
  Degrees half_beam;  // where the intensity has fallen to half; used when `beamed`
  bool beamed = false;
  bool soft = false;  // gives less to the side by the cosine, and comes from a surface `across` wide
  Metres across;

  bool operator==(const LitLamp&) const = default;
};

struct SceneLight {
  std::vector<LitLamp> lamps;
  // The same everywhere: Φ·ρ / (A·(1 − ρ)) of an enclosure; in the open what sky and ground give by day, 0 by night.
  Lux indirect;

  bool operator==(const SceneLight&) const = default;
};

// Lamps at level 0 are left out. No lamp lit is darkness, not an error.
SceneLight light_of(const Plan& plan, Moment moment);

// Light on a matte surface at `point` that faces `normal` (unit). Solids of `own` cast no shadow on it.
Lux light_on(const SceneLight& light, const std::vector<SeenGroup>& groups, Vec3 point, Vec3 normal, const Target& own);

// The light on somebody's face, lamp by lamp; what the stop asks for is no part of it.
struct FaceLight {
  std::vector<std::pair<LampId, Lux>> from;  // of the lamps that are lit, in their order; 0 of those that miss the face
  Lux indirect;

  Lux sum() const;
};
// Requires a person who is present.
FaceLight face_light(const Plan& plan, PersonId person, Moment moment);

// Whose body keeps most light off somebody's face.
struct ShadowThrown {
  Target by;
  Stops stops;  // by which the face would be brighter without them; 10 at most
};
// Nothing when nobody else keeps any off. Requires a person who is present.
std::optional<ShadowThrown> shadow_on(const Plan& plan, PersonId person, Moment moment);

// The stops that the camera on air and whoever works it, standing half a metre behind the lens unless it is on a jib or
// crane, keep off somebody's face; 10 at most. Nothing when none. Requires a person who is present.
std::optional<Stops> camera_shadow_on(const Plan& plan, PersonId person, Moment moment);

// How much light walls give back.
Share wall_reflectance(Tone tone);

// Total light a lamp gives, in lumens.
double flux_of(const LitLamp& lamp);

}  // namespace lensward
