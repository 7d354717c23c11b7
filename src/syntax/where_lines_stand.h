// Inside of syntax: which line may stand in which part of a file.
#pragma once

#include "syntax/script.h"

namespace lensward {

// A part of a file: what stands below a heading of that kind. The lines above the first heading belong to the part the
// file is named for.
using Part = HeadingLine::Kind;

const char* spelling(Part part);
Part part_of(FileKind kind);

bool may_stand(const Statement& statement, Part part, FileKind file);

}  // namespace lensward
