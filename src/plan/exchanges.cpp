#include "plan/exchanges.h"

#include <algorithm>
#include <map>

#include "base/angle.h"

namespace lensward {
namespace {

Moment middle_of(const Speech& speech) { return Moment{(speech.begin.count + speech.end.count) / 2}; }

bool present(const Plan& plan, PersonId person, Moment moment) { return person_at(plan, person, moment).present; }

// Who is spoken to: the first one named who is there; of a line to everyone or nobody, whom the speaker looks at.
PersonId listener_of(const Plan& plan, const Speech& speech) {
  if (!speech.to_everyone)
    for (const PersonId person : speech.to)
      if (present(plan, person, middle_of(speech))) return person;
  const Target gaze = person_at(plan, speech.speaker, middle_of(speech)).gaze;
  const PersonId looked_at{gaze.kind == Target::Kind::person ? gaze.index : -1};
  return looked_at.known() && present(plan, looked_at, middle_of(speech)) ? looked_at : PersonId{};
}

Vec2 held_from(const Plan& plan, Moment moment) { return floor_of(camera_at(plan, on_air(plan, moment), moment).at); }

// A pair and its exchanges keep one side: that of the held frame's camera when they first speak, or, on the line then,
// when it first is off it. Where it comes to the other side, they change with it.
class Sides {
 public:
  explicit Sides(const Plan& plan) : plan_(plan) {}

  void settle(std::vector<Exchange>& exchanges, std::vector<CrossedLine>& crossed) {
    for (const Exchange& exchange : exchanges)
      if (const int side = seen_from(exchange); side != 0) kept_.try_emplace(pair_of(exchange), side);
    for (Exchange& exchange : exchanges) {
      if (!exchange.listener.known()) continue;
      const int side = seen_from(exchange);
      int& kept = kept_.try_emplace(pair_of(exchange), 1).first->second;
      if (side != 0 && side != kept) {
        const auto [one, other] = pair_of(exchange);
        crossed.push_back({PersonId{one}, PersonId{other}, exchange.moment});
        kept = side;
      }
      exchange.side = in_order(exchange) ? kept : -kept;
    }
  }

 private:
  static bool in_order(const Exchange& exchange) { return exchange.speaker.index < exchange.listener.index; }
  static std::pair<int, int> pair_of(const Exchange& exchange) {
    return std::minmax({exchange.speaker.index, exchange.listener.index});
  }

  // Of the line from the first of the pair to the second; 0 without a listener.
  int seen_from(const Exchange& exchange) const {
    if (!exchange.listener.known()) return 0;
    const int side = side_of_line(exchange.speaker_at, exchange.listener_at, held_from(plan_, exchange.moment));
    return in_order(exchange) ? side : -side;
  }

  const Plan& plan_;
  std::map<std::pair<int, int>, int> kept_;
};

}  // namespace

int side_of_line(Vec2 from, Vec2 to, Vec2 at) {
  constexpr double on_the_line = 0.2;
  const double off = cross(unit(to - from), at - from);
  if (std::abs(off) < on_the_line) return 0;
  return off > 0 ? 1 : -1;
}

Degrees angle_between(Vec2 subject, Vec2 one, Vec2 other) {
  const double apart = std::abs(wrapped(bearing_of(one - subject) - bearing_of(other - subject)).value);
  return Degrees{apart};
}

std::vector<Exchange> exchanges_of(const Plan& plan, std::vector<CrossedLine>& crossed) {
  std::vector<Exchange> exchanges;
  for (std::size_t i = 0; i < plan.speeches.size(); ++i) {
    const Speech& speech = plan.speeches[i];
    const Moment moment = middle_of(speech);
    if (speech.off || !present(plan, speech.speaker, moment)) continue;
    Exchange exchange;
    exchange.speaker = speech.speaker;
    exchange.moment = moment;
    exchange.listener = listener_of(plan, speech);
    exchange.speaker_at = person_at(plan, speech.speaker, moment).at;
    exchange.speech = static_cast<int>(i);
    exchange.beat = beat_at(plan, speech.begin);
    exchange.aside = speech.to_everyone || speech.to.empty();
    if (exchange.listener.known()) exchange.listener_at = person_at(plan, exchange.listener, moment).at;
    exchanges.push_back(exchange);
  }
  Sides(plan).settle(exchanges, crossed);
  return exchanges;
}

}  // namespace lensward
