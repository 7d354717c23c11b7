// The words of the pages: names, verdicts and reasons as people read them.
#pragma once

#include <string>
#include <vector>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "pages/lay_out.h"

namespace lensward {

// Requires a person of the plan.
const Person& person_of(const Plan& plan, PersonId person);
// The name the pages use; of other things the name they bear; of nothing "nobody".
std::string called(const Plan& plan, PersonId person);
std::string called(const Plan& plan, const Target& target);
// The cast number when one is filed, else the place in the company counted from 1.
std::string ordinal(const Plan& plan, PersonId person);

// What a camera stands on, "on dolly"; empty when nobody told. Requires a camera of the plan.
std::string support_words(const Plan& plan, CameraId camera);
// "28 mm T2.8, 1.45 m up".
std::string optics_words(const CameraState& camera);

// "north-east", the nearest of eight.
std::string compass_words(Degrees bearing);

// "Oda, Tobias and Wren".
std::string listed(const std::vector<std::string>& names);

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
// A message without the backticks that mark the writer's names.
std::string plain(const std::string& message);

// "1 beat", "3 beats".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

}  // namespace lensward
