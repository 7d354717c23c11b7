#include "mend/mend.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "base/shared_work.h"
#include "emphasis/judge.h"
#include "emphasis/sampling.h"
#include "findings/key.h"
#include "mend/edited_text.h"

namespace lensward {
namespace {

// A quick look is for leaving out what cannot help; what is left is proved in the whole scene.
constexpr Milliseconds between_looks{200}, before_the_stretch{1000};
constexpr int looks_at_most = 40;
constexpr Points nearly_there{1.5};
constexpr std::size_t pairs_of = 7;  // the best of the single lines that do not do it alone

bool counts(const Finding& finding) { return finding.severity != Severity::remark && !finding.waived_because; }

// Left out is that a wish at one of these lines comes late.
std::map<FindingKey, int> tallied(const Findings& findings, const std::vector<Span>& left_out = {}) {
  std::map<FindingKey, int> tally;
  for (const Finding& finding : findings.all()) {
    const bool out =
        finding.rule == "slow-landing" && std::find(left_out.begin(), left_out.end(), finding.where) != left_out.end();
    tally[key_of(finding)] += counts(finding) && !out ? 1 : 0;
  }
  return tally;
}

// Errors and warnings that the first has more of than the second.
int more_in(const std::map<FindingKey, int>& tally, const std::map<FindingKey, int>& than) {
  int more = 0;
  for (const auto& [key, count] : tally) {
    const auto other = than.find(key);
    more += std::max(0, count - (other == than.end() ? 0 : other->second));
  }
  return more;
}

int times(const Findings& findings, const FindingKey& key) {
  return static_cast<int>(std::count_if(findings.all().begin(), findings.all().end(), [&](const Finding& finding) {
    return !finding.waived_because && key_of(finding) == key;
  }));
}

int rank_of(Verdict::Result result) {
  switch (result) {
    case Verdict::Result::holds:
      return 2;
    case Verdict::Result::close:
      return 1;
    case Verdict::Result::fails:
    case Verdict::Result::not_judged:
      return 0;
  }
  return 0;
}

Points lead_of(const Verdict& verdict) { return verdict.favoured_points - verdict.rival_points; }

// A change of the text, and what a quick look showed.
struct Change {
  std::vector<TextEdit> edits;
  std::vector<Offer> offers;
  std::vector<LineTyped> lines;
  bool plays = false;  // the plan has no new complaint
  bool mends = false;  // the verdict holds at a quick look, and no other comes out worse
  bool holds = true;   // it holds
  bool harms = false;  // another comes out worse
  Points gain{};       // of the favoured's least lead
  bool operator<(const Change& other) const { return order() < other.order(); }

 private:
  std::tuple<std::size_t, int, int> order() const {
    int rank = 0, cost = 0;
    for (const Offer& offer : offers) {
      rank = std::max(rank, offer.rank);
      cost += offer.cost;
    }
    return {offers.size(), rank, cost};
  }
};

// What a finding is about: the verdict behind it; or, when it is none, who and when, as a verdict on nothing.
struct Case {
  Verdict verdict;
  bool judged = false;
};

// Where lines may be put for a verdict, and what each is to end with.
struct Slot {
  std::uint32_t at = 0;  // the start of a line
  int line = 0;          // the line above it, from 1
  std::string indent, cue;
};

class Mender {
 public:
  Mender(const Rehearsal& scene, const Rehearse& rehearse, const MendingLimits& limits)
      : scene_(scene), rehearse_(rehearse), limits_(limits) {
    before_ = rehearse(std::string(scene.text()), Depth::marks).findings;
    planned_ = tallied(rehearse(std::string(scene.text()), Depth::plan).findings);
  }

