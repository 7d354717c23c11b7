// The predictions of published work on looking, and what the model says to each, under any weights.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "emphasis/tally.h"

namespace lensward::attention {

using Weights = std::array<double, cue_count>;  // points

// One person or thing at one moment of a scene file.
struct Side {
  std::string file, who;
  Moment at;
};

enum class Sort { share, other, outside };

// A row of predictions.tsv: one order that the model must show, or why it is not asked.
struct Prediction {
  std::string id;
  Sort sort = Sort::outside;
  // The share of `more` is above that of `less` by this; with `pulls`, it is farther above an even share than that of
  // `less` is below one.
  double by = 0;
  bool pulls = false;
  std::optional<CueKind> cue;  // the one in which the two sides differ; nothing when it is not one cue alone
  double strong = 0, weak = 0;
  Side more, less;
  std::string words, source, note;
};

// Everyone's strengths × gate at one moment, and whose share is asked.
struct Seen {
  std::vector<std::array<double, cue_count>> gated;
  std::size_t who = 0;
  std::array<double, cue_count> strength{};  // of who, before the gate

  // Of the points of all; an even share when nobody has any.
  double share(const Weights& weights) const;
  // How the share grows with each weight.
  Weights slope(const Weights& weights) const;
};

struct Row {
  Prediction prediction;
  Seen more, less;

  // By how much the order is met; negative: it is not.
  double slack(const Weights& weights) const;
  Weights slope(const Weights& weights) const;
};

// All rows in the order of the table. Throws std::runtime_error for a table or a scene that cannot be read.
std::vector<Prediction> read_predictions(const std::string& folder);
// The rows to be shown, with their scenes played. A scene with an error finding throws.
std::vector<Row> play(const std::string& folder, const std::vector<Prediction>& predictions);

// "O-13" of "O-13 b": rows of one prediction stand or fall together.
std::string number_of(const Prediction& prediction);

}  // namespace lensward::attention
