#include "compare/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "source/character.h"

namespace lensward {
namespace {

std::string name(const std::string& writers) { return "`" + writers + "`"; }

// "; near lens of Oda, +3 points", or nothing.
std::string tail(const std::string& note, const char* before) { return note.empty() ? "" : before + note; }

std::string later_by(double milliseconds) {
  const Milliseconds size{std::llround(std::fabs(milliseconds))};
  return text_of(size) + (milliseconds > 0 ? " later" : " earlier");
}

std::string from_to(const Change& change) { return change.before + ", now " + change.after; }

std::string finding_words(const Change& change) {
  const bool came = change.way == ChangeWay::added;
  const int count = static_cast<int>(std::lround(std::fabs(change.amount)));
  const std::string times = count > 1 ? fmt::format(" ({} of them)", count) : "";
  const std::string& message = came ? change.after : change.before;
  const std::string left = came ? "" : (change.after.empty() ? "gone" : "fewer");
  return fmt::format("{} {}{}: {} [{}]", came ? "new" : left, change.note, times, message, change.who);
}

std::string coming_and_going(const Change& change) {
  const std::string does = change.aspect == Aspect::entrance ? "enters" : "leaves";
  const std::string never = change.aspect == Aspect::entrance ? "no longer enters" : "no longer leaves";
  switch (change.way) {
    case ChangeWay::added:
      return fmt::format("{} {} now, {} into the beat", name(change.who), does, change.after);
    case ChangeWay::dropped:
      return fmt::format("{} {}", name(change.who), never);
    default:
      return fmt::format("{} {} {}, {} into the beat", name(change.who), does, later_by(change.amount), change.after);
  }
}

std::string mark_words(const Change& change) {
  switch (change.way) {
    case ChangeWay::added:
      return fmt::format("{} comes to rest at one place more{}: {}", name(change.who), tail(change.note, ", "),
                         change.after);
    case ChangeWay::dropped:
      return fmt::format("{} no longer comes to rest at {}", name(change.who), change.before);
    default:
      return fmt::format("{} stands {} {}: {}", name(change.who), text_of(Metres{change.amount}), change.note,
                         change.after);
  }
}

std::string eye_words(const Change& change) {
  const bool time = change.aspect == Aspect::eye;
  return fmt::format("{} {} {}: {} {}, was {}{}", name(change.who), change.amount > 0 ? "gains" : "loses",
                     time ? "the eye" : "attention", change.after, time ? "of the beat" : "of all attention",
                     change.before, tail(change.note, "; most by "));
}

std::string intent_words(const Change& change) {
  const std::string complaint = change.note.empty() ? "" : " as " + change.note;
  if (change.way == ChangeWay::added)
    return fmt::format("new: {}; it came out as: {}{}", name(change.who), change.after, complaint);
  return fmt::format("no longer asked: {}; it came out as: {}", name(change.who), change.before);
}

// A step of the body, the eyes or the hands: what it is when it is new, gone, another.
std::string step_words(const Change& change, const char* verb) {
  switch (change.way) {
    case ChangeWay::added:
      return fmt::format("{} {} {} now", name(change.who), verb, change.after);
    case ChangeWay::dropped:
      return fmt::format("{} no longer {} {}", name(change.who), verb, change.before);
    default:
      return fmt::format("{} {} {}, no longer {}", name(change.who), verb, change.after, change.before);
  }
}

std::string line_words(const Change& change) {
  if (change.note == "manner")
    return fmt::format("{} speaks a line {}, was {}", name(change.who), change.after, change.before);
  switch (change.way) {
    case ChangeWay::added:
      return fmt::format("new line of {}: \"{}\"", name(change.who), change.after);
    case ChangeWay::dropped:
      return fmt::format("line dropped of {}: \"{}\"", name(change.who), change.before);
    default:
      return fmt::format("{} says \"{}\", was \"{}\"", name(change.who), change.after, change.before);
  }
}

std::string there_or_not(const Change& change, const char* kind) {
  return fmt::format("{} {} {}", kind, name(change.who), change.way == ChangeWay::added ? "is new" : "is gone");
}

std::string stops_words(double stops, const char* more, const char* less) {
  // Beyond ten stops a lamp is simply out or lit.
  if (std::fabs(stops) > 10) return stops > 0 ? "lit" : "out";
  return text_of(Stops{std::fabs(stops)}) + " " + (stops > 0 ? more : less);
}

std::string camera_words(const Change& change) {
  const std::string who = "camera " + name(change.who);
  switch (change.aspect) {
    case Aspect::camera_place:
      return fmt::format("{} stands {} away, at {}", who, text_of(Metres{change.amount}), change.after);
    case Aspect::camera_aim:
      return fmt::format("{} aims {} elsewhere: pan and tilt were {}", who, text_of(Degrees{std::fabs(change.amount)}),
                         from_to(change));
    case Aspect::camera_move:
      return fmt::format("moves of {}: {}, were {}", who, change.after, change.before);
    case Aspect::focal:
      return fmt::format("lens of {}: {}, was {}", who, change.after, change.before);
    case Aspect::stop:
      return fmt::format("stop of {}: {}, was {} ({})", who, change.after, change.before,
                         stops_words(change.amount, "darker", "brighter"));
    default:
      return fmt::format("focus of {}: {}, was {}", who, change.after, change.before);
  }
}

std::string lamp_words(const Change& change) {
  const std::string who = "lamp " + name(change.who);
  switch (change.aspect) {
    case Aspect::lamp_level:
      return fmt::format("{} at {}, was {} ({})", who, change.after, change.before,
                         stops_words(change.amount, "brighter", "darker"));
    case Aspect::lamp_place:
      return fmt::format("{} stands {}, was {}", who, change.after, change.before);
    case Aspect::lamp_aim:
      return fmt::format("{} aims at {}, was {}", who, change.after, change.before);
    default:
      return fmt::format("{} gives {}, was {} ({})", who, change.after, change.before,
                         stops_words(change.amount, "more", "less"));
  }
}

std::string length_words(const Change& change, const char* what) {
  return fmt::format("{} lasts {}, was {}", what, change.after, change.before);
}

// A heading's words; empty of a beat that is only kept.
std::string fate_words(const BeatChanges& beat) {
  using Fate = BeatChanges::Fate;
  std::string words;
  if (beat.fate == Fate::added) words = "new";
  if (beat.fate == Fate::dropped) words = "dropped";
  if (beat.fate == Fate::renamed) words = "was " + name(beat.before);
  if (beat.moved) words += (words.empty() ? "" : ", ") + std::string("stands elsewhere in the scene");
  return words;
}

}  // namespace

std::string beat_heading(const BeatChanges& beat) {
  const std::string words = fate_words(beat);
  return "beat " + name(beat.after.empty() ? beat.before : beat.after) + (words.empty() ? "" : ": " + words);
}

std::string findings_counted(const Changes& changes) {
  const Changes::Counts counts = changes.counts();
  std::vector<std::string> parts;
  if (counts.new_errors > 0) parts.push_back(counted(counts.new_errors, "new error", "new errors"));
  if (counts.new_warnings > 0) parts.push_back(counted(counts.new_warnings, "new warning", "new warnings"));
  if (counts.gone > 0) parts.push_back(std::to_string(counts.gone) + " gone");
  if (parts.empty()) return "no error or warning came or went";
  return fmt::format("{}", fmt::join(parts, ", "));
}

namespace {

// What is not listed.
std::string counts(const Changes& changes) {
  std::vector<std::string> parts;
  if (changes.small > 0) parts.push_back(counted(changes.small, "small difference", "small differences"));
  if (changes.remarks_came > 0) parts.push_back(counted(changes.remarks_came, "remark came", "remarks came"));
  if (changes.remarks_went > 0) parts.push_back(counted(changes.remarks_went, "remark went", "remarks went"));
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : ", ") + part;
  if (changes.small > 0) text += "; under 10 cm, 5 deg, 0.2 s, 1/3 stop or 3 points is small";
  return text;
}

std::string nothing_words(const Changes& changes) {
  const std::string rest = counts(changes);
  return "no difference that matters on the floor" + (rest.empty() ? "" : "; not listed: " + rest);
}

// How the two forms mark headings and sentences.
struct Form {
  const char* heading;
  const char* after_heading;
  const char* item;
};

std::string laid_out(const Changes& changes, const Form& form) {
  if (!changes.any()) return nothing_words(changes) + "\n";
  std::string text = findings_counted(changes) + "\n";
  const auto section = [&](const std::string& heading, const std::vector<Change>& items) {
    text += '\n' + std::string(form.heading) + heading + form.after_heading;
    for (const Change& change : items) text += form.item + sentence(change) + "\n";
  };
  const bool renamed = changes.scene_before != changes.scene_after;
  if (renamed || !changes.scene.empty()) {
    section("scene " + name(changes.scene_after) + (renamed ? ": was " + name(changes.scene_before) : ""),
            changes.scene);
  }
  for (const BeatChanges& beat : changes.beats) {
    if (beat.any()) section(beat_heading(beat), beat.changes);
  }
  const std::string rest = counts(changes);
  return rest.empty() ? text : text + "\nnot listed: " + rest + "\n";
}

// Stands for a backtick that the writer wrote, until the markup is set: ours mark names.
constexpr char writers_backtick = '\x01';

void mark_backticks(std::vector<Change>& changes) {
  for (Change& change : changes) {
    const bool quotes = change.aspect == Aspect::line || change.aspect == Aspect::line_words ||
                        change.aspect == Aspect::line_time || change.aspect == Aspect::hands;
    std::replace(change.who.begin(), change.who.end(), '`', writers_backtick);
    if (!quotes) continue;
    for (std::string* text : {&change.before, &change.after, &change.note}) {
      std::replace(text->begin(), text->end(), '`', writers_backtick);
    }
  }
}

Changes with_backticks_marked(Changes changes) {
  mark_backticks(changes.scene);
  for (BeatChanges& beat : changes.beats) mark_backticks(beat.changes);
  return changes;
}

// Past a name in backticks that begins here, as a reader of the markup ends it; `at` when none does.
std::size_t past_name(std::string_view line, std::size_t at) {
  const auto run = [&](std::size_t from) { return std::min(line.find_first_not_of('`', from), line.size()) - from; };
  const std::size_t length = run(at);
  for (std::size_t next = line.find('`', at + length); next != std::string_view::npos;
       next = line.find('`', next + run(next))) {
    if (run(next) == length) return next + length;
  }
  return at;
}

// Outside names no writer's word may begin markup; a name ends with its line.
std::string escaped_line(std::string_view line) {
  std::string clean;
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t end = line[at] == '`' ? past_name(line, at) : at;
    if (end > at) {
      std::string name(line.substr(at, end - at));
      std::replace(name.begin(), name.end(), writers_backtick, '\'');  // no mark can stand for one there
      clean += name;
      at = end;
      continue;
    }
    // What opens no name is escaped whole: half a run could.
    std::size_t past = line[at] == '`' ? std::min(line.find_first_not_of('`', at), line.size()) : at + 1;
    for (; at < past; ++at) {
      const char one = line[at] == writers_backtick ? '`' : line[at];
      if (std::string_view("<>[]*_\\|`~&").find(one) != std::string_view::npos) clean += '\\';
      clean += one;
    }
  }
  return clean;
}

