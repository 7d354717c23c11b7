// What holds of any text whatever, for the fuzzers and for the mangled scenes.
#pragma once

#include <map>
#include <string>

namespace lensward::test {

// Each gives what does not hold, or nothing.

// Reading ends, loses no byte, tiles the text with lines and leaves, and points into it.
std::string fault_of_reading(const std::string& text);

// Tidying ends, is proved, is the same a second time, and changes no spoken word and no unread line.
std::string fault_of_tidying(const std::string& text);

// A plan is made of the scene with the files around it; its numbers are finite and its times run forward. `files` are
// paths and bytes; `scene` is one of the paths.
std::string fault_of_planning(const std::map<std::string, std::string>& files, const std::string& scene);

}  // namespace lensward::test
