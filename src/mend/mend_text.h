// Ways out of findings, as the writer reads them.
#pragma once

#include <string>
#include <vector>

#include "mend/mend.h"

namespace lensward {

// "1a": the first way out of the first trouble.
std::string name_of_way(std::size_t trouble, std::size_t way);

// Every trouble in its finding's words with its ways out under it, each with its name, where its lines go and what they
// bring; what nothing mends, and how much was tried. Then the counts and how to take one.
std::string mending_text(const Rehearsal& scene, const std::vector<Trouble>& troubles);

}  // namespace lensward