  std::vector<Trouble> run(const std::function<bool(const Finding&)>& wanted) {
    std::vector<int> picked;
    for (std::size_t i = 0; i < scene_.findings.all().size(); ++i) {
      const Finding& finding = scene_.findings.all()[i];
      if (!finding.waived_because && wanted(finding)) picked.push_back(static_cast<int>(i));
    }
    std::vector<Trouble> troubles;
    for (const int finding : picked) {
      tell_begin(troubles.size(), picked.size());
      troubles.push_back(ways_out_of(finding));
    }
    tell_begin(picked.size(), picked.size());
    for (Trouble& trouble : troubles) {
      if (trouble.ways.empty()) trouble.goes_with = way_that_mends(troubles, trouble.finding);
      if (trouble.ways.empty() && !trouble.goes_with) lean_on_others(troubles, trouble);
    }
    return troubles;
  }

 private:
  void tell_begin(std::size_t done, std::size_t of) const {
    if (limits_.begins) limits_.begins(done, of);
  }

  static std::optional<std::pair<std::size_t, std::size_t>> way_that_mends(const std::vector<Trouble>& troubles,
                                                                           int finding) {
    for (std::size_t i = 0; i < troubles.size(); ++i) {
      for (std::size_t way = 0; way < troubles[i].ways.size(); ++way) {
        const std::vector<int>& mends = troubles[i].ways[way].mends;
        if (std::find(mends.begin(), mends.end(), finding) != mends.end()) return std::pair(i, way);
      }
    }
    return std::nullopt;
  }

  Trouble ways_out_of(int index) {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(index)];
    Trouble trouble;
    trouble.finding = index;
    offer_repairs(finding, trouble);
    const std::optional<Case> about = case_of(finding);
    if (about && trouble.ways.empty()) try_next_step(finding, *about, trouble);
    if (about && trouble.ways.size() < limits_.ways_at_most) try_lines(finding, *about, trouble);
    return trouble;
  }

  // ---- What the finding itself offers -----------------------------------------------------------------------------

  // A slip of the pen: what it hid may come to light, so only the finding itself has to go.
  void offer_repairs(const Finding& finding, Trouble& trouble) {
    for (const Repair& repair : finding.repairs) {
      const bool own = std::all_of(repair.edits.begin(), repair.edits.end(),
                                   [&](const TextEdit& edit) { return edit.where.file == scene_.file; });
      if (!own || repair.edits.empty() || repair.kind == Repair::Kind::fill_in) continue;
      ++trouble.tried;
      const Rehearsal again = rehearse_(edited_text(scene_.text(), repair.edits), Depth::plan);
      if (times(again.findings, key_of(finding)) >= times(before_, key_of(finding))) continue;
      WayOut way;
      way.edits = repair.edits;
      for (const TextEdit& edit : repair.edits) {
        if (!edit.text.empty()) way.lines.push_back({source().position(edit.where.begin).line, true, edit.text});
      }
      trouble.ways.push_back(std::move(way));
      if (trouble.ways.size() == limits_.ways_at_most) return;
    }
  }

  // ---- Lines that move the eye -------------------------------------------------------------------------------------

  std::optional<Case> case_of(const Finding& finding) const {
    const auto asks = [&](const Verdict& verdict) {
      return verdict.beat >= 0 && (verdict.intent >= 0 || verdict.story >= 0) &&
             asked_at(scene_.plan, verdict) == finding.where;
    };
    for (const Verdict& verdict : scene_.verdicts) {
      if (asks(verdict) && verdict.complaint == finding.rule) return Case{verdict, true};
    }
    // Another rule on the same wish: its cue serves.
    const auto same_wish = std::find_if(scene_.verdicts.begin(), scene_.verdicts.end(), asks);
    if (same_wish != scene_.verdicts.end() && finding.at) {
      Case about{*same_wish, false};
      about.verdict.decided = *finding.at;
      return about;
    }
    return finding.at && beat_at(scene_.plan, *finding.at) >= 0 && !finding.subject.people.empty()
               ? std::optional(Case{about_people(finding), false})
               : std::nullopt;
  }

  Verdict about_people(const Finding& finding) const {
    Verdict verdict;
    verdict.beat = beat_at(scene_.plan, *finding.at);
    verdict.decided = verdict.begin = verdict.end = *finding.at;
    verdict.favoured = person_named(finding.subject.people.front());
    if (finding.subject.people.size() > 1) verdict.rival = person_named(finding.subject.people[1]);
    return verdict;
  }

