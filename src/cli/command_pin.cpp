#include "base/listing.h"
#include "base/quantity_text.h"
#include "cli/commands.h"
#include "compare/compare.h"
#include "compare/words.h"
#include "mend/edited_text.h"
#include "pin/pin.h"
#include "plan/called.h"
#include "source/character.h"
#include "source/stand_in_host.h"

namespace lensward {
namespace {

std::string text_of_file(const std::string& path, Surroundings& around) {
  const auto read = around.host.read(path);
  if (const auto* error = std::get_if<HostError>(&read)) throw CannotRun("cannot read " + path + ": " + error->reason);
  return std::get<std::string>(read);
}

Draft draft_of(const Run& run) { return {run.plan, run.attention, run.verdicts, run.findings}; }

std::string moves_text(const Plan& plan, const Pinning& pinning) {
  std::string text;
  for (const MovedMark& one : pinning.moved) {
    const Metres off{length(one.now - one.was)};
    text += "`" + one.mark + "` of `" + called(plan, one.person) + "`: " + text_of(off) + " off, (" +
            number(one.now.x, 2) + ", " + number(one.now.y, 2) + ") m, was (" + number(one.was.x, 2) + ", " +
            number(one.was.y, 2) + ") m\n";
  }
  if (pinning.as_before > 0) text += counted(pinning.as_before, "mark is", "marks are") + " where the text has them\n";
  return printable_lines(text);
}

// Troubles are told one a line; some of them hold back only a mark, but nothing is written while there are any.
bool tell_troubles(const std::string& file, const std::vector<std::string>& troubles) {
  for (const std::string& trouble : troubles) tell(printable(file + ": " + trouble));
  return !troubles.empty();
}

}  // namespace

int command_pin(const PinOptions& options, Surroundings& around) {
  const std::string csv = text_of_file(options.marks, around);
  const Run before = compiled(options.file, Until::rules, around);
  require_scene(before, options.file);
  const MarksFile file = marks_measured(csv, before.plan);
  const Pinning pinning = pin(before.plan, before.sources, before.tree.file, file.marks);
  bool held_back = tell_troubles(options.marks, file.troubles);
  held_back = tell_troubles(options.marks, pinning.troubles) || held_back;
  if (pinning.moved.empty()) {
    put("-", moves_text(before.plan, pinning), around);
    if (held_back) throw CannotRun("no mark is moved");
    return 0;
  }
  const std::string old_text(before.sources.file(before.tree.file).bytes());
  const std::string new_text = edited_text(old_text, pinning.edits);
  StandInHost as_measured(around.host, options.file, new_text);
  Surroundings then{.host = as_measured, .known = around.known};
  const Run after = compiled(options.file, Until::rules, then);
  held_back = tell_troubles(options.file, missed(after.plan, pinning.moved)) || held_back;
  put("-", moves_text(before.plan, pinning) + "\n" + changes_text(compare(draft_of(before), draft_of(after))), around);
  if (!options.write) {
    tell(held_back ? "lensward: nothing is written, nor would --write before what is told above is settled"
                   : "lensward: nothing is written; with --write the text has these places");
  } else if (held_back) {
    throw CannotRun("nothing is written while marks of " + options.marks + " cannot be taken");
  } else {
    write_back(options.file, old_text, new_text, around);
    tell("lensward: written to " + options.file);
  }
  return held_back ? 1 : 0;
}

}  // namespace lensward
