// Weights from predictions: the point nearest to a craftsman's start that shows every order it is fitted to.
#pragma once

#include <cstdint>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "predictions.h"

namespace lensward::attention {

// What a craftsman would begin with, before any prediction is asked; adds to 100.
inline constexpr Weights craftsman{18, 7, 10, 8, 12, 6, 4, 2, 7, 6, 6, 6, 4, 4};

// A generator that gives the same numbers everywhere.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}
  double unit();  // 0 <= x < 1
  std::size_t below(std::size_t count);
  Weights weights();  // positive, adding to 100, each such equally likely

 private:
  std::mt19937_64 engine_;
};

// A third of the predictions, by number, chosen by a fixed seed. Those whose orders between cues the fit must hold are
// not among them: O-30, O-40, O-41 and the tiers.
std::set<std::string> held_out(const std::vector<Prediction>& predictions);
std::vector<Row> without(const std::vector<Row>& rows, const std::set<std::string>& numbers);

bool satisfies(const std::vector<Row>& rows, const Weights& weights);
// Weights of at least half a point, adding to 100, in tenths. Throws std::runtime_error when nothing satisfies all
// rows.
Weights fit(const std::vector<Row>& rows);
// Weightings spread evenly over all that satisfy the rows, in tenths, each adding to 100.
std::vector<Weights> draw(const std::vector<Row>& rows, const Weights& from, int count);

// How many rows' predictions come out right, of how many.
struct Score {
  int right = 0, of = 0;
  std::vector<std::string> wrong;  // numbers
};
Score score(const std::vector<Row>& rows, const Weights& weights);

// src/emphasis/weightings.def
std::string weightings_text(const std::vector<Weights>& drawn);

}  // namespace lensward::attention
