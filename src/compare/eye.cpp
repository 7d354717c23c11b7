// Who has the eye over a beat, before and after, and the cue that changed most.
#include <algorithm>
#include <map>
#include <utility>

#include "base/quantity_text.h"
#include "compare/parts.h"

namespace lensward {
namespace {

constexpr int gate_count = 3;
// What a gate lets through, said of somebody.
std::string gate_words(std::size_t gate, const std::string& name) {
  if (gate == 0) return "how much of `" + name + "` is seen";
  return (gate == 1 ? "the size in the picture of `" : "the light on `") + name + "`";
}

// Means over a beat, by time.
struct Hold {
  double held = 0;                          // share of the time with the eye
  double share = 0;                         // of the attention
  std::array<double, cue_count> ungated{};  // weight × strength, points
  std::array<double, gate_count> gates{};
};
using Holds = std::map<std::string, Hold>;

void add(const Attention& attention, const Standing& standing, double part, Hold& hold) {
  hold.share += part * standing.share.value;
  for (std::size_t cue = 0; cue < cue_count; ++cue) {
    hold.ungated[cue] += part * attention.weights[cue].value * standing.strength[cue];
  }
  const double gates[gate_count] = {standing.gate_visible, standing.gate_size, standing.gate_light};
  for (std::size_t gate = 0; gate < gate_count; ++gate) hold.gates[gate] += part * gates[gate];
}

Holds holds_of(const Draft& draft, int beat) {
  Holds holds;
  const Beat& stretch = draft.plan.beats[static_cast<std::size_t>(beat)];
  const auto length = static_cast<double>((stretch.end - stretch.begin).count);
  const std::vector<Sample>& samples = draft.attention.samples;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (samples[i].moment < stretch.begin || samples[i].moment >= stretch.end) continue;
    const Moment next = i + 1 < samples.size() ? std::min(samples[i + 1].moment, stretch.end) : stretch.end;
    const double part = static_cast<double>((next - samples[i].moment).count) / length;
    for (const Standing& standing : samples[i].standings) {
      add(draft.attention, standing, part, holds[name_of(draft.plan, standing.target)]);
    }
    if (samples[i].holder.kind != Target::Kind::nothing) holds[name_of(draft.plan, samples[i].holder)].held += part;
  }
  return holds;
}

double gate_of(const Hold& hold) { return hold.gates[0] * hold.gates[1] * hold.gates[2]; }

// The reason that moved somebody's points most in one direction, and by how many.
struct Reason {
  std::string words;
  double points = 0;
};

void consider(Reason& best, const std::string& words, double points, double wanted) {
  if (points * wanted > std::max(0.0, best.points * wanted)) best = {words, points};
}

// What each cue alone, and each gate alone, did to the points of one.
void consider_cues(const std::string& name, const Hold& before, const Hold& after, double wanted, Reason& best) {
  const double gate = (gate_of(before) + gate_of(after)) / 2;
  double ungated = 0;
  for (std::size_t cue = 0; cue < cue_count; ++cue) {
    const double points = gate * (after.ungated[cue] - before.ungated[cue]);
    consider(best, std::string("`") + lensward::name_of(static_cast<CueKind>(cue)) + "` of `" + name + "`", points,
             wanted);
    ungated += (before.ungated[cue] + after.ungated[cue]) / 2;
  }
  for (std::size_t gate_at = 0; gate_at < gate_count; ++gate_at) {
    double others = 1;
    for (std::size_t other = 0; other < gate_count; ++other) {
      if (other != gate_at) others *= (before.gates[other] + after.gates[other]) / 2;
    }
    const double points = ungated * others * (after.gates[gate_at] - before.gates[gate_at]);
    consider(best, gate_words(gate_at, name), points, wanted);
  }
}

// Somebody gains by what they gain themselves, or else by what those lose who have less attention for it.
std::string reason_for(const std::string& name, double gain, const Holds& before, const Holds& after) {
  Reason best, best_of_others;
  const double wanted = gain > 0 ? 1 : -1;
  for (const auto& [other, hold] : after) {
    const auto was = before.find(other);
    const Hold old = was == before.end() ? Hold{} : was->second;
    if (other == name) {
      consider_cues(other, old, hold, wanted, best);
    } else if ((hold.share - old.share) * wanted < 0) {
      consider_cues(other, old, hold, -wanted, best_of_others);
    }
  }
  // Of reasons about as large one's own is the plainer.
  if (std::fabs(best_of_others.points) > 2 * std::fabs(best.points)) best = best_of_others;
  // Less than a tenth of a point is no reason.
  if (std::fabs(best.points) < 0.1) return {};
  return best.words + ", " + (best.points > 0 ? "+" : "") + number(best.points, 1) + " points";
}

void compare_eye_of(Comparing& comparing, const BeatPair& beat, std::vector<Change>& into) {
  const Holds before = holds_of(comparing.before, beat.before), after = holds_of(comparing.after, beat.after);
  Holds all = before;
  all.insert(after.begin(), after.end());
  for (const auto& [name, unused] : all) {
    const auto was = before.find(name), is = after.find(name);
    const Hold old = was == before.end() ? Hold{} : was->second, now = is == after.end() ? Hold{} : is->second;
    const double held = 100 * (now.held - old.held), share = 100 * (now.share - old.share);
    const bool by_time = std::fabs(held) >= comparing.limits.eye.value - 1e-6;
    Change change{
        by_time ? Aspect::eye : Aspect::attention, ChangeWay::changed, name, "", "", "", by_time ? held : share};
    change.before = text_of(Share{by_time ? old.held : old.share});
    change.after = text_of(Share{by_time ? now.held : now.share});
    change.note = reason_for(name, change.amount, before, after);
    comparing.sized(into, std::move(change), comparing.limits.eye.value, 0.05);
  }
}

}  // namespace

void compare_eye(Comparing& comparing) {
  for (std::size_t i = 0; i < comparing.beats.size(); ++i) {
    compare_eye_of(comparing, comparing.beats[i], *comparing.found[i]);
  }
}

}  // namespace lensward
