// What a head is seen against.
#pragma once

#include "lens/seen_person.h"

namespace lensward {

// Mean luminance of what the picture shows round the head, the person's own body left out; the head's own luminance
// when nothing else is there. Lamps count without the shadows they cast.
Nits behind(const Looking& looking, const PersonSeen& seen);

// How much light a surface gives back.
Share reflectance_of(const Plan& plan, const Target& owner, Material material);

}  // namespace lensward
