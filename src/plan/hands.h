// Which hand holds what, who can reach it, and what is said when it cannot be.
#pragma once

#include <optional>

#include "plan/deeds.h"

namespace lensward {

// Hands of one person that hold one thing, or are wanted for it.
struct Grip {
  bool left = false, right = false;
  bool any() const { return left || right; }
};

// A prop or lamp the line names with its hands; nothing for furniture, doors and people.
struct Held {
  Target what;
  Span named_at;
};
std::vector<Held> held_told(const Performance& performance);

Grip grip_of(const Building& building, PersonId person, const Target& what, Moment moment);
// Whoever has it in a hand or on them.
std::optional<PersonId> holder_of(const Building& building, const Target& what, Moment moment);
bool is_anywhere(const Building& building, const Target& what, Moment moment);

// The hands the line tells, else the free ones: the right before the left. Nothing, and `hands-full`, when they hold
// something else.
std::optional<Grip> hands_for(const Performance& performance, const Held& held, Moment moment);

// Lane writers: from the moment on.
void take_into(const Performance& performance, PersonId person, Grip grip, const Target& what, Moment moment);
void wear(const Performance& performance, const Target& what, Moment moment);
void lay_down(const Performance& performance, const Target& what, const Target& where, Moment moment);

// That it is in these hands; a thing nobody has placed is taken to have been there from the start, and told. Else
// `whose-hands`.
bool has_it(const Performance& performance, const Held& held, Moment moment);

// `out-of-reach` when the thing is farther than an arm and a lean: 45 % of stature and 0.3 m (common practice, no
// source). From one person to another both arms count.
void check_reach(const Performance& performance, const Target& what, Moment moment);
// `time.prop-clash` when another line has the thing at that time.
void claim(const Performance& performance, const Held& held, Moment end);

// Where on the piece somebody puts something down: the nearest point of its top, a hand's breadth in.
Vec3 top_before(const Piece& piece, Vec2 at);

}  // namespace lensward
