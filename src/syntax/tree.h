// The lossless tree of one file. Nodes and leaves are flat vectors; nothing is a pointer.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "source/source_file.h"
#include "source/span.h"

namespace lensward {

enum class NodeKind : std::uint8_t;  // one for each rule of the grammar worth a node; see syntax/node_kind.h

// A node covers the bytes begin..end. Nodes stand in post-order: a node's children are the `subtree - 1` nodes just
// before it.
struct Node {
  NodeKind kind;
  std::uint32_t begin = 0, end = 0;
  std::uint32_t subtree = 1;
};

// A leaf owns its bytes. The leaves of a tree stand in order, without gaps, and cover the file.
struct Leaf {
  enum class Kind : std::uint8_t { word, name, number, quoted, punctuation, blank, comment, line_end, unread };
  Kind kind = Kind::unread;
  std::uint32_t begin = 0, end = 0;
};

struct TreeLine {
  bool broken = false;
  std::uint32_t begin = 0, end = 0;              // with its line end
  std::uint32_t first_node = 0, node_count = 0;  // into Tree::nodes
};

struct Tree {
  std::int32_t file = 0;
  std::vector<TreeLine> lines;
  std::vector<Node> nodes;
  std::vector<Leaf> leaves;
};

// The concatenated leaves: the file's bytes again.
std::string print(const SourceSet& sources, const Tree& tree);

}  // namespace lensward
