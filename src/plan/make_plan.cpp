#include "plan/make_plan.h"

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "plan/build_beat.h"
#include "plan/building.h"
#include "plan/declare.h"
#include "plan/follow.h"
#include "plan/opening.h"
#include "plan/scene_text.h"

namespace lensward {
namespace {

constexpr Moment longest_scene{std::int64_t{4} * 60 * 60 * 1000};

// A scene that would take so long is a slip of a number; nobody is placed and nothing judged.
Plan too_long(const Plan& plan, Findings& findings) {
  Finding finding;
  finding.rule = "parse.too-long";
  finding.where = plan.facts.heading;
  finding.message = "this scene would run for " + text_of(plan.duration()) + "; a scene may run for 4 hours";
  finding.next_step = "look for a length in the wrong unit: a `lasts`, a `pause`, a `for`";
  findings.add(std::move(finding));
  Plan bare;
  bare.facts = plan.facts;
  return bare;
}

bool has_scene(const Script& script) {
  return std::any_of(script.statements.begin(), script.statements.end(), [](const Statement& statement) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    return heading != nullptr && heading->kind == HeadingLine::Kind::scene;
  });
}

void size_tracks(Plan& plan) {
  plan.people.resize(plan.stage.people.size());
  plan.cameras.resize(plan.stage.cameras.size());
  plan.lamps.resize(plan.stage.lamps.size());
  plan.props.resize(plan.stage.props.size());
  plan.openings.resize(plan.stage.openings.size());
  plan.pieces.resize(plan.stage.pieces.size());
}

// Waivers and notes of the whole scene stand above the first beat.
void read_above(Building& building, const std::vector<const Statement*>& lines) {
  for (const Statement* statement : lines) {
    if (const auto* waive = std::get_if<WaiveLine>(&statement->body)) {
      building.plan.waivers.push_back(read_waiver(building, *waive, statement->span));
    } else if (const auto* note = std::get_if<NoteLine>(&statement->body)) {
      building.plan.notes.push_back({note->department, note->text.words, Moment{}, statement->span});
    }
  }
}

void end_waivers(Plan& plan, std::size_t of_scene, const std::vector<WaitingWaiver>& waiting, Findings& findings) {
  for (std::size_t i = 0; i < of_scene; ++i) plan.waivers[i].end = plan.duration();
  for (const WaitingWaiver& waiting_one : waiting) {
    Waiver& waiver = plan.waivers[waiting_one.waiver];
    const auto beat = std::find_if(plan.beats.begin(), plan.beats.end(),
                                   [&](const Beat& candidate) { return candidate.name == waiting_one.until; });
    if (beat != plan.beats.end() && beat->begin >= waiver.begin) {
      waiver.end = beat->begin;
      continue;
    }
    Finding finding;
    finding.rule = "time.cue-missing";
    finding.where = waiver.said_at;
    finding.message = "no beat after this one is called `" + waiting_one.until + "`";
    finding.next_step = "name a later beat, or leave `until` out";
    findings.add(std::move(finding));
  }
}

void end_of_scene(Building& building, const std::vector<RunsOn>& running) {
  Plan& plan = building.plan;
  for (const OpenBusiness& open : building.open_business) {
    plan.people[static_cast<std::size_t>(open.person.index)].hands[open.index].end = plan.duration();
  }
  for (const RunsOn& line : running) {
    if (line.end <= plan.duration()) continue;
    report(building, "time.never-ends", Severity::warning, line.said_at,
           "this runs on past the end of the scene: it would end at " + text_of(line.end) + " and the scene ends at " +
               text_of(plan.duration()),
           "shorten it, or say where it stops");
  }
}

void sort_by_time(Plan& plan) {
  const auto earlier = [](const CutTo& a, const CutTo& b) { return a.at < b.at; };
  std::stable_sort(plan.cuts.begin(), plan.cuts.end(), earlier);
  const bool cut_at_top = !plan.cuts.empty() && plan.cuts.front().at == Moment{};
  if (!cut_at_top && !plan.stage.cameras.empty()) plan.cuts.insert(plan.cuts.begin(), {Moment{}, CameraId{0}, Span{}});
}

}  // namespace

Plan make_plan(const SourceSet& sources, const Script& script, Findings& findings, const PlanFor& planned_for) {
  Plan plan;
  if (!has_scene(script)) return plan;
  Names names;
  declare(script, plan, names, findings);
  size_tracks(plan);
  const SceneText text = outline_of(sources, script, findings, planned_for.way);
  Building building{sources, plan, names, findings};
  const HeadingLine* follows = following_opening(script);
  if (follows != nullptr) building.before = planned_for.before;
  building.subject.scene = plan.facts.name;
  building.marks_of.resize(plan.people.size());
  for (const Assumption& assumption : plan.assumptions) ++building.told_once[assumption.what];

  read_above(building, text.above);
  read_above(building, text.opening);
  const std::size_t waivers_of_scene = plan.waivers.size();
  build_opening(building, text);
  if (building.before != nullptr) check_follows(*building.before, *follows, building);
  std::vector<WaitingWaiver> waiting;
  std::vector<RunsOn> running;
  Moment top;
  for (const BeatText& beat : text.beats) {
    build_beat(building, beat, top, waiting, running);
    top = plan.beats.back().end;
  }
  building.subject.beat.clear();
  end_waivers(plan, waivers_of_scene, waiting, findings);
  end_carried(plan);
  end_of_scene(building, running);
  sort_by_time(plan);
  if (plan.duration() > longest_scene) return too_long(plan, findings);
  return plan;
}

}  // namespace lensward
