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

// Words to type: a line below a line of the old text, or, `instead`, within one. `words` then take the place of `old`;
// either may be empty, of what is put in or taken out.
struct LineTyped {
  int line = 0;
  bool instead = false;
  std::string words;
  std::string old = {};
};

// Somebody who is in the picture now and is out of it after a change, and for how long in all.
struct LostFromPicture {
  std::string who;
  Milliseconds time{};
};

// One way out of one finding. The changed text, checked anew, no longer has the finding, has no error or warning that
// it had not before (but that a wish which failed comes late), and no intent or story of it comes out worse.
struct WayOut {
  std::vector<TextEdit> edits;           // of the scene's own file
  std::vector<LineTyped> lines;          // the same as a person would type it
  std::optional<Department> department;  // none: it only spells the same otherwise
  // The favoured's lead at its least, before and after, where a lead is what the finding is about.
  std::optional<Points> lead_before, lead_after;
  std::vector<int> mends;               // indices of the findings that go with it, its own among them
  std::vector<std::string> come_late;   // who is found to come late that was not before
  std::vector<LostFromPicture> leaves;  // those who are lost for `lost_from` or longer
};

inline constexpr Milliseconds lost_from{2000};

struct Trouble {
  int finding = -1;  // index into the findings of the rehearsal
  // From 1: the place of the finding among all errors and warnings of the scene's file, whichever are asked for;
  // remarks count on from there.
  int number = 0;
  std::vector<WayOut> ways;
  int tried = 0;  // how many single changes and pairs were played
  // Nothing of its own, but a way out of another finding mends it too: the number of that trouble, and which of its
  // ways. It need not be among the troubles that were asked for.
  std::optional<std::pair<int, std::size_t>> goes_with;
};

struct MendingLimits {
  std::size_t ways_at_most = 3;
  std::size_t proofs_at_most = 10;  // whole playings for one finding
  // Called before each finding, and with done == of at the end; all over again for others that must be tried for them.
  std::function<void(std::size_t done, std::size_t of)> begins;
};

// Ways out of every finding of the scene's own file that `wanted` picks and no line waives, in the order of their
// numbers. What no single line mends is tried with pairs, and with what mends another finding of its beat. Which others
// are asked for makes no difference. Requires a rehearsal to the depth of places. The same on any number of threads.
std::vector<Trouble> mend(const Rehearsal& scene, const Rehearse& rehearse,
                          const std::function<bool(const Finding&)>& wanted, const MendingLimits& limits = {});

// How many findings with this one's key there are that no line waives.
int times_found(const Findings& findings, const Finding& finding);

}  // namespace lensward
