// Ways out of findings: the smallest changes of the text that work, each proved by playing the changed scene.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "findings/finding.h"
#include "mend/offers.h"
#include "mend/rehearsal.h"

namespace lensward {

// A line to type, by the line of the old text below which it stands, or whose place it takes.
struct LineTyped {
  int line = 0;
  bool instead = false;
  std::string words;
};

// One way out of one finding. The changed text, checked anew, no longer has the finding, has no error or warning that
// it had not before (but that a wish which failed comes late), and no intent or story of it comes out worse.
struct WayOut {
  std::vector<TextEdit> edits;           // of the scene's own file
  std::vector<LineTyped> lines;          // the same as a person would type it; empty: words are taken out
  std::optional<Department> department;  // none: it only spells the same otherwise
  // The favoured's lead at its least, before and after, where a lead is what the finding is about.
  std::optional<Points> lead_before, lead_after;
  std::vector<int> mends;  // indices of the findings that go with it, its own among them
};

struct Trouble {
  int finding = -1;  // index into the findings of the rehearsal
  std::vector<WayOut> ways;
  int tried = 0;  // how many single changes and pairs were played
  // Nothing of its own, but a way out of another finding mends it too: which trouble, and which of its ways.
  std::optional<std::pair<std::size_t, std::size_t>> goes_with;
};

struct MendingLimits {
  std::size_t ways_at_most = 3;
  std::size_t proofs_at_most = 10;  // whole playings for one finding
  // Called before each finding, and with done == of at the end.
  std::function<void(std::size_t done, std::size_t of)> begins;
};

// Ways out of every finding that `wanted` picks, in the order of the findings. What no single line mends is tried with
// pairs. Requires a rehearsal to the depth of
// places. The same on any number of threads.
std::vector<Trouble> mend(const Rehearsal& scene, const Rehearse& rehearse,
                          const std::function<bool(const Finding&)>& wanted, const MendingLimits& limits = {});

}  // namespace lensward
