#include "cli/moment_asked.h"
#include "cli/picture.h"
#include "pages/lay_out.h"

namespace lensward {

int command_frame(const PictureOptions& options, Surroundings& around) {
  format_of(options);
  require_other_file(options.file, options.output);
  const Run run = compiled(options.file, Until::verdicts, around);
  require_scene(run, options.file);
  put_picture(run, lay_out_frame(run.results(), moment_asked(run, options.beat, options.at).moment), options, around);
  return 0;
}

}  // namespace lensward
