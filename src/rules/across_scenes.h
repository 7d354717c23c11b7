// What only several scenes together show: things planted in one and paid off in another.
#pragma once

#include <string>
#include <vector>

#include "findings/finding.h"
#include "plan/plan.h"

namespace lensward {

// The plants and pay-offs of a film's scenes, by name, in the order of the scenes.
class Ledger {
 public:
  void enter(const Plan& plan);
  bool planted_before(const std::string& thing, const std::string& scene) const;
  bool paid_off_after(const std::string& thing, const std::string& scene) const;

 private:
  struct Entry {
    std::size_t scene;
    bool plant;
    std::string thing;
  };
  std::size_t number_of(const std::string& scene) const;

  std::vector<std::string> scenes_;
  std::vector<Entry> entries_;
};

// Takes back `unpaid-plant` of what a later scene pays off, and `payoff-from-nowhere` of what an earlier one plants.
void settle_across_scenes(const Ledger& ledger, Findings& findings);

}  // namespace lensward
