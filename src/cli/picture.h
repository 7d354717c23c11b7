// One sheet to a file, by the format its name or --format tells.
#pragma once

#include "cli/commands.h"
#include "pages/sheet.h"

namespace lensward {

// "svg", "png" or "pdf"; throws CannotRun when neither the format nor the output's ending says which.
std::string format_of(const PictureOptions& options);
// Tells of letters that it could not draw.
void put_picture(const Run& run, const Sheet& sheet, const PictureOptions& options, Surroundings& around);

}  // namespace lensward
