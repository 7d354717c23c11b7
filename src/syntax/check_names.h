// Names against each other: declared and never used, labels that are taken, names that look alike.
#pragma once

#include "findings/finding.h"
#include "source/source_file.h"
#include "syntax/gather.h"

namespace lensward {

// Of one scene with all it uses: `name.look-alike` over every name written, `name.taken` of labels that are things or
// twice in a beat and of beats called alike, `name.unused` of what the scene's own file declares.
void check_names(const SourceSet& sources, const Gathered& gathered, int scene, Findings& findings);

// `name.unused` of what the film's shared files declare and none of its scenes names.
void check_names_of_film(const SourceSet& sources, const Gathered& gathered, int film, Findings& findings);

}  // namespace lensward
