#include "cli/commands.h"

#include <cstdio>
#include <filesystem>

#include "report/text.h"
#include "source/character.h"

namespace lensward {
namespace {

std::string first_scene_of(const Run& run, int film) {
  for (int scene : run.gathered.files[static_cast<std::size_t>(film)].scenes) {
    if (scene < 0) continue;
    const auto source = run.gathered.files[static_cast<std::size_t>(scene)].tree.file;
    return ", such as " + run.sources.file(source).name();
  }
  return "";
}

}  // namespace

Run compiled(const std::string& path, Until until, Surroundings& around) {
  Run run;
  run.known = around.known;
  const auto file = read_file(around.host, path, run);
  if (const auto* error = std::get_if<HostError>(&file)) throw CannotRun("cannot read " + path + ": " + error->reason);
  if (until != Until::syntax && run.is_film(std::get<int>(file))) {
    throw CannotRun(path + " is a film of several scenes; name one of them" + first_scene_of(run, std::get<int>(file)));
  }
  compile(std::get<int>(file), until, run);
  return run;
}

void put(const std::string& path, std::string_view bytes, Surroundings& around) {
  const auto written = around.host.write(path, bytes);
  if (const auto* error = std::get_if<HostError>(&written)) {
    throw CannotRun("cannot write " + (path == "-" ? "standard output" : path) + ": " + error->reason);
  }
}

void tell(const std::string& words) { std::fputs((printable(words) + '\n').c_str(), stderr); }

void tell_progress(const std::string& work, std::size_t done, std::size_t of) {
  const std::string words = work + ' ' + std::to_string(done + 1) + " of " + std::to_string(of);
  std::fputs(done == of ? "\r\033[K" : ("\r\033[K" + words).c_str(), stderr);
  std::fflush(stderr);
}

void require_scene(const Run& run, const std::string& path) {
  if (run.has_scene()) return;
  std::fputs(findings_lines(run.sources, run.findings).c_str(), stderr);
  throw CannotRun("there is no scene in " + path + ": a scene file has a line `scene NAME` near its top");
}

void write_back(const std::string& path, const std::string& old_text, const std::string& new_text,
                Surroundings& around) {
  const auto now = around.host.read(path);
  const std::string* bytes = std::get_if<std::string>(&now);
  if (bytes == nullptr || *bytes != old_text)
    throw CannotRun(path + " has changed since it was read; nothing is written, ask again");
  put(path, new_text, around);
}

void require_other_file(const std::string& input, const std::string& output) {
  std::error_code unknown;
  if (input != "-" && output != "-" && std::filesystem::equivalent(input, output, unknown)) {
    throw CannotRun(output + " is the scene itself, which would be lost; name another file after -o");
  }
}

}  // namespace lensward
