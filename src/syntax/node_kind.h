// The kinds of nodes of the lossless tree: one for each rule of the grammar worth a node, named as the rule is.
#pragma once

#include <cstdint>

#include "syntax/tree.h"

namespace lensward {

enum class NodeKind : std::uint8_t {
#define LENSWARD_NODE(rule) rule,
#include "syntax/node_kind.def"
#undef LENSWARD_NODE
};

// The rule's name: "deed_line".
const char* name_of(NodeKind kind);
const char* name_of(Leaf::Kind kind);

}  // namespace lensward
