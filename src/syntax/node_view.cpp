#include "syntax/node_view.h"

#include <algorithm>

#include "grammar/letters.hpp"

namespace lensward {

std::vector<NodeView> top_nodes(std::string_view bytes, std::int32_t file, const std::vector<Node>& nodes,
                                std::uint32_t first, std::uint32_t count) {
  std::vector<NodeView> top;
  for (std::uint32_t end = first + count; end > first; end -= nodes[end - 1].subtree) {
    top.emplace_back(bytes, file, nodes, end - 1);
  }
  std::reverse(top.begin(), top.end());
  return top;
}

std::string NodeView::words() const {
  std::string words;
  const std::string_view written = text();
  const char* end = written.data() + written.size();
  for (const char* at = written.data(); at != end;) {
    const char* past = grammar::past_blanks(at, end);
    words += past != at ? ' ' : *at;
    at = past != at ? past : at + 1;
  }
  return words;
}

std::vector<NodeView> NodeView::children() const {
  const std::uint32_t count = node().subtree - 1;
  return top_nodes(bytes_, file_, *nodes_, index_ - count, count);
}

std::vector<NodeView> NodeView::children(NodeKind kind) const {
  std::vector<NodeView> all = children();
  std::erase_if(all, [kind](const NodeView& view) { return view.kind() != kind; });
  return all;
}

std::optional<NodeView> NodeView::child(NodeKind kind) const {
  for (const NodeView& view : children()) {
    if (view.kind() == kind) return view;
  }
  return std::nullopt;
}

}  // namespace lensward
