// The one door to the outside: files in, files out. Only cli/ holds the real one; tests use MemoryHost.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace lensward {

// Why a file could not be read or written, in words for the writer: "no such file", "is a directory".
struct HostError {
  std::string reason;
};

// Files over this are refused; no scene is a thousandth of it.
inline constexpr std::size_t largest_file = std::size_t{16} << 20;

class Host {
 public:
  virtual ~Host() = default;

  // The bytes of a file. "-" is standard input. Files over 16 MiB are refused by reason.
  virtual std::variant<std::string, HostError> read(const std::string& path) = 0;

  // Replaces a file whole or not at all: the bytes go to a temporary file beside it, which is then renamed over it.
  // On failure the old file is untouched and nothing is left behind. "-" is standard output.
  virtual std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) = 0;

  // Replaces or makes several files. The real host does all or none of them: on failure, whose reason begins with the
  // path it is about, every old file is as it was. (On a disk that cannot exchange two files that holds only for what
  // can be found out before the first is replaced.) "-" is not among them.
  virtual std::variant<std::monostate, HostError> write_together(
      const std::vector<std::pair<std::string, std::string>>& files) {
    for (const auto& [path, bytes] : files) {
      const auto written = write(path, bytes);
      if (const auto* error = std::get_if<HostError>(&written)) return HostError{path + ": " + error->reason};
    }
    return std::monostate{};
  }

  // The path from the root down with every link followed; nothing when nothing stands there.
  virtual std::optional<std::string> canonical(const std::string& path) = 0;
  // What stands in a folder, in the order of the bytes of the names; nothing when the path is no folder.
  virtual std::optional<std::vector<std::string>> names_in(const std::string& folder) = 0;
};

// Files in memory, for tests. Folders are what the paths of the files have before their slashes; there are no links.
class MemoryHost : public Host {
 public:
  std::map<std::string, std::string> files;

  std::variant<std::string, HostError> read(const std::string& path) override;
  std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) override;
  std::optional<std::string> canonical(const std::string& path) override;
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override;
};

}  // namespace lensward
