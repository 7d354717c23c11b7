#include "cli/commands.h"
#include "live/page.h"
#include "report/text.h"

namespace lensward {

int command_page(const PageOptions& options, Surroundings& around) {
  require_other_file(options.file, options.output);
  const Run run = compiled(options.file, Until::rules, around);
  require_scene(run, options.file);
  PictureBegins begins;
  if (around.progress) begins = [](std::size_t done, std::size_t of) { tell_progress("drawing picture", done, of); };
  const std::string page = page_of(run.results(), begins);
  put(options.output, page, around);
  constexpr std::size_t kilobyte = 1000;
  tell("`" + run.plan.facts.name + "` plays in " + (options.output == "-" ? "standard output" : options.output) + ", " +
       std::to_string((page.size() + kilobyte - 1) / kilobyte) +
       " kB, one file that needs no network. Findings: " + counts_in_words(run.sources, run.findings) + ".");
  return 0;
}

}  // namespace lensward
