// What was made from certain groups, kept for when the same are asked for again.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <utility>
#include <vector>

namespace lensward {

using Numbers = std::vector<std::int64_t>;  // of groups

template <class Value>
class Remembered {
 public:
  // Of more than so many the oldest is forgotten. Requires at_most > 0.
  explicit Remembered(std::size_t at_most) : at_most_(at_most) {}

  // What `make` gave when the same numbers were last asked for; made now when nobody asked or it has been forgotten.
  template <class Make>
  Value of(Numbers numbers, const Make& make) {
    const auto known =
        std::find_if(kept_.rbegin(), kept_.rend(), [&](const auto& one) { return one.first == numbers; });
    if (known != kept_.rend()) return known->second;
    if (kept_.size() == at_most_) kept_.pop_front();
    return kept_.emplace_back(std::move(numbers), make()).second;
  }

 private:
  std::size_t at_most_;
  std::deque<std::pair<Numbers, Value>> kept_;
};

}  // namespace lensward