  Target person_named(const std::string& name) const {
    const auto& people = scene_.plan.stage.people;
    const auto found =
        std::find_if(people.begin(), people.end(), [&](const Person& person) { return person.name == name; });
    if (found == people.end()) return {};
    return {Target::Kind::person, static_cast<int>(found - people.begin()), {}};
  }

  const SourceFile& source() const { return scene_.sources.file(scene_.file); }

  Slot slot_below(int line, std::string cue) const {
    const std::string_view text = source().line_text(line);
    const std::size_t blanks = std::min(text.find_first_not_of(" \t"), text.size());
    const bool last = line == source().line_count();
    const auto at = last ? static_cast<std::uint32_t>(source().bytes().size()) : source().line_start(line + 1);
    return {at, line, std::string(text.substr(0, blanks)), std::move(cue)};
  }

  std::string cue_of(const Verdict& verdict) const {
    if (verdict.intent < 0 || !scene_.plan.intents[static_cast<std::size_t>(verdict.intent)].cued) return {};
    return cue_in(asked_at(scene_.plan, verdict));
  }

  // The clause of a line that says when, as the writer wrote it: what follows the first comma before a word of time.
  std::string cue_in(Span where) const {
    const std::string_view line = source().line_text(source().position(where.begin).line);
    for (const char* word : {", on ", ", after ", ", as ", ", midway ", ", from ", ", while "}) {
      const std::size_t begin = line.find(word);
      if (begin == std::string_view::npos) continue;
      const std::size_t end = std::min({line.find(", ", begin + 1), line.find(" --", begin + 1), line.size()});
      const std::size_t last = line.find_last_not_of(" \t\r", end - 1);
      return std::string(line.substr(begin, last + 1 - begin));
    }
    return {};
  }

  // Below the wish, or the line that is told of, with its own cue if it has one; and above the words that sound when
  // the lead is least.
  std::vector<Slot> slots_for(const Finding& finding, const Verdict& verdict) const {
    std::vector<Slot> slots;
    const auto add = [&](int line, const std::string& cue) {
      const bool known = std::any_of(slots.begin(), slots.end(),
                                     [&](const Slot& slot) { return slot.line == line && slot.cue == cue; });
      if (line >= 1 && line <= source().line_count() && !known) slots.push_back(slot_below(line, cue));
    };
    const Beat& beat = scene_.plan.beats[static_cast<std::size_t>(verdict.beat)];
    const auto line_of = [&](Span where) { return source().position(where.begin).line; };
    const Span asked = asked_at(scene_.plan, verdict);
    const bool by_wish = verdict.intent >= 0 || verdict.story >= 0;
    if (by_wish && asked.file == scene_.file && !asked.empty()) add(line_of(asked), cue_of(verdict));
    if (!by_wish && finding.where.file == scene_.file) add(line_of(finding.where), cue_in(finding.where));
    // Above what sounds when the lead is least: in time for that, and no earlier.
    const auto sounding = std::find_if(beat.lines.rbegin(), beat.lines.rend(), [&](const BeatLine& line) {
      return line.kind == BeatLine::Kind::speech && line.begin < verdict.decided;
    });
    if (sounding != beat.lines.rend() && sounding->said_at.file == scene_.file) add(line_of(sounding->said_at) - 1, "");
    return slots;
  }

  TextEdit edit_of(const Offer& offer, const Slot& slot) const {
    const std::string_view before = source().bytes().substr(0, slot.at);
    const std::string_view end = !before.empty() && before.back() != '\n' ? "\n" : "";
    return {{scene_.file, slot.at, slot.at}, std::string(end) + slot.indent + offer.line + slot.cue + '\n'};
  }

  bool plan_is_clean(const Rehearsal& again) const { return more_in(tallied(again.findings), planned_) == 0; }

  // The verdicts of a beat, which are looked at again.
  std::vector<const Verdict*> verdicts_of(int beat) const {
    std::vector<const Verdict*> verdicts;
    for (const Verdict& other : scene_.verdicts) {
      const bool asked = other.intent >= 0 || other.story >= 0;
      if (asked && other.beat == beat && other.result != Verdict::Result::not_judged) verdicts.push_back(&other);
    }
    return verdicts;
  }

