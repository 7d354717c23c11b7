// The files as the editor has them: what is open stands in for what is on the disk, saved or not, there or not.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "source/host.h"

namespace lensward {

using OpenText = std::shared_ptr<const std::string>;
// By where they are, as `canonical` gives it.
using OpenTexts = std::map<std::string, OpenText>;

// The path of a file that need not be there: of its folder with every link followed, if that is there.
std::string whole_path(Host& host, const std::string& path);

// Another host, but that open files hold what the editor has of them. Writes nothing.
class OpenFilesHost : public Host {
 public:
  // The host must outlive it. A text without a file, under the name "-", is standard input.
  OpenFilesHost(Host& host, OpenTexts texts) : host_(host), texts_(std::move(texts)) {}
  std::variant<std::string, HostError> read(const std::string& path) override;
  std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) override;
  std::optional<std::string> canonical(const std::string& path) override;
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override;

 private:
  Host& host_;
  OpenTexts texts_;
};

}  // namespace lensward
