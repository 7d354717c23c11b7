// Any bytes: reading ends, loses no byte, and says one thing for each broken line.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "syntax/parse.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace lensward;
  const std::string text(reinterpret_cast<const char*>(data), size);
  SourceSet sources;
  Findings findings;
  const Tree tree = parse(sources, sources.add(SourceFile("fuzz.staging", text)), findings);
  require(print(sources, tree) == text);
  std::uint32_t at = 0;
  for (const TreeLine& line : tree.lines) {
    require(line.begin == at && line.end > line.begin);
    at = line.end;
  }
  require(at == size);
  const Script script = read_script(sources, tree, findings);
  for (const Statement& statement : script.statements) {
    require(statement.span.begin <= statement.span.end && statement.span.end <= size);
  }
  for (const Finding& finding : findings.all()) {
    require(!finding.message.empty() && finding.where.begin <= finding.where.end && finding.where.end <= size);
  }
  return 0;
}
