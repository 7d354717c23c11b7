#include "plan/beat_alone.h"

#include <algorithm>
#include <utility>

#include "plan/lane.h"

namespace lensward {
namespace {

// What happened longer ago than this, or comes later after it, is no nearer for that.
constexpr Milliseconds long_ago{10000};
// Hints and words that ring reach so far over a beat's ends.
constexpr Milliseconds reach{2500};

bool same_place(Vec2 a, Vec2 b) { return length(a - b) < 0.002; }

// What a lane comes from and goes to, for all time.
template <class Value>
void stand(Segment<Value>& segment, bool arrived) {
  (arrived ? segment.from : segment.to) = arrived ? segment.to : segment.from;
}

// A walk's path holds both ends.
void stand(Segment<Walk>& segment, bool arrived) {
  std::vector<Vec2>& path = segment.to.path;
  if (!path.empty()) path = {arrived ? path.back() : path.front()};
  segment.from = {};
}

class Excerpt {
 public:
  Excerpt(const Plan& scene, int index) : scene_(scene), beat_(scene.beats[static_cast<std::size_t>(index)]) {
    begin_ = beat_.begin - before_a_beat;
    end_ = beat_.end + after_a_beat;
    alone_.later = Milliseconds{index == 0 ? 0 : long_ago.count} - beat_.begin;
  }

  BeatAlone made() {
    take_stage();
    take_people();
    take_things();
    take_what_is_asked();
    return std::move(alone_);
  }

 private:
  // Times far from the beat are brought near, so that a change elsewhere does not move them.
  Moment local(Moment moment) const {
    return std::max(Moment{}, std::min(moment, beat_.end + long_ago) + alone_.later);
  }

  template <class Value>
  void place(Segment<Value>& segment) const {
    const bool over = segment.end <= begin_, to_come = segment.begin > end_;
    if (over || to_come) {
      stand(segment, over);
      segment.begin = segment.end = over ? Moment{} : local(beat_.end + long_ago);
    } else {
      // What is under way keeps its length.
      segment.begin = segment.begin + alone_.later;
      segment.end = segment.end + alone_.later;
    }
    segment.said_at = {};
  }

  template <class Value>
  Lane<Value> cut(const Lane<Value>& lane) const {
    Lane<Value> kept;
    const Segment<Value>* segment = segment_at(lane, begin_);
    if (segment == nullptr) return kept;
    for (; segment != lane.data() + lane.size() && (kept.empty() || segment->begin <= end_); ++segment) {
      place(kept.emplace_back(*segment));
    }
    return kept;
  }

  bool overlaps(Moment begin, Moment end) const { return begin <= beat_.end + reach && end >= beat_.begin - reach; }

  // The scene's, without the places in the text.
  void take_stage() {
    Plan& plan = alone_.plan;
    plan.facts.exterior = scene_.facts.exterior;
    plan.facts.hour = scene_.facts.hour;
    plan.settings = scene_.settings;
    plan.stage = scene_.stage;
    Stage& stage = plan.stage;
    const auto blank = [](auto& all) {
      for (auto& one : all) one.declared = {};
    };
    blank(stage.walls);
    blank(stage.openings);
    blank(stage.pieces);
    blank(stage.props);
    blank(stage.people);
    blank(stage.lamps);
    blank(stage.lenses);
    blank(stage.cameras);
    blank(stage.stories);
    blank(stage.spots);
    stage.room.declared = {};
    for (Camera& camera : stage.cameras) camera.support.said_at = {};
    Beat& beat = plan.beats.emplace_back();
    beat.begin = local(beat_.begin);
    beat.end = local(beat_.end);
    beat.judged = beat_.judged;
    beat.silent = beat_.silent;
  }

  void take_people() {
    for (const PersonTrack& track : scene_.people) {
      PersonTrack& kept = alone_.plan.people.emplace_back();
      kept.present = cut(track.present);
      kept.feet = cut(track.feet);
      kept.body = cut(track.body);
      kept.stance = cut(track.stance);
      kept.eyes = cut(track.eyes);
      kept.left_hand = cut(track.left_hand);
      kept.right_hand = cut(track.right_hand);
      for (const Business& deed : track.hands) {
        if (deed.begin > end_ || deed.end < begin_) continue;
        kept.hands.push_back({local(deed.begin), local(deed.end), {}, deed.strength, deed.object, {}});
      }
    }
    for (std::size_t i = 0; i < scene_.marks.size(); ++i) take_mark(static_cast<int>(i));
  }

