#include "syntax/where_lines_stand.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>

#include "syntax/verb_forms.h"

namespace lensward {
namespace {

// Set-ups stand in an opening; going somewhere, or handing something over, takes time and stands in a beat.
constexpr std::string_view takes_time[] = {"walks",  "crosses", "steps",   "strolls",   "hurries",  "runs",
                                           "creeps", "crawls",  "backs",   "enters",    "comes in", "exits",
                                           "leaves", "rises",   "takes",   "picks up",  "puts",     "gives",
                                           "hands",  "does",    "glances", "puts down", "points"};

struct MayStand {
  Part part;
  FileKind file;

  bool in(std::initializer_list<Part> parts) const { return std::ranges::find(parts, part) != parts.end(); }
  bool in_time() const { return in({Part::beat, Part::way}); }

  bool operator()(const HeaderLine&) const { return false; }
  bool operator()(const HeadingLine& heading) const {
    if (heading.kind == Part::opening || heading.kind == Part::beat || heading.kind == Part::way) {
      return file == FileKind::scene;
    }
    return heading.kind == part_of(file);
  }
  bool operator()(const UseLine& use) const {
    return use.kind == UseLine::Kind::use ? in({Part::film, Part::set, Part::scene}) : in({Part::film});
  }
  bool operator()(const ChooseLine&) const { return in({Part::film, Part::scene, Part::way}); }
  bool operator()(const PeopleLine&) const { return in({Part::company, Part::scene}); }
  bool operator()(const RoomLine&) const { return in({Part::set, Part::scene}); }
  bool operator()(const DeclarationLine& declaration) const {
    using Kind = DeclarationLine::Kind;
    if (part == Part::scene) return true;
    switch (declaration.kind) {
      case Kind::group:
        return part == Part::company;
      case Kind::camera:
      case Kind::lens:
        return part == Part::kit;
      case Kind::light:
        return in({Part::kit, Part::set});
      case Kind::crowd:
      case Kind::story:
        return false;
      default:
        return part == Part::set;
    }
  }
  bool operator()(const SettingLine& setting) const {
    if (setting.kind == SettingLine::Kind::default_value) return part != Part::opening;
    return in({Part::film, Part::scene});
  }
  bool operator()(const ChangeLine&) const { return part == Part::way; }
  bool operator()(const IntentLine&) const { return in_time(); }
  bool operator()(const StoryLine&) const { return in_time(); }
  bool operator()(const LastsLine&) const { return in_time() || part == Part::scene; }
  bool operator()(const LaterLine&) const { return in_time(); }
  bool operator()(const DrawLine&) const { return in_time(); }
  bool operator()(const WaiveLine&) const { return in_time() || in({Part::film, Part::set, Part::scene}); }
  bool operator()(const NoteLine&) const { return in_time() || in({Part::film, Part::scene, Part::opening}); }
  bool operator()(const ExtraLine&) const { return in_time() || in({Part::film, Part::scene, Part::opening}); }
  bool operator()(const MarkLine&) const { return in_time() || in({Part::set, Part::scene, Part::opening}); }
  bool operator()(const SpeechLine&) const { return in_time(); }
  bool operator()(const DeedLine& deed) const {
    if (part != Part::opening) return in_time();
    if (deed.subject != DeedLine::Subject::people) return true;
    const std::size_t blank = std::min(deed.verb.find(' '), deed.verb.size());
    const std::string verb = std::string(verb_of_one(deed.verb.substr(0, blank))) + deed.verb.substr(blank);
    return std::ranges::find(takes_time, verb) == std::end(takes_time);
  }
  bool operator()(const PauseLine&) const { return in_time(); }
  bool operator()(const CutLine&) const { return in_time() || part == Part::opening; }
  bool operator()(const SoundLine&) const { return in_time(); }
  bool operator()(const BrokenLine&) const { return true; }
};

}  // namespace

const char* spelling(Part part) {
  static constexpr std::array<const char*, 8> words = {"film",  "company", "kit",  "set",
                                                       "scene", "opening", "beat", "way"};
  return words[static_cast<std::size_t>(part)];
}

Part part_of(FileKind kind) {
  switch (kind) {
    case FileKind::film:
      return Part::film;
    case FileKind::company:
      return Part::company;
    case FileKind::kit:
      return Part::kit;
    case FileKind::set:
      return Part::set;
    case FileKind::scene:
      break;
  }
  return Part::scene;
}

bool may_stand(const Statement& statement, Part part, FileKind file) {
  if (part == Part::opening && statement.when != When::unsaid) return false;
  return std::visit(MayStand{part, file}, statement.body);
}

}  // namespace lensward