std::string escaped(std::string_view text) {
  std::string clean;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    clean += escaped_line(text.substr(begin, end - begin)) + '\n';
    begin = end + 1;
  }
  return clean;
}

nlohmann::ordered_json change_json(const Change& change) {
  return {{"aspect", name_of(change.aspect)},
          {"way", name_of(change.way)},
          {"who", change.who},
          {"before", change.before},
          {"after", change.after},
          {"note", change.note},
          {"amount", number(change.amount, 3)},
          {"sentence", sentence(change)}};
}

nlohmann::ordered_json list_json(const std::vector<Change>& changes) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const Change& change : changes) list.push_back(change_json(change));
  return list;
}

const char* name_of(BeatChanges::Fate fate) {
  constexpr const char* names[] = {"kept", "renamed", "added", "dropped"};
  return names[static_cast<std::size_t>(fate)];
}

}  // namespace

const char* name_of(Aspect aspect) {
  constexpr const char* names[] = {
      "finding",      "severity",    "intent",      "verdict",      "eye",        "attention",    "person",
      "entrance",     "exit",        "mark",        "posture",      "facing",     "gaze",         "hands",
      "line",         "words",       "prop",        "prop place",   "piece",      "piece place",  "piece open",
      "opening open", "camera",      "cut",         "camera place", "camera aim", "camera moves", "focal length",
      "stop",         "focus",       "lamp",        "lamp level",   "lamp place", "lamp aim",     "lamp intensity",
      "line time",    "beat length", "scene length"};
  static_assert(std::size(names) == static_cast<std::size_t>(Aspect::scene_length) + 1);
  return names[static_cast<std::size_t>(aspect)];
}

