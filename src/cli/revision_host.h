// The door to what is no longer on the disk: a folder as it was.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>

#include "source/host.h"

namespace lensward {

// The library that reads git repositories, and whether it is there.
const char* revision_library();
bool reads_revisions();

// The files of a git repository as a revision has them, by the paths they have on the disk. `near` is a file or folder
// in the repository's working tree; it need not be there now. The host runs no program and writes nothing. The reason
// says what is wrong: no repository, a bare one, a revision that is not there.
std::variant<std::unique_ptr<Host>, HostError> open_revision(const std::string& revision, const std::string& near);

}  // namespace lensward
