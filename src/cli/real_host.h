// The real door to the outside: POSIX files, standard input and output.
#pragma once

#include "source/host.h"

namespace lensward {

class RealHost : public Host {
 public:
  std::variant<std::string, HostError> read(const std::string& path) override;
  // Keeps the permissions of the file it replaces; a symbolic link is followed. What is no regular file (a pipe, a
  // device) is written straight.
  std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) override;
  std::variant<std::monostate, HostError> write_together(
      const std::vector<std::pair<std::string, std::string>>& files) override;
  std::optional<std::string> canonical(const std::string& path) override;
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override;
};

}  // namespace lensward
