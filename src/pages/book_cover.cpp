#include <fmt/core.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/paper.h"
#include "pages/tally_figure.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr Setting body{Face::sans, type_size::body, Ink::black, 0, 0};
constexpr Setting quiet{Face::sans, type_size::body, Ink::dark, 0, 0};

std::string filing_words(const Plan& plan) {
  std::vector<std::string> facts;
  if (!plan.facts.number.empty()) facts.push_back("scene " + plan.facts.number);
  if (plan.facts.interior && plan.facts.exterior)
    facts.push_back("interior and exterior");
  else if (plan.facts.interior)
    facts.push_back("interior");
  else if (plan.facts.exterior)
    facts.push_back("exterior");
  if (!plan.facts.hour.empty()) facts.push_back(plan.facts.hour);
  if (!plan.facts.pages.empty()) facts.push_back(plan.facts.pages);
  facts.push_back(counted(plan.beats.size(), "beat", "beats"));
  facts.push_back("runs " + clock_text(plan.duration()));
  std::string text;
  for (const std::string& fact : facts) text += (text.empty() ? "" : "  ·  ") + fact;
  return text;
}

// The title as large as it can be said in two lines.
std::vector<Block> title_blocks(const std::string& title) {
  double size = type_size::scene_title;
  while (size > 6 && break_lines(title, Face::serif, size, page_width).size() > 2) size -= 1;
  return paragraph(title, page_width, {Face::serif, size, Ink::black, 2.5, 0});
}

std::string marks_of(const Plan& plan, PersonId person) {
  std::string marks;
  for (const Mark& mark : plan.marks)
    if (mark.person == person && !mark.name.empty()) marks += (marks.empty() ? "" : " ") + mark.name;
  return marks;
}

void add_company(const Plan& plan, std::vector<Block>& blocks) {
  if (plan.stage.people.empty()) return;
  blocks.push_back(heading("Company", page_width));
  constexpr double number_width = 8, name_width = 30, mark_width = 20;
  const int people = static_cast<int>(plan.stage.people.size());
  for (int first = 0; first < people; first += 3) {
    std::vector<Cell> cells;
    for (int index = first; index < std::min(first + 3, people); ++index) {
      cells.push_back({ordinal(plan, PersonId{index}), number_width - 3, quiet});
      cells.push_back({called(plan, PersonId{index}), name_width, body});
      cells.push_back({marks_of(plan, PersonId{index}), mark_width - 3, quiet});
    }
    blocks.push_back(row(cells, 1));
  }
}

std::string stops_of(const CameraTrack& track) {
  std::vector<std::string> stops;
  for (const Segment<FNumber>& segment : track.stop) {
    const std::string stop = "T" + number(segment.to.value, 1);
    if (std::find(stops.begin(), stops.end(), stop) == stops.end()) stops.push_back(stop);
  }
  return listed(stops);
}

std::string lenses_of(const CameraTrack& track) {
  std::vector<std::string> lenses;
  for (const Segment<Millimetres>& segment : track.focal) {
    const std::string lens = text_of(segment.to);
    if (std::find(lenses.begin(), lenses.end(), lens) == lenses.end()) lenses.push_back(lens);
  }
  return listed(lenses);
}

std::string lamp_words(const Plan& plan, std::size_t index) {
  const Lamp& lamp = plan.stage.lamps[index];
  const LampState state = lamp_at(plan, LampId{static_cast<int>(index)}, Moment{});
  const char* kind = lamp.kind == Lamp::Kind::practical ? "practical" : lamp.kind == Lamp::Kind::soft ? "soft" : "hard";
  std::string text =
      fmt::format("{}, {} cd, {} up", kind, number(lamp.intensity.value, 0), text_of(Metres{state.at.z}));
  if (lamp.beam) text += ", beam " + text_of(*lamp.beam);
  return text;
}

std::string room_words(const Room& room) {
  if (room.outline.empty()) return "open ground";
  Vec2 low = room.outline.front(), high = low;
  for (const Vec2 corner : room.outline) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  return fmt::format("{} by {}, {} high", text_of(Metres{high.x - low.x}), text_of(Metres{high.y - low.y}),
                     text_of(room.height));
}

void add_kit(const Plan& plan, std::vector<Block>& blocks) {
  blocks.push_back(heading("Room and kit", page_width));
  constexpr double name_width = 40;
  const auto add = [&](const std::string& name, const std::string& text) {
    blocks.push_back(row({{name, name_width, body}, {text, page_width - name_width - 3, quiet}}, 1));
  };
  add("Room", room_words(plan.stage.room));
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const Camera& camera = plan.stage.cameras[i];
    const CameraState state = camera_at(plan, CameraId{static_cast<int>(i)}, Moment{});
    const std::string support = support_words(plan, CameraId{static_cast<int>(i)});
    add("Camera " + camera.name,
        fmt::format("{}{}{} at {}, lens {} up at the start, gate {} by {}, ISO {}, {} frames a second", support,
                    support.empty() ? "" : ", ", lenses_of(plan.cameras[i]), stops_of(plan.cameras[i]),
                    text_of(Metres{state.at.z}), text_of(state.gate_width), text_of(state.gate_height),
                    number(plan.settings.sensitivity, 0), number(plan.settings.frame_rate, 3)));
  }
  for (std::size_t i = 0; i < plan.lamps.size(); ++i) add(plan.stage.lamps[i].name, lamp_words(plan, i));
}

