#include "live/show.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/quantity_text.h"
#include "crew/trades.h"
#include "pages/tally_figure.h"
#include "pages/words.h"

namespace lensward {
namespace {

std::string facts_of(const SceneFacts& facts) {
  std::vector<std::string> parts;
  if (!facts.number.empty()) parts.push_back("Scene " + facts.number);
  if (facts.interior) parts.emplace_back("interior");
  if (facts.exterior) parts.emplace_back("exterior");
  if (!facts.hour.empty()) parts.push_back(facts.hour);
  if (!facts.pages.empty()) parts.push_back(facts.pages + " pages");
  std::string words;
  for (const std::string& part : parts) words += (words.empty() ? "" : " · ") + part;
  return words;
}

// The table of moves on somebody's own sheet.
std::vector<ShownMove> moves_on(const CrewSheet& sheet) {
  std::vector<ShownMove> moves;
  const auto text = [](const Entry& entry) { return page_text(entry, Lengths::metres); };
  for (const CrewTable& table : sheet.tables) {
    if (table.key != "moves") continue;
    for (const std::vector<Entry>& row : table.rows)
      moves.push_back({std::get<OnTheClock>(row[0]).moment, text(row[1]), text(row[2]), text(row[3]), text(row[4])});
  }
  return moves;
}

// Of the sheets only what is asked for: all of them take a second to reckon, for which nobody who watches can wait.
void add_sheets(const Plan& plan, Show& show) {
  for (std::size_t i = 0; i < show.people.size(); ++i)
    show.people[i].moves = moves_on(actor_sheet(plan, PersonId{static_cast<int>(i)}));
  // All of them concern the actors.
  show.cautions = cautions_for(plan, CrewSheet::For::actors);
}

// The timed words are bare; these have the signs that stand round them in the line, and the blank after them.
std::vector<Word> with_signs(const Speech& speech) {
  if (speech.timed.empty()) return {{speech.words, speech.begin, speech.end, {}}};
  std::vector<Word> words = speech.timed;
  std::vector<std::size_t> begins;
  std::size_t at = 0;
  for (const Word& word : words) {
    const std::size_t found = speech.words.find(word.text, at);
    if (found == std::string::npos) return words;
    begins.push_back(begins.empty() ? 0 : found);
    at = found + word.text.size();
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    // What follows the last is its own signs, or what was cut off.
    const std::size_t end =
        i + 1 < words.size() ? begins[i + 1] : speech.words.find(' ', begins[i] + words[i].text.size());
    words[i].text = speech.words.substr(begins[i], end == std::string::npos ? end : end - begins[i]);
  }
  return words;
}

ShownSpeech shown(const Plan& plan, const Speech& speech) {
  std::vector<std::string> to;
  to.reserve(speech.to.size());
  for (const PersonId listener : speech.to) to.push_back(called(plan, listener));
  ShownSpeech words{speech.speaker, listed(to), "", speech.begin, speech.end, with_signs(speech), speech.words};
  if (to.empty() && speech.to_everyone) words.to = "everyone";
  if (speech.loudness != Loudness::plain) words.how = spelling(speech.loudness);
  if (speech.off) words.how += words.how.empty() ? "off" : ", off";
  return words;
}

// ---- The eye -------------------------------------------------------------------------------------------------------

std::vector<Target> seen_in(const Attention& attention) {
  std::vector<Target> seen;
  for (const Sample& sample : attention.samples)
    for (const Standing& standing : sample.standings)
      if (std::ranges::find(seen, standing.target) == seen.end()) seen.push_back(standing.target);
  std::ranges::stable_sort(seen, {}, [](const Target& target) { return std::pair(target.kind, target.index); });
  return seen;
}

int place_in(const std::vector<Target>& seen, const Target& target) {
  const auto found = std::ranges::find(seen, target);
  return found == seen.end() ? -1 : static_cast<int>(found - seen.begin());
}

ShownEye eye_at(const Plan& plan, const Sample& sample, const std::vector<Target>& seen) {
  ShownEye eye{sample.moment, place_in(seen, sample.holder), {}, std::vector<int>(seen.size(), 0)};
  for (const Target& asked : asked_for(plan, beat_at(plan, sample.moment), sample.moment))
    if (place_in(seen, asked) >= 0) eye.asked.push_back(place_in(seen, asked));
  for (const Standing& standing : sample.standings)
    eye.shares[static_cast<std::size_t>(place_in(seen, standing.target))] =
        static_cast<int>(std::lround(100 * standing.share.value));
  return eye;
}

void add_eye(const Results& results, Show& show) {
  const std::vector<Target> seen = seen_in(results.attention);
  for (const Target& target : seen) {
    const PersonId person{target.kind == Target::Kind::person ? target.index : -1};
    show.seen.push_back({called(results.plan, target), person});
  }
  for (const Sample& sample : results.attention.samples) {
    ShownEye eye = eye_at(results.plan, sample, seen);
    const bool news = show.eye.empty() || show.eye.back().holder != eye.holder || show.eye.back().asked != eye.asked ||
                      show.eye.back().shares != eye.shares;
    if (news) show.eye.push_back(std::move(eye));
  }
}

// ---- Beats ---------------------------------------------------------------------------------------------------------

ShownVerdict shown(const Results& results, const Verdict& verdict) {
  const std::string* waived = waived_because(results, verdict);
  ShownVerdict told{verdict.result, waived != nullptr, asked_words(results.plan, verdict), ""};
  told.outcome = waived == nullptr ? instead_words(results, verdict) : *waived;
  return told;
}

std::vector<PersonId> concerned(const Plan& plan, const BeatLine& line) {
  std::vector<PersonId> people;
  for (int i = 0; i < static_cast<int>(plan.stage.people.size()); ++i)
    if (concerns(plan, line, PersonId{i})) people.push_back({i});
  return people;
}

// Intents and stories are told with their verdicts, waivers with their findings.
std::vector<ShownLine> lines_of(const Plan& plan, const Beat& beat) {
  std::vector<ShownLine> lines;
  for (const BeatLine& line : beat.lines) {
    const bool elsewhere = line.kind == BeatLine::Kind::intent || line.kind == BeatLine::Kind::story;
    if (elsewhere || line.text.starts_with("waive ")) continue;
    lines.push_back({line.begin, deed_words(plan, line), line.speech, concerned(plan, line)});
  }
  std::ranges::stable_sort(lines, {}, &ShownLine::at);
  return lines;
}

ShownBeat shown_beat(const Results& results, int index) {
  const Beat& beat = results.plan.beats[static_cast<std::size_t>(index)];
  ShownBeat told{beat.name,
                 beat.title == beat.name ? "" : beat.title,
                 beat.begin,
                 beat.end,
                 deciding_moment(results, index),
                 {},
                 lines_of(results.plan, beat),
                 beat.judged};
  for (const Verdict* verdict : verdicts_of(results, index)) told.verdicts.push_back(shown(results, *verdict));
  return told;
}

// ---- Findings ------------------------------------------------------------------------------------------------------

ShownFinding shown(const Results& results, const Finding& finding) {
  return {number_of(results, finding),
          finding.severity,
          finding.at,
          beat_of(results, finding),
          finding.message,
          finding.on_set,
          finding.next_step,
          line_words(results, finding.where),
          finding.waived_because.value_or(""),
          finding.where};
}

void add_findings(const Results& results, Show& show) {
  for (const Finding* finding : numbered_findings(results)) show.findings.push_back(shown(results, *finding));
  for (const bool waived : {false, true})
    for (const Finding& finding : results.findings.all())
      if (number_of(results, finding) == 0 && finding.waived_because.has_value() == waived)
        show.findings.push_back(shown(results, finding));
}

}  // namespace

Show show_of(const Results& results) {
  const Plan& plan = results.plan;
  Show show;
  show.name = plan.facts.name;
  show.title = plan.facts.title;
  show.facts = facts_of(plan.facts);
  show.end = plan.duration();
  for (const Camera& camera : plan.stage.cameras) show.cameras.push_back(camera.name);
  show.people = shown_people(results);
  for (std::size_t i = 0; i < show.people.size(); ++i) {
    const PersonId person{static_cast<int>(i)};
    show.people[i].name = called(plan, person);
    show.people[i].number = ordinal(plan, person);
  }
  show.camera = shown_camera(plan);
  show.props = shown_props(plan);
  for (const Speech& speech : plan.speeches) show.speeches.push_back(shown(plan, speech));
  add_eye(results, show);
  for (int beat = 0; beat < static_cast<int>(plan.beats.size()); ++beat)
    show.beats.push_back(shown_beat(results, beat));
  add_findings(results, show);
  add_sheets(plan, show);
  return show;
}

}  // namespace lensward
