// Plans for the lens's tests, built by hand: a camera, people who stand, lamps.
#pragma once

#include "base/angle.h"
#include "plan/plan.h"

namespace lensward {

template <class Value>
Lane<Value> always(Value value) {
  return {{Moment{}, Moment{}, value, value, Origin::said, {}}};
}

template <class Value>
Lane<Value> changing(Moment begin, Moment end, Value from, Value to) {
  return {{begin, end, from, to, Origin::said, {}}};
}

struct Scene {
  Plan plan;

  // Looks along `pan`, a bearing; 0 is north.
  Scene(Vec3 at, Millimetres focal, FNumber stop, Metres focus, Degrees pan = {}, Degrees tilt = {}) {
    plan.stage.cameras.push_back({"A", Millimetres{24.89}, Millimetres{13.454}, {}, {}, Origin::said});
    CameraTrack track;
    track.place = always(at);
    track.aim = always(Vec2{pan.value, tilt.value});
    track.focal = always(focal);
    track.stop = always(stop);
    track.focus = always(focus);
    plan.cameras.push_back(track);
    plan.cuts.push_back({Moment{}, CameraId{0}, {}});
    Beat beat;
    beat.end = Moment{20000};
    plan.beats.push_back(beat);
  }

  PersonTrack& person(const std::string& name, Vec2 at, Metres stature, Degrees facing) {
    Person person;
    person.name = name;
    person.stature = stature;
    plan.stage.people.push_back(person);
    PersonTrack track;
    track.present = always(true);
    track.feet = always(Walk{{at}});
    track.body = always(Facing{facing, {}});
    track.stance = always(Stance{});
    track.eyes = always(Gaze{});
    plan.people.push_back(track);
    return plan.people.back();
  }

  void lamp(Vec3 at, Candela intensity, Lamp::Kind kind = Lamp::Kind::practical) {
    Lamp lamp;
    lamp.kind = kind;
    lamp.intensity = intensity;
    plan.stage.lamps.push_back(lamp);
    LampTrack track;
    track.place = always(at);
    track.aim = always(at);
    track.level = always(Share{1});
    plan.lamps.push_back(track);
  }

  Piece& piece(const std::string& name, Vec2 at, Metres length, Metres depth, Metres height) {
    Piece piece;
    piece.name = name;
    piece.at = at;
    piece.length = length;
    piece.depth = depth;
    piece.height = height;
    plan.stage.pieces.push_back(piece);
    return plan.stage.pieces.back();
  }

  void room(double west, double south, double east, double north, Tone walls) {
    plan.stage.room.outline = {{west, south}, {east, south}, {east, north}, {west, north}};
    plan.stage.room.walls = walls;
  }
};

}  // namespace lensward
