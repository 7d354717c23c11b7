#include "plan/scene_text.h"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace lensward {
namespace {

struct WayText {
  const HeadingLine* heading;
  Span span;
  std::vector<const Statement*> lines;
};

// Nothing when the words are in no quotation marks.
std::string_view between_quotation_marks(std::string_view words) {
  for (const std::string_view mark : {"\"", "“", "«", "「"}) {
    if (words.starts_with(mark) && words.size() >= 2 * mark.size()) {
      return words.substr(mark.size(), words.size() - 2 * mark.size());
    }
  }
  return {};
}

// The words a line can be called by: its opening up to the colon, its label, the first words of a speech.
bool opens_with(const SourceSet& sources, const Statement& statement, const std::string& words) {
  const std::string_view text = sources.text(statement.span);
  if (text.substr(0, words.size()) == words) return true;
  const auto* speech = std::get_if<SpeechLine>(&statement.body);
  const auto* deed = std::get_if<DeedLine>(&statement.body);
  const Clauses* clauses = speech != nullptr ? &speech->clauses : deed != nullptr ? &deed->clauses : nullptr;
  if (clauses != nullptr) {
    const auto* label = find<LabelClause>(*clauses);
    if (label != nullptr && label->kind == LabelClause::Kind::named && label->name.text == words) return true;
  }
  const std::string_view spoken = between_quotation_marks(words);
  if (speech == nullptr || spoken.empty()) return false;
  return std::any_of(speech->parts.begin(), speech->parts.end(), [&](const SpeechPart& part) {
    return part.kind == SpeechPart::Kind::words && part.words.substr(0, spoken.size()) == spoken;
  });
}

class Outline {
 public:
  Outline(const SourceSet& sources, Findings& findings) : sources_(sources), findings_(findings) {}

  SceneText read(const Script& script, const std::optional<WayChoice>& instead) {
    for (const Statement& statement : script.statements) add(statement);
    check_ways();
    for (const Statement* statement : text_.above) {
      const auto* choice = std::get_if<ChooseLine>(&statement->body);
      if (choice != nullptr) choose(*choice, statement->span.file == script.file);
    }
    if (instead) chosen_[instead->beat] = instead->way;
    for (BeatText& beat : text_.beats) {
      const WayText* way = chosen_way(beat);
      if (way != nullptr) apply(*way, beat);
    }
    return std::move(text_);
  }

  std::vector<WayOfScene> ways(const Script& script) {
    read_only(script);
    std::vector<WayOfScene> all;
    for (const BeatText& beat : text_.beats) {
      const std::string& name = beat.heading->name.text;
      const WayText* chosen = chosen_way(beat);
      const std::size_t first = all.size();
      for (const WayText& way : ways_) {
        if (!is_of(way, name)) continue;
        if (all.size() == first) all.push_back({{"A", name}, chosen == nullptr, beat.span});
        all.push_back({{way.heading->name.text, name}, chosen == &way, way.span});
      }
    }
    return all;
  }