Block verdict_row(const Results& results, const Verdict& verdict, const std::string& beat_name, bool first) {
  constexpr double beat_width = 34, asked_width = 64, result_width = 18, sign_width = 4;
  constexpr double rest = page_width - beat_width - asked_width - result_width - sign_width - 4 * 3.0;
  const std::string* waived = waived_because(results, verdict);
  const bool fails = verdict.result == Verdict::Result::fails && waived == nullptr;
  const std::string outcome =
      waived == nullptr ? instead_words(results, verdict) : fmt::format("on purpose: {}", *waived);
  const Setting result{fails ? Face::sans_bold : Face::sans, type_size::body, fails ? Ink::accent : Ink::black, 0, 0};
  Block block = row({{first ? beat_name : "", beat_width, {Face::serif, type_size::body + 0.3, Ink::black, 0, 0}},
                     {asked_words(results.plan, verdict), asked_width, body},
                     {"", sign_width, body},
                     {waived == nullptr ? name_of(verdict.result) : "waived", result_width, result},
                     {outcome, rest, quiet}},
                    0.7);
  block.items.push_back(
      {sign_at(waived == nullptr ? sign_of(verdict.result) : Sign::open, {beat_width + asked_width + 6 + 1.6, 1.7})});
  link_block(block, beat_anchor(results, verdict.beat));
  return block;
}

void add_verdicts(const Results& results, std::vector<Block>& blocks) {
  if (results.plan.beats.empty()) return;
  blocks.push_back(heading("What each beat asks, and what it gets", page_width));
  for (std::size_t i = 0; i < results.plan.beats.size(); ++i) {
    const auto own = verdicts_of(results, static_cast<int>(i));
    const std::string& name = results.plan.beats[i].name;
    bool first = true;
    for (const Verdict* verdict : own) {
      blocks.push_back(verdict_row(results, *verdict, name, first));
      first = false;
    }
    if (!own.empty()) continue;
    Verdict none;
    none.beat = static_cast<int>(i);
    blocks.push_back(verdict_row(results, none, name, true));
  }
}

std::string sum_of(const Results& results) {
  const auto count = [&](Severity severity) { return static_cast<std::size_t>(results.findings.count(severity)); };
  const std::size_t errors = count(Severity::error), warnings = count(Severity::warning),
                    remarks = count(Severity::remark);
  std::string sum = errors + warnings + remarks == 0
                        ? "Nothing found by the rules there are."
                        : counted(errors, "error", "errors") + ", " + counted(warnings, "warning", "warnings") + ", " +
                              counted(remarks, "remark", "remarks") + ".";
  const auto waived = static_cast<std::size_t>(std::ranges::count_if(
      results.findings.all(), [](const Finding& finding) { return finding.waived_because.has_value(); }));
  if (waived > 0) sum += fmt::format(" {} waived on purpose, not counted here.", waived);
  if (remarks > 0) sum += " Remarks stand with their beats and at the end.";
  if (!results.plan.assumptions.empty())
    sum += " " + counted(results.plan.assumptions.size(), "thing", "things") + " taken for granted.";
  return sum;
}

// Whoever reads no further than the cover reads what to mend first.
void add_start(const Results& results, const std::vector<const Finding*>& findings, std::vector<Block>& blocks) {
  blocks.push_back(heading(findings.empty() ? "Findings" : "Start here", page_width));
  if (!findings.empty()) append(blocks, finding_blocks(results, {findings.front()}, page_width, true));
  append(blocks, paragraph(sum_of(results), page_width, {Face::sans_italic, type_size::body, Ink::dark, 0.6, 0}));
}

void add_findings(const Results& results, const std::vector<const Finding*>& findings, std::vector<Block>& blocks) {
  if (findings.empty()) return;
  blocks.push_back(heading("Findings", page_width));
  append(blocks, finding_blocks(results, findings, page_width, true));
}

}  // namespace

std::vector<Sheet> lay_out_cover(const Results& results) {
  const Plan& plan = results.plan;
  const std::string title = plan.facts.title.empty() ? plan.facts.name : plan.facts.title;
  std::vector<Sheet> sheets{blank_page(title.empty() ? "Scene" : title, "cover")};
  std::vector<Block> blocks;
  if (!plan.facts.title.empty())
    append(blocks, paragraph(plan.facts.name, page_width, {Face::sans, type_size::heading, Ink::dark, 0, 0}));
  append(blocks, title_blocks(title.empty() ? "Scene without a name" : title));
  append(blocks, paragraph(filing_words(plan), page_width, {Face::sans, type_size::body, Ink::dark, 2, 0}));
  const std::vector<const Finding*> findings = numbered_findings(results);
  add_start(results, findings, blocks);
  add_verdicts(results, blocks);
  add_company(plan, blocks);
  add_kit(plan, blocks);
  add_findings(results, findings, blocks);
  run_on(sheets, blocks, page_low.y, title);
  return sheets;
}

}  // namespace lensward
