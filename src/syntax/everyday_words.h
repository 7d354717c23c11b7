// Plain speech, and the words of the language for it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lensward {

enum class VerbsOf { people, cameras, lights };

// What an everyday verb comes to in the language.
struct EverydayVerb {
  enum class Kind {
    going,     // another verb, and a place to go to
    deed,      // another verb
    speech,    // words after a colon
    business,  // no verb of its own: `does "…"`
  };
  Kind kind = Kind::business;
  std::string said;     // the words that are meant: "goes out" of "goes out"; "grabs" of "grabs up"
  std::string instead;  // the language's words for them, for as many as do it; empty for speech and business
};

// `verb` as written, with its particle, for one or several. Nothing for a verb that is not in the table, which holds
// none of the language's own.
std::optional<EverydayVerb> everyday_verb(VerbsOf whose, std::string_view verb);

// "she", "him", "theirs": small letters only.
bool is_pronoun(std::string_view word);

// "all", "both", "everybody", "everyone": small letters only.
bool is_all(std::string_view word);

// Whether the language has the verb, in either form, without its particle.
bool is_language_verb(std::string_view word);

// "quickly": "briskly"; empty for other words.
std::string_view everyday_pace(std::string_view word);

// What a clause may begin with in plain speech, and what the language begins it with: "during", "while". Empty for
// other words.
std::string_view everyday_clause(std::string_view word);

}  // namespace lensward
