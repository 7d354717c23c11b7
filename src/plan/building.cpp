#include "plan/building.h"

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"

namespace lensward {

Finding& report(Building& building, std::string rule, Severity severity, Span where, std::string message,
                std::string next_step) {
  Finding finding;
  finding.rule = std::move(rule);
  finding.severity = severity;
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  finding.subject = building.subject;
  return building.findings.add(std::move(finding));
}

void assume(Building& building, std::string what, std::string pin, Span where, const char* rule, Settled settled) {
  if (building.told_once[what]++ > 0) return;
  const bool opening = building.subject.beat.empty() || settled == Settled::in_the_opening;
  const std::string place = opening ? ", in the opening: `" : ": `";
  report(building, rule, Severity::remark, where, what,
         pin.empty() ? std::string{} : "to settle it" + place + pin + "`");
  building.plan.assumptions.push_back({std::move(what), std::move(pin), where});
}

std::vector<PersonId> people_of(Building& building, const Name& name) {
  const std::optional<Named> named = building.names.find(name.text);
  if (named) {
    if (const auto* group = std::get_if<GroupId>(&*named)) return building.names.members(*group);
  }
  const std::optional<PersonId> person = resolve<PersonId>(building.names, name, building.findings);
  return person ? std::vector<PersonId>{*person} : std::vector<PersonId>{};
}

std::vector<PersonId> people_of(Building& building, const Who& who, Moment moment) {
  std::vector<PersonId> people;
  const auto add = [&](PersonId person) {
    if (std::find(people.begin(), people.end(), person) == people.end()) people.push_back(person);
  };
  if (!who.everyone) {
    for (const Name& name : who.names) {
      for (const PersonId person : people_of(building, name)) add(person);
    }
    return people;
  }
  std::vector<PersonId> left_out;
  for (const Name& name : who.but) {
    const std::vector<PersonId> more = people_of(building, name);
    left_out.insert(left_out.end(), more.begin(), more.end());
  }
  for (std::size_t i = 0; i < building.plan.people.size(); ++i) {
    const PersonId person{static_cast<int>(i)};
    if (std::find(left_out.begin(), left_out.end(), person) != left_out.end()) continue;
    if (person_at(building.plan, person, moment).present) add(person);
  }
  return people;
}

const std::string& name_of(const Building& building, PersonId person) {
  return building.plan.stage.people[static_cast<std::size_t>(person.index)].name;
}

std::vector<PersonState> states_at(const Building& building, Moment moment) {
  std::vector<PersonState> states;
  states.reserve(building.plan.people.size());
  for (std::size_t i = 0; i < building.plan.people.size(); ++i) {
    states.push_back(person_at(building.plan, PersonId{static_cast<int>(i)}, moment));
  }
  return states;
}

PlaceContext place_context(const Building& building, const std::vector<PersonState>& states, PersonId subject,
                           Moment moment) {
  PlaceContext context{building.plan, building.names, states, {}, subject, std::nullopt};
  context.camera = camera_at(building.plan, on_air(building.plan, moment), moment);
  if (!subject.known()) return context;
  const auto index = static_cast<std::size_t>(subject.index);
  if (!building.plan.people[index].feet.empty()) context.coming_from = states[index].at;
  return context;
}

void occupy(Building& building, int who, LaneKind lane, Occupant occupant) {
  const auto key = std::pair(who, lane);
  const auto found = building.occupied.find(key);
  if (found != building.occupied.end()) {
    const Occupant& before = found->second;
    const bool overlap = before.begin <= occupant.begin && occupant.begin < before.end;
    if (overlap && !before.gives_way && before.said_at != occupant.said_at && occupant.end > occupant.begin) {
      Finding& finding = report(building, "time.lane-clash", Severity::error, occupant.said_at,
                                occupant.deed + " begins at " + text_of(occupant.begin) + " while " + before.deed +
                                    " goes on until " + text_of(before.end),
                                "begin one when the other ends, with `then` or a cue such as `after …`, or delete one");
      finding.at = occupant.begin;
      finding.labels.push_back({before.said_at, text_of(before.begin) + " to " + text_of(before.end)});
    }
  }
  building.occupied.insert_or_assign(key, std::move(occupant));
}

int camera_lanes(const Building& building, CameraId camera) {
  return static_cast<int>(building.plan.people.size()) + camera.index;
}

int lamp_lanes(const Building& building, LampId lamp) {
  return static_cast<int>(building.plan.people.size() + building.plan.cameras.size()) + lamp.index;
}

double figure_told(const Building& building, const std::string& key, double usual) {
  const auto& figures = building.plan.settings.figures;
  const auto found = figures.find(key);
  return found == figures.end() ? usual : found->second;
}

void end_business(Building& building, PersonId person, Moment moment, Hands hands) {
  const auto ends = [&](const OpenBusiness& business) {
    if (business.person != person) return false;
    return business.hands == Hands::both || hands == Hands::both || hands == business.hands;
  };
  for (const OpenBusiness& business : building.open_business) {
    if (!ends(business)) continue;
    Business& deed = building.plan.people[static_cast<std::size_t>(person.index)].hands[business.index];
    deed.end = std::max(deed.begin, moment);
  }
  std::erase_if(building.open_business, ends);
}

std::string text_of_line(const Building& building, Span span) {
  std::string text;
  const std::string_view source = building.sources.text(span);
  bool quoted = false;
  for (std::size_t i = 0; i < source.size(); ++i) {
    // A line of speech may have a comment behind it and further speech below; marks of quotation close on their line.
    if (!quoted && source.substr(i, 2) == "--") i = std::min(source.find('\n', i), source.size());
    if (i == source.size()) break;
    const char c = source[i];
    if (c == '"') quoted = !quoted;
    if (source.substr(i, 3) == "“" || source.substr(i, 3) == "「" || source.substr(i, 2) == "«") quoted = true;
    if (source.substr(i, 3) == "”" || source.substr(i, 3) == "」" || source.substr(i, 2) == "»") quoted = false;
    if (c == '\n') quoted = false;
    const bool blank = c == ' ' || c == '\t' || c == '\r' || c == '\n';
    if (!blank) {
      text += c;
    } else if (!text.empty() && text.back() != ' ') {
      text += ' ';
    }
  }
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace lensward
