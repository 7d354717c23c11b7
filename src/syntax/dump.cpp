#include "syntax/dump.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "syntax/node_view.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// A node without children is its words; others list theirs.
Json dump_node(const NodeView& node) {
  const std::vector<NodeView> children = node.children();
  if (children.empty()) return {{name_of(node.kind()), std::string(node.text())}};
  Json list = Json::array();
  for (const NodeView& child : children) list.push_back(dump_node(child));
  return {{name_of(node.kind()), std::move(list)}};
}

}  // namespace

nlohmann::ordered_json dump_tree(const SourceSet& sources, const Tree& tree) {
  const SourceFile& file = sources.file(tree.file);
  Json lines = Json::array();
  int number = 0;
  for (const TreeLine& line : tree.lines) {
    ++number;
    if (line.broken) {
      lines.push_back({{"line", number}, {"broken", true}});
    } else if (line.node_count > 0) {
      Json nodes = Json::array();
      for (const NodeView& node : top_nodes(file.bytes(), tree.file, tree.nodes, line.first_node, line.node_count)) {
        nodes.push_back(dump_node(node));
      }
      lines.push_back({{"line", number}, {"nodes", std::move(nodes)}});
    }
  }
  return {{"schema", "lensward/tree/1"},
          {"file", file.name()},
          {"lines", tree.lines.size()},
          {"leaves", tree.leaves.size()},
          {"statements", std::move(lines)}};
}

}  // namespace lensward
