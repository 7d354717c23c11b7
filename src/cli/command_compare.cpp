#include "base/listing.h"
#include "cli/commands.h"
#include "cli/revision_host.h"
#include "cli/two_drafts.h"
#include "compare/compare.h"
#include "compare/words.h"
#include "report/outline.h"
#include "source/character.h"
#include "source/stand_in_host.h"

namespace lensward {
namespace {

// What git hands to an external diff: path, old file, its hash and mode, new file, its hash and mode; of a renamed file
// two more.
constexpr std::size_t words_from_git = 7, words_from_git_renamed = 9;
constexpr const char* no_file = "/dev/null";

Run scene_in(const std::string& path, Surroundings& around) {
  Run run = compiled(path, Until::rules, around);
  require_scene(run, path);
  return run;
}

Draft draft_of(const Run& run) { return {run.plan, run.attention, run.verdicts, run.findings}; }

std::string printed(const Changes& changes, const std::string& as) {
  if (as == "json") return json_text(changes_json(changes));
  return as == "markdown" ? changes_markdown(changes) : changes_text(changes);
}

std::vector<std::string> sentences(const std::vector<Change>& changes) {
  std::vector<std::string> all;
  for (const Change& change : changes) all.push_back(sentence(change));
  return all;
}

Moment looked_at(const Run& run, int beat) { return beat < 0 ? Moment{} : deciding_moment(run.results(), beat); }

void put_pages(const Run& before, const Run& after, const Changes& changes, const std::string& output,
               Surroundings& around) {
  std::vector<BeatOfBoth> beats;
  for (const BeatChanges& one : changes.beats) {
    if (!one.any()) continue;
    const int old_beat = beat_named(before.plan, one.before), new_beat = beat_named(after.plan, one.after);
    beats.push_back({plain(beat_heading(one)), old_beat, new_beat, looked_at(before, old_beat),
                     looked_at(after, new_beat), sentences(one.changes)});
  }
  std::vector<std::string> of_the_scene{findings_counted(changes)};
  for (std::string& one : sentences(changes.scene)) of_the_scene.push_back(std::move(one));
  put_two_drafts({before.results(), after.results(), "as it was", "as it is"}, of_the_scene, beats, output, around);
}

int told(const Run& before, const Run& after, const CompareOptions& options, Surroundings& around) {
  const Changes changes = compare(draft_of(before), draft_of(after));
  if (options.output) put_pages(before, after, changes, *options.output, around);
  if (options.output != "-") put("-", printed(changes, options.as), around);
  return changes.any() ? 1 : 0;
}

// The old bytes stand in a file of git's own, where nothing that the scene uses can be found: they are read as if they
// stood at the scene's path. Nothing of a film, a set, a kit or a company, which play nothing by themselves.
std::optional<Run> side_from_git(const std::string& path, const std::string& file, Surroundings& around) {
  const auto bytes = around.host.read(file);
  if (const auto* error = std::get_if<HostError>(&bytes)) throw CannotRun("cannot read " + file + ": " + error->reason);
  StandInHost host(around.host, path, std::get<std::string>(bytes));
  Run run;
  run.known = around.known;
  const auto read = read_file(host, path, run);
  if (const auto* error = std::get_if<HostError>(&read)) throw CannotRun("cannot read " + path + ": " + error->reason);
  const int index = std::get<int>(read);
  if (run.gathered.files[static_cast<std::size_t>(index)].kind != FileKind::scene) return std::nullopt;
  compile(index, Until::rules, run);
  require_scene(run, path);
  return run;
}

// Git takes any status but 0 for a fault of the program, and stops.
int command_from_git(const CompareOptions& options, Surroundings& around) {
  const std::string &path = options.files[0], &before = options.files[1], &after = options.files[4];
  const std::string& new_path = options.files.size() == words_from_git_renamed ? options.files[7] : path;
  std::string text = "compare " + printable(new_path) + "\n";
  if (before == no_file || after == no_file) {
    text += std::string("the file is ") + (before == no_file ? "new" : "gone") + "\n";
  } else {
    const auto old = side_from_git(path, before, around), now = side_from_git(new_path, after, around);
    text += old && now ? printed(compare(draft_of(*old), draft_of(*now)), options.as)
                       : "no scene by itself; compare the scenes that use it\n";
  }
  put("-", text, around);
  return 0;
}

Run scene_at(const std::string& revision, const std::string& path, const Surroundings& around) {
  auto opened = open_revision(revision, path);
  if (const auto* error = std::get_if<HostError>(&opened)) throw CannotRun(error->reason);
  Surroundings then{.host = *std::get<std::unique_ptr<Host>>(opened), .known = around.known};
  return scene_in(path, then);
}

}  // namespace

int command_compare(const CompareOptions& options, Surroundings& around) {
  const std::size_t count = options.files.size();
  if (options.from) {
    if (count != 1) throw CannotRun("--from takes one FILE, which is read from that revision and from now");
    const Run before = scene_at(*options.from, options.files[0], around);
    const Run after = options.to ? scene_at(*options.to, options.files[0], around) : scene_in(options.files[0], around);
    return told(before, after, options, around);
  }
  if (options.to) throw CannotRun("--to needs --from: the revision to compare with");
  const bool from_git = count == words_from_git || count == words_from_git_renamed;
  if (from_git && options.output) throw CannotRun("pages are not made for git; name two files, or --from REVISION");
  if (from_git) return command_from_git(options, around);
  if (count != 2) throw CannotRun("compare takes two files, OLD and NEW, or --from REVISION and one FILE");
  if (options.files[0] == "-" && options.files[1] == "-") {
    throw CannotRun("standard input can be one of the two files, not both");
  }
  return told(scene_in(options.files[0], around), scene_in(options.files[1], around), options, around);
}

}  // namespace lensward
