// Ways out of findings, as the writer reads them.
#pragma once

#include <string>
#include <vector>

#include "mend/mend.h"

namespace lensward {

// "1a": the first way out of the trouble with that number.
std::string name_of_way(int trouble, std::size_t way);

// What a person types for it: "below line 7: Oda turns frontal", "in line 7: `Tabel` becomes `Table`".
std::string typed_words(const LineTyped& line);

// Whose it is, what it brings and what it costs: "actor: `Oda` leads by 9 points where it trails by 3 points now".
std::string gain_of_way(const Finding& finding, const WayOut& way);

// Every trouble in its finding's words with its ways out under it, each with its name, where its lines go and what they
// bring; what nothing mends, and how much was tried. Then the counts and how to take one.
std::string mending_text(const Rehearsal& scene, const std::vector<Trouble>& troubles);

}  // namespace lensward
