// Inside of syntax: walking the flat nodes of a tree as if they were one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "source/source_file.h"
#include "syntax/node_kind.h"

namespace lensward {

// A node with the text it covers. Cheap to copy; the tree and its sources must outlive it.
class NodeView {
 public:
  NodeView(std::string_view bytes, std::int32_t file, const std::vector<Node>& nodes, std::uint32_t index)
      : bytes_(bytes), file_(file), nodes_(&nodes), index_(index) {}

  NodeKind kind() const { return node().kind; }
  Span span() const { return {file_, node().begin, node().end}; }
  std::string_view text() const { return bytes_.substr(node().begin, node().end - node().begin); }
  // The text with every stretch of blanks as one space: "runs on".
  std::string words() const;
  std::string_view file_bytes() const { return bytes_; }
  std::int32_t file() const { return file_; }

  // In the order of the text.
  std::vector<NodeView> children() const;
  std::optional<NodeView> child(NodeKind kind) const;
  std::vector<NodeView> children(NodeKind kind) const;
  // Requires a child of that kind, since the grammar has one there.
  NodeView the(NodeKind kind) const { return children(kind).front(); }
  // The first child. Requires one.
  NodeView only() const { return children().front(); }

 private:
  const Node& node() const { return (*nodes_)[index_]; }

  std::string_view bytes_;
  std::int32_t file_;
  const std::vector<Node>* nodes_;
  std::uint32_t index_;
};

// The nodes of nodes[first, first + count) that stand below no other, in the order of the text.
std::vector<NodeView> top_nodes(std::string_view bytes, std::int32_t file, const std::vector<Node>& nodes,
                                std::uint32_t first, std::uint32_t count);

}  // namespace lensward
