// Inside of syntax: paths of `use`, `order` and `font` lines.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "source/host.h"

namespace lensward {

// Why a path is not a plain one, in words for the writer; nothing when it is: at most eight names of letters, digits,
// `_` and `-`, joined by `/`, 200 bytes in all, none of them a device of any system. `ending`: what the last name may
// end with, such as ".otf".
std::optional<std::string> refusal_of(std::string_view path, std::string_view ending = {});

// The file as it stands on the disk, from the host's root or the working directory, whichever `folder` starts from.
struct FoundFile {
  std::string path;
  std::string canonical;
};
// What was found instead: a name that differs only by case, from the folder, without the ending; empty: nothing like
// it.
struct NotFound {
  std::string alike;
};
struct LeadsOut {};
// Names compare in composed form, capitals counting, whatever the disk does. Requires a path that is not refused.
std::variant<FoundFile, NotFound, LeadsOut> find_in_film(Host& host, const std::string& folder, const std::string& path,
                                                         std::string_view ending);

std::string joined_path(const std::string& folder, const std::string& name);

}  // namespace lensward
