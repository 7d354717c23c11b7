#include "base/listing.h"

namespace lensward {

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + ' ' + (count == 1 ? one : many);
}

std::string plain(const std::string& message) {
  std::string text = message;
  std::erase(text, '`');
  return text;
}

}  // namespace lensward
