#include <dlfcn.h>
#include <unistd.h>

#include <cctype>
#include <cstdlib>

#include "cli/commands.h"
#include "cli/revision_host.h"
#include "type/face.h"

namespace lensward {
namespace {

// What was looked for, in the order it is told.
struct Report {
  std::string lines;
  bool lacks = false;

  void tell(const char* how, const std::string& words) { lines += how + words + '\n'; }
  void there(const std::string& words) { tell("there     ", words); }
  // Something that no command needs.
  void not_so(const std::string& words) { tell("not so    ", words); }
  void missing(const std::string& words) {
    tell("MISSING   ", words);
    lacks = true;
  }
};

void look_at_faces(Report& report) {
  int whole = 0;
  for (int face = 0; face < face_count; ++face)
    if (!font_bytes(static_cast<Face>(face)).empty() && shape("Aa", static_cast<Face>(face), 10).width > 0) ++whole;
  const std::string words = "built-in faces, " + std::to_string(whole) + " of " + std::to_string(face_count);
  if (whole == face_count)
    report.there(words);
  else
    report.missing(words + ": pages cannot be set; build the program anew");
}

void look_at_libraries(Report& report) {
  const std::string git = revision_library();
  if (reads_revisions())
    report.there(git + ", for `compare --from` and `--to`");
  else
    report.missing(git + ": `compare --from` and `--to` cannot read git; install libgit2");
  const std::string listener = LENSWARD_LISTENER;
  if (::dlopen(LENSWARD_LISTENER, RTLD_LAZY | RTLD_LOCAL) != nullptr)
    report.there(listener + ", for `preview`");
  else
    report.missing(listener +
                   ": `preview` cannot be shown; it belongs beside the program, and needs the libraries "
                   "cpp-httplib and qrencode");
}

void look_at_folder(Report& report) {
  if (::access(".", W_OK | X_OK) == 0)
    report.there("this folder can be written to");
  else
    report.not_so("this folder cannot be written to: name another after `-o`");
}

// POSIX: the first of these that is set to anything.
bool is_utf8() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') continue;
    std::string words = value;
    for (char& c : words) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return words.find("UTF-8") != std::string::npos || words.find("UTF8") != std::string::npos;
  }
  return false;
}

void look_at_terminal(const Surroundings& around, Report& report) {
  if (::isatty(STDOUT_FILENO) != 1)
    report.not_so("standard output is no terminal: findings come without colour");
  else if (around.colour)
    report.there("standard output is a terminal with colour");
  else
    report.not_so("standard output is a terminal that wants no colour (TERM, NO_COLOR)");
  if (is_utf8())
    report.there("UTF-8 by the locale");
  else
    report.not_so("the locale does not say UTF-8 (LC_ALL, LC_CTYPE, LANG): letters beyond English may show wrong");
}

}  // namespace

int command_doctor(Surroundings& around) {
  Report report;
  report.tell("lensward  ", LENSWARD_VERSION);
  look_at_faces(report);
  look_at_libraries(report);
  look_at_folder(report);
  look_at_terminal(around, report);
  put("-", report.lines, around);
  return report.lacks ? 1 : 0;
}

}  // namespace lensward
