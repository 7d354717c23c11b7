// The commands: one file each. A command gives the exit status, 0 or 1, and throws CannotRun for 2.
#pragma once

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "cli/pipeline.h"
#include "source/host.h"

namespace lensward {

// Why a command could not do its work, in words for the writer.
class CannotRun : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// What a command works with besides its options.
struct Surroundings {
  Host& host;
  bool colour = false;    // of standard output
  bool progress = false;  // somebody watches standard error
  // Of all that a command compiles.
  std::shared_ptr<BeatsKnown> known = std::make_shared<BeatsKnown>();
};

struct CheckOptions {
  std::vector<std::string> files;
  std::string as = "text";
  std::string bar = "error";
};
int command_check(const CheckOptions& options, Surroundings& around);

struct BookOptions {
  std::string file, output;
};
int command_book(const BookOptions& options, Surroundings& around);

struct PageOptions {
  std::string file, output;
};
int command_page(const PageOptions& options, Surroundings& around);

// Shows a scene, or the scenes of a folder, to browsers of this machine while it is being written, until it is told to
// end. With `phone` to the network it is in.
struct PreviewOptions {
  std::string path;
  int port = 0;  // 0: any that is free
  bool phone = false;
};
int command_preview(const PreviewOptions& options, Surroundings& around);

struct SheetsOptions {
  std::string file, folder;
  std::vector<std::string> whom;  // departments; empty: all
  std::string lengths = "metres";
};
int command_sheets(const SheetsOptions& options, Surroundings& around);

struct PinOptions {
  std::string file, marks;  // a scene, and a CSV file
  bool write = false;
};
int command_pin(const PinOptions& options, Surroundings& around);

struct CoverageOptions {
  std::string file;
  std::string as = "text";
};
int command_coverage(const CoverageOptions& options, Surroundings& around);

// `floor` and `frame`.
struct PictureOptions {
  std::string file, output, format;
  std::optional<std::string> beat, at;
};
int command_floor(const PictureOptions& options, Surroundings& around);
int command_frame(const PictureOptions& options, Surroundings& around);

struct ExplainOptions {
  std::string what;  // a rule, FILE or FILE:LINE
  std::optional<std::string> beat, at;
  bool csv = false;
};
int command_explain(const ExplainOptions& options, Surroundings& around);

struct DumpOptions {
  std::string waist, file;
  std::string as = "text";
  std::optional<std::string> beat, at;
  bool solids = false;  // of `view`: what is looked at instead of how it is seen
};
int command_dump(const DumpOptions& options, Surroundings& around);

struct TidyOptions {
  std::vector<std::string> files;
  bool check = false, diff = false, write = false;  // at most one
};
int command_tidy(const TidyOptions& options, Surroundings& around);

struct MendOptions {
  std::string file;
  std::optional<int> line;          // findings of this line alone, remarks too
  std::optional<std::string> take;  // "1a,3b": the ways out to show, or to write
  bool write = false;
  std::optional<std::string> output;  // with `take`: frame and floor before and after, a PDF
  std::string as = "text";
};
int command_mend(const MendOptions& options, Surroundings& around);

// Takes messages of an editor on standard input and answers on standard output, until it is told to exit. The status is
// 1 when it was not told to shut down first.
int command_editor(Surroundings& around);

// What a new draft changed. The status is 1 when something did.
struct CompareOptions {
  std::vector<std::string> files;  // two; with `from` one; or the seven or nine words of git's external diff
  std::string as = "text";
  std::optional<std::string> from, to;
  std::optional<std::string> output;  // pages, a PDF
};
int command_compare(const CompareOptions& options, Surroundings& around);

// Tells what is there on this machine and what is missing. The status is 1 when a command lacks something.
int command_doctor(Surroundings& around);

struct NewOptions {
  std::string folder;  // not there yet, or empty
};
// Writes a scene to begin with.
int command_new(const NewOptions& options, Surroundings& around);

// What to do in this folder, for who typed the program's name alone.
void tell_what_is_here(Surroundings& around);

// ---- What several commands share -----------------------------------------------------------------------------------

// Reads and compiles a file, or throws CannotRun with its name and the reason.
Run compiled(const std::string& path, Until until, Surroundings& around);
// Writes to a file or, for "-", to standard output; throws CannotRun.
void put(const std::string& path, std::string_view bytes, Surroundings& around);
// A line to standard error.
void tell(const std::string& words);
// How far long work has come, on one line of standard error that the next call writes over; cleared when done == of.
void tell_progress(const std::string& work, std::size_t done, std::size_t of);
// Throws CannotRun, the findings having been told, when the file holds no scene.
void require_scene(const Run& run, const std::string& path);
// Writes the scene's file anew. Throws CannotRun, nothing being written, when it is no longer the one that was read.
void write_back(const std::string& path, const std::string& old_text, const std::string& new_text,
                Surroundings& around);
// Throws CannotRun when output would replace the scene it is made from.
void require_other_file(const std::string& input, const std::string& output);

}  // namespace lensward