const char* name_of(ChangeWay way) {
  constexpr const char* names[] = {"changed", "added", "dropped"};
  return names[static_cast<std::size_t>(way)];
}

std::string sentence(const Change& change) {
  switch (change.aspect) {
    case Aspect::finding:
      return finding_words(change);
    case Aspect::finding_severity:
      return fmt::format("{} now, was {}: {} [{}]", change.note, change.before, change.after, change.who);
    case Aspect::intent:
      return intent_words(change);
    case Aspect::verdict:
      return fmt::format("{}: {}, was {}{}", name(change.who), change.after, change.before, tail(change.note, "; "));
    case Aspect::eye:
    case Aspect::attention:
      return eye_words(change);
    case Aspect::person:
      return there_or_not(change, "in the company");
    case Aspect::entrance:
    case Aspect::exit:
      return coming_and_going(change);
    case Aspect::mark:
      return mark_words(change);
    case Aspect::posture:
      return step_words(change, "is");
    case Aspect::facing:
      return fmt::format("{} is turned {} {}: bearing {}, was {}", name(change.who),
                         text_of(Degrees{std::fabs(change.amount)}), change.note, change.after, change.before);
    case Aspect::gaze:
      return step_words(change, "looks");
    case Aspect::hands:
      return step_words(change, "does:");
    case Aspect::line:
    case Aspect::line_words:
      return line_words(change);
    case Aspect::prop:
      return there_or_not(change, "prop");
    case Aspect::prop_place:
      return fmt::format("prop {} is with {}, was with {}", name(change.who), change.after, change.before);
    case Aspect::piece:
      return there_or_not(change, "furniture");
    case Aspect::piece_place:
      return fmt::format("{} stands {} away, at {}", name(change.who), text_of(Metres{change.amount}), change.after);
    case Aspect::piece_open:
    case Aspect::opening_open:
      return fmt::format("{} is open {}, was {}", name(change.who), change.after, change.before);
    case Aspect::camera:
      return there_or_not(change, "camera");
    case Aspect::cut:
      return fmt::format("the picture is camera {}, was {}", name(change.after), name(change.before));
    case Aspect::camera_place:
    case Aspect::camera_aim:
    case Aspect::camera_move:
    case Aspect::focal:
    case Aspect::stop:
    case Aspect::focus:
      return camera_words(change);
    case Aspect::lamp:
      return there_or_not(change, "lamp");
    case Aspect::lamp_level:
    case Aspect::lamp_place:
    case Aspect::lamp_aim:
    case Aspect::lamp_intensity:
      return lamp_words(change);
    case Aspect::line_time:
      return fmt::format("{} says \"{}\" {}, {} into the beat", name(change.who), change.note, later_by(change.amount),
                         change.after);
    case Aspect::beat_length:
      return length_words(change, "the beat");
    case Aspect::scene_length:
      return length_words(change, "the scene");
  }
  return {};
}