  static std::vector<Moment> moments_for(const Plan& plan, const std::vector<const Verdict*>& verdicts) {
    // A change may make the beat longer.
    const Beat& beat = plan.beats[static_cast<std::size_t>(verdicts.front()->beat)];
    Moment begin = beat.begin, end = beat.end;
    for (const Verdict* one : verdicts) {
      begin = std::min(begin, one->begin);
      end = std::max(end, one->end);
    }
    begin = std::max(Moment{}, begin - before_the_stretch);
    end = std::min(end, plan.duration());
    const Milliseconds step = std::max(between_looks, Milliseconds{(end - begin).count / looks_at_most});
    std::vector<Moment> moments;
    for (Moment moment = begin; moment < end; moment = moment + step) moments.push_back(moment);
    moments.push_back(end);
    return moments;
  }

  static std::vector<Verdict> judged_quickly(const Plan& plan, const std::vector<const Verdict*>& verdicts,
                                             Onlooker& onlooker) {
    if (verdicts.empty()) return {};
    const Attention attention = weigh_moments(plan, moments_for(plan, verdicts), onlooker);
    std::vector<Verdict> again;
    for (const Verdict* one : verdicts) again.push_back(judge_again(plan, attention, *one));
    return again;
  }

  // Plays a change as far as the beat goes. `asked` is past the end of the verdicts where the finding is on none.
  void look_quickly(const std::vector<const Verdict*>& verdicts, std::size_t asked, const std::vector<Verdict>& now,
                    Onlooker& onlooker, Change& change) const {
    const Rehearsal again = rehearse_(edited_text(scene_.text(), change.edits), Depth::plan);
    change.plays = plan_is_clean(again) && again.plan.beats.size() == scene_.plan.beats.size() &&
                   again.plan.intents.size() == scene_.plan.intents.size();
    if (!change.plays) return;
    const std::vector<Verdict> then = judged_quickly(again.plan, verdicts, onlooker);
    for (std::size_t i = 0; i < then.size(); ++i) {
      if (i != asked && rank_of(then[i].result) < rank_of(now[i].result)) change.harms = true;
    }
    change.mends = !change.harms;
    if (asked >= then.size()) return;
    change.gain = lead_of(then[asked]) - lead_of(now[asked]);
    const bool nearly = then[asked].margin - nearly_there < lead_of(then[asked]);
    change.holds = then[asked].result == Verdict::Result::holds;
    change.mends = !change.harms && (change.holds || nearly);
  }

  // Looks at all changes; the cores share them.
  void look_at_all(const Case& about, std::vector<Change>& changes) const {
    const std::vector<const Verdict*> verdicts = verdicts_of(about.verdict.beat);
    const auto is_it = [&](const Verdict* one) {
      return about.judged && one->intent == about.verdict.intent && one->story == about.verdict.story;
    };
    const auto asked =
        static_cast<std::size_t>(std::find_if(verdicts.begin(), verdicts.end(), is_it) - verdicts.begin());
    Onlooker first;
    const std::vector<Verdict> now = judged_quickly(scene_.plan, verdicts, first);
    share_work(changes.size(), [&](const NextIndex& next) {
      // From one change to the next almost all stays as it was drawn.
      Onlooker onlooker(looks_at_most);
      while (const auto turn = next()) look_quickly(verdicts, asked, now, onlooker, changes[*turn]);
    });
  }

  Change change_of(const Offer& offer, const Slot& slot) const {
    return {{edit_of(offer, slot)}, {offer}, {{slot.line, false, offer.line + slot.cue}}};
  }

  // Of an offer that knows its place.
  Change change_of(const Offer& offer) const {
    const bool instead = !offer.edit->where.empty();
    const int line = source().position(offer.edit->where.begin).line;
    return {{*offer.edit}, {offer}, {{instead ? line : line - 1, instead, offer.line}}};
  }

