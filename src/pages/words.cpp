#include "pages/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"

namespace lensward {
namespace {

bool asks_for_the_eye(Intent::Kind kind) {
  switch (kind) {
    case Intent::Kind::favour:
    case Intent::Kind::share:
    case Intent::Kind::pass:
    case Intent::Kind::play:
    case Intent::Kind::reveal:
    case Intent::Kind::draw_the_eye:
    case Intent::Kind::button:
      return true;
    default:
      return false;
  }
}

// Quantised first, so that "level" and "by 1 point" never hang on the last bit.
int whole_points(Points points) { return static_cast<int>(std::lround(points.value)); }

std::string measure_words(const Verdict& verdict) {
  const auto missed = std::find_if(verdict.measures.begin(), verdict.measures.end(),
                                   [](const Measure& measure) { return !measure.met; });
  const auto told = missed == verdict.measures.end() ? verdict.measures.begin() : missed;
  if (told == verdict.measures.end()) return {};
  return plain(told->told);
}

}  // namespace

std::vector<Target> asked_for(const Plan& plan, int beat, Moment moment) {
  const bool known = beat >= 0 && beat < static_cast<int>(plan.beats.size());
  for (auto intent = plan.intents.rbegin(); intent != plan.intents.rend(); ++intent) {
    if (!asks_for_the_eye(intent->kind) || moment < intent->begin || moment > intent->end) continue;
    if (known && intent->end <= plan.beats[static_cast<std::size_t>(beat)].begin) continue;
    if (intent->kind == Intent::Kind::pass && intent->targets.size() == 2) {
      const Moment middle{(intent->begin.count + intent->end.count) / 2};
      return {intent->targets[moment < middle ? 0 : 1]};
    }
    return intent->targets;
  }
  return {};
}

bool about_who_leads(const Plan& plan, const Verdict& verdict) {
  if (verdict.story >= 0) return false;
  if (verdict.intent < 0 || verdict.intent >= static_cast<int>(plan.intents.size())) return true;
  return asks_for_the_eye(plan.intents[static_cast<std::size_t>(verdict.intent)].kind);
}

std::string outcome_words(const Plan& plan, const Verdict& verdict) {
  if (verdict.result == Verdict::Result::not_judged) return {};
  if (!about_who_leads(plan, verdict)) return measure_words(verdict);
  const int margin = whole_points(verdict.favoured_points - verdict.rival_points);
  const bool alone = verdict.rival.kind == Target::Kind::nothing;
  const std::string rival = called(plan, verdict.rival);
  if (whole_points(verdict.favoured_points) == 0 && margin == 0) return "without a point";
  if (margin == 0) return "level with " + rival;
  const std::string count = counted(static_cast<std::size_t>(std::abs(margin)), "point", "points");
  if (alone) return "with " + count;
  const bool holds = verdict.result == Verdict::Result::holds;
  const std::vector<Target> asked = verdict.intent >= 0 && verdict.intent < static_cast<int>(plan.intents.size())
                                        ? plan.intents[static_cast<std::size_t>(verdict.intent)].targets
                                        : std::vector<Target>{};
  const bool shares = std::find(asked.begin(), asked.end(), verdict.rival) != asked.end();
  if (holds && margin < 0 && shares) return fmt::format("{} the more by {}", rival, count);
  if (holds && margin < 0)
    return fmt::format("though {} is ahead by {} at {}", rival, count, clock_text(verdict.decided));
  if (!holds && margin > 0) {
    const std::string missed = measure_words(verdict);
    if (!missed.empty()) return missed;
  }
  return margin > 0 ? "by " + count + " over " + rival : "short of " + rival + " by " + count;
}

const std::string* waived_because(const Results& results, const Verdict& verdict) {
  if (verdict.complaint.empty()) return nullptr;
  for (const Finding& finding : results.findings.all())
    if (finding.waived_because && finding.rule == verdict.complaint && finding.at == verdict.decided &&
        beat_of(results, finding) == verdict.beat)
      return &*finding.waived_because;
  return nullptr;
}

int gravity(Verdict::Result result) {
  switch (result) {
    case Verdict::Result::fails:
      return 3;
    case Verdict::Result::close:
      return 2;
    case Verdict::Result::holds:
      return 1;
    case Verdict::Result::not_judged:
      return 0;
  }
  return 0;
}

std::vector<const Verdict*> verdicts_of(const Results& results, int beat) {
  std::vector<const Verdict*> own;
  for (const Verdict& verdict : results.verdicts)
    if (verdict.beat == beat) own.push_back(&verdict);
  return own;
}

std::vector<const Finding*> numbered_findings(const Results& results) {
  std::vector<const Finding*> all;
  for (const Finding& finding : results.findings.all())
    if (!finding.waived_because && finding.severity != Severity::remark) all.push_back(&finding);
  std::stable_sort(all.begin(), all.end(),
                   [](const Finding* a, const Finding* b) { return a->severity > b->severity; });
  return all;
}

int number_of(const Results& results, const Finding& finding) {
  const std::vector<const Finding*> all = numbered_findings(results);
  const auto own = std::find(all.begin(), all.end(), &finding);
  return own == all.end() ? 0 : static_cast<int>(own - all.begin()) + 1;
}

int beat_of(const Results& results, const Finding& finding) {
  const std::vector<Beat>& beats = results.plan.beats;
  for (std::size_t i = 0; i < beats.size(); ++i)
    if (!finding.subject.beat.empty() && beats[i].name == finding.subject.beat) return static_cast<int>(i);
  return finding.at && finding.subject.beat.empty() ? beat_at(results.plan, *finding.at) : -1;
}

std::vector<const Finding*> findings_of(const Results& results, int beat) {
  std::vector<const Finding*> own;
  for (const Finding& finding : results.findings.all())
    if (!finding.waived_because && beat_of(results, finding) == beat) own.push_back(&finding);
  std::stable_sort(own.begin(), own.end(), [](const Finding* a, const Finding* b) {
    if (a->severity != b->severity) return a->severity > b->severity;
    return a->at.value_or(Moment{}) < b->at.value_or(Moment{});
  });
  return own;
}

std::string line_words(const Results& results, Span where) {
  if (where.empty() || where.file < 0 || where.file >= results.sources.size()) return {};
  std::string text = fmt::format("line {}", results.sources.begin_of(where).line);
  const std::string& name = results.sources.file(where.file).name();
  if (where.file != results.plan.facts.heading.file) text += " of " + name.substr(name.find_last_of('/') + 1);
  return text;
}

std::string where_words(const Results& results, const Finding& finding) {
  const int numbered = number_of(results, finding);
  std::string text = numbered > 0 ? fmt::format("{} · ", numbered) : "";
  text += name_of(finding.severity);
  if (finding.at) text += " · " + clock_text(*finding.at);
  const std::string line = line_words(results, finding.where);
  return line.empty() ? text : text + " · " + line;
}

}  // namespace lensward
