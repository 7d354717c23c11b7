// The one line a director could type to move the eye back.
#pragma once

#include <string>

#include "rules/reasons.h"

namespace lensward {

std::string next_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind,
                      const Reason& reason);

// What brings light onto somebody: a line that aims a lamp with a beam, not on them yet; else words, for a lamp that
// shines all round gives no more by being aimed.
std::string light_step(const Checked& checked, Moment moment, const Target& who);

// Tells to give what a line of a beat says at least so much time: the line with its `over` or `for` made longer, or
// with one added. That is a repair of the finding too, where the line is written in one piece and without quotation
// marks.
void give_it_time(const Checked& checked, Span line, Milliseconds enough, Finding& finding);

// How somebody is seen in the last view at or before a moment; null when they are not there, or no view is so early.
const PersonSeen* seen_at(const Checked& checked, Moment moment, const Target& who);

// More than half of the head lies outside the frame or behind the lens: nothing that stands before it is to blame.
bool out_of_picture(const PersonSeen& seen);

}  // namespace lensward
