// Fits the weights to the predictions. Prints every row with what the model says to it, the fitted weights, and what
// src/emphasis/weights.cpp is to hold; with --write also writes src/emphasis/weightings.def.
#include <fmt/core.h>

#include <cstring>
#include <exception>
#include <fstream>

#include "calibrate.h"
#include "emphasis/weights.h"

namespace attention = lensward::attention;

namespace {

attention::Weights weights_now() {
  attention::Weights weights{};
  for (int i = 0; i < lensward::cue_count; ++i) {
    weights[static_cast<std::size_t>(i)] = lensward::default_weight(static_cast<lensward::CueKind>(i)).value;
  }
  return weights;
}

void print(const attention::Row& row, const attention::Weights& weights) {
  const auto& asked = row.prediction;
  std::string strengths;
  if (asked.cue) {
    const auto cue = static_cast<std::size_t>(*asked.cue);
    strengths = fmt::format("{} {:.2f} (asked {:.2f}) over {:.2f} (asked {:.2f})", lensward::name_of(*asked.cue),
                            row.more.strength[cue], asked.strong, row.less.strength[cue], asked.weak);
  }
  fmt::print("{:<8}{:>7.3f} over {:.3f}, to spare {:>6.3f}  {}\n", asked.id, row.more.share(weights),
             row.less.share(weights), row.slack(weights), strengths);
}

void print_all(const std::vector<attention::Row>& rows, const char* what, const attention::Weights& weights) {
  fmt::print("\n{}:", what);
  for (const double weight : weights) fmt::print(" {:g}", weight);
  fmt::print("\n");
  for (const auto& row : rows) print(row, weights);
}

int run(bool write) {
  const auto predictions = attention::read_predictions(LENSWARD_ATTENTION_DIR);
  const auto rows = attention::play(LENSWARD_ATTENTION_DIR, predictions);
  print_all(rows, "now", weights_now());
  print_all(rows, "a craftsman's start", attention::craftsman);
  const auto out = attention::held_out(predictions);
  fmt::print("\nheld out:");
  for (const auto& number : out) fmt::print(" {}", number);
  const auto fitted_to = attention::without(rows, out);
  const auto fitted = attention::fit(fitted_to);
  print_all(rows, "fitted", fitted);
  if (write) {
    std::ofstream file(LENSWARD_SOURCE_DIR "/src/emphasis/weightings.def", std::ios::binary);
    file << attention::weightings_text(attention::draw(fitted_to, fitted, 200));
  }
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    return run(count > 1 && std::strcmp(arguments[1], "--write") == 0);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
