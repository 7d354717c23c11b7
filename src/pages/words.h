// The words of the pages: verdicts and reasons as people read them.
#pragma once

#include <string>
#include <vector>

#include "base/listing.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "pages/lay_out.h"
#include "plan/called.h"

namespace lensward {

// Who is asked to have the eye at a moment of a beat; empty when nothing is asked then. Falls back to the verdict's
// own favoured, so that a beat checked against its speakers shows them.
std::vector<Target> asked_for(const Plan& plan, int beat, Moment moment);

// Whether points against a rival tell how the verdict came out; not so of hiding, settling and stories.
bool about_who_leads(const Plan& plan, const Verdict& verdict);
// How it came out: "by 12 points over Oda", "short of Pell by 3 points"; of an intent that is not about who leads, its
// first measure missed: "seen 35 %, limit 10 %". So too of one that fails though ahead at its deciding moment; one that
// holds though behind there says so: "though Oda is ahead by 2 points at 0:03.2", or of a share "Oda the more by 2".
// Empty when nothing was judged.
std::string outcome_words(const Plan& plan, const Verdict& verdict);
// Why a `waive` line excuses the finding this verdict became; null when none does.
const std::string* waived_because(const Results& results, const Verdict& verdict);

// How badly a verdict stands: a failure is what one turns the page for.
int gravity(Verdict::Result result);

// The verdicts of a beat in the order of the plan.
std::vector<const Verdict*> verdicts_of(const Results& results, int beat);
// Findings of a beat, those waived left out: errors first, then by time, then in the order found.
std::vector<const Finding*> findings_of(const Results& results, int beat);
// Errors and warnings that no line waives, the gravest first, else in the order found: the numbers of the book count
// these from 1, on the cover, in the beats and in the chart alike.
std::vector<const Finding*> numbered_findings(const Results& results);
// The number of a finding of these results; 0 when it bears none.
int number_of(const Results& results, const Finding& finding);
// The beat a finding belongs to, by its subject, else by its moment; -1 when it belongs to the scene.
int beat_of(const Results& results, const Finding& finding);
// "line 12", with the file when it is not the scene's own; empty for no place.
std::string line_words(const Results& results, Span where);
// Its number in the book, its severity and the place: "2 · error · 0:03.2 · line 12".
std::string where_words(const Results& results, const Finding& finding);

}  // namespace lensward