 private:
  void add(const Statement& statement) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading == nullptr) {
      now_->push_back(&statement);
      return;
    }
    switch (heading->kind) {
      case HeadingLine::Kind::beat:
        text_.beats.push_back({heading, statement.span, {}});
        now_ = &text_.beats.back().lines;
        break;
      case HeadingLine::Kind::opening:
        now_ = &text_.opening;
        break;
      case HeadingLine::Kind::way:
        ways_.push_back({heading, statement.span, {}});
        now_ = &ways_.back().lines;
        break;
      default:
        if (heading->kind == HeadingLine::Kind::scene) scene_ = heading->name.text;
        text_.above.push_back(&statement);
        now_ = &text_.above;
    }
  }

  void read_only(const Script& script) {
    for (const Statement& statement : script.statements) add(statement);
    for (const Statement* statement : text_.above) {
      if (const auto* choice = std::get_if<ChooseLine>(&statement->body)) choose(*choice, false);
    }
  }

  static bool is_of(const WayText& way, const std::string& beat) {
    return way.heading->of && way.heading->of->text == beat;
  }

  const BeatText* beat_named(const std::string& name) const {
    const auto beat = std::find_if(text_.beats.begin(), text_.beats.end(),
                                   [&](const BeatText& candidate) { return candidate.heading->name.text == name; });
    return beat == text_.beats.end() ? nullptr : &*beat;
  }

  const WayText* way_named(const std::string& way, const std::string& of) const {
    const auto found = std::find_if(ways_.begin(), ways_.end(), [&](const WayText& candidate) {
      return candidate.heading->name.text == way && is_of(candidate, of);
    });
    return found == ways_.end() ? nullptr : &*found;
  }

  // Null: the beat as it is written.
  const WayText* chosen_way(const BeatText& beat) const {
    const auto chosen = chosen_.find(beat.heading->name.text);
    return chosen == chosen_.end() ? nullptr : way_named(chosen->second, chosen->first);
  }

  void report_unknown(const Name& name, std::string message, std::string next_step) {
    Finding finding;
    finding.rule = "name.unknown";
    finding.where = name.span;
    finding.message = std::move(message);
    finding.next_step = std::move(next_step);
    findings_.add(std::move(finding));
  }

  bool is_scene(const std::string& name) const { return !scene_.empty() && name == scene_; }

  void check_ways() {
    for (std::size_t i = 0; i < ways_.size(); ++i) {
      const HeadingLine& heading = *ways_[i].heading;
      if (heading.of && beat_named(heading.of->text) == nullptr && !is_scene(heading.of->text)) {
        report_unknown(*heading.of, "no beat of this scene is called `" + heading.of->text + '`',
                       "name the beat this is another way of");
      }
      const bool taken =
          heading.of && (heading.name.text == "A" || way_named(heading.name.text, heading.of->text) != &ways_[i]);
      if (!taken) continue;
      Finding finding;
      finding.rule = "name.taken";
      finding.where = heading.name.span;
      finding.message = heading.name.text == "A" ? "way A is the beat as it is written"
                                                 : "there is a way `" + heading.name.text + "` of it already";
      finding.next_step = "call it by another letter: `way C of " + heading.of->text + '`';
      findings_.add(std::move(finding));
    }
  }

  // A film chooses for all of its scenes, so what this one does not have may be another's.
  void choose(const ChooseLine& choice, bool own) {
    const std::string& way = choice.way.text;
    const std::string& of = choice.of.text;
    const WayText* found = way_named(way, of);
    if (is_scene(of)) {
      if (found != nullptr) choose_for_scene(*found, own);
    } else if (beat_named(of) == nullptr) {
      if (own) report_unknown(choice.of, "no beat of this scene is called `" + of + '`', "name a beat that has ways");
      return;
    } else {
      chosen_[of] = way;
    }
    if (own && found == nullptr && way != "A") {
      report_unknown(choice.way, "there is no way `" + way + "` of `" + of + '`',
                     "`choose way A of " + of + "` is as it is written");
    }
  }

  void choose_for_scene(const WayText& way, bool own) {
    for (const Statement* statement : way.lines) {
      const auto* choice = std::get_if<ChooseLine>(&statement->body);
      if (choice != nullptr && !is_scene(choice->of.text)) choose(*choice, own);
    }
  }

  void apply(const WayText& way, BeatText& beat) {
    for (std::size_t i = 0; i < way.lines.size(); ++i) {
      const auto* change = std::get_if<ChangeLine>(&way.lines[i]->body);
      if (change == nullptr) {
        beat.lines.push_back(way.lines[i]);
        continue;
      }
      const bool replaces = !change->without && i + 1 < way.lines.size() && way.lines[i + 1]->in_place_of_line;
      replace(*change, beat, replaces ? way.lines[++i] : nullptr);
    }
  }

  void replace(const ChangeLine& change, BeatText& beat, const Statement* by) {
    const auto fits = [&](const Statement* line) { return opens_with(sources_, *line, change.opening_words.words); };
    if (std::count_if(beat.lines.begin(), beat.lines.end(), fits) != 1) {
      report_unclear(change, beat, fits);
      return;
    }
    const auto line = std::find_if(beat.lines.begin(), beat.lines.end(), fits);
    if (by != nullptr) {
      *line = by;
    } else {
      beat.lines.erase(line);
    }
  }

  template <class Fits>
  void report_unclear(const ChangeLine& change, const BeatText& beat, const Fits& fits) {
    const std::string& words = change.opening_words.words;
    const std::string written = words.starts_with('"') ? words : '`' + words + '`';
    const std::string& name = beat.heading->name.text;
    Finding finding;
    finding.rule = "name.way-unclear";
    finding.where = change.opening_words.span;
    for (const Statement* line : beat.lines) {
      if (fits(line)) finding.labels.push_back({line->span, "one of them"});
    }
    if (finding.labels.empty()) {
      finding.message = "no line of beat `" + name + "` begins with " + written;
      finding.next_step = "write how the line begins, up to its colon at most, or the name behind its `named`";
    } else {
      finding.message = std::to_string(finding.labels.size()) + " lines of beat `" + name + "` begin with " + written;
      finding.next_step = "write more of the line, up to its colon at most, or the first words of its speech";
    }
    findings_.add(std::move(finding));
  }

  const SourceSet& sources_;
  Findings& findings_;
  SceneText text_;
  std::vector<WayText> ways_;
  std::string scene_;
  std::map<std::string, std::string> chosen_;  // way by beat
  std::vector<const Statement*>* now_ = &text_.above;
};

}  // namespace

SceneText outline_of(const SourceSet& sources, const Script& script, Findings& findings,
                     const std::optional<WayChoice>& instead) {
  return Outline(sources, findings).read(script, instead);
}

std::vector<WayOfScene> ways_of(const Script& script) {
  const SourceSet none;
  Findings unheard;
  return Outline(none, unheard).ways(script);
}

}  // namespace lensward
