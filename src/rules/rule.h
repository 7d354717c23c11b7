// What every rule is made of: a manual page, a check, and the way to report.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "emphasis/places_tried.h"
#include "emphasis/verdict.h"
#include "emphasis/window.h"
#include "findings/finding.h"
#include "plan/plan.h"

namespace lensward {

// Everything a rule may look at.
struct Checked {
  const Plan& plan;
  const Attention& attention;
  const std::vector<Verdict>& verdicts;
  const PlacesTried& tried;
  std::vector<bool> waiver_used = {};  // by the plan's waivers, once they have been applied; empty before

  Playback playback() const { return {plan, attention}; }
};

// The manual page that stands on top of each rule's file. `why` is one sentence and is printed with every finding.
struct ManualPage {
  const char* sees;     // what it looks at and when it speaks
  const char* why;      // why it matters on set
  const char* example;  // lines that bring it about
  const char* better;   // the same mended
  const char* source;   // of the threshold: a publication, or "common practice, no source"
};

// Who and when a finding is about.
struct About {
  int beat = -1;
  std::optional<Moment> at;
  std::vector<Target> people;
};

class Reporter {
 public:
  Reporter(const Checked& checked, std::string_view rule, Severity severity, const char* why, Findings& findings)
      : checked_(checked), rule_(rule), severity_(severity), why_(why), findings_(findings) {}

  // Adds a finding with the rule's name and usual severity. The reference is good until the next one is added.
  Finding& add(Span where, const About& about, std::string message);

 private:
  const Checked& checked_;
  std::string_view rule_;
  Severity severity_;
  const char* why_;
  Findings& findings_;
};

#define RULE(symbol, id, severity, waivable, line) \
  extern const ManualPage symbol##_page;           \
  void symbol(const Checked& checked, Reporter& report);
#include "rules/rules.def"
#undef RULE

}  // namespace lensward
