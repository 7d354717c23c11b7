// Inside of tidy: one line taken apart into what the style arranges, and put together again.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "syntax/node_view.h"
#include "syntax/script.h"

namespace lensward {

// A line longer than this is broken, in terminal cells.
inline constexpr int widest_line = 100;

// A token as the style spells it. Blanks and line ends are none.
struct TidyToken {
  Leaf::Kind kind;
  std::uint32_t begin = 0, end = 0;  // in the file
  std::string spelled;
};

// Who is known to be one, and who several: people; groups and crowds. A name of anything else may be either.
using OneOrSeveral = std::map<std::string, bool, std::less<>>;
OneOrSeveral one_or_several(const Script& script);

// The tokens of one line. Requires a line that was read, and its leaves.
std::vector<TidyToken> tidy_tokens(const Tree& tree, const TreeLine& line, std::span<const Leaf> leaves,
                                   std::string_view bytes, const OneOrSeveral& names);

// Tokens with the blanks of the style between them.
std::string joined(std::span<const TidyToken> tokens);

// Where in the style's order a clause stands: place, size, posture, body, hands, measures, manner, length, cue, and so
// on.
int rank_of(const NodeView& clause);

struct TidyClause {
  int rank = 0;
  bool off = false;  // the voice `off`, which would read as part of a verb just before it
  std::string text;
};

// A line in its parts: `HEAD clause, clause: "text" "text"  -- comment`.
struct TidyLine {
  std::string head;
  bool verb_last = false;    // the head ends with a deed: its first clause may follow without a comma
  bool comma_first = false;  // a comma stands between the head and the first clause
  bool in_time = false;      // its clauses have an order; a declaration keeps its writer's
  bool speech = false;
  std::vector<TidyClause> clauses;
  std::vector<std::string> texts;  // of a speech, or the whole line when it is spoken
  std::string comment;
};

// `in_time` of a `+` line is that of the line it continues.
TidyLine take_apart(const NodeView& statement, std::span<const TidyToken> tokens);

// Puts the clauses into the style's order; those of equal rank keep theirs.
void order_clauses(TidyLine& line);

// The lines it becomes, without line ends. Without `may_break` there is one.
std::vector<std::string> put_together(const TidyLine& line, std::string_view indent, bool may_break);

}  // namespace lensward
