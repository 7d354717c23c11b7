#include "plan/names.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

#include "syntax/everyday_words.h"

namespace lensward {
namespace {

char lowered(char letter) { return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter; }

// Letters added, dropped, changed or swapped with a neighbour (optimal string alignment), capitals not counting.
std::size_t slips_between(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> table(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) table[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) table[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = lowered(a[i - 1]) == lowered(b[j - 1]);
      table[i][j] = std::min({table[i - 1][j] + 1, table[i][j - 1] + 1, table[i - 1][j - 1] + (same ? 0 : 1)});
      const bool swapped =
          i > 1 && j > 1 && lowered(a[i - 1]) == lowered(b[j - 2]) && lowered(a[i - 2]) == lowered(b[j - 1]);
      if (swapped) table[i][j] = std::min(table[i][j], table[i - 2][j - 2] + 1);
    }
  }
  return table[a.size()][b.size()];
}

// One letter changed makes another name of a name of one letter; capitals may always differ.
std::size_t slips_allowed(std::string_view name) { return name.size() < 2 ? 0 : name.size() < 6 ? 1 : 2; }

std::string small(std::string_view name) {
  std::string word;
  for (const char letter : name) word += lowered(letter);
  return word;
}

struct KindWords {
  const char* wanted;
  const char* declared;
};

// By the place of the alternative in Named.
constexpr std::array<KindWords, 11> kind_words{{
    {"a person", "people "},
    {"a piece of furniture", "furniture "},
    {"a prop", "prop "},
    {"a light", "light "},
    {"a camera", "camera "},
    {"a door or window", "door "},
    {"a wall", "wall "},
    {"a story", "story "},
    {"a group", "group "},
    {"a spot on the floor", "mark "},
    {"a lens", "lens "},
}};
static_assert(kind_words.size() == std::variant_size_v<Named>);

std::string in_ticks(std::string_view name) { return '`' + std::string(name) + '`'; }

// One finding a name: a second place is a label on the first, so that one slip does not fill the page.
void report_unknown(const Names& names, const Name& name, const char* declared, Findings& findings) {
  const std::string message = "nothing is called " + in_ticks(name.text);
  for (Finding& earlier : findings.all()) {
    if (earlier.rule != "name.unknown" || earlier.message.compare(0, message.size(), message) != 0) continue;
    const bool counted =
        earlier.where == name.span || std::any_of(earlier.labels.begin(), earlier.labels.end(),
                                                  [&](const Label& label) { return label.where == name.span; });
    if (counted) return;
    earlier.labels.push_back({name.span, "here too"});
    const std::size_t more = earlier.labels.size();
    earlier.message = message + ", here and in " + std::to_string(more) + (more == 1 ? " more place" : " more places");
    return;
  }
  Finding finding;
  finding.rule = "name.unknown";
  finding.where = name.span;
  finding.message = message;
  finding.on_set = "a line about nobody places nobody, and its beat is not judged";
  if (is_pronoun(small(name.text))) {
    finding.next_step = "write the name itself: the language has no pronouns";
  } else if (is_all(small(name.text))) {
    finding.next_step = "write `everyone`, or each name";
  } else if (const auto near = names.nearest(name.text)) {
    finding.next_step = "did you mean " + in_ticks(*near);
    finding.repairs.push_back({Repair::Kind::choice, "write " + in_ticks(*near), {{name.span, *near}}});
  } else {
    finding.next_step = "declare it above the first beat: " + in_ticks(declared + name.text);
  }
  findings.add(std::move(finding));
}

template <class Wanted, std::size_t index = 0>
constexpr std::size_t place_in_named() {
  if constexpr (std::is_same_v<Wanted, std::variant_alternative_t<index, Named>>) {
    return index;
  } else {
    return place_in_named<Wanted, index + 1>();
  }
}

void report_wrong_kind(const Name& name, const Named& named, const char* wanted, Findings& findings) {
  Finding finding;
  finding.rule = "name.wrong-kind";
  finding.where = name.span;
  finding.message = in_ticks(name.text) + " is " + kind_of(named) + "; " + wanted + " must stand here";
  finding.next_step = std::string("name ") + wanted + " in its place";
  findings.add(std::move(finding));
}

}  // namespace

bool Names::declare(const Name& name, Named what) { return by_name_.emplace(name.text, what).second; }

