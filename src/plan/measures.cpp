#include "plan/measures.h"

#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/quantity_text.h"

namespace lensward {
namespace {

struct UnitRow {
  std::string_view word;
  Dimension dimension;
  double size;
};

constexpr double inch = 0.0254;
// One foot-candle is a lumen a square foot.
constexpr double foot_candle = 1 / (0.3048 * 0.3048);
constexpr std::array<UnitRow, 32> units{{
    {"m", Dimension::length, 1},
    {"cm", Dimension::length, 0.01},
    {"mm", Dimension::length, 0.001},
    {"in", Dimension::length, inch},
    {"inch", Dimension::length, inch},
    {"ft", Dimension::length, 12 * inch},
    {"step", Dimension::length, 0},
    {"steps", Dimension::length, 0},
    {"s", Dimension::time, 1},
    {"ms", Dimension::time, 0.001},
    {"min", Dimension::time, 60},
    {"deg", Dimension::angle, 1},
    {"m/s", Dimension::speed, 1},
    {"ft/s", Dimension::speed, 12 * inch},
    {"deg/s", Dimension::turning, 1},
    {"lux", Dimension::illuminance, 1},
    {"fc", Dimension::illuminance, foot_candle},
    {"cd", Dimension::intensity, 1},
    {"lm", Dimension::flux, 1},
    {"stop", Dimension::stops, 1},
    {"stops", Dimension::stops, 1},
    {"K", Dimension::colour, 1},
    {"%", Dimension::share, 0.01},
    {"words/min", Dimension::rate, 1},
    {"fps", Dimension::frame_rate, 1},
    {"point", Dimension::points, 1},
    {"points", Dimension::points, 1},
    {"kg", Dimension::mass, 1},
    {"W", Dimension::power, 1},
    {"kW", Dimension::power, 1000},
    {"people", Dimension::people, 1},
    {"", Dimension::count, 1},
}};

const char* a_dimension(Dimension dimension) {
  constexpr std::array<const char*, 18> words{
      "a length",     "a time", "an angle", "a speed",  "a turning speed",   "light on a surface",
      "an intensity", "a flux", "stops",    "a colour", "a share",           "a rate of speech",
      "a frame rate", "points", "a mass",   "a power",  "a count of people", "a bare number",
  };
  return words[static_cast<std::size_t>(dimension)];
}

const char* base_unit(Dimension dimension) {
  constexpr std::array<const char*, 18> words{
      " m", " s", " deg",       " m/s", " deg/s",  " lux", " cd", " lm",     " stops",
      " K", "",   " words/min", " fps", " points", " kg",  " W",  " people", "",
  };
  return words[static_cast<std::size_t>(dimension)];
}

std::string value_text(double value, Dimension dimension) {
  if (dimension == Dimension::share) return text_of(Share{value});
  // Lengths under a hand's breadth are told in millimetres.
  if (dimension == Dimension::length && std::fabs(value) < 0.1) return number(value * 1000, 1) + " mm";
  return number(value, std::fabs(value) < 10 ? 2 : 1) + base_unit(dimension);
}

void report(const char* rule, const Figure& figure, const Limits& limits, std::string message, Findings& findings) {
  Finding finding;
  finding.rule = rule;
  finding.where = figure.span;
  finding.message = std::move(message);
  finding.next_step = std::string("write it as `") + limits.example + '`';
  findings.add(std::move(finding));
}

void report_unit(const Figure& figure, const Limits& limits, const std::optional<UnitOf>& unit, Findings& findings) {
  const std::string wanted = std::string("; the ") + limits.what + " is " + a_dimension(limits.dimension);
  if (figure.unit.empty()) {
    report("unit.missing", figure, limits, '`' + text_of(figure) + "` has no unit" + wanted, findings);
  } else if (!unit) {
    report("unit.unknown", figure, limits, '`' + figure.unit + "` is not a unit" + wanted, findings);
  } else {
    const std::string found = a_dimension(unit->dimension);
    const bool watts = unit->dimension == Dimension::power && limits.dimension == Dimension::illuminance;
    const std::string why = watts                                 ? "; watts say what a lamp eats, not what it gives"
                            : limits.dimension == Dimension::time ? "; a time is told in `s`, `ms` or `min`"
                                                                  : wanted;
    report("unit.wrong-type", figure, limits, '`' + text_of(figure) + "` is " + found + why, findings);
  }
}

}  // namespace

std::optional<UnitOf> unit_of(const std::string& word) {
  for (const UnitRow& row : units) {
    if (row.word == word) return UnitOf{row.dimension, row.size};
  }
  return std::nullopt;
}

std::string text_of(const Figure& figure) {
  // "%" stands close to its number.
  const std::string gap = figure.unit.empty() || figure.unit == "%" ? "" : " ";
  return number(figure.number, 4) + gap + figure.unit;
}

std::string text_of(const Amount& amount) {
  switch (amount.form) {
    case Amount::Form::exact:
      return text_of(amount.first);
    case Amount::Form::about:
      return "about " + text_of(amount.first);
    case Amount::Form::range:
      return number(amount.first.number, 4) + " to " +
             (amount.second ? text_of(*amount.second) : text_of(amount.first));
    case Amount::Form::or_more:
      return text_of(amount.first) + " or more";
    case Amount::Form::or_less:
      return text_of(amount.first) + " or less";
  }
  return text_of(amount.first);
}

std::optional<double> measured(const Figure& figure, const Limits& limits, Findings& findings, Metres step) {
  const std::optional<UnitOf> unit = unit_of(figure.unit);
  if (!unit || unit->dimension != limits.dimension) {
    report_unit(figure, limits, unit, findings);
    return std::nullopt;
  }
  const double value = figure.number * (unit->size > 0 ? unit->size : step.value);
  // The slack lets a limit itself pass in any unit: 8 ft 6 in is not an inch too tall for its last bit.
  const double slack = 1e-9 * (1 + std::fabs(limits.greatest));
  if (std::isfinite(value) && value >= limits.least - slack && value <= limits.greatest + slack) return value;
  report("unit.out-of-range", figure, limits,
         '`' + text_of(figure) + "` cannot be the " + limits.what + ": " + value_text(limits.least, limits.dimension) +
             " to " + value_text(limits.greatest, limits.dimension),
         findings);
  return std::nullopt;
}

std::optional<Measured> measured(const Amount& amount, const Limits& limits, Findings& findings, Metres step) {
  Figure first = amount.first;
  if (first.unit.empty() && amount.second) first.unit = amount.second->unit;
  const std::optional<double> value = measured(first, limits, findings, step);
  if (!value) return std::nullopt;
  switch (amount.form) {
    case Amount::Form::exact:
      return Measured{*value, *value, *value};
    case Amount::Form::about:
      return Measured{*value * 0.8, *value, *value * 1.2};
    case Amount::Form::or_more:
      return Measured{*value, *value, limits.greatest};
    case Amount::Form::or_less:
      return Measured{limits.least, *value, *value};
    case Amount::Form::range:
      break;
  }
  if (!amount.second) return Measured{*value, *value, *value};
  const std::optional<double> other = measured(*amount.second, limits, findings, step);
  if (!other) return std::nullopt;
  if (*other < *value) {
    report("unit.range-backward", amount.first, limits, '`' + text_of(amount) + "` runs from more to less", findings);
    return std::nullopt;
  }
  return Measured{*value, (*value + *other) / 2, *other};
}

}  // namespace lensward
