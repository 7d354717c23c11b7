#include "plan/scene_text.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace lensward {
namespace {

struct WayText {
  const HeadingLine* heading;
  std::vector<const Statement*> lines;
};

bool same_name(const Name& a, const Name& b) { return a.text == b.text; }

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
  if (speech == nullptr || words.size() < 2) return false;
  const std::string_view spoken = std::string_view(words).substr(1, words.size() - 2);
  return std::any_of(speech->parts.begin(), speech->parts.end(), [&](const SpeechPart& part) {
    return part.kind == SpeechPart::Kind::words && part.words.substr(0, spoken.size()) == spoken;
  });
}

class Outline {
 public:
  Outline(const SourceSet& sources, Findings& findings) : sources_(sources), findings_(findings) {}

  SceneText read(const Script& script) {
    for (const Statement& statement : script.statements) add(statement);
    for (const Statement* statement : text_.above) {
      if (const auto* choice = std::get_if<ChooseLine>(&statement->body)) choose(*choice);
    }
    return std::move(text_);
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
        ways_.push_back({heading, {}});
        now_ = &ways_.back().lines;
        break;
      default:
        text_.above.push_back(&statement);
        now_ = &text_.above;
    }
  }

  void choose(const ChooseLine& choice) {
    const auto fits = [&](const WayText& way) {
      return same_name(way.heading->name, choice.way) && way.heading->of && same_name(*way.heading->of, choice.of);
    };
    const auto way = std::find_if(ways_.begin(), ways_.end(), fits);
    const auto beat = std::find_if(text_.beats.begin(), text_.beats.end(), [&](const BeatText& candidate) {
      return same_name(candidate.heading->name, choice.of);
    });
    // Way A is the beat as it is written.
    if (way != ways_.end() && beat != text_.beats.end()) apply(*way, *beat);
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
    const auto count = std::count_if(beat.lines.begin(), beat.lines.end(), fits);
    if (count != 1) {
      Finding finding;
      finding.rule = "name.way-unclear";
      finding.where = change.opening_words.span;
      finding.message =
          "these words open " + std::to_string(count) + " lines of beat `" + beat.heading->name.text + "`";
      finding.next_step = "write more of the line's opening, up to its colon at most";
      findings_.add(std::move(finding));
      return;
    }
    const auto line = std::find_if(beat.lines.begin(), beat.lines.end(), fits);
    if (by != nullptr) {
      *line = by;
    } else {
      beat.lines.erase(line);
    }
  }

  const SourceSet& sources_;
  Findings& findings_;
  SceneText text_;
  std::vector<WayText> ways_;
  std::vector<const Statement*>* now_ = &text_.above;
};

}  // namespace

SceneText outline_of(const SourceSet& sources, const Script& script, Findings& findings) {
  return Outline(sources, findings).read(script);
}

}  // namespace lensward
