#include <utility>

#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

bool concerns(const Intent& intent, const std::vector<Target>& targets) {
  return std::any_of(intent.targets.begin(), intent.targets.end(), [&](const Target& target) {
    return std::find(targets.begin(), targets.end(), target) != targets.end();
  });
}

}  // namespace

Window judged_window(const Playback& playback, const Intent& intent) {
  std::vector<Stretch> played;
  for (const Intent& other : playback.plan.intents) {
    if (other.kind != Intent::Kind::play || concerns(intent, other.targets)) continue;
    played.push_back({other.begin, other.end});
  }
  return without(settled_window(playback, {intent.begin, intent.end}), played);
}

void decide_at(const Slice* slice, const std::vector<Target>& only, Verdict& verdict) {
  if (slice == nullptr) return;
  verdict.decided = slice->begin;
  verdict.rival = rival_of(*slice, verdict.favoured, only);
  verdict.favoured_points = points_of(*slice, verdict.favoured);
  verdict.rival_points = points_of(*slice, verdict.rival);
}

void measure(Verdict& verdict, std::string what, std::string value, std::string limit, bool met, std::string missed) {
  std::string told = what + " " + value;
  if (!met) told = missed.empty() ? told + ", limit " + limit : std::move(missed);
  verdict.measures.push_back({std::move(what), std::move(value), std::move(limit), met, std::move(told)});
}

std::string quoted(const Playback& playback, const Target& target) {
  return "`" + name_of(playback.plan, target) + "`";
}

std::string points_text(Points points) {
  const std::string count = text_of(points);
  return count + (count == "1" ? " point" : " points");
}

void conclude(Verdict& verdict, const char* complaint) {
  const bool met =
      std::all_of(verdict.measures.begin(), verdict.measures.end(), [](const Measure& one) { return one.met; });
  verdict.result = met ? Verdict::Result::holds : Verdict::Result::fails;
  verdict.complaint = met ? "" : complaint;
}

}  // namespace lensward
