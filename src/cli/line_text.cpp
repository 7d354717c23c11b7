#include "cli/line_text.h"

#include <fmt/core.h>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "base/words.h"
#include "report/text.h"
#include "source/character.h"

namespace lensward {
namespace {

std::string point_text(Vec2 at) { return fmt::format("({}, {}) m", number(at.x, 2), number(at.y, 2)); }

std::string stretch_text(Moment begin, Moment end) {
  if (begin == end) return "at " + clock_text(begin);
  return "from " + clock_text(begin) + " to " + clock_text(end);
}

const char* name_of(BeatLine::Kind kind) {
  switch (kind) {
    case BeatLine::Kind::speech:
      return "speech";
    case BeatLine::Kind::move:
      return "move";
    case BeatLine::Kind::look:
      return "look";
    case BeatLine::Kind::hands:
      return "hands";
    case BeatLine::Kind::camera:
      return "camera";
    case BeatLine::Kind::light:
      return "light";
    case BeatLine::Kind::sound:
      return "sound";
    case BeatLine::Kind::pause:
      return "pause";
    case BeatLine::Kind::intent:
      return "intent";
    case BeatLine::Kind::story:
      return "story";
    case BeatLine::Kind::other:
      return "line";
  }
  return "line";
}

// Gathers what the plan holds of one line.
class LineTeller {
 public:
  LineTeller(const Run& run, int line) : run_(run), line_(line), own_(run.tree.file) {}

  std::string tell() {
    tell_place();
    for (const Beat& beat : run_.plan.beats) tell_beat(beat);
    for (const Mark& mark : run_.plan.marks) tell_mark(mark);
    tell_tracks();
    for (const Speech& speech : run_.plan.speeches) tell_speech(speech);
    for (const Intent& intent : run_.plan.intents) {
      if (touches(intent.said_at)) add(intent.words + ": judged " + stretch_text(intent.begin, intent.end));
    }
    tell_verdicts();
    for (const Assumption& assumption : run_.plan.assumptions) {
      if (!touches(assumption.at)) continue;
      add("assumed: " + assumption.what + (assumption.pin.empty() ? "" : "; to settle it: " + assumption.pin));
    }
    const bool nothing_made = told_ == 0;
    tell_findings();
    if (nothing_made && told_ == 0) add("nothing was computed from this line");
    return text_;
  }

 private:
  // An empty span belongs to no line: it marks what nobody wrote.
  bool touches(Span span) const {
    if (span.empty() || span.file != own_) return false;
    const SourceFile& file = run_.sources.file(own_);
    return file.position(span.begin).line <= line_ && line_ <= file.position(span.end).line;
  }

  void add(const std::string& words) {
    text_ += printable(words) + '\n';
    ++told_;
  }

  void tell_place() {
    const SourceFile& file = run_.sources.file(own_);
    text_ +=
        printable(file.name()) + ':' + std::to_string(line_) + '\n' + "  " + printable(file.line_text(line_)) + '\n';
  }

  void tell_beat(const Beat& beat) {
    if (touches(beat.heading)) add("beat " + beat.name + ": " + stretch_text(beat.begin, beat.end));
    for (const BeatLine& line : beat.lines) {
      if (!touches(line.said_at)) continue;
      add(std::string(name_of(line.kind)) + " in beat " + beat.name + ": " + stretch_text(line.begin, line.end));
    }
  }

  void tell_mark(const Mark& mark) {
    if (!touches(mark.said_at)) return;
    const std::string& who = run_.plan.stage.people[static_cast<std::size_t>(mark.person.index)].name;
    add(fmt::format("mark {}: {} at {}, {}, reached at {}", mark.name, who, point_text(mark.at), name_of(mark.origin),
                    clock_text(mark.reached)));
    if (mark.area.empty()) return;
    std::string corners;
    for (Vec2 corner : mark.area) corners += (corners.empty() ? "" : ", ") + point_text(corner);
    add("  in the area of corners " + corners);
  }

  // A stretch of a lane on a line, with how its value came to be.
  template <class Value, class Words>
  void tell_lane(const std::string& what, const Lane<Value>& lane, Words words) {
    for (const Segment<Value>& part : lane) {
      if (!touches(part.said_at)) continue;
      add(what + ": " + words(part.to) + ", " + name_of(part.origin) + ", " + stretch_text(part.begin, part.end));
    }
  }

  std::string target_text(const Target& target) const {
    return target.kind == Target::Kind::point ? point_text(floor_of(target.point)) : name_of(run_.plan, target);
  }

