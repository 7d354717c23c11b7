// Inside of syntax: which declared name a writer meant by a small word, as far as one file tells.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lensward {

// One name that a line above the opening declares. The views are into the file.
struct DeclaredName {
  std::string_view kind;   // the leading word: "people", "door"
  std::string_view name;   // as written
  std::string_view piece;  // the small word after the first comma: "sofa"; empty without one
};

// In the order of the text. Looks at the first 32 KiB at most, so that a file of bad lines stays cheap.
std::vector<DeclaredName> declared_names(std::string_view bytes);

// Names for a small word: `Table` for "table", `Hatch` for "door", `Old-Sofa` for "sofa", else the nearest by spelling.
// At most three.
std::vector<std::string> names_meant(std::string_view bytes, std::string_view word);

// "abel" for "Abel": only the letters A to Z change.
std::string lowered(std::string_view word);

}  // namespace lensward
