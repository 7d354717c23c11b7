// The few matchers that look at bytes themselves. Everything above them is rules made of rules, in staging.hpp.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <tao/pegtl.hpp>
#include <tao/pegtl/contrib/analyze_traits.hpp>

#include "grammar/letters.hpp"

namespace lensward::grammar {

namespace peg = tao::pegtl;

// Text as a template argument: word<"beat">.
template <std::size_t N>
struct Spelling {
  char bytes[N];

  consteval Spelling(const char (&text)[N]) { std::copy_n(text, N, bytes); }
  constexpr std::string_view view() const { return {bytes, N - 1}; }
};

namespace lex {

// Blanks, or none of them.
struct blanks {
  using rule_t = blanks;
  using subs_t = peg::empty_list;

  template <class Input>
  static bool match(Input& in) {
    in.bump_in_this_line(static_cast<std::size_t>(past_blanks(in.current(), in.end()) - in.current()));
    return true;
  }
};

// "x": these bytes.
template <Spelling S>
struct bytes {
  using rule_t = bytes;
  using subs_t = peg::empty_list;

  template <class Input>
  static bool match(Input& in) {
    if (in.current() == in.end() || *in.current() != S.bytes[0]) return false;
    if (!starts_with(in.current(), in.end(), S.view())) return false;
    in.bump_in_this_line(S.view().size());
    return true;
  }
};

// 'word', or one of several: these bytes, and no longer word.
template <Spelling... S>
struct word_of {
  using rule_t = word_of;
  using subs_t = peg::empty_list;

  template <class Input>
  static bool match(Input& in) {
    if (in.current() == in.end()) return false;
    const char first = *in.current();
    return ((first == S.bytes[0] && match_one(in, S.view())) || ...);
  }

 private:
  template <class Input>
  static bool match_one(Input& in, std::string_view word) {
    if (!starts_with(in.current(), in.end(), word)) return false;
    if (word_more_at(in.current() + word.size(), in.end())) return false;
    in.bump_in_this_line(word.size());
    return true;
  }
};

// A letter, mark or number from U+00A1 up.
struct wide {
  using rule_t = wide;
  using subs_t = peg::empty_list;

  template <class Input>
  static bool match(Input& in) {
    const std::size_t size = wide_size(in.current(), in.end());
    in.bump_in_this_line(size);
    return size > 0;
  }
};

// Any one code point of a line.
struct any {
  using rule_t = any;
  using subs_t = peg::empty_list;

  template <class Input>
  static bool match(Input& in) {
    const std::size_t size = code_point(in.current(), in.end()).size;
    in.bump_in_this_line(size);
    return size > 0;
  }
};

}  // namespace lex
}  // namespace lensward::grammar

namespace TAO_PEGTL_NAMESPACE {

template <typename Name>
struct analyze_traits<Name, lensward::grammar::lex::blanks> : analyze_opt_traits<> {};
template <typename Name, lensward::grammar::Spelling S>
struct analyze_traits<Name, lensward::grammar::lex::bytes<S>> : analyze_any_traits<> {};
template <typename Name, lensward::grammar::Spelling... S>
struct analyze_traits<Name, lensward::grammar::lex::word_of<S...>> : analyze_any_traits<> {};
template <typename Name>
struct analyze_traits<Name, lensward::grammar::lex::wide> : analyze_any_traits<> {};
template <typename Name>
struct analyze_traits<Name, lensward::grammar::lex::any> : analyze_any_traits<> {};

}  // namespace TAO_PEGTL_NAMESPACE