  // Offers of one rank, each in each slot in which it can be played; below the wish is the least surprise.
  std::vector<Change> single_changes(const Finding& finding, const std::vector<Offer>& offers, int rank,
                                     const Case& about, Trouble& trouble) const {
    std::vector<Change> changes;
    for (const Offer& offer : offers) {
      if (offer.rank == rank && offer.edit) changes.push_back(change_of(offer));
    }
    for (const Slot& slot : slots_for(finding, about.verdict)) {
      for (const Offer& offer : offers) {
        if (offer.rank == rank && !offer.edit) changes.push_back(change_of(offer, slot));
      }
    }
    look_at_all(about, changes);
    trouble.tried += static_cast<int>(changes.size());
    const auto idle = [](const Change& change) { return !change.plays; };
    changes.erase(std::remove_if(changes.begin(), changes.end(), idle), changes.end());
    std::stable_sort(changes.begin(), changes.end());
    return changes;
  }

  static std::vector<Change> pairs_from(const std::vector<Change>& singles) {
    std::vector<Change> best;
    for (const Change& one : singles) {
      const auto same = [&](const Change& other) { return other.offers.front().line == one.offers.front().line; };
      const bool known = std::any_of(best.begin(), best.end(), same);
      if (!known && !one.harms && !one.mends && Points{0.5} < one.gain) best.push_back(one);
    }
    std::stable_sort(best.begin(), best.end(), [](const Change& a, const Change& b) { return b.gain < a.gain; });
    best.resize(std::min(best.size(), pairs_of));
    std::vector<Change> pairs;
    for (std::size_t i = 0; i < best.size(); ++i) {
      for (std::size_t j = i + 1; j < best.size(); ++j) {
        if (best[i].offers.front().about == best[j].offers.front().about) continue;
        pairs.push_back(joined(best[i], best[j]));
      }
    }
    return pairs;
  }

  static Change joined(const Change& one, const Change& other) {
    Change pair{one.edits, one.offers, one.lines};
    pair.edits.insert(pair.edits.end(), other.edits.begin(), other.edits.end());
    pair.offers.insert(pair.offers.end(), other.offers.begin(), other.offers.end());
    pair.lines.insert(pair.lines.end(), other.lines.begin(), other.lines.end());
    return pair;
  }

  // Does it work in the whole scene?
  std::optional<WayOut> proved(const Finding& finding, const Case& about, const Change& change) const {
    const std::string text = edited_text(scene_.text(), change.edits);
    const Rehearsal at_marks = rehearse_(text, Depth::marks);
    if (worse(at_marks) || !helps(finding, before_, at_marks)) return std::nullopt;
    // As a director will check it, with everybody elsewhere in their places too.
    const Rehearsal again = rehearse_(text, Depth::places);
    if (!helps(finding, scene_.findings, again)) return std::nullopt;
    if (times(again.findings, key_of(finding)) >= times(scene_.findings, key_of(finding))) return std::nullopt;
    WayOut way;
    way.edits = change.edits;
    for (const Offer& offer : change.offers) way.department = std::max(way.department, std::optional(offer.department));
    way.lines = change.lines;
    if (about.judged) tell_leads(about.verdict, again, way);
    way.mends = gone(again.findings);
    return way;
  }

  // No error or warning more than before; and less of the finding in question, if it was there.
  bool helps(const Finding& finding, const Findings& before, const Rehearsal& again) const {
    const Findings& after = again.findings;
    const int was = times(before, key_of(finding));
    return more_in(tallied(after, risen(again)), tallied(before)) == 0 &&
           (was == 0 || times(after, key_of(finding)) < was);
  }

  // Where the wishes stand that failed and fail no longer. Only now can it be asked whether they come late: that is
  // no harm.
  std::vector<Span> risen(const Rehearsal& again) const {
    std::vector<Span> risen;
    for (std::size_t i = 0; i < std::min(again.verdicts.size(), scene_.verdicts.size()); ++i) {
      const bool failed = scene_.verdicts[i].result == Verdict::Result::fails;
      if (failed && rank_of(again.verdicts[i].result) > 0) risen.push_back(asked_at(again.plan, again.verdicts[i]));
    }
    return risen;
  }

