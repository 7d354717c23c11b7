// The files of one scene as one script: whatever is declared for the film, and is meant by the scene, stands above it.
#pragma once

#include <map>
#include <set>
#include <string>

#include "source/source_file.h"
#include "syntax/gather.h"

namespace lensward {

// The statements of files_for(scene), in that order, without what only files need (language lines, `use`, headings
// but the scene's own). Of a company and a kit only what the scene's own file or its sets name, or `also_named` holds,
// is brought in: nobody else is in the scene. When it names no camera, the first of the kit is its camera.
Script merged_script(const SourceSet& sources, const Gathered& gathered, int scene,
                     const std::set<std::string>& also_named = {});

// Every name that a file's lines mention, and how often; of a path the first name.
std::map<std::string, int> names_in(const SourceSet& sources, const Tree& tree);

}  // namespace lensward
