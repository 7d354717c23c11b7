// What the fuzzers share.
#pragma once

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace lensward::test {

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

// Ends the program with what does not hold, so that libFuzzer keeps the input.
inline int must_hold(const std::string& fault) {
  if (fault.empty()) return 0;
  std::fprintf(stderr, "%s\n", fault.c_str());
  std::abort();
}

}  // namespace lensward::test
