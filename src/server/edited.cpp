#include "server/edited.h"

#include <algorithm>

namespace lensward {

int edited_beat(std::string_view old_text, std::string_view new_text, const std::vector<std::uint32_t>& beat_begins) {
  if (old_text == new_text) return -1;
  const auto differ = std::mismatch(new_text.begin(), new_text.end(), old_text.begin(), old_text.end()).first;
  std::size_t at = static_cast<std::size_t>(differ - new_text.begin());
  while (at > 0 && new_text[at - 1] != '\n') --at;
  // What was cut off at the end belonged to the last line there is.
  if (at == new_text.size() && at > 0) --at;
  const auto after = std::upper_bound(beat_begins.begin(), beat_begins.end(), at);
  return static_cast<int>(after - beat_begins.begin()) - 1;
}

}  // namespace lensward