  void tell_person(const std::string& name, const PersonTrack& track) {
    tell_lane("feet of " + name, track.feet, [](const Walk& walk) {
      return point_text(walk.at(1)) + (walk.path.size() > 1 ? ", " + text_of(walk.length()) + " on foot" : "");
    });
    tell_lane("body of " + name, track.body, [&](const Facing& to) {
      return to.follows.kind == Target::Kind::nothing ? "bearing " + text_of(to.bearing)
                                                      : "toward " + target_text(to.follows);
    });
    tell_lane("posture of " + name, track.stance, [](const Stance& to) { return std::string(spelling(to.posture)); });
    tell_lane("eyes of " + name, track.eyes, [&](const Gaze& to) {
      return to.manner == Gaze::Manner::at_target ? "on " + target_text(to.target) : std::string("on nobody");
    });
    for (const Business& deed : track.hands) {
      if (touches(deed.said_at)) add("hands of " + name + ": " + deed.what + ", " + stretch_text(deed.begin, deed.end));
    }
  }

  void tell_camera(const std::string& name, const CameraTrack& track) {
    const std::string camera = "camera " + name;
    tell_lane(camera, track.place,
              [](Vec3 to) { return "at " + point_text(floor_of(to)) + ", " + text_of(Metres{to.z}) + " up"; });
    tell_lane(camera, track.aim,
              [](Vec2 to) { return "pan " + text_of(wrapped(Degrees{to.x})) + ", tilt " + text_of(Degrees{to.y}); });
    tell_lane(camera, track.focal, [](Millimetres to) { return "lens " + text_of(to); });
    tell_lane(camera, track.stop, [](FNumber to) { return "T" + number(to.value, 1); });
    tell_lane(camera, track.focus, [](Metres to) { return "focus at " + text_of(to); });
    tell_lane(camera, track.focus_on, [&](const Target& to) {
      return to.kind == Target::Kind::nothing ? std::string("focus free") : "focus on " + target_text(to);
    });
  }

  void tell_support(const Camera& camera) {
    if (!touches(camera.support.said_at)) return;
    add(fmt::format("camera {}: on {}, {}", camera.name, spelling(camera.support.rig), name_of(camera.support.origin)));
  }

  void tell_lamp(const std::string& name, const LampTrack& track) {
    tell_lane("light " + name, track.level, [](Share to) { return text_of(to); });
    tell_lane("light " + name, track.place,
              [](Vec3 to) { return "at " + point_text(floor_of(to)) + ", " + text_of(Metres{to.z}) + " up"; });
  }

  void tell_tracks() {
    const Plan& plan = run_.plan;
    for (std::size_t i = 0; i < plan.people.size(); ++i) tell_person(plan.stage.people[i].name, plan.people[i]);
    for (const Camera& camera : plan.stage.cameras) tell_support(camera);
    for (std::size_t i = 0; i < plan.cameras.size(); ++i) tell_camera(plan.stage.cameras[i].name, plan.cameras[i]);
    for (std::size_t i = 0; i < plan.lamps.size(); ++i) tell_lamp(plan.stage.lamps[i].name, plan.lamps[i]);
  }

  void tell_speech(const Speech& speech) {
    if (!touches(speech.said_at)) return;
    add(fmt::format("speech: {} words in {}", speech.timed.size(), text_of(speech.end - speech.begin)));
    for (const SpeechMarkTime& mark : speech.marks) add("cue [" + mark.name + "]: at " + clock_text(mark.at));
  }

  void tell_verdicts() {
    for (const Verdict& verdict : run_.verdicts) {
      const bool asked = verdict.intent >= 0 || verdict.story >= 0;
      if (!asked || verdict.result == Verdict::Result::not_judged) continue;
      if (!touches(asked_at(run_.plan, verdict))) continue;
      std::string words = fmt::format("decided at {}: {} {} points", clock_text(verdict.decided),
                                      name_of(run_.plan, verdict.favoured), text_of(verdict.favoured_points));
      if (verdict.rival.kind != Target::Kind::nothing) {
        words += fmt::format(", {} {}", name_of(run_.plan, verdict.rival), text_of(verdict.rival_points));
      }
      add(words);
    }
  }

  void tell_findings() {
    Findings here;
    for (const Finding& finding : run_.findings.all()) {
      if (finding.where.file == own_ && run_.sources.begin_of(finding.where).line == line_) here.add(finding);
    }
    if (here.all().empty()) return;
    text_ += '\n' + findings_text(run_.sources, here, false);
    ++told_;
  }

  const Run& run_;
  int line_;
  std::int32_t own_;  // what the scene uses has lines of the same numbers
  std::string text_;
  int told_ = 0;
};

}  // namespace

std::string line_text(const Run& run, int line) { return LineTeller(run, line).tell(); }

}  // namespace lensward
