#include "mend/mend_text.h"

#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "source/character.h"

namespace lensward {
namespace {

std::string place_of(const Rehearsal& scene, const Finding& finding) {
  const Position at = scene.sources.begin_of(finding.where);
  return scene.sources.file(finding.where.file).name() + ':' + std::to_string(at.line) + ':' +
         std::to_string(at.column);
}

// "leads by 9.4 points" or "trails by 3 points".
std::string lead_words(Points lead) {
  return lead < Points{} ? "trails by " + text_of(Points{-lead.value}) : "leads by " + text_of(lead);
}

std::string gain_words(const Finding& finding, const WayOut& way) {
  std::string words;
  const bool names = !finding.subject.people.empty();
  if (way.lead_before && way.lead_after && names && Points{1} < *way.lead_after - *way.lead_before) {
    words = '`' + finding.subject.people.front() + "` " + lead_words(*way.lead_after) + " where it " +
            lead_words(*way.lead_before) + " now";
  }
  if (way.mends.size() > 1) {
    if (!words.empty()) words += "; ";
    words += "mends " + counted(static_cast<int>(way.mends.size()) - 1, "other finding", "other findings") + " too";
  }
  return words;
}

void add_way(const Finding& finding, const WayOut& way, const std::string& name, std::string& text) {
  text += "  " + name + "  ";
  text += way.department ? name_of(*way.department) : "spelling";
  const std::string gain = gain_words(finding, way);
  text += gain.empty() ? "\n" : ": " + gain + '\n';
  for (const LineTyped& line : way.lines) {
    const std::string number = std::to_string(line.line);
    text += line.instead ? "        in line " + number : "        below line " + number;
    text += ": " + printable(line.words) + '\n';
  }
}

std::string nothing_words(const Trouble& trouble) {
  if (trouble.goes_with)
    return "  " + name_of_way(trouble.goes_with->first, trouble.goes_with->second) + " mends it too\n";
  if (trouble.tried == 0) return "  nothing to try: no line that the program knows of bears on it\n";
  return "  none of " + counted(trouble.tried, "change that was tried mends", "changes that were tried mends") +
         " it without harm to something else\n";
}

}  // namespace

std::string name_of_way(std::size_t trouble, std::size_t way) {
  return std::to_string(trouble + 1) + static_cast<char>('a' + static_cast<char>(way));
}

std::string mending_text(const Rehearsal& scene, const std::vector<Trouble>& troubles) {
  std::string text;
  int mended = 0;
  for (std::size_t i = 0; i < troubles.size(); ++i) {
    const Finding& finding = scene.findings.all()[static_cast<std::size_t>(troubles[i].finding)];
    text += place_of(scene, finding) + ": " + name_of(finding.severity) + ": " + printable(finding.message) + " [" +
            finding.rule + "]\n";
    for (std::size_t way = 0; way < troubles[i].ways.size(); ++way)
      add_way(finding, troubles[i].ways[way], name_of_way(i, way), text);
    if (troubles[i].ways.empty()) text += nothing_words(troubles[i]);
    mended += troubles[i].ways.empty() && !troubles[i].goes_with ? 0 : 1;
    text += '\n';
  }
  if (troubles.empty()) return "nothing to mend\n";
  return text + counted(mended, "finding", "findings") + " of " + std::to_string(troubles.size()) +
         (mended == 0
              ? " can be mended by a line or two\n"
              : " can be mended by a line or two; `--take NAMES` shows the change, with `--write` it is made\n");
}

}  // namespace lensward
