// Every name that a file's lines mention, and what kind of name it is: for editors, which find and change them all.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "source/source_file.h"
#include "syntax/tree.h"

namespace lensward {

// One name where it stands. The span is of the bare name: without `the`, `'s`, brackets, or the seat of `Bench.2`.
struct Mention {
  // What bears the name. `thing`: whatever is declared for the scene, people among them. `label`, `mark` and
  // `speech_mark` hold within one beat and its ways, `way` among the ways of one beat.
  enum class Role { thing, beat, way, scene, label, mark, speech_mark };
  Role role = Role::thing;
  bool declares = false;
  std::string name;     // as names are compared
  std::string within;   // of the roles that hold within a beat: its name, or "opening"
  std::string kind;     // of what is declared: the leading word, "person", "furniture"; else empty
  bool quoted = false;  // in the opening words of a change, which say again what another line says
  Span span;

  // Whether both speak of one and the same, in files that share their things.
  bool means_same_as(const Mention& other) const {
    return role == other.role && name == other.name && within == other.within;
  }
};

// In the order of the text. Lines that cannot be read mention nothing.
std::vector<Mention> mentions_in(const SourceSet& sources, const Tree& tree);

}  // namespace lensward
