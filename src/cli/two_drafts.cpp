#include "cli/two_drafts.h"

#include <algorithm>

#include "base/listing.h"
#include "export/export.h"

namespace lensward {

void put_two_drafts(const TwoDrafts& drafts, const std::vector<std::string>& of_the_scene,
                    const std::vector<BeatOfBoth>& beats, const std::string& output, Surroundings& around) {
  if (output != "-" && !output.ends_with(".pdf"))
    throw CannotRun("the pages are a PDF; `" + output + "` does not end in .pdf");
  const Book book = lay_out_two_drafts(drafts, of_the_scene, beats);
  put(output, to_pdf(book), around);
  tell("Both drafts are side by side " + (output == "-" ? "on standard output" : "in " + output) + ", " +
       counted(static_cast<std::int64_t>(book.sheets.size()), "page", "pages"));
}

int beat_named(const Plan& plan, const std::string& name) {
  const auto found = std::ranges::find(plan.beats, name, &Beat::name);
  return found == plan.beats.end() ? -1 : static_cast<int>(found - plan.beats.begin());
}

}  // namespace lensward
