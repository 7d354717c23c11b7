#include "base/quantity_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace lensward {
namespace {

double ten_to(int decimals) {
  double power = 1;
  for (int i = 0; i < decimals; ++i) power *= 10;
  return power;
}

// Halves go away from zero, and so does what lies within a billionth of a half: 0.125 and 1.005 are halves to the
// writer, whatever their last bit is.
double nearest_whole(double value) {
  const double size = std::floor(std::fabs(value) + 0.5 + 1e-9);
  return value < 0 ? -size : size;
}

// Decimals that leave three significant digits of a value.
int decimals_for_three_digits(double value) {
  int decimals = 2;
  for (double limit = 10; decimals > 0 && std::fabs(value) >= limit; limit *= 10) --decimals;
  for (double limit = 1; decimals < 6 && value != 0 && std::fabs(value) < limit; limit /= 10) ++decimals;
  return decimals;
}

std::string counted(const std::string& figure, const char* one, const char* many) {
  return figure + ' ' + (figure == "1" || figure == "-1" ? one : many);
}

}  // namespace

std::string number(double value, int decimals) {
  const double scaled = nearest_whole(value * ten_to(decimals));
  // Beyond this a double holds no tenths, and the whole of it is printed.
  if (!(std::fabs(scaled) < 1e15)) return fmt::format("{:.0f}", value);
  const auto size = static_cast<long long>(std::fabs(scaled));
  if (size == 0) return "0";
  const std::string digits = fmt::format("{:0>{}}", size, decimals + 1);
  const std::size_t whole = digits.size() - static_cast<std::size_t>(decimals);
  std::string text = (scaled < 0 ? "-" : "") + digits.substr(0, whole);
  if (const std::size_t last = digits.find_last_not_of('0'); last != std::string::npos && last >= whole) {
    text += '.' + digits.substr(whole, last + 1 - whole);
  }
  return text;
}

std::string text_of(Metres length) { return number(length.value, 2) + " m"; }

std::string feet_text(Metres length) {
  const double inches = nearest_whole(length.value / 0.0254);
  const double feet = std::floor(std::fabs(inches) / 12);
  return (inches < 0 ? "-" : "") + number(feet, 0) + " ft " + number(std::fabs(inches) - 12 * feet, 0) + " in";
}

std::string text_of(Millimetres length) {
  const double value = length.value;
  if (std::fabs(value) >= 1000 && std::fabs(value) < 1e12) {
    double unit = 10;
    while (std::fabs(value) >= unit * 1000) unit *= 10;
    return number(nearest_whole(value / unit) * unit, 0) + " mm";
  }
  return number(value, decimals_for_three_digits(value)) + " mm";
}

std::string text_of(Degrees angle) { return number(angle.value, 0) + " deg"; }
std::string text_of(Milliseconds time) { return number(to_seconds(time).value, 1) + " s"; }
std::string text_of(Stops difference) { return counted(number(difference.value, 1), "stop", "stops"); }
std::string text_of(Share share) { return number(share.value * 100, 0) + " %"; }
std::string text_of(Points points) { return number(points.value, 0); }
std::string text_of(Lux light) { return number(light.value, std::fabs(light.value) < 9.95 ? 1 : 0) + " lux"; }

std::string clock_text(Moment moment) {
  const std::int64_t size = moment.count < 0 ? -moment.count : moment.count;
  const std::int64_t tenths = (size + 50) / 100;
  return fmt::format("{}{}:{:02}.{}", moment.count < 0 && tenths > 0 ? "-" : "", tenths / 600, tenths / 10 % 60,
                     tenths % 10);
}

}  // namespace lensward
