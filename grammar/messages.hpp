// What a person would call what was expected, by lexeme. A lexeme without an entry does not compile, so that no failure
// goes unrecorded and the farthest one is always the true one. Words of the language stand for themselves.
#pragma once

#include <tao/pegtl/rules.hpp>

#include "grammar/staging.hpp"

// clang-format off
namespace lensward::grammar {

template <class Lexeme> inline constexpr const char* expected = nullptr;

template <> inline constexpr const char* expected<lex::plain_word> = "a word";
template <> inline constexpr const char* expected<lex::verb_word>  = "a verb";
template <> inline constexpr const char* expected<lex::key>        = "the name of a setting or a rule";
template <> inline constexpr const char* expected<lex::name>       = "a name";
template <> inline constexpr const char* expected<lex::path>       = "a name";
template <> inline constexpr const char* expected<lex::owner>      = "an owner with 's";
template <> inline constexpr const char* expected<lex::anchor>     = "a [Mark]";
template <> inline constexpr const char* expected<lex::text>       = "words in quotation marks";
template <> inline constexpr const char* expected<lex::number>     = "a number";
template <> inline constexpr const char* expected<lex::count>      = "a number";
template <> inline constexpr const char* expected<lex::unit>       = "a unit";
template <> inline constexpr const char* expected<lex::eighths>    = "eighths of a page";
template <> inline constexpr const char* expected<lex::tag>        = "a number";
template <> inline constexpr const char* expected<lex::version>    = "a version like 1.0";
template <> inline constexpr const char* expected<lex::stop_value> = "a stop like T2.8";
template <> inline constexpr const char* expected<lex::old_words>  = "the opening words of a line";
template <> inline constexpr const char* expected<lex::comment>    = "a comment";
template <> inline constexpr const char* expected<lex::merge_mark> = "a merge mark";
template <> inline constexpr const char* expected<eof>             = "the end of the line";

}  // namespace lensward::grammar
// clang-format on
