// What each name of the scene stands for.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "findings/finding.h"
#include "plan/stage.h"
#include "syntax/script.h"

namespace lensward {

// A group of people, by its own name.
struct GroupId {
  int index = -1;
  bool operator==(const GroupId&) const = default;
};

using Named =
    std::variant<PersonId, PieceId, PropId, LampId, CameraId, OpeningId, WallId, StoryId, GroupId, Id<Spot>, Id<Lens>>;

class Names {
 public:
  // False when the name is taken already.
  bool declare(const Name& name, Named what);
  // Exact match; seats ("Bench.2") give their piece. Nothing when unknown.
  std::optional<Named> find(std::string_view name) const;
  // The nearest known name, for "did you mean": nothing when none is near.
  std::optional<std::string> nearest(std::string_view name) const;
  const std::vector<PersonId>& members(GroupId group) const;
  GroupId add_group(std::vector<PersonId> people);
  // Requires a group of these names.
  void set_members(GroupId group, std::vector<PersonId> people);

 private:
  std::map<std::string, Named, std::less<>> by_name_;
  std::vector<std::vector<PersonId>> groups_;
};

// Looks a name up and reports `name.unknown` (once a name, counting the further places) or `name.wrong-kind`.
// `Wanted` is one of Named's alternatives.
template <class Wanted>
std::optional<Wanted> resolve(const Names& names, const Name& name, Findings& findings);

// The same for a name that may stand for anything: only an unknown one is reported. `declared`: how the line would
// begin that declares what stands there most often.
std::optional<Named> resolve_any(const Names& names, const Name& name, Findings& findings,
                                 const char* declared = "people ");

// The people of a list of names, groups taken apart, each once, in the order written. Unknown names are reported.
std::vector<PersonId> people_named(const Names& names, const std::vector<Name>& list, Findings& findings);

// The seat a path names, counted from 1: 2 of "Bench.2"; nothing without one.
std::optional<int> seat_in(std::string_view path);

// "a person", "a door or window": what a name stands for, in words for the writer.
const char* kind_of(const Named& named);

}  // namespace lensward
