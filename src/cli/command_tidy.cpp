#include <cstdio>

#include "cli/commands.h"
#include "report/text.h"
#include "syntax/tidy.h"

namespace lensward {
namespace {

struct Outcome {
  bool could = true;     // read, proved and written
  bool readable = true;  // no error of reading
  bool differs = false;
};

void tell_findings(const SourceSet& sources, Findings& findings) {
  sort_findings(findings);
  std::fputs(findings_lines(sources, findings).c_str(), stderr);
}

void hand_over(const TidyOptions& options, const std::string& path, const std::string& old_text, const Tidied& tidied,
               Surroundings& around) {
  const bool differs = tidied.text != old_text;
  if (options.check) {
    if (differs) put("-", path + "\n", around);
  } else if (options.diff) {
    put("-", diff_of(path, old_text, tidied.text, tidied.lines), around);
  } else if (!options.write) {
    put("-", tidied.text, around);
  } else if (differs) {
    put(path, tidied.text, around);
    put("-", path + "\n", around);
  }
}

Outcome tidy_file(const TidyOptions& options, const std::string& path, Surroundings& around) {
  auto bytes = around.host.read(path);
  if (const auto* error = std::get_if<HostError>(&bytes)) {
    tell("lensward: cannot read " + path + ": " + error->reason);
    return {.could = false};
  }
  const std::string old_text = std::get<std::string>(std::move(bytes));
  SourceSet sources;
  Tidied tidied = tidy(sources, sources.add(SourceFile(path, old_text)));
  tell_findings(sources, tidied.findings);
  Outcome outcome;
  outcome.readable = !tidied.findings.any_at_or_above(Severity::error);
  if (!tidied.refusal.empty()) {
    tell("lensward: " + path + " stays as it is: " + tidied.refusal + "; that is a fault of the program");
    outcome.could = false;
    if (options.check || options.diff || options.write) return outcome;
  }
  outcome.differs = tidied.text != old_text;
  hand_over(options, path, old_text, tidied, around);
  return outcome;
}

}  // namespace

int command_tidy(const TidyOptions& options, Surroundings& around) {
  if (options.files.size() > 1 && !options.check && !options.diff && !options.write) {
    throw CannotRun("one file is printed tidied; say --check, --diff or --write for several");
  }
  bool could = true;
  bool clean = true;
  for (const std::string& path : options.files) {
    if (options.write && path == "-") throw CannotRun("standard input cannot be written to; leave --write out");
    const Outcome outcome = tidy_file(options, path, around);
    could = could && outcome.could;
    clean = clean && outcome.readable && !(options.check && outcome.differs);
  }
  if (!could) return 2;
  return clean ? 0 : 1;
}

}  // namespace lensward
