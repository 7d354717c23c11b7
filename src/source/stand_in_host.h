// Texts that stand in for files: what an editor has open, what a draft would be.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "source/host.h"

namespace lensward {

using StandIn = std::shared_ptr<const std::string>;
// By where they are, as `whole_path` gives it.
using StandIns = std::map<std::string, StandIn>;

// The path of a file that need not be there: that of the nearest folder above it which is, with every link followed,
// and the rest as it is written.
std::string whole_path(Host& host, const std::string& path);

// Another host, but that some files hold other texts, by whatever name they are read, and whether they are there or
// not. Writes nothing.
class StandInHost : public Host {
 public:
  // The host must outlive it. A text without a file, under the name "-", is standard input.
  StandInHost(Host& host, StandIns texts) : host_(host), texts_(std::move(texts)) {}
  // One file.
  StandInHost(Host& host, const std::string& path, std::string bytes)
      : StandInHost(host, {{whole_path(host, path), std::make_shared<const std::string>(std::move(bytes))}}) {}
  std::variant<std::string, HostError> read(const std::string& path) override;
  std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) override;
  std::optional<std::string> canonical(const std::string& path) override;
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override;

 private:
  Host& host_;
  StandIns texts_;
};

}  // namespace lensward
