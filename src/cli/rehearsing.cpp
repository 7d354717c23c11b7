#include "cli/rehearsing.h"

#include <utility>

namespace lensward {

Rehearsal rehearsal_of(Run run) {
  return {std::move(run.sources),   run.tree.file,           std::move(run.plan),
          std::move(run.attention), std::move(run.verdicts), std::move(run.findings)};
}

Until until_of(Depth depth) {
  switch (depth) {
    case Depth::plan:
      return Until::plan;
    case Depth::marks:
      return Until::marks;
    case Depth::places:
      return Until::places;
  }
  return Until::places;
}

}  // namespace lensward
