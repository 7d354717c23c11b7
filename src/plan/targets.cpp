#include <algorithm>

#include "base/angle.h"
#include "figure/proportions.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

template <class Thing>
const Thing* at_index(const std::vector<Thing>& things, int index) {
  return index >= 0 && static_cast<std::size_t>(index) < things.size() ? &things[static_cast<std::size_t>(index)]
                                                                       : nullptr;
}

}  // namespace

Vec3 carried_at(const Plan& plan, PersonId person, const Target& prop, Moment moment) {
  constexpr double hand_ahead = 0.2, hand_aside = 0.07, chest_ahead = 0.08;
  const auto& track = plan.people[static_cast<std::size_t>(person.index)];
  const bool left = stepped(track.left_hand, moment, Target{}) == prop;
  const bool right = stepped(track.right_hand, moment, Target{}) == prop;
  const Vec3 eyes = eyes_at(plan, person, moment);
  const double stature = plan.stage.people[static_cast<std::size_t>(person.index)].stature.value;
  const Vec2 ahead = direction_of(facing_at(plan, person, moment));
  const double height = left || right ? elbow_fraction : chest_fraction;
  const double aside = (left ? hand_aside : 0) - (right ? hand_aside : 0);
  const Vec2 off = ahead * (left || right ? hand_ahead : chest_ahead) + left_of(ahead) * aside;
  return raised(floor_of(eyes) + off * stature, eyes.z - (eye_fraction - height) * stature);
}

namespace {

Vec3 on_piece(const Piece& piece, const Target& rests) {
  if (rests.point != Vec3{}) return rests.point;
  return raised(piece.at, piece.seats > 0 ? std::min(piece.height, piece.seat_height).value : piece.height.value);
}

std::optional<Vec3> prop_point(const Plan& plan, int index, Moment moment) {
  const PropTrack* track = at_index(plan.props, index);
  if (track == nullptr) return std::nullopt;
  const Target rests = stepped(track->rests, moment, Target{});
  if (rests.kind == Target::Kind::person) {
    if (at_index(plan.people, rests.index) == nullptr) return std::nullopt;
    return carried_at(plan, PersonId{rests.index}, {Target::Kind::prop, index, {}}, moment);
  }
  if (rests.kind == Target::Kind::piece) {
    const Piece* piece = at_index(plan.stage.pieces, rests.index);
    if (piece != nullptr) return on_piece(*piece, rests);
  }
  return rests.kind == Target::Kind::point ? std::optional{rests.point} : std::nullopt;
}

std::optional<Vec3> opening_point(const Opening* opening) {
  if (opening == nullptr) return std::nullopt;
  return raised(opening->middle, opening->sill.value + opening->height.value / 2);
}

template <class Thing>
std::string named(const Thing* thing) {
  return thing == nullptr ? std::string{} : thing->name;
}

template <class Value>
void add_moments(const Lane<Value>& lane, std::vector<Moment>& moments) {
  for (const auto& segment : lane) {
    moments.push_back(segment.begin);
    moments.push_back(segment.end);
  }
}

template <class Deed>
void add_spans(const std::vector<Deed>& deeds, std::vector<Moment>& moments) {
  for (const Deed& deed : deeds) {
    moments.push_back(deed.begin);
    moments.push_back(deed.end);
  }
}

void add_people(const Plan& plan, std::vector<Moment>& moments) {
  for (const PersonTrack& track : plan.people) {
    add_moments(track.present, moments);
    add_moments(track.feet, moments);
    add_moments(track.body, moments);
    add_moments(track.stance, moments);
    add_moments(track.eyes, moments);
    add_moments(track.left_hand, moments);
    add_moments(track.right_hand, moments);
    add_spans(track.hands, moments);
  }
}

void add_equipment(const Plan& plan, std::vector<Moment>& moments) {
  for (const CameraTrack& track : plan.cameras) {
    add_moments(track.place, moments);
    add_moments(track.aim, moments);
    add_moments(track.keeps, moments);
    add_moments(track.keeps_at, moments);
    add_moments(track.rides, moments);
    add_moments(track.keeps_size, moments);
    add_moments(track.focal, moments);
    add_moments(track.stop, moments);
    add_moments(track.focus, moments);
    add_moments(track.focus_on, moments);
  }
  for (const LampTrack& track : plan.lamps) {
    add_moments(track.place, moments);
    add_moments(track.aim, moments);
    add_moments(track.aim_at, moments);
    add_moments(track.level, moments);
    add_moments(track.carried, moments);
  }
  for (const PropTrack& track : plan.props) add_moments(track.rests, moments);
  for (const OpeningTrack& track : plan.openings) add_moments(track.open, moments);
  for (const PieceTrack& track : plan.pieces) {
    add_moments(track.open, moments);
    add_moments(track.fallen, moments);
  }
}

}  // namespace

std::optional<Vec3> point_of(const Plan& plan, const Target& target, Moment moment) {
  switch (target.kind) {
    case Target::Kind::nothing:
      return std::nullopt;
    case Target::Kind::person:
      if (at_index(plan.people, target.index) == nullptr) return std::nullopt;
      return eyes_at(plan, PersonId{target.index}, moment);
    case Target::Kind::piece: {
      const Piece* piece = at_index(plan.stage.pieces, target.index);
      return piece == nullptr ? std::nullopt : std::optional{raised(piece->at, piece->height.value / 2)};
    }
    case Target::Kind::prop:
      return prop_point(plan, target.index, moment);
    case Target::Kind::opening:
      return opening_point(at_index(plan.stage.openings, target.index));
    case Target::Kind::lens: {
      const CameraId camera = target.index >= 0 ? CameraId{target.index} : on_air(plan, moment);
      const CameraTrack* track = at_index(plan.cameras, camera.index);
      const Segment<Vec3>* place = track == nullptr ? nullptr : segment_at(track->place, moment);
      if (place == nullptr) return std::nullopt;
      // A ride is not followed here: who rides with a lens would follow themselves.
      return mix(place->from, place->to, progress(*place, moment));
    }
    case Target::Kind::point:
      return target.point;
    case Target::Kind::lamp:
      if (at_index(plan.lamps, target.index) == nullptr) return std::nullopt;
      return lamp_place(plan, LampId{target.index}, moment);
  }
  return std::nullopt;
}

std::string name_of(const Plan& plan, const Target& target) {
  switch (target.kind) {
    case Target::Kind::nothing:
      return "nobody";
    case Target::Kind::person:
      return named(at_index(plan.stage.people, target.index));
    case Target::Kind::piece:
      return named(at_index(plan.stage.pieces, target.index));
    case Target::Kind::prop:
      return named(at_index(plan.stage.props, target.index));
    case Target::Kind::opening:
      return named(at_index(plan.stage.openings, target.index));
    case Target::Kind::lens:
      return "lens";
    case Target::Kind::point:
      return "a point";
    case Target::Kind::lamp:
      return named(at_index(plan.stage.lamps, target.index));
  }
  return {};
}

std::vector<Moment> turning_points(const Plan& plan) {
  std::vector<Moment> moments;
  add_people(plan, moments);
  add_equipment(plan, moments);
  add_spans(plan.beats, moments);
  add_spans(plan.speeches, moments);
  add_spans(plan.intents, moments);
  add_spans(plan.stories, moments);
  for (const CutTo& cut : plan.cuts) moments.push_back(cut.at);
  std::sort(moments.begin(), moments.end());
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

}  // namespace lensward