  // Where somebody stands or comes to stand in the beat.
  void take_mark(int index) {
    const Mark& mark = scene_.marks[static_cast<std::size_t>(index)];
    const auto person = static_cast<std::size_t>(mark.person.index);
    if (person >= scene_.people.size()) return;
    const Lane<Walk>& feet = scene_.people[person].feet;
    const Segment<Walk>* segment = segment_at(feet, begin_);
    if (segment == nullptr) return;
    const Lane<Walk>& kept = alone_.plan.people[person].feet;
    for (std::size_t i = 0; i < kept.size(); ++i, ++segment) {
      const std::vector<Vec2>& path = segment->to.path;
      if (segment->end != mark.reached || path.empty() || !same_place(path.back(), mark.at)) continue;
      alone_.plan.marks.push_back({{}, mark.person, mark.at, kept[i].end, mark.origin, {}, mark.area});
      alone_.marks.push_back(index);
      return;
    }
  }

  void take_things() {
    Plan& plan = alone_.plan;
    for (const CameraTrack& track : scene_.cameras) {
      plan.cameras.push_back({cut(track.place), cut(track.aim), cut(track.keeps), cut(track.keeps_at), cut(track.rides),
                              cut(track.ride_off), cut(track.keeps_size), cut(track.size_focal), cut(track.focal),
                              cut(track.stop), cut(track.focus), cut(track.focus_on)});
    }
    for (const LampTrack& track : scene_.lamps) {
      plan.lamps.push_back({cut(track.place), cut(track.aim), cut(track.aim_at), cut(track.level), cut(track.carried)});
    }
    for (const PropTrack& track : scene_.props) plan.props.push_back({cut(track.rests)});
    for (const PieceTrack& track : scene_.pieces) plan.pieces.push_back({cut(track.open), cut(track.fallen)});
    for (const OpeningTrack& track : scene_.openings) plan.openings.push_back({cut(track.open)});
    take_cuts();
  }

  // The camera that is on air comes first, whenever it came.
  void take_cuts() {
    std::vector<CutTo>& cuts = alone_.plan.cuts;
    for (const CutTo& cut : scene_.cuts) {
      if (cut.at > end_) break;
      if (cut.at <= begin_) cuts.clear();
      cuts.push_back({local(cut.at), cut.camera, {}});
    }
  }

  void take_what_is_asked() {
    Plan& plan = alone_.plan;
    for (const Speech& speech : scene_.speeches) {
      if (!overlaps(speech.begin, speech.end)) continue;
      Speech& kept = plan.speeches.emplace_back(speech);
      kept.begin = local(speech.begin);
      kept.end = local(speech.end);
      kept.words.clear();
      kept.marks.clear();
      kept.label.clear();
      kept.said_at = {};
      for (Word& word : kept.timed) word = {{}, local(word.begin), local(word.end), {}};
    }
    for (std::size_t i = 0; i < scene_.intents.size(); ++i) {
      const Intent& intent = scene_.intents[i];
      if (!overlaps(intent.begin, intent.end)) continue;
      Intent& kept = plan.intents.emplace_back(intent);
      kept.begin = local(intent.begin);
      kept.end = local(intent.end);
      kept.words.clear();
      kept.said_at = {};
      alone_.intents.push_back(static_cast<int>(i));
    }
    for (std::size_t i = 0; i < scene_.stories.size(); ++i) {
      const StoryState& state = scene_.stories[i];
      if (!overlaps(state.begin, state.end)) continue;
      plan.stories.push_back({state.story, state.state, local(state.begin), local(state.end), {}});
      alone_.stories.push_back(static_cast<int>(i));
    }
  }

  const Plan& scene_;
  const Beat& beat_;
  Moment begin_, end_;
  BeatAlone alone_;
};

}  // namespace

BeatAlone beat_alone(const Plan& scene, int beat) { return Excerpt(scene, beat).made(); }

}  // namespace lensward
