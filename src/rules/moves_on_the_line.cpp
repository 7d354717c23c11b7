#include <algorithm>
#include <utility>

#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage moves_on_the_line_page{
    .sees =
        "Another person who begins to walk, turn, change posture or do something busy within 0.3 s of the "
        "last word, or of a mark, in a speech of the favoured.",
    .why =
        "Movement wins over words, so the word may go unheard; often it is meant, and then nothing need be "
        "done.",
    .example =
        "favour Oda\n"
        "Oda: \"I signed the papers on Monday.\"\n"
        "Jun rises, on \"Monday\"",
    .better =
        "favour Oda\n"
        "Oda: \"I signed the papers on Monday.\"\n"
        "Jun rises, 0.5 s after Oda speaks",
    .source = "common practice, no source; that onsets draw the eye: Abrams & Christ 2003.",
};

namespace {

constexpr Milliseconds near_the_word{300};
constexpr double busy_enough = 0.5;

struct KeyWord {
  std::string text;
  Moment at;
};

std::vector<KeyWord> key_words(const Speech& speech) {
  std::vector<KeyWord> words;
  for (const SpeechMarkTime& mark : speech.marks) words.push_back({mark.name, mark.at});
  if (!speech.timed.empty()) words.push_back({speech.timed.back().text, speech.timed.back().begin});
  return words;
}

bool favoured_then(const Plan& plan, const Target& speaker, const Speech& speech) {
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    return intent.kind == Intent::Kind::favour && !intent.targets.empty() && intent.targets.front() == speaker &&
           intent.begin < speech.end && speech.begin < intent.end;
  });
}

struct Onset {
  Target who;
  Moment at;
  Span said_at;
};

bool near(Moment begins, Moment word) { return word - near_the_word <= begins && begins <= word + near_the_word; }

// Whoever is given the eye at that moment is meant to move.
bool takes_favour(const Plan& plan, const Onset& onset) {
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    const bool gives =
        intent.kind == Intent::Kind::favour || intent.kind == Intent::Kind::pass || intent.kind == Intent::Kind::reveal;
    return gives && !intent.targets.empty() && intent.targets.back() == onset.who && near(onset.at, intent.begin);
  });
}

template <class Value>
std::optional<Onset> begins_near(const Lane<Value>& lane, const Target& who, Moment word) {
  for (const auto& segment : lane) {
    const bool moves = segment.begin < segment.end && segment.begin.count > 0;
    if (moves && near(segment.begin, word)) return Onset{who, segment.begin, segment.said_at};
  }
  return std::nullopt;
}

std::optional<Onset> onset_of(const PersonTrack& track, const Target& who, Moment word) {
  if (const auto walks = begins_near(track.feet, who, word)) return walks;
  if (const auto turns = begins_near(track.body, who, word)) return turns;
  if (const auto changes = begins_near(track.stance, who, word)) return changes;
  for (const Business& deed : track.hands) {
    if (deed.strength >= busy_enough && near(deed.begin, word)) return Onset{who, deed.begin, deed.said_at};
  }
  return std::nullopt;
}

std::optional<Onset> onset_near(const Checked& checked, const Target& speaker, Moment word) {
  for (std::size_t i = 0; i < checked.plan.people.size(); ++i) {
    const Target who{Target::Kind::person, static_cast<int>(i), {}};
    if (who == speaker) continue;
    if (const auto onset = onset_of(checked.plan.people[i], who, word)) return onset;
  }
  return std::nullopt;
}

}  // namespace

void moves_on_the_line(const Checked& checked, Reporter& report) {
  std::vector<std::pair<Target, Moment>> told;
  for (const Speech& speech : checked.plan.speeches) {
    const int beat = beat_at(checked.plan, speech.begin);
    const Target speaker{Target::Kind::person, speech.speaker.index, {}};
    if (!favoured_then(checked.plan, speaker, speech)) continue;
    for (const KeyWord& word : key_words(speech)) {
      const std::optional<Onset> onset = onset_near(checked, speaker, word.at);
      if (!onset || takes_favour(checked.plan, *onset)) continue;
      const std::pair<Target, Moment> key{onset->who, onset->at};
      if (std::find(told.begin(), told.end(), key) != told.end()) continue;
      told.push_back(key);
      Finding& finding = report.add(
          onset->said_at.empty() ? speech.said_at : onset->said_at, {beat, onset->at, {onset->who}},
          quoted(checked, onset->who) + " begins to move " + at_words(onset->at) + ", on " + quoted(checked, speaker) +
              "'s \"" + word.text + "\" in " + beat_words(checked, beat) + "; meant?");
      finding.next_step = "unless it is meant, begin the move a word earlier or after the line";
    }
  }
}

}  // namespace lensward
