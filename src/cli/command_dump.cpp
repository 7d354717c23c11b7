#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/moment_asked.h"
#include "emphasis/dump.h"
#include "lens/dump.h"
#include "lens/see.h"
#include "pages/dump.h"
#include "pages/lay_out.h"
#include "plan/dump.h"
#include "report/outline.h"
#include "syntax/dump.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

Until needed_for(const DumpOptions& options) {
  if (options.waist == "syntax") return Until::syntax;
  if (options.waist == "plan") return Until::plan;
  const bool whole_book = options.waist == "sheet" && !options.beat && !options.at;
  return whole_book ? Until::rules : Until::verdicts;
}

// The overhead of the beat or moment asked for; else every sheet of the book.
Json dump_sheets(const Run& run, const DumpOptions& options) {
  if (options.beat || options.at) {
    const AskedMoment asked = moment_asked(run, options.beat, options.at);
    return dump_sheet(lay_out_floor(run.results(), asked.beat, asked.moment));
  }
  Json sheets = Json::array();
  for (const Sheet& sheet : lay_out_book(run.results()).sheets) sheets.push_back(dump_sheet(sheet));
  return sheets;
}

Json dump_of(const Run& run, const DumpOptions& options) {
  if (options.waist == "syntax") return dump_tree(run.sources, run.tree);
  if (options.waist == "plan") return dump_plan(run.plan);
  if (options.waist == "emphasis") return dump_attention(run.plan, run.attention, run.verdicts);
  require_scene(run, options.file);
  if (options.waist == "view") {
    const Moment moment = moment_asked(run, options.beat, options.at).moment;
    return options.solids ? dump_solids(run.plan, moment) : dump_view(run.plan, see(run.plan, moment));
  }
  return dump_sheets(run, options);
}

}  // namespace

int command_dump(const DumpOptions& options, Surroundings& around) {
  if (options.solids && options.waist != "view") throw CannotRun("--solids goes with `dump view` alone");
  const Run run = compiled(options.file, needed_for(options), around);
  const Json dump = dump_of(run, options);
  put("-", options.as == "json" ? json_text(dump) : outline(dump), around);
  return 0;
}

}  // namespace lensward
