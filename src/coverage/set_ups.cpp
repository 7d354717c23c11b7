#include "coverage/set_ups.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/angle.h"
#include "coverage/placing.h"
#include "plan/floor.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

// Who goes farther than this has to be lit and covered anew (common practice, no source).
constexpr double relocates = 1.2;
// So does who is looked at from elsewhere, or sits down (common practice, no source).
constexpr Degrees eyeline_swings{45};
constexpr double rises = 0.25;
// A pair with fewer lines than this is covered by singles alone, and so are two whose heads are not level, or who are
// too far from one another for a shoulder to be in the picture (choices of ours, no source).
constexpr int lines_for_shoulders = 2;
constexpr double level_heads = 0.35, near_enough = 3;
// A lens in somebody.
constexpr double body_room = 0.4;

class Covering {
 public:
  Covering(const Plan& plan, const std::vector<Exchange>& exchanges) : plan_(plan), exchanges_(exchanges) {}

  std::vector<SetUp> all() {
    add_master();
    count_pairs();
    for (const Exchange& exchange : exchanges_) {
      add_single(exchange, exchange.speaker);
      if (exchange.aside || !exchange.listener.known()) continue;
      add_single(exchange, exchange.listener);
      if (pairs_[pair_of(exchange)] < lines_for_shoulders || !has_a_shoulder(exchange)) continue;
      add_over(exchange, exchange.speaker);
      add_over(exchange, exchange.listener);
    }
    add_inserts();
    return std::move(set_ups_);
  }

 private:
  // What else has to be the same for a set-up to serve again.
  struct Stand {
    Vec2 of_at, toward_at;
    Degrees eyeline;
    double eyes = 0;  // above the floor
    bool right = false;
  };

  double eyes_up(PersonId person, Moment moment) const { return eyes_at(plan_, person, moment).z; }

  bool has_a_shoulder(const Exchange& exchange) const {
    const double apart = eyes_up(exchange.speaker, exchange.moment) - eyes_up(exchange.listener, exchange.moment);
    return std::abs(apart) <= level_heads && length(exchange.listener_at - exchange.speaker_at) <= near_enough;
  }

  // Somebody else stands where the lens would.
  bool somebody_is_there(const SetUp& set_up, const Exchange& exchange) const {
    for (std::size_t i = 0; i < plan_.people.size(); ++i) {
      const PersonId person{static_cast<int>(i)};
      if (person == set_up.of || (set_up.kind == SetUp::Kind::over_shoulder && person == set_up.toward)) continue;
      const PersonState state = person_at(plan_, person, exchange.moment);
      if (state.present && length(state.at - floor_of(set_up.camera.at)) < body_room) return true;
    }
    return false;
  }

  static std::pair<int, int> pair_of(const Exchange& exchange) {
    return std::minmax({exchange.speaker.index, exchange.listener.index});
  }

  const Speech& speech_of(const Exchange& exchange) const {
    return plan_.speeches[static_cast<std::size_t>(exchange.speech)];
  }

  void add_master() {
    SetUp master;
    master.camera = camera_at(plan_, on_air(plan_, {}), {});
    for (std::size_t i = 0; i < plan_.beats.size(); ++i) master.beats.push_back(static_cast<int>(i));
    master.lines = static_cast<int>(plan_.speeches.size());
    for (const Speech& speech : plan_.speeches) master.spoken = master.spoken + (speech.end - speech.begin);
    set_ups_.push_back(std::move(master));
    stands_.push_back({});
  }

  void count_pairs() {
    for (const Exchange& exchange : exchanges_)
      if (!exchange.aside && exchange.listener.known()) ++pairs_[pair_of(exchange)];
  }

  void add_single(const Exchange& exchange, PersonId of) {
    add(SetUp::Kind::single, exchange, of, single_of(plan_, of, exchange));
  }

  void add_over(const Exchange& exchange, PersonId of) {
    add(SetUp::Kind::over_shoulder, exchange, of, over_shoulder_of(plan_, of, exchange));
  }

