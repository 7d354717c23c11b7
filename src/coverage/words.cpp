#include "coverage/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "plan/called.h"
#include "source/character.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;
using Kind = SetUp::Kind;

const char* kind_name(Kind kind) {
  switch (kind) {
    case Kind::master:
      return "master";
    case Kind::single:
      return "single";
    case Kind::over_shoulder:
      return "over-shoulder";
    case Kind::insert:
      return "insert";
  }
  return "";
}

std::string beats_words(const Plan& plan, const SetUp& set_up) {
  if (set_up.beats.size() == plan.beats.size()) return "every beat";
  std::vector<std::string> names;
  for (const int beat : set_up.beats)
    if (beat >= 0) names.push_back(plan.beats[static_cast<std::size_t>(beat)].name);
  return listed(names);
}

std::string place_words(const SetUp& set_up) {
  if (set_up.kind == Kind::insert) return "";
  const CameraState& camera = set_up.camera;
  std::string words = fmt::format("({}, {}) m, {} up, {:.0f} mm", number(camera.at.x, 1), number(camera.at.y, 1),
                                  text_of(Metres{camera.at.z}), camera.focal.value);
  if (set_up.kind != Kind::master) words += std::string(", looks frame ") + (set_up.looks_right ? "right" : "left");
  return words + (set_up.in_the_way ? "; a wall, furniture or somebody is there" : "");
}

std::string uses_words(const Plan& plan, const SetUp& set_up) {
  const std::string lines = set_up.lines == 0
                                ? set_up.kind == Kind::insert ? "" : "listens, "
                                : counted(set_up.lines, "line", "lines") + ", " + text_of(set_up.spoken) + ", ";
  return lines + "in " + beats_words(plan, set_up);
}

// "3.7 to 8.3 h"
std::string hours_words(const HoursRange& hours) {
  return fmt::format("{} to {} h", number(hours.least, 1), number(hours.most, 1));
}

std::string list_of_set_ups(const Plan& plan, const Coverage& coverage) {
  std::string text;
  for (std::size_t i = 0; i < coverage.set_ups.size(); ++i) {
    const SetUp& set_up = coverage.set_ups[i];
    const std::string place = place_words(set_up);
    text += fmt::format("{:>4}  {}: {}\n", i + 1, set_up_name(plan, set_up), uses_words(plan, set_up));
    if (!place.empty()) text += "      from " + place + '\n';
  }
  return text;
}

std::string counts_of_kinds(const Coverage& coverage) {
  std::vector<std::string> counts;
  const auto count = [&](Kind kind, const char* one, const char* many) {
    const auto of_kind = std::ranges::count(coverage.set_ups, kind, &SetUp::kind);
    if (of_kind > 0) counts.push_back(counted(of_kind, one, many));
  };
  count(Kind::master, "master", "masters");
  count(Kind::single, "single", "singles");
  count(Kind::over_shoulder, "over-shoulder", "over-shoulders");
  count(Kind::insert, "insert", "inserts");
  return listed(counts);
}

std::string risks(const HeldTake& held) {
  std::vector<std::string> parts;
  const auto part = [&](int count, const char* one, const char* many) {
    if (count > 0) parts.push_back(counted(count, one, many));
  };
  part(held.lines, "line", "lines");
  part(held.moves_of_people, "move or turn", "moves and turns");
  part(held.looks, "look", "looks");
  part(held.pulls, "pull", "pulls");
  part(held.moves_of_camera, "move of the camera", "moves of the camera");
  part(held.changes_of_light, "change of light", "changes of light");
  return listed(parts);
}

std::string wishes_words(const HeldTake& held) {
  if (held.failing + held.close == 0) return "";
  std::vector<std::string> parts;
  if (held.failing > 0) parts.push_back(counted(held.failing, "wish fails", "wishes fail"));
  if (held.close > 0) parts.push_back(counted(held.close, "is close", "are close"));
  return "  In the held frame " + listed(parts) + ": there is nothing to cut to.\n";
}

std::string line_words(const Plan& plan, const Coverage& coverage) {
  std::string text;
  for (const CrossedLine& crossed : coverage.crossed)
    text += fmt::format("  The held frame is across the line between {} and {} by {}: take the walk that crosses it.\n",
                        called(plan, crossed.one), called(plan, crossed.other), clock_text(crossed.at));
  return text;
}

std::string insurance_words(const Plan& plan, const Coverage& coverage, const Insurance& one) {
  const SetUp& set_up = coverage.set_ups[static_cast<std::size_t>(one.set_up)];
  std::vector<std::string> why;
  if (one.rescues.count > 0)
    why.push_back("shows whom the eye should be on and hardly is, for " + text_of(one.rescues));
  if (one.joins > Moment{}) why.push_back("lets two takes be joined at " + clock_text(one.joins));
  return fmt::format("no. {}, {}: {}", one.set_up + 1, set_up_name(plan, set_up), listed(why));
}

}  // namespace

