#include <algorithm>

#include "base/listing.h"
#include "cli/commands.h"
#include "cli/rehearsing.h"
#include "cli/two_drafts.h"
#include "mend/edited_text.h"
#include "mend/mend_json.h"
#include "mend/mend_text.h"
#include "report/outline.h"
#include "report/text.h"
#include "source/stand_in_host.h"

namespace lensward {
namespace {

Rehearsal played(const std::string& path, const std::string& text, Depth depth, const Surroundings& around) {
  StandInHost edited(around.host, path, text);
  Surroundings then{.host = edited, .known = around.known};
  return rehearsal_of(compiled(path, until_of(depth), then));
}

struct WayTaken {
  std::string name;
  const Finding* finding;
  const WayOut* way;
};

// The ways named in "1a,3b", in the order they are named.
std::vector<WayTaken> ways_named(const std::string& names, const Rehearsal& scene,
                                 const std::vector<Trouble>& troubles) {
  std::vector<WayTaken> ways;
  for (std::size_t begin = 0; begin <= names.size();) {
    const std::size_t end = std::min(names.find(',', begin), names.size());
    const std::string name = names.substr(begin, end - begin);
    const std::size_t before = ways.size();
    for (const Trouble& trouble : troubles) {
      const Finding& finding = scene.findings.all()[static_cast<std::size_t>(trouble.finding)];
      for (std::size_t way = 0; way < trouble.ways.size(); ++way) {
        if (name == name_of_way(trouble.number, way)) ways.push_back({name, &finding, &trouble.ways[way]});
      }
    }
    if (ways.size() == before) throw CannotRun("there is no way out `" + name + "`; without --take they are listed");
    begin = end + 1;
  }
  return ways;
}

bool same_edit(const TextEdit& one, const TextEdit& other) {
  return one.where == other.where && one.text == other.text;
}

// The edits of all ways. What comes later and touches the same words is left out of them and of the ways, and that is
// told. Two ways may ask for the same line.
std::vector<TextEdit> edits_of(std::vector<WayTaken>& ways) {
  std::vector<TextEdit> all;
  std::erase_if(ways, [&](const WayTaken& taken) {
    std::vector<TextEdit> fresh;
    for (const TextEdit& edit : taken.way->edits) {
      if (std::none_of(all.begin(), all.end(), [&](const TextEdit& one) { return same_edit(edit, one); }))
        fresh.push_back(edit);
    }
    const bool fits = go_together(fresh, all);
    if (!fits) tell(taken.name + " is left out, since another that you took changes the same words");
    if (fits) all.insert(all.end(), fresh.begin(), fresh.end());
    return !fits;
  });
  return all;
}

// Each was proved alone; together one may undo another.
void tell_still_open(const std::vector<WayTaken>& ways, const Rehearsal& before, const Rehearsal& after) {
  for (const WayTaken& taken : ways) {
    if (times_found(after.findings, *taken.finding) < times_found(before.findings, *taken.finding)) continue;
    tell(taken.name + " no longer holds" + (ways.size() > 1 ? " with the others" : "") + ": line " +
         std::to_string(before.sources.begin_of(taken.finding->where).line) + " is still open");
  }
}

Results results_of(const Rehearsal& draft) {
  return {draft.sources, draft.plan, draft.attention, draft.verdicts, draft.findings};
}

// The same moment of a beat, from its top; the beat's end when it has become shorter.
Moment same_moment(const Plan& plan, const Plan& in, int beat, int in_beat, Moment moment) {
  if (beat < 0 || in_beat < 0) return {};
  const Beat& there = in.beats[static_cast<std::size_t>(in_beat)];
  return std::min(there.begin + (moment - plan.beats[static_cast<std::size_t>(beat)].begin), there.end);
}

// A page for each way, at its finding's moment.
void put_pages(const std::vector<WayTaken>& ways, const Rehearsal& scene, const Rehearsal& again,
               const std::string& output, Surroundings& around) {
  std::vector<BeatOfBoth> beats;
  for (const WayTaken& taken : ways) {
    const Moment moment = taken.finding->at.value_or(Moment{});
    const int beat = beat_at(scene.plan, moment);
    const std::string name = beat < 0 ? "" : scene.plan.beats[static_cast<std::size_t>(beat)].name;
    const int after = beat_named(again.plan, name);
    std::vector<std::string> words{taken.finding->message, gain_of_way(*taken.finding, *taken.way)};
    for (const LineTyped& line : taken.way->lines) words.push_back(typed_words(line));
    beats.push_back({taken.name + ", beat " + name, beat, after, moment,
                     same_moment(scene.plan, again.plan, beat, after, moment), std::move(words)});
  }
  put_two_drafts({results_of(scene), results_of(again), "as it is", "with the change"}, {}, beats, output, around);
}

int take(const MendOptions& options, const Rehearsal& scene, const std::vector<Trouble>& troubles,
         Surroundings& around) {
  std::vector<WayTaken> ways = ways_named(*options.take, scene, troubles);
  const std::vector<TextEdit> edits = edits_of(ways);
  const std::string old_text(scene.text());
  const std::string new_text = edited_text(old_text, edits);
  const Rehearsal again = played(options.file, new_text, Depth::places, around);
  if (options.output) put_pages(ways, scene, again, *options.output, around);
  put("-", diff_of(options.file, old_text, new_text, line_changes(old_text, edits)), around);
  tell("before: " + counts_in_words(scene.sources, scene.findings));
  tell("after:  " + counts_in_words(again.sources, again.findings));
  tell_still_open(ways, scene, again);
  if (options.write) {
    write_back(options.file, old_text, new_text, around);
    tell("written to " + options.file);
  }
  return 0;
}

// Of a finding in the scene's own file.
bool at_line(const Rehearsal& scene, const Finding& finding, int line) {
  return scene.sources.begin_of(finding.where).line == line;
}

}  // namespace

int command_mend(const MendOptions& options, Surroundings& around) {
  if (options.write && !options.take) throw CannotRun("--write needs --take with the names of what to write");
  if (options.output && !options.take) throw CannotRun("-o needs --take with the names of what to draw");
  if (options.output == "-") throw CannotRun("the change goes to standard output; give the pages a file's name");
  if (options.write && options.file == "-") throw CannotRun("standard input cannot be written to; leave --write out");
  Run run = compiled(options.file, Until::places, around);
  require_scene(run, options.file);
  const Rehearsal scene = rehearsal_of(std::move(run));
  const int lines = scene.sources.file(scene.file).line_count();
  if (options.line && (*options.line < 1 || *options.line > lines)) {
    throw CannotRun("there is no line " + std::to_string(*options.line) + " in " + options.file + ", which has " +
                    counted(lines, "line", "lines"));
  }
  const Rehearse rehearse = [&](const std::string& text, Depth depth) {
    return played(options.file, text, depth, around);
  };
  const auto wanted = [&](const Finding& finding) {
    return options.line ? at_line(scene, finding, *options.line) : finding.severity != Severity::remark;
  };
  MendingLimits limits;
  if (around.progress) limits.begins = [](std::size_t done, std::size_t of) { tell_progress("mending", done, of); };
  const std::vector<Trouble> troubles = mend(scene, rehearse, wanted, limits);
  if (options.take) return take(options, scene, troubles, around);
  put("-", options.as == "json" ? json_text(mending_json(scene, troubles)) : mending_text(scene, troubles), around);
  return troubles.empty() ? 0 : 1;
}

}  // namespace lensward
