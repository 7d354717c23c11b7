#include <algorithm>

#include "cli/commands.h"
#include "mend/edited_text.h"
#include "mend/mend_text.h"
#include "report/text.h"

namespace lensward {
namespace {

// The scene's own file as another text; nothing is written.
class EditedHost : public Host {
 public:
  EditedHost(Host& under, std::string path, const std::string& text)
      : under_(under), path_(std::move(path)), canonical_(under.canonical(path_)), text_(text) {}

  std::variant<std::string, HostError> read(const std::string& path) override {
    if (path == path_ || (canonical_ && path == *canonical_)) return text_;
    return under_.read(path);
  }
  std::variant<std::monostate, HostError> write(const std::string&, std::string_view) override {
    return HostError{"is only being tried"};
  }
  std::optional<std::string> canonical(const std::string& path) override { return under_.canonical(path); }
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override {
    return under_.names_in(folder);
  }

 private:
  Host& under_;
  std::string path_;
  std::optional<std::string> canonical_;
  const std::string& text_;
};

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

Rehearsal played(const std::string& path, const std::string& text, Depth depth, Host& host) {
  EditedHost edited(host, path, text);
  Surroundings around{.host = edited};
  return rehearsal_of(compiled(path, until_of(depth), around));
}

// The ways named in "1a,3b", in the order they are named.
std::vector<WayOut> ways_named(const std::string& names, const std::vector<Trouble>& troubles) {
  std::vector<WayOut> ways;
  for (std::size_t begin = 0; begin <= names.size();) {
    const std::size_t end = std::min(names.find(',', begin), names.size());
    const std::string name = names.substr(begin, end - begin);
    const std::size_t before = ways.size();
    for (std::size_t i = 0; i < troubles.size(); ++i) {
      for (std::size_t way = 0; way < troubles[i].ways.size(); ++way) {
        if (name == name_of_way(i, way)) ways.push_back(troubles[i].ways[way]);
      }
    }
    if (ways.size() == before) throw CannotRun("there is no way out `" + name + "`; without --take they are listed");
    begin = end + 1;
  }
  return ways;
}

// The edits of all ways; who comes later and touches the same words is left out, and that is told.
std::vector<TextEdit> edits_of(const std::vector<WayOut>& ways) {
  std::vector<TextEdit> all;
  for (const WayOut& way : ways) {
    const bool clashes = std::any_of(way.edits.begin(), way.edits.end(), [&](const TextEdit& edit) {
      return std::any_of(all.begin(), all.end(), [&](const TextEdit& taken) { return overlap(edit, taken); });
    });
    if (clashes) {
      tell("left out, since another that you took changes the same words: " +
           (way.lines.empty() ? std::string("taking words out") : way.lines.front().words));
      continue;
    }
    // Two ways may ask for the same line.
    for (const TextEdit& edit : way.edits) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const TextEdit& taken) {
        return taken.where == edit.where && taken.text == edit.text;
      });
      if (!known) all.push_back(edit);
    }
  }
  return all;
}

void write_back(const std::string& path, const std::string& old_text, const std::string& new_text,
                Surroundings& around) {
  const auto now = around.host.read(path);
  const std::string* bytes = std::get_if<std::string>(&now);
  if (bytes == nullptr || *bytes != old_text) {
    throw CannotRun(path + " has changed since it was read; nothing is written, ask again");
  }
  put(path, new_text, around);
}

int take(const MendOptions& options, const Rehearsal& scene, const std::vector<Trouble>& troubles,
         Surroundings& around) {
  const std::vector<TextEdit> edits = edits_of(ways_named(*options.take, troubles));
  const std::string old_text(scene.text());
  const std::string new_text = edited_text(old_text, edits);
  const Rehearsal again = played(options.file, new_text, Depth::places, around.host);
  put("-", diff_of(options.file, old_text, new_text, line_changes(old_text, edits)), around);
  tell("before: " + counts_in_words(scene.sources, scene.findings));
  tell("after:  " + counts_in_words(again.sources, again.findings));
  if (options.write) {
    write_back(options.file, old_text, new_text, around);
    tell("written to " + options.file);
  }
  return 0;
}

bool at_line(const Rehearsal& scene, const Finding& finding, int line) {
  return finding.where.file == scene.file && scene.sources.begin_of(finding.where).line == line;
}

}  // namespace

int command_mend(const MendOptions& options, Surroundings& around) {
  if (options.write && !options.take) throw CannotRun("--write needs --take with the names of what to write");
  if (options.write && options.file == "-") throw CannotRun("standard input cannot be written to; leave --write out");
  Run run = compiled(options.file, Until::places, around);
  require_scene(run, options.file);
  const Rehearsal scene = rehearsal_of(std::move(run));
  const Rehearse rehearse = [&](const std::string& text, Depth depth) {
    return played(options.file, text, depth, around.host);
  };
  const auto wanted = [&](const Finding& finding) {
    const bool own = finding.where.file == scene.file;
    return own && (options.line ? at_line(scene, finding, *options.line) : finding.severity != Severity::remark);
  };
  MendingLimits limits;
  if (around.progress) limits.begins = [](std::size_t done, std::size_t of) { tell_progress("mending", done, of); };
  const std::vector<Trouble> troubles = mend(scene, rehearse, wanted, limits);
  if (options.take) return take(options, scene, troubles, around);
  put("-", mending_text(scene, troubles), around);
  return troubles.empty() ? 0 : 1;
}

}  // namespace lensward
