#include <algorithm>

#include "crew/trades.h"

namespace lensward {

std::vector<CrewSheet> crew_sheets(const Plan& plan) {
  std::vector<CrewSheet> sheets;
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i)
    sheets.push_back(actor_sheet(plan, PersonId{static_cast<int>(i)}));
  for (const auto made : {marks_sheet, camera_sheet, grip_sheet, light_sheet, sound_sheet, props_sheet, wardrobe_sheet,
                          script_sheet, assistant_sheet})
    sheets.push_back(made(plan));
  std::erase_if(sheets, [](const CrewSheet& sheet) { return sheet.tables.empty(); });
  for (CrewSheet& sheet : sheets) sheet.cautions = cautions_for(plan, sheet.whom);
  return sheets;
}

}  // namespace lensward
