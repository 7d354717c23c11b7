// The one type for everything the program has to say: unreadable lines, impossible plans, emphasis and cautions alike.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "source/span.h"

namespace lensward {

enum class Severity { remark, warning, error };

// A second place that belongs to the finding, with the words that explain it.
struct Label {
  Span where;
  std::string words;
};

// One step of the reckoning behind a finding: "nearness of Oda", "12.4 points", from docs/model.md's formula named.
struct Because {
  std::string quantity;
  std::string value;
  std::string formula;
};

// Replace the bytes of `where` by `text`. An empty span inserts.
struct TextEdit {
  Span where;
  std::string text;
};

struct Repair {
  // safe: the same staging, spelt otherwise. choice: changes the staging. fill_in: has a blank to fill.
  enum class Kind { safe, choice, fill_in };
  Kind kind = Kind::choice;
  std::string offer;
  std::vector<TextEdit> edits;
};

// What a finding is about, so that it stays the same finding across edits elsewhere: never a line number.
struct Subject {
  std::string scene;
  std::string beat;
  std::vector<std::string> people;
};

struct Finding {
  std::string rule;  // a name of rules.def: "wandering-eye"
  Severity severity = Severity::error;
  Span where;
  // The first sentence stands alone: what, who, when, measured value and limit. Lower-case start, no full stop, the
  // writer's own names in backticks.
  std::string message;
  std::string on_set;     // why it matters on set; may be empty
  std::string next_step;  // one thing to do; may be empty
  std::optional<Moment> at;
  Subject subject;
  std::vector<Label> labels;
  std::vector<Because> because;
  std::vector<Repair> repairs;
  std::optional<std::string> waived_because;  // set when a `waive` line excuses it
};

// Findings in the order they were made. Stages append and return; nothing here prints.
class Findings {
 public:
  // Returns the stored finding so that the caller can add labels and reasons.
  Finding& add(Finding finding);
  const std::vector<Finding>& all() const { return all_; }
  std::vector<Finding>& all() { return all_; }
  // Of those not waived.
  int count(Severity severity) const;
  bool any_at_or_above(Severity bar) const;

 private:
  std::vector<Finding> all_;
};

// By file, then position, then time, then rule name; equal ones keep the order they were made in. Exact repeats
// (same rule, place and message) are dropped.
void sort_findings(Findings& findings);

const char* name_of(Severity severity);

}  // namespace lensward
