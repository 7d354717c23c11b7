// Inside of syntax: habits of other pages and of plain speech, told in the words of the language.
#pragma once

#include <optional>

#include "syntax/broken.h"

namespace lensward {

// Nothing when the line stopped for another reason.
std::optional<Finding> explain_habit(const LineText& line, const Stop& stop);

// `Close-up on Oda`, `Cut to A`, which the grammar reads, or nearly, as a deed of somebody called so.
std::optional<Finding> read_as_a_deed(const LineText& line);

// `sits on chair`: the kind of furniture that stands at `at`, which the grammar reads as a clause. Nothing for others.
std::optional<Finding> small_piece(const LineText& line, std::uint32_t at);

// A small word where a name must be: the names it may mean, else the word with a capital. Requires a word of a to z.
Finding small_letter(const LineText& line, Span where);

}  // namespace lensward
