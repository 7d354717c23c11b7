// Findings that say how an intent came out.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "rules/rule.h"

namespace lensward {

// Between whom the points are explained: who has more, and who should have.
enum class Explains { rival_over_favoured, favoured_over_rival, nothing };

using VerdictWords = std::function<std::string(const Verdict&)>;

// A finding for every verdict that fails, or is close, as `rule`. Close ones are warnings at most. The message is
// followed by reasons, and by the default to blame if one is; `step` is the next step where no reason gives one.
void report_verdicts(const Checked& checked, std::string_view rule, Explains explains, Reporter& report,
                     const VerdictWords& message, const VerdictWords& step = {});

// The clause of the first measure not met: "has the eye for only 45 % of it, limit 70 %".
std::string shortfall_words(const Verdict& verdict);

}  // namespace lensward
