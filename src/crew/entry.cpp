#include "base/quantity_text.h"
#include "crew/crew_sheet.h"

namespace lensward {
namespace {

std::string length_text(Metres length, Lengths lengths) {
  if (lengths == Lengths::metres) return text_of(length);
  if (lengths == Lengths::feet) return feet_text(length);
  return text_of(length) + " (" + feet_text(length) + ")";
}

struct OnPage {
  Lengths lengths;

  std::string operator()(std::monostate) const { return ""; }
  std::string operator()(const std::string& words) const { return words; }
  std::string operator()(OnTheClock clock) const { return clock_text(clock.moment); }
  std::string operator()(Milliseconds time) const { return text_of(time); }
  std::string operator()(Metres length) const { return length_text(length, lengths); }
  std::string operator()(Millimetres length) const { return text_of(length); }
  std::string operator()(MetresPerSecond speed) const { return number(speed.value, 2) + " m/s"; }
  std::string operator()(Degrees angle) const { return text_of(angle); }
  std::string operator()(Lux light) const { return text_of(light); }
  std::string operator()(Stops stops) const { return (stops.value >= 0.05 ? "+" : "") + number(stops.value, 1); }
  std::string operator()(Count count) const { return std::to_string(count.of); }
  std::string operator()(Ratio ratio) const { return number(ratio.to_one, 1) + ":1"; }
  std::string operator()(Over over) const { return "over " + length_text(over.length, lengths); }
};

struct InData {
  std::string operator()(std::monostate) const { return ""; }
  std::string operator()(const std::string& words) const { return words; }
  std::string operator()(OnTheClock clock) const { return number(to_seconds(clock.moment).value, 3); }
  std::string operator()(Milliseconds time) const { return number(to_seconds(time).value, 3); }
  std::string operator()(Metres length) const { return number(length.value, 3); }
  std::string operator()(Millimetres length) const { return number(length.value, 3); }
  std::string operator()(MetresPerSecond speed) const { return number(speed.value, 3); }
  std::string operator()(Degrees angle) const { return number(angle.value, 1); }
  std::string operator()(Lux light) const { return number(light.value, 1); }
  std::string operator()(Stops stops) const { return number(stops.value, 1); }
  std::string operator()(Count count) const { return std::to_string(count.of); }
  std::string operator()(Ratio ratio) const { return number(ratio.to_one, 3); }
  std::string operator()(Over) const { return ""; }
};

}  // namespace

std::string page_text(const Entry& entry, Lengths lengths) { return std::visit(OnPage{lengths}, entry); }
std::string data_text(const Entry& entry) { return std::visit(InData{}, entry); }

}  // namespace lensward
