#include "plan/amounts.h"

#include "plan/measures.h"

namespace lensward {
namespace {

constexpr Limits time_limits{"length of time", Dimension::time, 0, 3600, "2 s"};
constexpr Limits length_limits{"distance", Dimension::length, -200, 200, "0.7 m"};
constexpr Limits angle_limits{"angle", Dimension::angle, -720, 720, "20 deg"};
constexpr Limits share_limits{"share", Dimension::share, 0, 1, "40%"};

}  // namespace

std::optional<Milliseconds> time_told(const Amount& amount, Findings& findings) {
  const std::optional<Measured> seconds = measured(amount, time_limits, findings);
  return seconds ? std::optional{to_milliseconds(Seconds{seconds->preferred})} : std::nullopt;
}

std::optional<Metres> length_told(const Amount& amount, Metres step, Findings& findings) {
  const std::optional<Measured> metres = measured(amount, length_limits, findings, step);
  return metres ? std::optional{Metres{metres->preferred}} : std::nullopt;
}

std::optional<Degrees> angle_told(const Amount& amount, Findings& findings) {
  const std::optional<Measured> degrees = measured(amount, angle_limits, findings);
  return degrees ? std::optional{Degrees{degrees->preferred}} : std::nullopt;
}

std::optional<Share> share_told(const Amount& amount, Findings& findings) {
  const std::optional<Measured> share = measured(amount, share_limits, findings);
  return share ? std::optional{Share{share->preferred}} : std::nullopt;
}

std::optional<Dimension> dimension_of(const Amount& amount) {
  const std::string& word = amount.first.unit.empty() && amount.second ? amount.second->unit : amount.first.unit;
  const std::optional<UnitOf> unit = unit_of(word);
  return unit ? std::optional{unit->dimension} : std::nullopt;
}

}  // namespace lensward
