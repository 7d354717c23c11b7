// A quick look at many changes, for leaving out what cannot help; what is left is proved in the whole scene.
#pragma once

#include <vector>

#include "lens/see.h"
#include "mend/tallies.h"
#include "mend/trial.h"

namespace lensward {

class QuickLook {
 public:
  QuickLook(const Rehearsal& scene, const Rehearse& rehearse);

  // Plays each change as far as the beat goes and notes what it shows; the cores share them.
  void look_at_all(const Case& about, std::vector<Trial>& changes) const;

 private:
  bool plan_is_clean(const Rehearsal& again) const;
  std::vector<const Verdict*> verdicts_of(int beat) const;
  void look_quickly(const std::vector<const Verdict*>& verdicts, std::size_t asked, const std::vector<Verdict>& now,
                    Onlooker& onlooker, Trial& change) const;

  const Rehearsal& scene_;
  const Rehearse& rehearse_;
  FindingTally planned_;  // of the text as it is
};

}  // namespace lensward