std::optional<Named> Names::find(std::string_view name) const {
  if (const auto found = by_name_.find(name); found != by_name_.end()) return found->second;
  if (!seat_in(name)) return std::nullopt;
  const auto found = by_name_.find(name.substr(0, name.rfind('.')));
  if (found == by_name_.end() || !std::holds_alternative<PieceId>(found->second)) return std::nullopt;
  return found->second;
}

std::optional<std::string> Names::nearest(std::string_view name) const {
  // A name longer than this is no slip of the hand, and comparing it would take its length squared.
  if (name.size() > 64) return std::nullopt;
  std::optional<std::string> nearest;
  std::size_t least = slips_allowed(name) + 1;
  for (const auto& [known, what] : by_name_) {
    if (known.size() > 64) continue;
    const std::size_t slips = slips_between(name, known);
    if (slips >= least) continue;
    least = slips;
    nearest = known;
  }
  return nearest;
}

const std::vector<PersonId>& Names::members(GroupId group) const {
  static const std::vector<PersonId> nobody;
  const auto index = static_cast<std::size_t>(group.index);
  return index < groups_.size() ? groups_[index] : nobody;
}

GroupId Names::add_group(std::vector<PersonId> people) {
  groups_.push_back(std::move(people));
  return GroupId{static_cast<int>(groups_.size()) - 1};
}

void Names::set_members(GroupId group, std::vector<PersonId> people) {
  groups_[static_cast<std::size_t>(group.index)] = std::move(people);
}

template <class Wanted>
std::optional<Wanted> resolve(const Names& names, const Name& name, Findings& findings) {
  const KindWords& wanted = kind_words[place_in_named<Wanted>()];
  const std::optional<Named> found = names.find(name.text);
  if (!found) {
    report_unknown(names, name, wanted.declared, findings);
    return std::nullopt;
  }
  if (const Wanted* fitting = std::get_if<Wanted>(&*found)) return *fitting;
  report_wrong_kind(name, *found, wanted.wanted, findings);
  return std::nullopt;
}

template std::optional<PersonId> resolve(const Names&, const Name&, Findings&);
template std::optional<PieceId> resolve(const Names&, const Name&, Findings&);
template std::optional<PropId> resolve(const Names&, const Name&, Findings&);
template std::optional<LampId> resolve(const Names&, const Name&, Findings&);
template std::optional<CameraId> resolve(const Names&, const Name&, Findings&);
template std::optional<OpeningId> resolve(const Names&, const Name&, Findings&);
template std::optional<WallId> resolve(const Names&, const Name&, Findings&);
template std::optional<StoryId> resolve(const Names&, const Name&, Findings&);
template std::optional<GroupId> resolve(const Names&, const Name&, Findings&);
template std::optional<Id<Spot>> resolve(const Names&, const Name&, Findings&);
template std::optional<Id<Lens>> resolve(const Names&, const Name&, Findings&);

std::optional<Named> resolve_any(const Names& names, const Name& name, Findings& findings, const char* declared) {
  std::optional<Named> found = names.find(name.text);
  if (!found) report_unknown(names, name, declared, findings);
  return found;
}

std::vector<PersonId> people_named(const Names& names, const std::vector<Name>& list, Findings& findings) {
  std::vector<PersonId> people;
  const auto add = [&](PersonId person) {
    if (std::find(people.begin(), people.end(), person) == people.end()) people.push_back(person);
  };
  for (const Name& name : list) {
    const std::optional<Named> found = names.find(name.text);
    if (found && std::holds_alternative<GroupId>(*found)) {
      for (PersonId person : names.members(std::get<GroupId>(*found))) add(person);
    } else if (const auto person = resolve<PersonId>(names, name, findings)) {
      add(*person);
    }
  }
  return people;
}

std::optional<int> seat_in(std::string_view path) {
  const std::size_t dot = path.rfind('.');
  if (dot == std::string_view::npos || dot + 1 == path.size() || path.size() - dot > 4) return std::nullopt;
  int seat = 0;
  for (char digit : path.substr(dot + 1)) {
    if (digit < '0' || digit > '9') return std::nullopt;
    seat = seat * 10 + (digit - '0');
  }
  return seat;
}

const char* kind_of(const Named& named) { return kind_words[named.index()].wanted; }

}  // namespace lensward
