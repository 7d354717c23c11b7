// The crew's sheets as pages.
#pragma once

#include <vector>

#include "crew/crew_sheet.h"
#include "pages/lay_out.h"

namespace lensward {

// One document of a department: each sheet begins on a page of its own, with the scene, the department and the
// cautions; actors and marks have the floor of every beat in which somebody comes to a mark of theirs. Requires sheets
// of the plan's own, all for the same department.
Book lay_out_crew(const Results& results, const std::vector<CrewSheet>& sheets, Lengths lengths);

}  // namespace lensward
