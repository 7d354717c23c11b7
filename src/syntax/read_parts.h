// Inside of syntax: one function for each part of a line, from its node to its value. Every function requires a node of
// the rule it is named for.
#pragma once

#include "syntax/node_view.h"
#include "syntax/script.h"

namespace lensward {

// The enumerator whose spelling the words are. Requires one, since the grammar has read them.
template <class Word>
Word word_of(std::string_view words) {
  int word = 0;
  while (words != spelling(static_cast<Word>(word))) ++word;
  return static_cast<Word>(word);
}

// path, bare_name, anchor, owner and the like: names without `the`, brackets or 's.
Name read_name(const NodeView& node);
// All paths and names directly below the node, those of a `names` node below it included.
std::vector<Name> read_names(const NodeView& node);
Quoted read_quoted(const NodeView& text);
// Digits, perhaps with a point. Anything else gives 0.
double read_digits(std::string_view digits);
// A bare number: the unit is left empty.
Figure read_figure(const NodeView& number);
Figure read_quantity(const NodeView& quantity);
Amount read_amount(const NodeView& amount);
ShotSize read_shot_size(const NodeView& shot_size);
Compass read_compass(const NodeView& compass);
Side read_side(const NodeView& side);

Thing read_thing(const NodeView& thing);
// thing or whom: a whom that lists names is one thing for each.
std::vector<Thing> read_things(const NodeView& node);
// spot, measured, relation, coordinates, whom, thing or compass.
Place read_place(const NodeView& node);

// moment, deed, and points made of either.
CuePoint read_point(const NodeView& node);
Clause read_clause(const NodeView& clause);
// The clauses directly below the node, in order.
Clauses read_clauses(const NodeView& node);

// What a whole line says, from its one top node. Statements behind `instead of` are not included.
LineBody read_body(const NodeView& line);
// The parts of one piece of spoken text; text without its quotation marks.
std::vector<SpeechPart> read_speech_parts(const NodeView& text);

}  // namespace lensward
