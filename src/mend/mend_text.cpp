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
  if (words.empty()) words = "mends it";
  return words;
}

// What it costs: told with every way, since whoever takes it will see it.
std::string cost_words(const WayOut& way) {
  std::string words;
  for (const std::string& who : way.come_late) words += "; then `" + who + "` comes late (slow-landing)";
  for (const LostFromPicture& lost : way.leaves) {
    words += "; `" + lost.who + "` is out of the picture for " + text_of(lost.time);
  }
  return words;
}

void add_way(const Finding& finding, const WayOut& way, const std::string& name, std::string& text) {
  text += "  " + name + "  " + gain_of_way(finding, way) + '\n';
  for (const LineTyped& line : way.lines) text += "        " + typed_words(line) + '\n';
}

std::string nothing_words(const Trouble& trouble) {
  if (trouble.goes_with)
    return "  " + name_of_way(trouble.goes_with->first, trouble.goes_with->second) + " mends it too\n";
  if (trouble.tried == 0) return "  nothing to try: no line that the program knows of bears on it\n";
  return "  none of " + counted(trouble.tried, "change that was tried mends", "changes that were tried mends") +
         " it without harm to something else\n";
}

}  // namespace

std::string gain_of_way(const Finding& finding, const WayOut& way) {
  const std::string whose = way.department ? name_of(*way.department) : "spelling";
  return whose + ": " + gain_words(finding, way) + cost_words(way);
}

std::string name_of_way(int trouble, std::size_t way) {
  return std::to_string(trouble) + static_cast<char>('a' + static_cast<char>(way));
}

std::string typed_words(const LineTyped& line) {
  const std::string number = std::to_string(line.line);
  if (!line.instead) return "below line " + number + ": " + printable(line.words);
  const std::string old = '`' + printable(line.old) + '`', now = '`' + printable(line.words) + '`';
  if (line.old.empty()) return "in line " + number + ": " + now + " is put in";
  if (line.words.empty()) return "in line " + number + ": " + old + " is taken out";
  return "in line " + number + ": " + old + " becomes " + now;
}

std::string mending_text(const Rehearsal& scene, const std::vector<Trouble>& troubles) {
  std::string text;
  int mended = 0;
  for (std::size_t i = 0; i < troubles.size(); ++i) {
    const Finding& finding = scene.findings.all()[static_cast<std::size_t>(troubles[i].finding)];
    text += place_of(scene, finding) + ": " + name_of(finding.severity) + ": " + printable(finding.message) + " [" +
            finding.rule + "]\n";
    for (std::size_t way = 0; way < troubles[i].ways.size(); ++way)
      add_way(finding, troubles[i].ways[way], name_of_way(troubles[i].number, way), text);
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