std::string set_up_name(const Plan& plan, const SetUp& set_up) {
  switch (set_up.kind) {
    case Kind::master:
      return "master";
    case Kind::single:
      return "single of " + called(plan, set_up.of) +
             (set_up.toward.known() ? ", toward " + called(plan, set_up.toward) : "");
    case Kind::over_shoulder:
      return "over the shoulder of " + called(plan, set_up.toward) + ", on " + called(plan, set_up.of);
    case Kind::insert:
      return "insert of " + called(plan, set_up.thing);
  }
  return "";
}

std::string coverage_text(const Plan& plan, const Coverage& coverage) {
  const int count = static_cast<int>(coverage.set_ups.size()), held = coverage.held.set_ups;
  if (count == 0) return "nothing to cover: the scene has no beats\n";
  std::string text = fmt::format("{}: covered the usual way, {}: {}\n\n", title_of(plan.facts),
                                 counted(count, "set-up", "set-ups"), counts_of_kinds(coverage));
  text += list_of_set_ups(plan, coverage) + line_words(plan, coverage);
  text += fmt::format("\ntime: {}, at 20 to 45 min a set-up; a weak guess, from what producers of small films write\n",
                      hours_words(hours_for(count)));
  text += fmt::format("the held frame: {}, {}; rehearsal and takes are not in it\n", counted(held, "set-up", "set-ups"),
                      hours_words(hours_for(held)));
  if (count > held)
    text += fmt::format("  It saves {}, {} of setting up.\n", counted(count - held, "set-up", "set-ups"),
                        hours_words(hours_for(count - held)));
  text += fmt::format("  It risks the take: {} on one run of {}, and no cutaway when one goes wrong.\n",
                      risks(coverage.held), clock_text(coverage.held.length));
  text += wishes_words(coverage.held);
  if (!coverage.insurance.empty()) text += "\nworth taking beside it, the one that buys most first:\n";
  for (const Insurance& one : coverage.insurance) text += "  " + insurance_words(plan, coverage, one) + '\n';
  return printable_lines(text);
}

nlohmann::ordered_json coverage_json(const Plan& plan, const Coverage& coverage) {
  const auto round_to = [](double value, double steps) { return std::round(value * steps) / steps + 0.0; };
  const auto hours = [&](int set_ups) {
    const HoursRange range = hours_for(set_ups);
    return Json::array({round_to(range.least, 100), round_to(range.most, 100)});
  };
  Json json{{"schema", "lensward/coverage/1"}, {"scene", plan.facts.name}, {"set_ups", Json::array()}};
  for (const SetUp& set_up : coverage.set_ups) {
    Json one{{"name", set_up_name(plan, set_up)}, {"kind", kind_name(set_up.kind)}};
    if (set_up.of.known()) one["of"] = person_of(plan, set_up.of).name;
    if (set_up.toward.known()) one["toward"] = person_of(plan, set_up.toward).name;
    if (set_up.thing.kind != Target::Kind::nothing) one["thing"] = name_of(plan, set_up.thing);
    if (set_up.kind != Kind::insert) {
      const CameraState& camera = set_up.camera;
      one["at_m"] = {round_to(camera.at.x, 1000), round_to(camera.at.y, 1000), round_to(camera.at.z, 1000)};
      one["pan_deg"] = round_to(camera.pan.value, 10);
      one["focal_mm"] = round_to(camera.focal.value, 10);
      one["in_the_way"] = set_up.in_the_way;
    }
    if (set_up.of.known()) one["looks"] = set_up.looks_right ? "right" : "left";
    one["beats"] = Json::array();
    for (const int beat : set_up.beats)
      if (beat >= 0) one["beats"].push_back(plan.beats[static_cast<std::size_t>(beat)].name);
    one["lines"] = set_up.lines;
    one["spoken_ms"] = set_up.spoken.count;
    json["set_ups"].push_back(std::move(one));
  }
  const int count = static_cast<int>(coverage.set_ups.size());
  json["hours"] = hours(count);
  json["held"] = {{"set_ups", coverage.held.set_ups},
                  {"hours", hours(coverage.held.set_ups)},
                  {"length_ms", coverage.held.length.count},
                  {"lines", coverage.held.lines},
                  {"moves", coverage.held.moves_of_people},
                  {"looks", coverage.held.looks},
                  {"pulls", coverage.held.pulls},
                  {"camera_moves", coverage.held.moves_of_camera},
                  {"light_changes", coverage.held.changes_of_light},
                  {"failing", coverage.held.failing},
                  {"close", coverage.held.close}};
  json["crossed_lines"] = Json::array();
  for (const CrossedLine& crossed : coverage.crossed)
    json["crossed_lines"].push_back(
        {{"between", {person_of(plan, crossed.one).name, person_of(plan, crossed.other).name}},
         {"at_ms", crossed.at.count}});
  json["insurance"] = Json::array();
  for (const Insurance& one : coverage.insurance)
    json["insurance"].push_back(
        {{"set_up", one.set_up + 1}, {"rescues_ms", one.rescues.count}, {"joins_ms", one.joins.count}});
  return json;
}

}  // namespace lensward
