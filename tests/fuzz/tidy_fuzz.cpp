// Any bytes: tidying ends, is proved, is the same a second time, and changes no spoken word and no unread line.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "syntax/parse.h"
#include "syntax/tidy.h"

namespace {

using namespace lensward;

void require(bool holds) {
  if (!holds) std::abort();
}

Tidied tidied(const std::string& text) {
  SourceSet sources;
  return tidy(sources, sources.add(SourceFile("fuzz.staging", text)));
}

// What is spoken, without the spaces at which a speech may be broken, and the lines that nobody can read.
struct Kept {
  std::string spoken;
  std::string unread;

  bool operator==(const Kept&) const = default;
};

Kept kept_of(const std::string& text) {
  SourceSet sources;
  Findings findings;
  const Tree tree = parse(sources, sources.add(SourceFile("fuzz.staging", text)), findings);
  Kept kept;
  for (const Statement& statement : read_script(sources, tree, findings).statements) {
    const auto* speech = std::get_if<SpeechLine>(&statement.body);
    if (speech == nullptr) continue;
    for (const SpeechPart& part : speech->parts) kept.spoken += part.words;
  }
  std::erase(kept.spoken, ' ');
  for (const Leaf& leaf : tree.leaves) {
    if (leaf.kind == Leaf::Kind::unread) kept.unread += text.substr(leaf.begin, leaf.end - leaf.begin) + '\n';
  }
  return kept;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const Tidied once = tidied(text);
  // Blanks that tidying puts right may let a way's opening words call a line more: then the file stays as it is.
  require(once.refusal.empty() || once.refusal.find("opening words") != std::string::npos);
  require(tidied(once.text).text == once.text);
  require(kept_of(text) == kept_of(once.text));
  return 0;
}
