#include "cli/undrawn_text.h"

#include <algorithm>

#include "pages/undrawn.h"

namespace lensward {
namespace {

const Person* person_called(const Plan& plan, const std::string& word) {
  const auto found = std::ranges::find(plan.stage.people, word, &Person::name);
  return found == plan.stage.people.end() ? nullptr : &*found;
}

std::string next_step(const Run& run, const std::string& word) {
  std::string latin = "write it in Latin, Greek or Cyrillic letters";
  const Person* person = person_called(run.plan, word);
  if (person == nullptr || (!person->called.empty() && person->called != person->name)) return latin;
  return latin + ", or where people are named: `person " + word + ", called \"...\"`";
}

std::string line_on(const Run& run, const UndrawnWord& undrawn) {
  std::string letters;
  for (const std::string& letter : undrawn.letters) letters += (letters.empty() ? "" : ", ") + letter;
  return "warning: the pages have no letters for `" + undrawn.word + "` (" + letters +
         "): boxes stand there, and nobody on the floor can read them; " + next_step(run, undrawn.word);
}

}  // namespace

std::vector<std::string> undrawn_text(const Run& run, const std::vector<Sheet>& sheets) {
  constexpr std::size_t most = 4;
  const std::vector<UndrawnWord> undrawn = undrawn_words(sheets);
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < std::min(most, undrawn.size()); ++i) lines.push_back(line_on(run, undrawn[i]));
  if (undrawn.size() > most) {
    const std::size_t more = undrawn.size() - most;
    lines.push_back("warning: so too " + std::to_string(more) + (more == 1 ? " more word" : " more words"));
  }
  return lines;
}

}  // namespace lensward
