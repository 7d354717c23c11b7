// Inside of syntax: the one spelling of what may be spelt in several ways.
#pragma once

#include <string>
#include <string_view>

namespace lensward {

// Unicode normal form C (UAX #15). Requires UTF-8.
std::string composed(std::string_view utf8);

// A name as it is compared and as tidy writes it: composed, with `'` for the apostrophe.
std::string spelled_name(std::string_view name);

// `favour` for `favor`, and the like; every other word as it is.
std::string_view spelled_word(std::string_view word);

// A number with `-` for the minus sign and without trailing zeros: `2.5` for `2.50`. Digits that are no such number,
// as of a version, are not for this.
std::string spelled_number(std::string_view number);

}  // namespace lensward