std::string changes_text(const Changes& changes) { return printable_lines(laid_out(changes, {"", "\n", "  "})); }

std::string changes_markdown(const Changes& changes) {
  return printable_lines(escaped(laid_out(with_backticks_marked(changes), {"### ", "\n\n", "- "})));
}

nlohmann::ordered_json changes_json(const Changes& changes) {
  nlohmann::ordered_json beats = nlohmann::ordered_json::array();
  for (const BeatChanges& beat : changes.beats) {
    if (!beat.any()) continue;
    beats.push_back({{"fate", name_of(beat.fate)},
                     {"moved", beat.moved},
                     {"before", beat.before},
                     {"after", beat.after},
                     {"changes", list_json(beat.changes)}});
  }
  const Changes::Counts counts = changes.counts();
  return {{"schema", "lensward/changes/1"},
          {"differs", changes.any()},
          {"new_errors", counts.new_errors},
          {"new_warnings", counts.new_warnings},
          {"gone", counts.gone},
          {"scene",
           {{"before", changes.scene_before}, {"after", changes.scene_after}, {"changes", list_json(changes.scene)}}},
          {"beats", beats},
          {"small", changes.small},
          {"remarks_came", changes.remarks_came},
          {"remarks_went", changes.remarks_went}};
}

}  // namespace lensward
