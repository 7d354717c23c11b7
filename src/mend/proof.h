// Whether a change works in the whole scene, and what it brings with it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mend/trial.h"

namespace lensward {

class Proof {
 public:
  Proof(const Rehearsal& scene, const Rehearse& rehearse);

  // The way out that the change is; nothing when it does not work.
  std::optional<WayOut> proved(const Finding& finding, const Case& about, const Trial& change) const;

  // The same of a slip that is spelt right: what it hid may come to light, so only the finding itself has to go.
  std::optional<WayOut> repaired(const Finding& finding, const Repair& repair) const;

 private:
  bool worse(const Rehearsal& again) const;
  bool helps(const Finding& finding, const Findings& before, const Rehearsal& again) const;
  std::vector<Span> risen(const Rehearsal& again) const;
  std::vector<int> gone(const Findings& before, const Findings& again) const;
  std::vector<std::string> who_comes_late(const Findings& again) const;

  const Rehearsal& scene_;
  const Rehearse& rehearse_;
  Findings before_;  // with everybody at their marks
};

}  // namespace lensward
