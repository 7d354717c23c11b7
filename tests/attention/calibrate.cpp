#include "calibrate.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "base/angle.h"

namespace lensward::attention {
namespace {

constexpr std::uint64_t holding_out = 5, drawing = 200;
constexpr double least_weight = 0.5;
// Rounding to tenths must not lose an order.
constexpr double spare = 0.001;

double dot(const Weights& a, const Weights& b) { return std::inner_product(a.begin(), a.end(), b.begin(), 0.0); }

struct HalfSpace {
  Weights normal{};
  double least = 0;  // normal · weights >= least
};

// The orders near these weights, made straight, and the floor under every weight. A share does not change when all
// weights grow alike, so slope · weights is 0.
std::vector<HalfSpace> half_spaces(const std::vector<Row>& rows, const Weights& near) {
  std::vector<HalfSpace> spaces;
  for (const Row& row : rows) spaces.push_back({row.slope(near), spare - row.slack(near)});
  for (int i = 0; i < cue_count; ++i) {
    HalfSpace floor;
    floor.normal[static_cast<std::size_t>(i)] = 1;
    floor.least = least_weight;
    spaces.push_back(floor);
  }
  return spaces;
}

// Only moves that keep the sum count.
void flatten(Weights& direction) {
  const double mean = std::accumulate(direction.begin(), direction.end(), 0.0) / cue_count;
  for (double& part : direction) part -= mean;
}

// Hildreth's method: the point nearest to `start` within all half spaces, its sum kept. Each step meets one half space
// exactly and takes back what it pushed too far before.
Weights nearest(const Weights& start, std::vector<HalfSpace> spaces) {
  Weights at = start;
  std::vector<double> pushed(spaces.size(), 0.0);
  for (HalfSpace& space : spaces) {
    const double mean = std::accumulate(space.normal.begin(), space.normal.end(), 0.0) / cue_count;
    space.least -= mean * 100;
    flatten(space.normal);
  }
  for (int sweep = 0; sweep < 20000; ++sweep) {
    double moved = 0;
    for (std::size_t k = 0; k < spaces.size(); ++k) {
      const Weights& normal = spaces[k].normal;
      const double size = dot(normal, normal);
      if (!(size > 0)) continue;
      const double push = std::max(-pushed[k], (spaces[k].least - dot(normal, at)) / size);
      pushed[k] += push;
      for (std::size_t i = 0; i < at.size(); ++i) at[i] += push * normal[i];
      moved = std::max(moved, std::fabs(push) * std::sqrt(size));
    }
    if (moved < 1e-12) break;
  }
  return at;
}

// To tenths that add to 100: what is left over goes to those that lost most.
Weights in_tenths(const Weights& weights) {
  Weights tenths{};
  double sum = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) sum += tenths[i] = std::floor(weights[i] * 10);
  while (sum < 1000) {
    std::size_t most = 0;
    for (std::size_t i = 1; i < weights.size(); ++i) {
      if (weights[i] * 10 - tenths[i] > weights[most] * 10 - tenths[most]) most = i;
    }
    tenths[most] += 1;
    sum += 1;
  }
  for (double& weight : tenths) weight /= 10;
  return tenths;
}

bool between_cues(const std::string& number) {
  return number == "O-30" || number == "O-40" || number == "O-41" || number[0] == 'T';
}

Weights step_of(Chance& chance) {
  static constexpr std::array<double, 4> sizes{0.3, 1, 3, 8};
  Weights step{};
  const double size = sizes[chance.below(sizes.size())];
  for (double& part : step) part = 2 * chance.unit() - 1;
  flatten(step);
  const double length = std::sqrt(dot(step, step));
  for (double& part : step) part *= size / length;
  return step;
}

}  // namespace

double Chance::unit() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }

std::size_t Chance::below(std::size_t count) { return static_cast<std::size_t>(unit() * static_cast<double>(count)); }

Weights Chance::weights() {
  Weights drawn{};
  double sum = 0;
  for (double& one : drawn) sum += one = -natural_log(1 - unit());
  for (double& one : drawn) one *= 100 / sum;
  return drawn;
}

std::set<std::string> held_out(const std::vector<Prediction>& predictions) {
  std::vector<std::string> numbers;
  for (const Prediction& one : predictions) {
    if (one.sort != Sort::share || between_cues(number_of(one))) continue;
    if (numbers.empty() || numbers.back() != number_of(one)) numbers.push_back(number_of(one));
  }
  Chance chance(holding_out);
  const std::size_t third = numbers.size() / 3;
  std::set<std::string> out;
  while (out.size() < third) out.insert(numbers[chance.below(numbers.size())]);
  return out;
}

std::vector<Row> without(const std::vector<Row>& rows, const std::set<std::string>& numbers) {
  std::vector<Row> kept;
  for (const Row& row : rows) {
    if (numbers.count(number_of(row.prediction)) == 0) kept.push_back(row);
  }
  return kept;
}

bool satisfies(const std::vector<Row>& rows, const Weights& weights) {
  return std::all_of(rows.begin(), rows.end(), [&](const Row& row) { return row.slack(weights) > -1e-9; });
}

Weights fit(const std::vector<Row>& rows) {
  Weights at = craftsman;
  for (int round = 0; round < 60; ++round) at = nearest(craftsman, half_spaces(rows, at));
  at = in_tenths(at);
  std::string missed;
  for (const Row& row : rows) {
    if (row.slack(at) < -1e-9) missed += fmt::format(" {} by {:.4f}", row.prediction.id, -row.slack(at));
  }
  if (!missed.empty()) {
    for (const double weight : at) missed += fmt::format(", {:g}", weight);
    throw std::runtime_error("no weights show every order; missed:" + missed);
  }
  return at;
}

std::vector<Weights> draw(const std::vector<Row>& rows, const Weights& from, int count) {
  constexpr int steps_between = 600;
  Chance chance(drawing);
  std::vector<Weights> drawn;
  Weights at = from;
  for (int step = 1; static_cast<int>(drawn.size()) < count; ++step) {
    const Weights by = step_of(chance);
    Weights next = at;
    for (std::size_t i = 0; i < next.size(); ++i) next[i] += by[i];
    if (*std::min_element(next.begin(), next.end()) >= least_weight && satisfies(rows, next)) at = next;
    if (step % steps_between == 0) drawn.push_back(in_tenths(at));
  }
  return drawn;
}

Score score(const std::vector<Row>& rows, const Weights& weights) {
  std::map<std::string, bool> right;
  for (const Row& row : rows) {
    const auto known = right.emplace(number_of(row.prediction), true).first;
    known->second = known->second && row.slack(weights) > -1e-9;
  }
  Score sum;
  sum.of = static_cast<int>(right.size());
  for (const auto& [number, holds] : right) {
    if (holds)
      ++sum.right;
    else
      sum.wrong.push_back(number);
  }
  return sum;
}

std::string weightings_text(const std::vector<Weights>& drawn) {
  std::string text =
      "// Written by tests/attention/fit: weightings that show every order the weights are fitted to, in tenths of a "
      "point.\n";
  for (const Weights& weights : drawn) {
    std::string row;
    for (const double weight : weights) row += fmt::format("{}{:.0f}", row.empty() ? "{" : ", ", weight * 10);
    text += row + "},\n";
  }
  return text;
}

}  // namespace lensward::attention
