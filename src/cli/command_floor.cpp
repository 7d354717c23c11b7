#include "cli/moment_asked.h"
#include "cli/picture.h"
#include "pages/lay_out.h"

namespace lensward {

int command_floor(const PictureOptions& options, Surroundings& around) {
  format_of(options);
  require_other_file(options.file, options.output);
  const Run run = compiled(options.file, Until::verdicts, around);
  require_scene(run, options.file);
  const AskedMoment asked = moment_asked(run, options.beat, options.at);
  put_picture(run, lay_out_floor(run.results(), asked.beat, asked.moment), options, around);
  return 0;
}

}  // namespace lensward
