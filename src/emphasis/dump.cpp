#include "emphasis/dump.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

double tenths(double value) { return std::round(value * 10) / 10 + 0.0; }
double hundredths(double value) { return std::round(value * 100) / 100 + 0.0; }

Json dump_weights(const Attention& attention) {
  Json weights;
  for (std::size_t i = 0; i < attention.weights.size(); ++i) {
    weights[lensward::name_of(static_cast<CueKind>(i))] = tenths(attention.weights[i].value);
  }
  return weights;
}

Json dump_points(const Plan& plan, const Sample& sample) {
  Json points;
  for (const Standing& standing : sample.standings) {
    if (tenths(standing.points.value) > 0) points[name_of(plan, standing.target)] = tenths(standing.points.value);
  }
  return points;
}

// Every moment the eye goes somewhere else, with the tally there.
Json dump_eye(const Plan& plan, const Attention& attention) {
  Json eye = Json::array();
  const Sample* before = nullptr;
  for (const Sample& sample : attention.samples) {
    if (before == nullptr || before->holder != sample.holder) {
      eye.push_back({{"from_ms", sample.moment.count},
                     {"on", name_of(plan, sample.holder)},
                     {"points", dump_points(plan, sample)}});
    }
    before = &sample;
  }
  return eye;
}

Json dump_verdict(const Plan& plan, const Verdict& verdict) {
  Json dumped{{"asked", asked_words(plan, verdict)},
              {"beat", verdict.beat >= 0 ? plan.beats[static_cast<std::size_t>(verdict.beat)].name : ""},
              {"result", name_of(verdict.result)}};
  if (verdict.result == Verdict::Result::not_judged) return dumped;
  if (!verdict.complaint.empty()) dumped["complaint"] = verdict.complaint;
  dumped["from_ms"] = verdict.begin.count;
  dumped["to_ms"] = verdict.end.count;
  dumped["decided_ms"] = verdict.decided.count;
  dumped["favoured"] = name_of(plan, verdict.favoured);
  dumped["favoured_points"] = tenths(verdict.favoured_points.value);
  dumped["rival"] = name_of(plan, verdict.rival);
  dumped["rival_points"] = tenths(verdict.rival_points.value);
  dumped["mean_margin"] = tenths(verdict.mean_margin.value);
  dumped["led"] = hundredths(verdict.led.value);
  for (const Measure& one : verdict.measures) {
    dumped["measures"].push_back(one.what + ": " + one.value + " of " + one.limit + (one.met ? "" : ", not met"));
  }
  return dumped;
}

}  // namespace

nlohmann::ordered_json dump_attention(const Plan& plan, const Attention& attention,
                                      const std::vector<Verdict>& verdicts) {
  Json dumped;
  dumped["schema"] = "lensward/emphasis/1";
  dumped["weights"] = dump_weights(attention);
  dumped["samples"] = attention.samples.size();
  dumped["eye"] = dump_eye(plan, attention);
  dumped["verdicts"] = Json::array();
  for (const Verdict& verdict : verdicts) dumped["verdicts"].push_back(dump_verdict(plan, verdict));
  return dumped;
}

}  // namespace lensward
