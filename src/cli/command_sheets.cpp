#include <algorithm>
#include <filesystem>

#include "base/listing.h"
#include "cli/commands.h"
#include "cli/undrawn_text.h"
#include "export/export.h"
#include "pages/crew_pages.h"

namespace lensward {
namespace {

using Files = std::vector<std::pair<std::string, std::string>>;

Lengths lengths_in(const std::string& word) {
  if (word == "feet") return Lengths::feet;
  return word == "both" ? Lengths::both : Lengths::metres;
}

// What all files of the scene begin with.
std::string stem_of(const std::string& file) {
  return file == "-" ? "scene" : std::filesystem::path(file).stem().string();
}

// The tables of a department under one another: those of several people as one, with their names before.
std::vector<CrewTable> joined(const std::vector<CrewSheet>& sheets) {
  std::vector<CrewTable> tables;
  for (const CrewSheet& sheet : sheets)
    for (CrewTable table : sheet.tables) {
      if (sheet.person.known()) {
        table.fields.insert(table.fields.begin(), Field{"person", "who"});
        for (auto& row : table.rows) row.insert(row.begin(), sheet.title);
      }
      const auto known = std::ranges::find(tables, table.key, &CrewTable::key);
      if (known == tables.end())
        tables.push_back(std::move(table));
      else
        known->rows.insert(known->rows.end(), table.rows.begin(), table.rows.end());
    }
  return tables;
}

}  // namespace

int command_sheets(const SheetsOptions& options, Surroundings& around) {
  const Run run = compiled(options.file, Until::verdicts, around);
  require_scene(run, options.file);
  const std::vector<CrewSheet> all = crew_sheets(run.plan);
  const std::string begin = (std::filesystem::path(options.folder) / (stem_of(options.file) + "-")).string();
  Files files;
  std::vector<Sheet> drawn;
  std::vector<std::string> departments;
  for (std::size_t i = 0; i < all.size();) {
    std::vector<CrewSheet> own;
    const CrewSheet::For whom = all[i].whom;
    for (; i < all.size() && all[i].whom == whom; ++i) own.push_back(all[i]);
    const std::string name = spelling(whom);
    if (!options.whom.empty() && std::ranges::find(options.whom, name) == options.whom.end()) continue;
    departments.push_back(name);
    const Book book = lay_out_crew(run.results(), own, lengths_in(options.lengths));
    files.emplace_back(begin + name + ".pdf", to_pdf(book));
    for (const CrewTable& table : joined(own))
      files.emplace_back(begin + name + "-" + table.key + ".csv", to_csv(table));
    drawn.insert(drawn.end(), book.sheets.begin(), book.sheets.end());
  }
  if (files.empty())
    throw CannotRun("`" + run.plan.facts.name + "` has nothing for them; leave --for out to see what there is");
  std::error_code error;
  std::filesystem::create_directories(options.folder, error);
  if (error) throw CannotRun("cannot make the folder " + options.folder + ": " + error.message());
  const auto written = around.host.write_together(files);
  if (const auto* reason = std::get_if<HostError>(&written)) throw CannotRun("cannot write " + reason->reason);
  for (const std::string& line : undrawn_text(run, drawn)) tell(line);
  std::string names;
  for (const auto& [path, bytes] : files)
    if (path.ends_with(".pdf")) names += path + '\n';
  put("-", names, around);
  tell("lensward: sheets for " + listed(departments) + " are in " + options.folder + ", " +
       counted(static_cast<std::int64_t>(drawn.size()), "page", "pages") + "; the tables beside them as CSV");
  return 0;
}

}  // namespace lensward
