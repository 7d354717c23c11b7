#include "source/host.h"

namespace lensward {

std::variant<std::string, HostError> MemoryHost::read(const std::string& path) {
  const auto found = files.find(path);
  if (found == files.end()) return HostError{"no such file"};
  if (found->second.size() > largest_file) return HostError{"larger than 16 MiB"};
  return found->second;
}

std::variant<std::monostate, HostError> MemoryHost::write(const std::string& path, std::string_view bytes) {
  files[path] = std::string(bytes);
  return std::monostate{};
}

}  // namespace lensward
