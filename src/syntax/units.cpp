#include "syntax/units.h"

namespace lensward {
namespace {

struct Together {
  std::string_view greater, lesser;
  double factor;
};
constexpr Together together[] = {
    {"ft", "in", 12}, {"ft", "inch", 12}, {"m", "cm", 100},  {"m", "mm", 1000},
    {"cm", "mm", 10}, {"min", "s", 60},   {"s", "ms", 1000}, {"min", "ms", 60000},
};

constexpr std::string_view units[] = {
    "words/min",
    "characters/min",
    "syllables/min",
    "m/s",
    "ft/s",
    "deg/s",
    "people",
    "points",
    "point",
    "steps",
    "step",
    "stops",
    "stop",
    "frames",
    "fps",
    "inch",
    "in",
    "ft",
    "mm",
    "cm",
    "min",
    "ms",
    "m",
    "s",
    "deg",
    "lux",
    "lm",
    "cd",
    "fc",
    "kg",
    "K",
    "W",
    "kW",
    "%",
};

struct OtherWord {
  std::string_view word, unit;
};
constexpr OtherWord other_words[] = {
    {"metre", "m"},        {"metres", "m"},       {"meter", "m"},        {"meters", "m"},      {"centimetres", "cm"},
    {"centimeters", "cm"}, {"millimetres", "mm"}, {"millimeters", "mm"}, {"feet", "ft"},       {"foot", "ft"},
    {"inches", "in"},      {"sec", "s"},          {"secs", "s"},         {"second", "s"},      {"seconds", "s"},
    {"minute", "min"},     {"minutes", "min"},    {"mins", "min"},       {"degrees", "deg"},   {"degree", "deg"},
    {"percent", "%"},      {"kilos", "kg"},       {"kelvin", "K"},       {"watts", "W"},       {"frame", "frames"},
    {"lumens", "lm"},      {"candela", "cd"},     {"footcandles", "fc"}, {"person", "people"}, {"wpm", "words/min"},
};

}  // namespace

double lesser_units_in(std::string_view greater, std::string_view lesser) {
  for (const Together& pair : together) {
    if (pair.greater == greater && pair.lesser == lesser) return pair.factor;
  }
  return 0;
}

std::span<const std::string_view> unit_words() { return units; }

std::string_view unit_meant(std::string_view word) {
  for (const OtherWord& other : other_words) {
    if (other.word == word) return other.unit;
  }
  return {};
}

}  // namespace lensward