  // The findings of the scene that another text has fewer of.
  std::vector<int> gone(const Findings& again) const {
    std::vector<int> gone;
    const auto& all = scene_.findings.all();
    for (std::size_t i = 0; i < all.size(); ++i) {
      const FindingKey key = key_of(all[i]);
      if (counts(all[i]) && times(again, key) < times(scene_.findings, key)) gone.push_back(static_cast<int>(i));
    }
    return gone;
  }

  static void tell_leads(const Verdict& verdict, const Rehearsal& again, WayOut& way) {
    const auto same = std::find_if(again.verdicts.begin(), again.verdicts.end(), [&](const Verdict& other) {
      return other.intent == verdict.intent && other.story == verdict.story && other.beat == verdict.beat;
    });
    if (same == again.verdicts.end()) return;
    way.lead_before = lead_of(verdict);
    way.lead_after = lead_of(*same);
  }

  bool worse(const Rehearsal& again) const {
    if (again.verdicts.size() != scene_.verdicts.size()) return true;
    for (std::size_t i = 0; i < again.verdicts.size(); ++i) {
      if (rank_of(again.verdicts[i].result) < rank_of(scene_.verdicts[i].result)) return true;
    }
    return false;
  }

  void prove(const Finding& finding, const Case& about, const std::vector<Change>& changes, Trouble& trouble,
             std::size_t& proofs) {
    prove_some(finding, about, changes, true, trouble, proofs);
    prove_some(finding, about, changes, false, trouble, proofs);
  }

  void prove_some(const Finding& finding, const Case& about, const std::vector<Change>& changes, bool hold,
                  Trouble& trouble, std::size_t& proofs) {
    std::vector<std::string> said;  // one way of each kind: a turn further is no other way out
    std::vector<std::string> proved_before;
    for (const Change& change : changes_[trouble.finding]) said.push_back(kind_of(change));
    const auto holds = [](const std::vector<std::string>& words, const std::string& one) {
      return std::find(words.begin(), words.end(), one) != words.end();
    };
    for (const Change& change : changes) {
      if (!change.mends || change.holds != hold || proofs == 0 || trouble.ways.size() == limits_.ways_at_most) continue;
      // The same lines elsewhere in the beat come to much the same.
      if (holds(said, kind_of(change)) || holds(proved_before, lines_of(change))) continue;
      --proofs;
      proved_before.push_back(lines_of(change));
      std::optional<WayOut> way = proved(finding, about, change);
      if (!way) continue;
      trouble.ways.push_back(std::move(*way));
      changes_[trouble.finding].push_back(change);
      said.push_back(kind_of(change));
    }
  }

  static std::string lines_of(const Change& change) {
    std::string lines;
    for (const Offer& offer : change.offers) lines += offer.line + '\n';
    return lines;
  }

  // "Oda turns", "camera pans".
  static std::string kind_of(const Change& change) {
    std::string kind;
    for (const Offer& offer : change.offers) {
      const std::size_t verb = offer.about.size() + 1;
      const std::string who_does = offer.line.substr(0, offer.line.find(' ', verb));
      kind += (offer.edit ? offer.about + " stands" : with_no_camera_named(who_does)) + ';';
    }
    return kind;
  }

  // "camera A focuses" and "camera focuses" are of a kind.
  static std::string with_no_camera_named(std::string words) {
    constexpr std::string_view camera = "camera ";
    if (!words.starts_with(camera)) return words;
    const std::size_t verb = words.rfind(' ') + 1;
    return words.erase(camera.size(), verb - camera.size());
  }

  void try_lines(const Finding& finding, const Case& about, Trouble& trouble) {
    std::size_t proofs = limits_.proofs_at_most;
    const std::vector<Offer> offers = offers_for(scene_, about.verdict, finding.rule);
    std::vector<Change>& singles = singles_[trouble.finding];
    for (int rank = 0; rank < ranks && trouble.ways.size() < limits_.ways_at_most; ++rank) {
      const std::vector<Change> changes = single_changes(finding, offers, rank, about, trouble);
      prove(finding, about, changes, trouble, proofs);
      singles.insert(singles.end(), changes.begin(), changes.end());
    }
    if (!trouble.ways.empty() || !about.judged) return;
    std::vector<Change> pairs = pairs_from(singles);
    look_at_all(about, pairs);
    trouble.tried += static_cast<int>(pairs.size());
    std::stable_sort(pairs.begin(), pairs.end());
    prove(finding, about, pairs, trouble, proofs);
  }

