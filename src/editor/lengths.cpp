#include "editor/lengths.h"

#include <algorithm>
#include <map>

#include "base/quantity_text.h"
#include "base/vec.h"

namespace lensward {
namespace {

// The farthest that anybody, or a camera, goes on a line.
class Distances {
 public:
  explicit Distances(const Plan& plan) {
    for (const PersonTrack& person : plan.people) {
      for (const auto& part : person.feet) add(part.said_at, part.to.length());
      settle();
    }
    for (const CameraTrack& camera : plan.cameras) {
      for (const auto& part : camera.place) {
        if (part.begin < part.end) add(part.said_at, Metres{length(part.to - part.from)});
      }
      settle();
    }
  }

  Metres on(Span line) const {
    const auto found = farthest_.find(line);
    return found == farthest_.end() ? Metres{} : found->second;
  }

 private:
  void add(Span line, Metres way) {
    if (!line.empty()) one_[line] = one_[line] + way;
  }
  void settle() {
    for (const auto& [line, way] : one_) farthest_[line] = std::max(farthest_[line], way);
    one_.clear();
  }

  std::map<Span, Metres> one_, farthest_;
};

}  // namespace

std::vector<LengthNote> length_notes(const Plan& plan, std::int32_t file) {
  const Distances distances(plan);
  std::vector<LengthNote> notes;
  for (const Beat& beat : plan.beats) {
    if (beat.heading.file == file && !beat.heading.empty())
      notes.push_back({beat.heading.end, text_of(beat.end - beat.begin)});
    for (const BeatLine& line : beat.lines) {
      const bool judged = line.kind == BeatLine::Kind::intent || line.kind == BeatLine::Kind::story;
      if (line.said_at.file != file || line.begin == line.end || judged) continue;
      const Metres way = distances.on(line.said_at);
      const std::string far = Metres{0.005} < way ? ", " + text_of(way) : "";
      notes.push_back({line.said_at.end, text_of(line.end - line.begin) + far});
    }
  }
  std::ranges::sort(notes, {}, &LengthNote::at);
  return notes;
}

}  // namespace lensward
