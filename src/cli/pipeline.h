// All stages in a line, over a scene and the files it uses.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "emphasis/beats_known.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "pages/lay_out.h"
#include "plan/plan.h"
#include "source/host.h"
#include "source/source_file.h"
#include "syntax/gather.h"
#include "syntax/script.h"
#include "syntax/tree.h"

namespace lensward {

// How far to go: a dump of an early stage must not depend on the later ones, and a picture needs no rules, which take
// most of the time. `marks`: the rules of the chosen way with everybody at their marks, nobody tried elsewhere;
// `places`: with that; `rules`: with the other ways too.
enum class Until { syntax, plan, verdicts, marks, places, rules };

// What the stages made. Sources, files and findings add up; the rest is of the scene compiled last.
struct Run {
  SourceSet sources;
  Findings findings;
  Gathered gathered;
  Tree tree;      // of the scene's own file
  Script script;  // with what it uses
  Plan plan;
  Attention attention;
  std::vector<Verdict> verdicts;
  // What was made of the beats of earlier drafts; runs may share it. What is made does not depend on it.
  std::shared_ptr<BeatsKnown> known = std::make_shared<BeatsKnown>();
  // Asked between stages and scenes: true when nobody waits for the result any more. The rest is then left out, and
  // what was made is of no use. Empty: somebody does.
  std::function<bool()> unwanted;

  // Told of a scene, once, what is found with everybody at their marks, before the others are looked for: places tried,
  // other ways, names. It is found in the end too, word for word, but for stale waivers. Not told when somebody's place
  // is vague, since that may yet change the words. Empty: nobody listens.
  std::function<void(const Run&, const Findings&)> ahead;

  // Told of a scene, once each, when it is planned and when it is judged. What is found so far stands unsorted in the
  // findings. Empty: nobody listens.
  std::function<void(const Run&, Until)> reached;

  bool is_unwanted() const { return unwanted && unwanted(); }
  Results results() const { return {sources, plan, attention, verdicts, findings}; }
  // False for a file without a scene in it, whatever else it holds.
  bool has_scene() const { return !plan.facts.name.empty() || !plan.beats.empty(); }
  bool is_film(int file) const { return gathered.files[static_cast<std::size_t>(file)].kind == FileKind::film; }
};

// Reads a file and all it uses; a folder stands for the film in it. Gives its index in run.gathered.
std::variant<int, HostError> read_file(Host& host, const std::string& path, Run& run);

// Runs the stages over one file that was read. Never fails: what is wrong stands in the findings, sorted. A scene that
// uses what cannot be read is not planned. Ways that are not chosen are compiled too, for their errors and warnings
// alone: those go by "way B of Rebuke" in their words and as their beat.
void compile(int file, Until until, Run& run);

// Every scene of a film, in its order, and what only the whole of them shows.
void compile_film(int film, Run& run);

// One file that uses nothing, from memory.
void compile(std::string name, std::string bytes, Until until, Run& run);

}  // namespace lensward
