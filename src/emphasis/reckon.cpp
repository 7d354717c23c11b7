#include "emphasis/reckon.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "emphasis/gates.h"
#include "emphasis/weights.h"

namespace lensward {
namespace {

constexpr Milliseconds breath{300};
constexpr Milliseconds camera_step{100};
constexpr Milliseconds voice_rings{1000};
constexpr double stickiness = 3;
constexpr Milliseconds eye_takes{250};
constexpr double shows_enough = 0.25;
constexpr Milliseconds forgotten_after{5000};
constexpr double counts_as_shown = 0.1;

using Cue = double (*)(const CueInput&);
constexpr std::array<Cue, cue_count> cues{
    voice,     spoken_to, near_lens,    near_light, sharp,     body_moves,  hands_move,
    eyes_move, centre,    body_to_lens, apart,      looked_at, camera_move, newness,
};
constexpr std::array<CueKind, 3> movements{CueKind::body_moves, CueKind::hands_move, CueKind::eyes_move};

// Points are compared in hundredths, so that the last bit decides nothing.
long long hundredths(Points points) { return std::llround(points.value * 100); }

void measure_company(Instant& now) {
  for (const PersonSeen& person : now.view.people) {
    if (!person.in_front) continue;
    now.seen[static_cast<std::size_t>(person.person.index)] = &person;
    if (person.head_visible.value < counts_as_shown) continue;
    now.largest_head = std::max(now.largest_head, person.head_height);
    now.brightest_face = std::max(now.brightest_face, person.luminance);
  }
}

Instant instant_of(const Plan& plan, const View& view, const std::vector<PersonState>& people, Moment picture_since,
                   const CameraState& soon) {
  Instant now{plan, view, people, {}, {}, picture_since, soon, Share{0}, Nits{0}};
  now.seen.resize(plan.stage.people.size(), nullptr);
  for (const Speech& speech : plan.speeches) {
    if (speech.begin - breath <= view.moment && view.moment < speech.end + voice_rings) now.sounding.push_back(&speech);
  }
  measure_company(now);
  return now;
}

Target leader_of(const std::vector<Standing>& standings) {
  Target leader;
  long long most = 0;
  for (const Standing& standing : standings) {
    if (hundredths(standing.points) <= most) continue;
    most = hundredths(standing.points);
    leader = standing.target;
  }
  return leader;
}

void share_out(std::vector<Standing>& standings) {
  double sum = 0;
  for (const Standing& standing : standings) sum += standing.points.value;
  if (!(sum > 0)) return;
  for (Standing& standing : standings) standing.share = Share{standing.points.value / sum};
}

// News begins at the sample that first shows them, so it is set before the cues are read.
void notice_arrival(const CueInput& in, bool scene_begins, Memory& memory) {
  if (in.person == nullptr && in.thing == nullptr) return;
  const double visible = in.person != nullptr ? in.person->head_visible.value : in.thing->visible.value;
  if (visible < shows_enough || scene_begins) return;
  const Moment moment = in.now.view.moment;
  if (memory.last_seen && moment - *memory.last_seen < forgotten_after) return;
  memory.new_since = moment;
}

}  // namespace

EyeMemory later(EyeMemory memory, Milliseconds by) {
  const auto carry = [by](std::optional<Moment>& moment) {
    if (moment) moment = std::max(Moment{}, *moment + by);
  };
  const auto carry_memory = [&](Memory& one) {
    carry(one.last_seen);
    carry(one.new_since);
  };
  for (Memory& one : memory.people) carry_memory(one);
  for (auto& [thing, one] : memory.things) carry_memory(one);
  carry(memory.last);
  memory.picture_since = std::max(Moment{}, memory.picture_since + by);
  carry(memory.challenged_since);
  return memory;
}

Reckoner::Reckoner(const Plan& plan, EyeMemory memory)
    : plan_(plan), weights_(weights_of(plan.settings)), eye_(std::move(memory)) {
  eye_.people.resize(plan.stage.people.size());
}

Memory& Reckoner::memory_of(const Target& target) {
  if (target.kind == Target::Kind::person) return eye_.people[static_cast<std::size_t>(target.index)];
  for (auto& [thing, memory] : eye_.things) {
    if (thing == target) return memory;
  }
  return eye_.things.emplace_back(target, Memory{}).second;
}

void Reckoner::remember(const CueInput& in, const Standing& standing, Memory& memory) {
  for (const CueKind cue : movements) {
    memory.fading[static_cast<std::size_t>(cue)] = standing.strength[static_cast<std::size_t>(cue)];
  }
  if (standing.gate_visible >= shows_enough) memory.last_seen = in.now.view.moment;
}

Standing Reckoner::stand(const CueInput& in, Memory& memory) {
  Standing standing;
  standing.target = in.target;
  const Gates gates = gates_of(in);
  standing.gate_visible = gates.visible;
  standing.gate_size = gates.size;
  standing.gate_light = gates.light;
  for (std::size_t i = 0; i < cues.size(); ++i) {
    standing.strength[i] = cues[i](in);
    standing.contribution[i] = weights_[i] * (standing.strength[i] * gates.all());
    standing.points += standing.contribution[i];
  }
  remember(in, standing, memory);
  return standing;
}

// The eye stays where it is until another has led by 3 points for a quarter of a second. A cut sets it free, as does
// the going of whoever had it. No source: a choice that keeps the holder from flickering at a tie.
Target Reckoner::hold(const Sample& sample, bool new_picture) {
  const Standing* held = standing_of(sample, eye_.holder);
  if (new_picture || held == nullptr || hundredths(held->points) <= 0) {
    eye_.challenged_since.reset();
    return sample.leader;
  }
  const Standing* leader = standing_of(sample, sample.leader);
  if (leader == nullptr || leader->points.value - held->points.value < stickiness) {
    eye_.challenged_since.reset();
    return eye_.holder;
  }
  if (!eye_.challenged_since) eye_.challenged_since = sample.moment;
  if (sample.moment - *eye_.challenged_since < eye_takes) return eye_.holder;
  eye_.challenged_since.reset();
  return sample.leader;
}

Sample Reckoner::reckon(const View& view) {
  std::vector<PersonState> people;
  people.reserve(plan_.stage.people.size());
  for (std::size_t i = 0; i < plan_.stage.people.size(); ++i)
    people.push_back(person_at(plan_, PersonId{static_cast<int>(i)}, view.moment));
  // Past a cut the other camera is on air; its place says nothing of this one's move.
  const bool filmed = view.camera.known();
  return reckon(view, people, filmed ? camera_at(plan_, view.camera, view.moment + camera_step) : view.state);
}

Sample Reckoner::reckon(const View& view, const std::vector<PersonState>& people, const CameraState& soon) {
  const bool scene_begins = !eye_.last;
  const bool new_picture = scene_begins || view.camera != eye_.camera;
  if (new_picture) eye_.picture_since = view.moment;
  const double fade = scene_begins ? 0 : 1 - falling(view.moment - *eye_.last, movement_fades);
  const Instant now = instant_of(plan_, view, people, eye_.picture_since, soon);

  Sample sample;
  sample.moment = view.moment;
  sample.camera = view.camera;
  sample.standings.reserve(now.seen.size() + view.things.size());
  const auto add = [&](const Target& target, const PersonSeen* person, const ThingSeen* thing) {
    Memory& memory = memory_of(target);
    for (double& strength : memory.fading) strength = std::max(0.0, strength - fade);
    const CueInput in{now, target, person, thing, memory};
    notice_arrival(in, scene_begins, memory);
    sample.standings.push_back(stand(in, memory));
  };
  static const PersonSeen unseen{};
  for (std::size_t i = 0; i < now.seen.size(); ++i) {
    const PersonSeen* seen = now.seen[i] != nullptr ? now.seen[i] : &unseen;
    add(Target{Target::Kind::person, static_cast<int>(i), {}}, seen, nullptr);
  }
  for (const ThingSeen& thing : view.things) add(thing.target, nullptr, &thing);

  share_out(sample.standings);
  sample.leader = leader_of(sample.standings);
  sample.holder = eye_.holder = hold(sample, new_picture);
  eye_.last = view.moment;
  eye_.camera = view.camera;
  return sample;
}

}  // namespace lensward
