#include <algorithm>
#include <filesystem>

#include "source/host.h"

namespace lensward {
namespace {

// Paths start at the top; `.` and `..` are taken out.
std::string plain(const std::string& path) {
  std::string text = (std::filesystem::path("/") / path).lexically_normal().string();
  if (text.size() > 1 && text.ends_with('/')) text.pop_back();
  return text;
}

}  // namespace

std::variant<std::string, HostError> MemoryHost::read(const std::string& path) {
  const auto found = std::find_if(files.begin(), files.end(),
                                  [wanted = plain(path)](const auto& file) { return plain(file.first) == wanted; });
  if (found == files.end()) return HostError{"no such file"};
  if (found->second.size() > largest_file) return HostError{"larger than 16 MiB"};
  return found->second;
}

std::variant<std::monostate, HostError> MemoryHost::write(const std::string& path, std::string_view bytes) {
  files[path] = std::string(bytes);
  return std::monostate{};
}

std::optional<std::string> MemoryHost::canonical(const std::string& path) {
  if (std::holds_alternative<HostError>(read(path)) && !names_in(path)) return std::nullopt;
  return plain(path);
}

std::optional<std::vector<std::string>> MemoryHost::names_in(const std::string& folder) {
  const std::string before = plain(folder) == "/" ? "/" : plain(folder) + "/";
  std::vector<std::string> names;
  for (const auto& [path, bytes] : files) {
    const std::string whole = plain(path);
    if (!whole.starts_with(before)) continue;
    names.push_back(whole.substr(before.size(), whole.find('/', before.size()) - before.size()));
  }
  if (names.empty()) return std::nullopt;
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

}  // namespace lensward
