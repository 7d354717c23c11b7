// Reads the command line and hands over to one command. Data goes to standard output, messages to standard error.
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

#include <CLI/CLI.hpp>
#include <csignal>
#include <cstdlib>
#include <cstring>

#include "cli/commands.h"
#include "cli/real_host.h"

namespace lensward {
namespace {

constexpr const char* time_help = "12.4 or 1:02.5 from the start of the scene; +2.5 from the top of the beat";

// All that the command line can say.
struct Options {
  CheckOptions check;
  BookOptions book;
  PageOptions page;
  PreviewOptions preview;
  SheetsOptions sheets;
  CoverageOptions coverage;
  PinOptions pin;
  PictureOptions floor, frame;
  ExplainOptions explain;
  DumpOptions dump;
  TidyOptions tidy;
  MendOptions mend;
  CompareOptions compare;
  NewOptions first;
};

void add_check(CLI::App& app, CheckOptions& options) {
  auto* command = app.add_subcommand("check", "Tell what is wrong with the staging, and who has the eye instead");
  command->add_option("FILE", options.files, "staging files; - is standard input")->required()->type_name("");
  command->add_option("--as", options.as, "text, lines (one a finding) or json")
      ->check(CLI::IsMember({"text", "lines", "json"}));
  command->add_option("--bar", options.bar, "exit with 1 for findings at or above it: error, warning or remark")
      ->check(CLI::IsMember({"error", "warning", "remark"}));
}

void add_book(CLI::App& app, BookOptions& options) {
  auto* command = app.add_subcommand("book", "Make the staging book: overheads, frames, lines and charts, as PDF");
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("-o,--output", options.output, "the PDF to write; - is standard output")
      ->required()
      ->type_name("PDF");
}

void add_page(CLI::App& app, PageOptions& options) {
  auto* command = app.add_subcommand("page", "Make one HTML file that plays the scene, for a phone on the set");
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("-o,--output", options.output, "the HTML to write; - is standard output")
      ->required()
      ->type_name("HTML");
}

void add_preview(CLI::App& app, PreviewOptions& options) {
  auto* command = app.add_subcommand("preview", "Show the scene in a browser while it is being written");
  command->add_option("FILE|FOLDER", options.path, "a staging file, or a folder: the scene saved last is shown")
      ->required()
      ->type_name("");
  command->add_option("--port", options.port, "the port to listen on; else one that is free")
      ->check(CLI::Range(1, 65535))
      ->type_name("N");
  command->add_flag("--phone", options.phone,
                    "let the local network look, and print the address as a QR code; else only this machine");
}

void add_sheets(CLI::App& app, SheetsOptions& options) {
  auto* command = app.add_subcommand("sheets", "Write what each department takes away: PDF pages and CSV tables");
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("-o,--output", options.folder, "the folder to write them in; it is made when it is not there")
      ->required()
      ->type_name("DIR");
  command
      ->add_option("--for", options.whom,
                   "only these: actors, marks, camera, grip, light, sound, props, wardrobe, script, assistant")
      ->delimiter(',')
      ->check(CLI::IsMember(
          {"actors", "marks", "camera", "grip", "light", "sound", "props", "wardrobe", "script", "assistant"}))
      ->type_name("NAMES");
  command->add_option("--lengths", options.lengths, "metres, feet or both, on the pages; CSV files hold metres")
      ->check(CLI::IsMember({"metres", "feet", "both"}));
}

void add_coverage(CLI::App& app, CoverageOptions& options) {
  auto* command = app.add_subcommand("coverage", "What covering the scene with cuts would take, beside the held frame");
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("--as", options.as, "text or json")->check(CLI::IsMember({"text", "json"}));
}

void add_pin(CLI::App& app, PinOptions& options) {
  auto* command = app.add_subcommand("pin", "Take marks as they were measured on the day, and tell what they change");
  command->add_option("FILE", options.file, "a staging file")->required()->type_name("");
  command
      ->add_option("--from", options.marks,
                   "CSV with the columns mark, mark_first_m, mark_second_m, as `sheets` writes them")
      ->required()
      ->type_name("CSV");
  command->add_flag("--write", options.write, "write the measured places into FILE");
}

void add_picture(CLI::App& app, const char* name, const char* words, PictureOptions& options) {
  auto* command = app.add_subcommand(name, words);
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("-o,--output", options.output, "the picture to write: .svg, .png or .pdf; - with --format")
      ->required()
      ->type_name("PICTURE");
  command->add_option("--beat", options.beat, "the beat, by name")->type_name("NAME");
  command->add_option("--at", options.at, time_help)->type_name("TIME");
  command->add_option("--format", options.format, "svg, png or pdf")->check(CLI::IsMember({"svg", "png", "pdf"}));
}

void add_explain(CLI::App& app, ExplainOptions& options) {
  auto* command = app.add_subcommand("explain", "Say why: a rule, a line, or the reckoning of the eye at a moment");
  command
      ->add_option(
          "RULE|FILE|FILE:LINE", options.what,
          "a rule's name (rules: all of them), a staging file, or one line of it; with a time, the reckoning too")
      ->required()
      ->type_name("");
  command->add_option("--beat", options.beat, "the beat, by name")->type_name("NAME");
  command->add_option("--at", options.at, time_help)->type_name("TIME");
  command->add_flag("--csv", options.csv, "everyone's place in the picture, points and share, over time");
}

void add_dump(CLI::App& app, DumpOptions& options) {
  auto* command = app.add_subcommand("dump", "Print what a stage made, for tests and for the curious");
  command->add_option("STAGE", options.waist, "syntax, plan, view, emphasis or sheet")
      ->required()
      ->check(CLI::IsMember({"syntax", "plan", "view", "emphasis", "sheet"}));
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("--beat", options.beat, "the beat, by name")->type_name("NAME");
  command->add_option("--at", options.at, time_help)->type_name("TIME");
  command->add_option("--as", options.as, "text or json")->check(CLI::IsMember({"text", "json"}));
  command->add_flag("--solids", options.solids, "of view: the solids in the room, for others to draw");
}

void add_tidy(CLI::App& app, TidyOptions& options) {
  auto* command = app.add_subcommand("tidy", "Write staging files in the one style, without changing what they say");
  command->add_option("FILE", options.files, "staging files; - is standard input")->required()->type_name("");
  auto* check = command->add_flag("--check", options.check, "only name the files that would change, and exit with 1");
  auto* diff = command->add_flag("--diff", options.diff, "only show what would change");
  auto* write = command->add_flag("--write", options.write, "write the files that change, and name them");
  check->excludes(diff, write);
  diff->excludes(write);
}

void add_mend(CLI::App& app, MendOptions& options) {
  auto* command = app.add_subcommand("mend", "Find lines that mend what is wrong, each tried in the whole scene");
  command->add_option("FILE", options.file, "a staging file; - is standard input")->required()->type_name("");
  command->add_option("--line", options.line, "only what is told of this line, remarks too")->type_name("LINE");
  command->add_option("--take", options.take, "show the change that these make: 1a, or 1a,3b")->type_name("NAMES");
  command->add_flag("--write", options.write, "with --take: make the change in the file");
  command->add_option("-o,--output", options.output, "with --take: frame and floor before and after, a PDF")
      ->type_name("OUTPUT");
  command->add_option("--as", options.as, "text or json")->check(CLI::IsMember({"text", "json"}));
}

void add_compare(CLI::App& app, CompareOptions& options) {
  auto* command = app.add_subcommand("compare", "Tell what a new draft of a scene changed on the floor");
  command->add_option("FILE", options.files, "OLD and NEW; with --from the one file; - is standard input")
      ->required()
      ->type_name("");
  command->add_option("--as", options.as, "text, markdown or json")->check(CLI::IsMember({"text", "markdown", "json"}));
  command->add_option("-o,--output", options.output, "also both drafts side by side, a PDF; - is standard output")
      ->type_name("OUTPUT");
  command->add_option("--from", options.from, "the old draft is the file in this git revision")->type_name("REVISION");
  command->add_option("--to", options.to, "the new draft too, instead of the file as it is now")->type_name("REVISION");
}

void add_new(CLI::App& app, NewOptions& options) {
  auto* command = app.add_subcommand("new", "Write a first scene, with three slips to mend, in a new folder");
  command->add_option("DIR", options.folder, "a folder that is not there yet, or empty")->required()->type_name("");
}

void add_editor(CLI::App& app) {
  auto* command = app.add_subcommand("editor", "Tell an editor what `check` finds, while the scene is written");
  command->footer(
      "It speaks the Language Server Protocol 3.17 on standard input and output; docs/editor.md has the\n"
      "settings for editors.");
}

void add_doctor(CLI::App& app) {
  app.add_subcommand("doctor", "Tell what is there on this machine, and what a command would miss");
}

void add_commands(CLI::App& app, Options& options) {
  app.set_version_flag("--version", "lensward " LENSWARD_VERSION);
  app.require_subcommand(1);
  add_check(app, options.check);
  add_book(app, options.book);
  add_page(app, options.page);
  add_preview(app, options.preview);
  add_sheets(app, options.sheets);
  add_coverage(app, options.coverage);
  add_pin(app, options.pin);
  add_picture(app, "floor", "Draw one overhead of a beat", options.floor);
  add_picture(app, "frame", "Draw one frame as the camera sees it", options.frame);
  add_explain(app, options.explain);
  add_dump(app, options.dump);
  add_tidy(app, options.tidy);
  add_mend(app, options.mend);
  add_compare(app, options.compare);
  add_new(app, options.first);
  add_editor(app);
  add_doctor(app);
}

int run_command(const std::string& name, const Options& options, Surroundings& around) {
  if (name == "check") return command_check(options.check, around);
  if (name == "book") return command_book(options.book, around);
  if (name == "page") return command_page(options.page, around);
  if (name == "preview") return command_preview(options.preview, around);
  if (name == "sheets") return command_sheets(options.sheets, around);
  if (name == "pin") return command_pin(options.pin, around);
  if (name == "coverage") return command_coverage(options.coverage, around);
  if (name == "floor") return command_floor(options.floor, around);
  if (name == "frame") return command_frame(options.frame, around);
  if (name == "explain") return command_explain(options.explain, around);
  if (name == "tidy") return command_tidy(options.tidy, around);
  if (name == "mend") return command_mend(options.mend, around);
  if (name == "compare") return command_compare(options.compare, around);
  if (name == "new") return command_new(options.first, around);
  if (name == "editor") return command_editor(around);
  if (name == "doctor") return command_doctor(around);
  return command_dump(options.dump, around);
}

// NO_COLOR counts when it is set to anything but nothing (no-color.org).
bool wants_colour() {
  const char* refused = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return ::isatty(STDOUT_FILENO) == 1 && !(refused && *refused) && !(terminal && std::strcmp(terminal, "dumb") == 0);
}

int run_parsed(const CLI::App& app, const Options& options) {
  RealHost host;
  Surroundings around{.host = host, .colour = wants_colour(), .progress = ::isatty(STDERR_FILENO) == 1};
  try {
    return run_command(app.get_subcommands().front()->get_name(), options, around);
  } catch (const CannotRun& reason) {
    tell(std::string("lensward: ") + reason.what());
  } catch (const std::exception& fault) {
    tell(std::string("lensward: a fault of the program itself: ") + fault.what());
  }
  return 2;
}

// The library would only say that a command is missing.
bool is_unknown_command(const CLI::App& app, const std::string& word) {
  const auto named = app.get_subcommands([&](const CLI::App* command) { return command->get_name() == word; });
  return !word.starts_with('-') && named.empty();
}

int run(int argc, char** argv) {
  // A write past the limit of file sizes must fail like any other, not kill the program halfway.
  std::signal(SIGXFSZ, SIG_IGN);
  CLI::App app("Compiles staging scripts: checks whether the eye goes where it must, and draws the staging book.",
               "lensward");
  Options options;
  add_commands(app, options);
  if (argc < 2) {
    RealHost host;
    Surroundings around{.host = host};
    tell_what_is_here(around);
    return 2;
  }
  if (is_unknown_command(app, argv[1])) {
    tell(std::string("lensward: there is no command `") + argv[1] + "`; `lensward --help` lists them");
    return 2;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& answer) {
    // Help and version come this way too, with a code of 0.
    if (answer.get_exit_code() == 0) return app.exit(answer);
    tell(std::string("lensward: ") + answer.what() + "; `lensward --help` or `lensward COMMAND --help` tells more");
    return 2;
  }
  return run_parsed(app, options);
}

// A run is short: memory that was given back is wanted again at once, and is kept.
void keep_memory() {
#ifdef __GLIBC__
  constexpr int megabyte = 1 << 20;
  mallopt(M_TRIM_THRESHOLD, 256 * megabyte);
  mallopt(M_MMAP_THRESHOLD, 32 * megabyte);
  mallopt(M_TOP_PAD, 4 * megabyte);
#endif
}

}  // namespace
}  // namespace lensward

int main(int argc, char** argv) {
  lensward::keep_memory();
  return lensward::run(argc, argv);
}
