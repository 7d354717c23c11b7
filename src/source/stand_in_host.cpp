#include "source/stand_in_host.h"

#include <algorithm>

namespace lensward {

std::string whole_path(Host& host, const std::string& path) {
  if (path == "-") return path;
  if (const auto there = host.canonical(path)) return *there;
  const std::size_t slash = path.rfind('/');
  if (slash == 0) return path;
  if (slash != std::string::npos) return whole_path(host, path.substr(0, slash)) + path.substr(slash);
  const auto here = host.canonical(".");
  return here ? *here + '/' + path : path;
}

std::variant<std::string, HostError> StandInHost::read(const std::string& path) {
  const auto open = texts_.find(whole_path(host_, path));
  if (open == texts_.end()) {
    if (path == "-") return HostError{"it is not open"};
    return host_.read(path);
  }
  if (open->second->size() > largest_file) return HostError{"larger than 16 MiB"};
  return *open->second;
}

std::variant<std::monostate, HostError> StandInHost::write(const std::string&, std::string_view) {
  return HostError{"nothing is written here"};
}

std::optional<std::string> StandInHost::canonical(const std::string& path) {
  const std::string whole = whole_path(host_, path);
  return texts_.contains(whole) ? whole : host_.canonical(path);
}

std::optional<std::vector<std::string>> StandInHost::names_in(const std::string& folder) {
  auto names = host_.names_in(folder);
  if (!names) return names;
  const std::string whole = host_.canonical(folder).value_or(folder) + '/';
  for (const auto& [path, text] : texts_) {
    if (path.starts_with(whole) && path.find('/', whole.size()) == std::string::npos)
      names->push_back(path.substr(whole.size()));
  }
  std::ranges::sort(*names);
  names->erase(std::unique(names->begin(), names->end()), names->end());
  return names;
}

}  // namespace lensward