  void add(SetUp::Kind kind, const Exchange& exchange, PersonId of, const CameraState& camera) {
    const bool speaks = of == exchange.speaker;
    const PersonId toward = speaks ? exchange.listener : exchange.speaker;
    Stand stand{speaks ? exchange.speaker_at : exchange.listener_at,
                speaks ? exchange.listener_at : exchange.speaker_at,
                {},
                eyes_up(of, exchange.moment),
                false};
    if (!toward.known()) stand.toward_at = stand.of_at + direction_of(person_at(plan_, of, exchange.moment).facing);
    stand.eyeline = bearing_of(stand.toward_at - stand.of_at);
    stand.right = looks_right(camera, stand.of_at, stand.toward_at);
    SetUp& set_up = known(kind, of, toward, stand, camera);
    if (set_up.beats.empty() || set_up.beats.back() != exchange.beat) set_up.beats.push_back(exchange.beat);
    const Speech& speech = speech_of(exchange);
    if (speaks) {
      ++set_up.lines;
      set_up.spoken = set_up.spoken + (speech.end - speech.begin);
    }
    set_up.moments.push_back(speech.begin);
    set_up.in_the_way = set_up.in_the_way || somebody_is_there(set_up, exchange);
  }

  // A single serves for everybody in about the same direction; a shoulder is one person's.
  bool serves(std::size_t index, SetUp::Kind kind, PersonId of, PersonId toward, const Stand& stand) const {
    const SetUp& one = set_ups_[index];
    if (one.kind != kind || one.of != of || length(stands_[index].of_at - stand.of_at) > relocates) return false;
    if (std::abs(stands_[index].eyes - stand.eyes) > rises) return false;
    const double swing = std::abs(wrapped(stands_[index].eyeline - stand.eyeline).value);
    if (kind == SetUp::Kind::single) return one.looks_right == stand.right && swing <= eyeline_swings.value;
    return one.toward == toward && one.looks_right == stand.right &&
           length(stands_[index].toward_at - stand.toward_at) <= relocates;
  }

  SetUp& known(SetUp::Kind kind, PersonId of, PersonId toward, const Stand& stand, const CameraState& camera) {
    for (std::size_t i = 0; i < set_ups_.size(); ++i)
      if (serves(i, kind, of, toward, stand)) return set_ups_[i];
    SetUp set_up;
    set_up.kind = kind;
    set_up.of = of;
    set_up.toward = toward;
    set_up.camera = camera;
    set_up.looks_right = stand.right;
    set_up.in_the_way = floor_is_taken(plan_.stage, floor_of(camera.at));
    stands_.push_back(stand);
    return set_ups_.emplace_back(std::move(set_up));
  }

  // What somebody asked the eye to be on, and what changes hands.
  void add_inserts() {
    std::map<int, std::vector<Moment>> shown;
    for (const Intent& intent : plan_.intents)
      for (const Target& target : intent.targets)
        if (target.kind == Target::Kind::prop && intent.kind != Intent::Kind::hide)
          shown[target.index].push_back(intent.begin);
    for (std::size_t i = 0; i < plan_.props.size(); ++i)
      for (const Segment<Target>& rests : plan_.props[i].rests)
        if (rests.begin > Moment{} && rests.from != rests.to) shown[static_cast<int>(i)].push_back(rests.begin);
    for (auto& [prop, moments] : shown) {
      std::ranges::sort(moments);
      SetUp insert;
      insert.kind = SetUp::Kind::insert;
      insert.thing = {Target::Kind::prop, prop, {}};
      for (const Moment moment : moments)
        if (const int beat = beat_at(plan_, moment); insert.beats.empty() || insert.beats.back() != beat)
          insert.beats.push_back(beat);
      insert.moments = std::move(moments);
      set_ups_.push_back(std::move(insert));
    }
  }

  const Plan& plan_;
  const std::vector<Exchange>& exchanges_;
  std::vector<SetUp> set_ups_;
  std::vector<Stand> stands_;
  std::map<std::pair<int, int>, int> pairs_;
};

}  // namespace

std::vector<SetUp> set_ups_of(const Plan& plan, const std::vector<Exchange>& exchanges) {
  return Covering(plan, exchanges).all();
}

}  // namespace lensward
