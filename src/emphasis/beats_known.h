// What was made of beats before, for the next draft of a scene, in which most of them are as they were.
#pragma once

#include <algorithm>
#include <cstddef>
#include <deque>
#include <iterator>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "emphasis/reckon.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Values by what they were made from. Beyond `at_most` that which was last asked for longest ago is forgotten. May be
// asked from several threads at once.
template <class Key, class Value>
class Known {
 public:
  explicit Known(std::size_t at_most) : at_most_(at_most) {}

  // Null: not known.
  std::shared_ptr<const Value> find(const Key& key) {
    const std::lock_guard lock(mutex_);
    const auto found =
        std::find_if(kept_.rbegin(), kept_.rend(), [&](const auto& one) { return same(one.first, key); });
    if (found == kept_.rend()) return nullptr;
    std::rotate(std::prev(found.base()), found.base(), kept_.end());
    return kept_.back().second;
  }

  void keep(Key key, Value value) {
    const std::lock_guard lock(mutex_);
    if (kept_.size() == at_most_) kept_.pop_front();
    kept_.emplace_back(std::move(key), std::make_shared<const Value>(std::move(value)));
  }

 private:
  std::size_t at_most_;
  std::mutex mutex_;
  std::deque<std::pair<Key, std::shared_ptr<const Value>>> kept_;  // that which was last asked for last
};

// All that views are made from, and when.
struct SeenFrom {
  Plan plan;  // of one beat
  std::vector<Target> things;
  std::vector<Moment> moments;
};
bool same(const SeenFrom& one, const SeenFrom& other);

// All that trials of a beat are made from.
struct TriedFrom {
  SeenFrom seen;               // in the beat, and at its end
  Attention lead_in;           // a little before it
  std::vector<Verdict> asked;  // which wish or story of its plan, and how that came out; no more of a verdict
  EyeMemory start;             // as it begins
};
bool same(const TriedFrom& one, const TriedFrom& other);

struct PlacesTried;

// One for all drafts of a scene or film. What is made with it is what would be made without.
struct BeatsKnown {
  // Of a dozen people a beat's views take about half a megabyte.
  static constexpr std::size_t seen_at_most = 150, tried_at_most = 400;
  Known<SeenFrom, std::vector<View>> seen{seen_at_most};
  Known<TriedFrom, PlacesTried> tried{tried_at_most};
};

}  // namespace lensward
