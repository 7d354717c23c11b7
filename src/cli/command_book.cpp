#include "cli/commands.h"
#include "cli/undrawn_text.h"
#include "export/export.h"
#include "pages/lay_out.h"
#include "report/text.h"

namespace lensward {

int command_book(const BookOptions& options, Surroundings& around) {
  require_other_file(options.file, options.output);
  const Run run = compiled(options.file, Until::rules, around);
  require_scene(run, options.file);
  const Book book = lay_out_book(run.results());
  put(options.output, to_pdf(book), around);
  for (const std::string& line : undrawn_text(run, book.sheets)) tell(line);
  const std::size_t pages = book.sheets.size();
  tell("The book of `" + run.plan.facts.name + "` is " +
       (options.output == "-" ? "on standard output" : options.output) + ", " + std::to_string(pages) +
       (pages == 1 ? " page" : " pages") + ". Findings: " + counts_in_words(run.sources, run.findings) + ".");
  return 0;
}

}  // namespace lensward
