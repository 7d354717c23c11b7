#include "syntax/node_kind.h"

#include <cstddef>

namespace lensward {

const char* name_of(NodeKind kind) {
  static constexpr const char* names[] = {
#define LENSWARD_NODE(rule) #rule,
#include "syntax/node_kind.def"
#undef LENSWARD_NODE
  };
  return names[static_cast<std::size_t>(kind)];
}

const char* name_of(Leaf::Kind kind) {
  static constexpr const char* names[] = {"word",  "name",    "number",   "quoted", "punctuation",
                                          "blank", "comment", "line_end", "unread"};
  return names[static_cast<std::size_t>(kind)];
}

}  // namespace lensward
