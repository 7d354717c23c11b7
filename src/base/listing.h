// Words for several things at once.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace lensward {

// "Oda, Tobias and Wren"; empty for none.
std::string listed(const std::vector<std::string>& names);

// "1 beat", "3 beats".
std::string counted(std::int64_t count, const std::string& one, const std::string& many);

// Without the backticks that mark the writer's names.
std::string plain(const std::string& message);

}  // namespace lensward
