#include "predictions.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

#include "cli/pipeline.h"
#include "emphasis/weigh.h"

namespace lensward::attention {
namespace {

std::string read_whole(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream rest(line);
  for (std::string cell; std::getline(rest, cell, '\t');) cells.push_back(cell);
  return cells;
}

// "o13-more.staging Oda 2.5"
Side side_of(const std::string& cell) {
  std::istringstream words(cell);
  Side side;
  double seconds = 0;
  if (!(words >> side.file >> side.who >> seconds)) throw std::runtime_error("no file, name and second in " + cell);
  side.at = Moment{static_cast<std::int64_t>(seconds * 1000 + 0.5)};
  return side;
}

Sort sort_of(const std::string& cell) {
  if (cell == "share") return Sort::share;
  if (cell == "other output") return Sort::other;
  if (cell == "outside") return Sort::outside;
  throw std::runtime_error("no sort of prediction: " + cell);
}

std::optional<CueKind> cue_of(const std::string& cell) {
  for (int i = 0; i < cue_count; ++i) {
    if (cell == name_of(static_cast<CueKind>(i))) return static_cast<CueKind>(i);
  }
  if (cell == "-") return std::nullopt;
  throw std::runtime_error("no such cue: " + cell);
}

Prediction prediction_of(const std::vector<std::string>& cells) {
  if (cells.size() != 11) throw std::runtime_error("a row of other than 11 cells: " + cells.front());
  Prediction row;
  row.id = cells[0];
  row.sort = sort_of(cells[1]);
  row.words = cells[8];
  row.source = cells[9];
  row.note = cells[10];
  if (row.sort != Sort::share) return row;
  row.pulls = cells[2] == "pulls";
  row.by = row.pulls ? 0 : std::stod(cells[2]);
  row.cue = cue_of(cells[3]);
  row.strong = row.cue ? std::stod(cells[4]) : 0;
  row.weak = row.cue ? std::stod(cells[5]) : 0;
  row.more = side_of(cells[6]);
  row.less = side_of(cells[7]);
  return row;
}

Run played(const std::string& path) {
  Run run;
  compile(path, read_whole(path), Until::plan, run);
  for (const Finding& finding : run.findings.all()) {
    if (finding.severity == Severity::error) throw std::runtime_error(path + ": " + finding.message);
  }
  run.attention = weigh(run.plan);
  return run;
}

Seen seen_of(const Run& run, const Side& side) {
  const Sample& sample = sample_at(run.attention, side.at);
  Seen seen;
  bool found = false;
  for (const Standing& standing : sample.standings) {
    const double gate = standing.gate_visible * standing.gate_size * standing.gate_light;
    if (name_of(run.plan, standing.target) == side.who) {
      found = true;
      seen.who = seen.gated.size();
      seen.strength = standing.strength;
    }
    seen.gated.push_back(standing.strength);
    for (double& strength : seen.gated.back()) strength *= gate;
  }
  if (!found) throw std::runtime_error("no " + side.who + " in " + side.file);
  return seen;
}

double points(const std::array<double, cue_count>& gated, const Weights& weights) {
  double sum = 0;
  for (std::size_t i = 0; i < gated.size(); ++i) sum += gated[i] * weights[i];
  return sum;
}

}  // namespace

double Seen::share(const Weights& weights) const {
  double all = 0;
  for (const auto& one : gated) all += points(one, weights);
  return all > 0 ? points(gated[who], weights) / all : 1.0 / static_cast<double>(gated.size());
}

Weights Seen::slope(const Weights& weights) const {
  std::array<double, cue_count> total{};
  for (const auto& one : gated) {
    for (std::size_t i = 0; i < total.size(); ++i) total[i] += one[i];
  }
  const double all = points(total, weights), own = share(weights);
  Weights slope{};
  for (std::size_t i = 0; i < slope.size(); ++i) slope[i] = (gated[who][i] - own * total[i]) / all;
  return slope;
}

double Row::slack(const Weights& weights) const {
  const double a = more.share(weights), b = less.share(weights);
  if (!prediction.pulls) return a - b - prediction.by;
  return a + b - 2.0 / static_cast<double>(more.gated.size());
}

Weights Row::slope(const Weights& weights) const {
  Weights a = more.slope(weights);
  const Weights b = less.slope(weights);
  for (std::size_t i = 0; i < a.size(); ++i) a[i] += prediction.pulls ? b[i] : -b[i];
  return a;
}

std::vector<Prediction> read_predictions(const std::string& folder) {
  std::istringstream lines(read_whole(folder + "/predictions.tsv"));
  std::vector<Prediction> predictions;
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) predictions.push_back(prediction_of(cells_of(line)));
  return predictions;
}

std::vector<Row> play(const std::string& folder, const std::vector<Prediction>& predictions) {
  std::map<std::string, Run> runs;
  const auto run_of = [&](const std::string& file) -> const Run& {
    const auto known = runs.find(file);
    return known != runs.end() ? known->second : runs.emplace(file, played(folder + "/pairs/" + file)).first->second;
  };
  std::vector<Row> rows;
  for (const Prediction& prediction : predictions) {
    if (prediction.sort != Sort::share) continue;
    rows.push_back({prediction, seen_of(run_of(prediction.more.file), prediction.more),
                    seen_of(run_of(prediction.less.file), prediction.less)});
  }
  return rows;
}

std::string number_of(const Prediction& prediction) { return prediction.id.substr(0, prediction.id.find(' ')); }

}  // namespace lensward::attention
