// A film in several files: from one file to all that it uses, each read once.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "findings/finding.h"
#include "source/host.h"
#include "source/source_file.h"
#include "syntax/script.h"
#include "syntax/tree.h"

namespace lensward {

struct GatheredFile {
  std::string canonical;  // what it is known by
  Tree tree;
  Script script;
  FileKind kind = FileKind::scene;
  std::vector<int> uses;    // files of its `use` lines, in order; indices into Gathered::files
  std::vector<int> scenes;  // of a film, in its order
  int film = -1;            // the film it belongs to; its own index for a film
  // Every file it uses could be found and read. Without them a scene would be judged in an empty room.
  bool complete = true;
  bool uses_followed = false;
};

struct Gathered {
  std::vector<GatheredFile> files;
};

// Adds a file with all it uses to `gathered`, and the film above it: the `film.staging` of its folder, or of up to
// eight folders above. Of a film all scenes are read, and of a scene whose opening follows another one those that stand
// before it in the film's order, without their findings. Paths start at the film's folder, of a file without a film at
// its own. A file that was gathered already is not read again. "-" is standard input, which has no film; its paths
// start at the working directory.
//
// Findings: `name.file-missing`, `name.path-refused`, `name.use-circle`, `name.wrong-kind` of the file. Gives the index
// of the file, or why it cannot be read.
std::variant<int, HostError> gather(Host& host, const std::string& path, SourceSet& sources, Gathered& gathered,
                                    Findings& findings);

// The files that count for a scene: its film, what that uses, what the scene uses, the scene itself; what is used
// stands before what uses it.
std::vector<int> files_for(const Gathered& gathered, int scene);

}  // namespace lensward
