#include <catch2/catch.hpp>

#include "source/host.h"

using namespace lensward;

TEST_CASE("files in memory") {
  MemoryHost host;
  CHECK(std::get<HostError>(host.read("a")).reason == "no such file");
  host.write("a", "one");
  host.write("a", "two");
  CHECK(std::get<std::string>(host.read("a")) == "two");
  host.files["big"] = std::string(largest_file + 1, ' ');
  CHECK(std::get<HostError>(host.read("big")).reason == "larger than 16 MiB");
  host.files["big"].pop_back();
  CHECK(std::get<std::string>(host.read("big")).size() == largest_file);
}
