// Phrases that findings of several rules share. Names stand in backticks, moments in seconds of the scene.
#pragma once

#include <string>

#include "rules/rule.h"

namespace lensward {

std::string quoted(const Checked& checked, const Target& target);
// "beat `Stranger`".
std::string beat_words(const Checked& checked, int beat);
// "beat `Stranger`", or "beat `Stranger` from 3.4 s to 5 s" when the stretch is only part of it.
std::string stretch_words(const Checked& checked, int beat, Stretch stretch);
// "at 12.4 s".
std::string at_words(Moment moment);
// "41 points to 33 at 12.4 s", the first being the one named first.
std::string points_words(Points first, Points second, Moment moment);
// How the favoured one stands at the deciding moment: "`Maud` leads `Bertil` by 3 points at 8.3 s", "`Maud` trails …",
// "`Maud` is level with …".
std::string lead_words(const Checked& checked, const Verdict& verdict);
// The first measure that is not met; Requires one.
const Measure& first_unmet(const Verdict& verdict);
// The line a verdict speaks of: the intent's, the story's, or the speech's.
Span line_of(const Checked& checked, const Verdict& verdict);
// What was asked, as written: "favour Tobias", "story Sale leads".
std::string asked_words(const Checked& checked, const Verdict& verdict);
std::string first_words(const Speech& speech);
// The line of a beat that stands there, as the pages print it; null when none does.
const BeatLine* line_told_at(const Plan& plan, Span said_at);
// "camera `A`".
std::string camera_words(const Checked& checked, CameraId camera);
// The line that put a camera where it is then, else the one that declares it, else the scene's heading.
Span camera_line(const Checked& checked, CameraId camera, Moment moment);

}  // namespace lensward