  // ---- What the finding says itself
  // -----------------------------------------------------------------------------------

  // The line that a next step tells to write: `mark O1 at (3.12, 1.12) m` below the line of a place, others below the
  // wish.
  static Department department_of(const std::string& line) {
    if (line.starts_with("camera ")) return Department::lens;
    return line.starts_with("light ") ? Department::light : Department::floor;
  }

  void try_next_step(const Finding& finding, const Case& about, Trouble& trouble) {
    const std::size_t begin = finding.next_step.find('`');
    const std::size_t end = finding.next_step.find('`', begin + 1);
    const bool tells = finding.next_step.starts_with("try `") || finding.next_step.starts_with("write ");
    if (!tells || end == std::string::npos) return;
    const std::string line = finding.next_step.substr(begin + 1, end - begin - 1);
    const bool at_place = line.starts_with("mark ") && !finding.labels.empty();
    if (at_place && finding.labels.front().where.file != scene_.file) return;
    std::vector<Slot> slots = slots_for(finding, about.verdict);
    if (at_place) slots = {slot_below(source().position(finding.labels.front().where.begin).line, {})};
    for (Slot& slot : slots) {
      if (line.find(", on ") != std::string::npos) slot.cue.clear();
      const Offer offer{line, department_of(line), 0, 0, std::nullopt, line.substr(0, line.find(' '))};
      const Change change = change_of(offer, slot);
      ++trouble.tried;
      std::optional<WayOut> way = proved(finding, about, change);
      if (!way) continue;
      trouble.ways.push_back(std::move(*way));
      changes_[trouble.finding].push_back(change);
      return;
    }
  }

  // ---- With what mends another finding of the beat -----------------------------------------------------------------

  int beat_of(const Trouble& trouble) const {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(trouble.finding)];
    return finding.at ? beat_at(scene_.plan, *finding.at) : -1;
  }

  // What mends one wish may spoil the next, which a line of its own puts right.
  void lean_on_others(const std::vector<Trouble>& troubles, Trouble& trouble) {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(trouble.finding)];
    const std::optional<Case> about = case_of(finding);
    if (!about || about->verdict.beat < 0) return;
    std::vector<Change> sets;
    for (const Trouble& other : troubles) {
      if (changes_[other.finding].empty() || beat_of(other) != about->verdict.beat) continue;
      for (const Change& single : singles_[trouble.finding]) add_set(single, changes_[other.finding].front(), sets);
    }
    look_at_all(*about, sets);
    trouble.tried += static_cast<int>(sets.size());
    std::stable_sort(sets.begin(), sets.end());
    std::size_t proofs = limits_.proofs_at_most;
    prove(finding, *about, sets, trouble, proofs);
  }

  static void add_set(const Change& single, const Change& other, std::vector<Change>& sets) {
    const auto known = [&](const Change& set) { return set.offers.front().line == single.offers.front().line; };
    if (other.offers.size() == 1 && std::none_of(sets.begin(), sets.end(), known))
      sets.push_back(joined(single, other));
  }

  const Rehearsal& scene_;
  const Rehearse& rehearse_;
  const MendingLimits& limits_;
  Findings before_;  // with everybody at their marks
  std::map<FindingKey, int> planned_;
  // By finding: what was tried a line at a time, and what was proved, in the order of the ways out.
  std::map<int, std::vector<Change>> singles_, changes_;
};

}  // namespace

std::vector<Trouble> mend(const Rehearsal& scene, const Rehearse& rehearse,
                          const std::function<bool(const Finding&)>& wanted, const MendingLimits& limits) {
  return Mender(scene, rehearse, limits).run(wanted);
}

}  // namespace lensward
