// The lines of a scene file, sorted under their headings.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "source/source_file.h"
#include "syntax/script.h"

namespace lensward {

// Lines in the order they count: those of a chosen way stand in for the ones they replace.
struct BeatText {
  const HeadingLine* heading = nullptr;
  Span span;
  std::vector<const Statement*> lines;
};

struct SceneText {
  std::vector<const Statement*> above;  // declarations and settings
  std::vector<const Statement*> opening;
  std::vector<BeatText> beats;
};

// A way of a beat. Way A is the beat as it is written.
struct WayChoice {
  std::string way, beat;
  bool operator==(const WayChoice&) const = default;
};

// A way that a scene has, and whether its `choose` lines put it in place.
struct WayOfScene {
  WayChoice choice;
  bool chosen = false;
  Span heading;  // of way A: of its beat
};

// Pointers are into `script`. `choose way B of Rebuke` above the opening puts way B in place, the last such line for a
// beat; a way of the scene holds such lines of its own. The other ways are left out. `instead` stands in for whatever
// is chosen for its beat. Opening words that fit no line, or several, are `name.way-unclear`; ways and choices of beats
// or ways that are not there `name.unknown`.
SceneText outline_of(const SourceSet& sources, const Script& script, Findings& findings,
                     const std::optional<WayChoice>& instead = std::nullopt);

// The ways of every beat that has any, way A first.
std::vector<WayOfScene> ways_of(const Script& script);

}  // namespace lensward
