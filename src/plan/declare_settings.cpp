#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

#include "plan/declare.h"
#include "plan/declaring.h"
#include "syntax/near_miss.h"

namespace lensward {
namespace {

struct SettingRow {
  std::string_view key;
  Dimension dimension;
  double least, greatest;
  const char* example;
};

// What a `default` line may set, beside the figure of any rule.
constexpr std::array<SettingRow, 19> setting_rows{{
    {"favour-margin", Dimension::points, 0, 100, "default favour-margin 8 points"},
    {"settle", Dimension::time, 0, 30, "default settle 0.4 s"},
    {"handover", Dimension::time, 0, 30, "default handover 0.8 s"},
    {"sensitivity", Dimension::count, 25, 409600, "default sensitivity 800"},
    {"shutter", Dimension::angle, 1, 360, "default shutter 180 deg"},
    {"frame-rate", Dimension::frame_rate, 1, 1000, "default frame-rate 24 fps"},
    {"sharp-circle", Dimension::length, 0.000001, 0.001, "default sharp-circle 0.025 mm"},
    {"walking-pace", Dimension::speed, 0.1, 5, "default walking-pace 1.2 m/s"},
    {"speech-rate", Dimension::rate, 20, 600, "default speech-rate 150 words/min"},
    {"turn-gap", Dimension::time, 0, 30, "default turn-gap 0.2 s"},
    {"breath", Dimension::time, 0, 30, "default breath 0.5 s"},
    {"apart", Dimension::length, 0.2, 10, "default apart 0.9 m"},
    {"mark-tolerance", Dimension::length, 0.01, 2, "default mark-tolerance 0.2 m"},
    {"at", Dimension::length, 0.1, 20, "default at 0.2 to 0.5 m"},
    {"by", Dimension::length, 0.1, 20, "default by 0.3 to 0.9 m"},
    {"beside", Dimension::length, 0.1, 20, "default beside 0.5 to 1 m"},
    {"near", Dimension::length, 0.1, 20, "default near 0.6 to 1.8 m"},
    {"beyond", Dimension::length, 0.1, 20, "default beyond 0.4 to 1.5 m"},
    {"against", Dimension::length, 0.1, 20, "default against 0.2 to 0.3 m"},
}};

// What can be treated: the rules, and what is said while reading, whose names have a dot. The rules themselves come
// later than the plan; a test of theirs compares.
constexpr std::array<std::string_view, 87> rule_names{{
    "wandering-eye",
    "close-call",
    "slow-landing",
    "no-time-to-settle",
    "lopsided-share",
    "room-leans",
    "dropped-pass",
    "lost-listener",
    "loud-throwaway",
    "catches-the-eye",
    "moves-on-the-line",
    "eyes-elsewhere",
    "mixed-orders",
    "nobody-asked",
    "loose-footing",
    "fine-mark",
    "lost-story",
    "late-story",
    "cold-background",
    "hungry-background",
    "weak-break-in",
    "lingering-story",
    "lost-ending",
    "early-sight",
    "fumbled-reveal",
    "missed-hint",
    "missed-plant",
    "heavy-plant",
    "missed-payoff",
    "unpaid-plant",
    "payoff-from-nowhere",
    "caught-at-it",
    "no-button",
    "turned-away",
    "masked",
    "unseen-speaker",
    "off-the-edge",
    "tight-headroom",
    "hurried-move",
    "stuck-camera",
    "cut-at-the-joint",
    "merging",
    "lead-room",
    "crowded-lens",
    "crossed-line",
    "wrong-way-look",
    "weak-cut",
    "gear-in-shot",
    "racing-camera",
    "nowhere-to-stand",
    "scraping-dolly",
    "not-in-kit",
    "soft-favourite",
    "too-near-to-focus",
    "pull-too-quick",
    "faint-rack",
    "split-too-far",
    "dark-favourite",
    "burning",
    "leaves-the-light",
    "hot-bystander",
    "thrown-shadow",
    "late-to-the-mark",
    "too-fast",
    "tight-squeeze",
    "drowned-line",
    "noise-by-the-line",
    "far-boom",
    "bump",
    "jumped-mark",
    "out-of-reach",
    "whose-hands",
    "hands-full",
    "stiff-neck",
    "gabbled-line",
    "dragged-line",
    "over-time",
    "pages-and-time",
    "under-time",
    "already-here",
    "missing-person",
    "does-not-follow",
    "words-and-numbers",
    "taken-for-granted",
    "stale-waiver",
    "bare-waiver",
    "not-judged",
}};

bool names_a_rule(std::string_view key) {
  return std::find(rule_names.begin(), rule_names.end(), key) != rule_names.end() ||
         key.find('.') != std::string_view::npos;
}

const SettingRow* row_of(std::string_view key) {
  for (const SettingRow& row : setting_rows) {
    if (row.key == key) return &row;
  }
  return nullptr;
}

// The few that have a member of their own.
void keep_known(Settings& settings, std::string_view key, double value) {
  if (key == "favour-margin") settings.favour_margin = Points{value};
  if (key == "settle") settings.settle = Seconds{value};
  if (key == "handover") settings.handover = Seconds{value};
  if (key == "sensitivity") settings.sensitivity = value;
  if (key == "shutter") settings.shutter = Degrees{value};
  if (key == "frame-rate") settings.frame_rate = value;
  if (key == "sharp-circle") settings.sharp_circle = to_millimetres(Metres{value});
}

void report_setting(Findings& findings, const char* rule, Span where, std::string message, std::string next_step) {
  Finding finding;
  finding.rule = rule;
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  findings.add(std::move(finding));
}

void report_unknown_default(const SettingLine& line, Findings& findings) {
  std::vector<std::string_view> known;
  for (const SettingRow& row : setting_rows) known.push_back(row.key);
  known.insert(known.end(), rule_names.begin(), rule_names.end());
  const auto meant = nearest(line.key.text, known);
  report_setting(findings, "name.unknown-default", line.key.span,
                 "no setting and no rule is called `" + line.key.text + '`',
                 meant ? "did you mean `" + std::string(*meant) + "`"
                       : std::string("`default favour-margin 8 points` is one that is known"));
}

void keep_house(const SettingLine& line, Settings& settings, Findings& findings) {
  for (int i = 0; i < 8; ++i) {
    if (line.words == spelling(static_cast<Compass>(i))) settings.figures["house"] = 45.0 * i;
  }
  if (settings.figures.count("house") > 0) return;
  report_setting(findings, "name.unknown-default", line.key.span, "the house lies on a side of the compass",
                 "`default house south` puts the audience in the south");
}

void keep_rule_figure(const SettingLine& line, const Amount& amount, Settings& settings, Findings& findings) {
  const std::optional<UnitOf> unit = unit_of(amount.first.unit);
  const Limits limits{"figure of a rule", unit ? unit->dimension : Dimension::count, -1000, 1000,
                      "default close-call 8 points"};
  if (const auto told = measured(amount, limits, findings)) {
    settings.figures[line.key.text] = told->preferred;
  }
}

void keep_default(const SettingLine& line, Settings& settings, Findings& findings) {
  if (line.key.text == "house") return keep_house(line, settings, findings);
  const SettingRow* row = row_of(line.key.text);
  if (!line.amount) {
    if (row == nullptr && !names_a_rule(line.key.text)) report_unknown_default(line, findings);
    return;
  }
  if (row == nullptr) {
    return names_a_rule(line.key.text) ? keep_rule_figure(line, *line.amount, settings, findings)
                                       : report_unknown_default(line, findings);
  }
  const std::string what = "setting " + line.key.text;
  const Limits limits{what.c_str(), row->dimension, row->least, row->greatest, row->example};
  const auto told = measured(*line.amount, limits, findings);
  if (!told) return;
  auto& figures = settings.figures;
  figures[line.key.text] = told->preferred;
  if (line.amount->form == Amount::Form::range) {
    figures[line.key.text + " from"] = told->least;
    figures[line.key.text + " to"] = told->greatest;
  }
  keep_known(settings, line.key.text, told->preferred);
}

constexpr std::array<std::string_view, 14> cue_names{{"voice", "spoken-to", "near-lens", "near-light", "sharp",
                                                      "body-moves", "hands-move", "eyes-move", "centre", "body-to-lens",
                                                      "apart", "looked-at", "camera-move", "newness"}};

void keep_weight(const SettingLine& line, Declaring& declaring) {
  if (std::find(cue_names.begin(), cue_names.end(), line.key.text) == cue_names.end()) {
    report(declaring, "name.unknown-default", line.key.span, "no cue is called `" + line.key.text + '`',
           "`weigh voice 22 points` names one that is known");
    return;
  }
  const Limits limits{"weight of a cue", Dimension::points, 0, 100, "weigh voice 22 points"};
  if (!line.amount) return;
  if (const auto told = measured(*line.amount, limits, declaring.findings)) {
    declaring.plan.settings.weights[line.key.text] = told->preferred;
  }
}

void keep_treatment(const SettingLine& line, Declaring& declaring) {
  if (names_a_rule(line.key.text)) {
    declaring.plan.settings.treat[line.key.text] = line.words;
    return;
  }
  Finding& finding = report(declaring, "name.unknown-rule", line.key.span,
                            "no rule is called `" + line.key.text + "`, so this line does nothing",
                            "`treat masked as error` names one that is known");
  finding.severity = Severity::warning;
}

void keep_sizing(const SettingLine& line, Declaring& declaring) {
  const Limits cuts{"cut of a size", Dimension::share, 0, 0.95, "cuts 74%"};
  const Limits headrooms{"headroom of a size", Dimension::share, 0, 0.9, "headroom 10%"};
  for (int i = 0; i <= static_cast<int>(ShotSize::extreme_wide_shot); ++i) {
    const auto size = static_cast<ShotSize>(i);
    if (line.key.text != spelling(size)) continue;
    Sizing sizing = sizing_of(declaring.plan.settings, size);
    if (const auto cut = measured_in(line.clauses, "cuts", cuts, declaring.findings)) sizing.cuts = Share{*cut};
    if (const auto above = measured_in(line.clauses, "headroom", headrooms, declaring.findings)) {
      sizing.headroom = Share{*above};
    }
    declaring.plan.settings.sizings[size] = sizing;
  }
}

bool begins_a_part(const Statement& statement) {
  const auto* heading = std::get_if<HeadingLine>(&statement.body);
  if (heading == nullptr) return false;
  return heading->kind == HeadingLine::Kind::opening || heading->kind == HeadingLine::Kind::beat ||
         heading->kind == HeadingLine::Kind::way;
}

void keep_setting(const SettingLine& line, Declaring& declaring) {
  switch (line.kind) {
    case SettingLine::Kind::default_value:
      return keep_default(line, declaring.plan.settings, declaring.findings);
    case SettingLine::Kind::weigh:
      return keep_weight(line, declaring);
    case SettingLine::Kind::treat:
      return keep_treatment(line, declaring);
    case SettingLine::Kind::sizing:
      return keep_sizing(line, declaring);
  }
}

void keep_filing(const Clauses& clauses, SceneFacts& facts) {
  for (const Clause& clause : clauses) {
    const auto* filing = std::get_if<FilingClause>(&clause.body);
    if (filing == nullptr) continue;
    switch (filing->kind) {
      case FilingClause::Kind::number:
        facts.number = filing->text;
        break;
      case FilingClause::Kind::interior:
        facts.interior = true;
        break;
      case FilingClause::Kind::exterior:
        facts.exterior = true;
        break;
      case FilingClause::Kind::hour:
        facts.hour = filing->text;
        break;
      case FilingClause::Kind::pages:
        facts.pages = filing->text;
        break;
    }
  }
}

}  // namespace

void declare_settings(Declaring& declaring) {
  for (const Statement& statement : declaring.script.statements) {
    if (begins_a_part(statement)) return;
    if (const auto* setting = std::get_if<SettingLine>(&statement.body)) keep_setting(*setting, declaring);
  }
}

void keep_for_beat(const SettingLine& line, Settings& settings, Findings& findings) {
  // What a beat's places and times are worked out with; all else is of the scene, so that no beat can be talked into
  // holding.
  constexpr std::string_view of_a_beat[] = {"walking-pace", "turn-gap", "breath", "apart",  "at",
                                            "by",           "beside",   "near",   "beyond", "against"};
  const std::string& key = line.key.text;
  const bool known = key == "house" || row_of(key) != nullptr || names_a_rule(key);
  if (!known || std::ranges::find(of_a_beat, key) != std::end(of_a_beat)) return keep_default(line, settings, findings);
  report_setting(findings, "parse.wrong-place", line.key.span, "`" + key + "` is settled for a whole scene, not a beat",
                 "write this line above the opening; a beat may set how far and how fast: `default near 1 to 2 m`");
}

void declare_facts(Declaring& declaring) {
  const Limits lengths{"length of the scene", Dimension::time, 1, 36000, "about 3 min"};
  SceneFacts& facts = declaring.plan.facts;
  for (const Statement& statement : declaring.script.statements) {
    if (begins_a_part(statement)) return;
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading != nullptr && heading->kind == HeadingLine::Kind::scene) {
      facts.name = heading->name.text;
      facts.title = heading->title ? heading->title->words : std::string{};
      facts.heading = statement.span;
      keep_filing(heading->clauses, facts);
    }
    const auto* lasts = std::get_if<LastsLine>(&statement.body);
    if (lasts == nullptr) continue;
    if (const auto told = measured(lasts->amount, lengths, declaring.findings)) {
      facts.asked_length = to_milliseconds(Seconds{told->preferred});
    }
  }
}

}  // namespace lensward
