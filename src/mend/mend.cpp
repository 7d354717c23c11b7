#include "mend/mend.h"

#include <algorithm>
#include <map>

#include "findings/key.h"
#include "mend/edited_text.h"
#include "mend/proof.h"
#include "mend/quick_look.h"
#include "mend/statement.h"
#include "mend/tallies.h"
#include "mend/trial.h"

namespace lensward {
namespace {

// Where lines may be put for a verdict, and what each is to end with.
struct Slot {
  std::uint32_t at = 0;  // the start of a line
  int line = 0;          // the line above it, from 1
  std::string indent, cue;
};

class Mender {
 public:
  Mender(const Rehearsal& scene, const Rehearse& rehearse, const MendingLimits& limits)
      : scene_(scene),
        limits_(limits),
        proof_(scene, rehearse),
        quick_look_(scene, rehearse),
        numbers_(numbers_of(scene)) {}

  std::vector<Trouble> run(const std::function<bool(const Finding&)>& wanted) {
    std::vector<int> picked;
    for (std::size_t i = 0; i < scene_.findings.all().size(); ++i) {
      if (numbers_[i] > 0 && wanted(scene_.findings.all()[i])) picked.push_back(static_cast<int>(i));
    }
    std::vector<Trouble> troubles;
    mend_each(picked, troubles);
    const std::vector<int> others = others_to_lean_on(picked, troubles);
    if (!others.empty()) mend_each(others, troubles);
    std::sort(troubles.begin(), troubles.end(), [](const Trouble& a, const Trouble& b) { return a.number < b.number; });
    for (Trouble& trouble : troubles) {
      if (trouble.ways.empty()) trouble.goes_with = way_that_mends(troubles, trouble.finding);
      if (trouble.ways.empty() && !trouble.goes_with) lean_on_others(troubles, trouble);
    }
    std::erase_if(troubles, [&](const Trouble& trouble) {
      return std::find(picked.begin(), picked.end(), trouble.finding) == picked.end();
    });
    return troubles;
  }

 private:
  void tell_begin(std::size_t done, std::size_t of) const {
    if (limits_.begins) limits_.begins(done, of);
  }

  void mend_each(const std::vector<int>& findings, std::vector<Trouble>& troubles) {
    for (std::size_t i = 0; i < findings.size(); ++i) {
      tell_begin(i, findings.size());
      troubles.push_back(ways_out_of(findings[i]));
    }
    tell_begin(findings.size(), findings.size());
  }

  // Errors and warnings of the same beats that were not asked for: what mends them may serve those that have no way
  // out, and must whenever it would if they were asked for too, or a name would stand for another change.
  std::vector<int> others_to_lean_on(const std::vector<int>& picked, const std::vector<Trouble>& troubles) const {
    std::vector<int> others;
    for (std::size_t i = 0; i < scene_.findings.all().size(); ++i) {
      const int index = static_cast<int>(i);
      const bool known = std::find(picked.begin(), picked.end(), index) != picked.end();
      if (numbers_[i] == 0 || known || scene_.findings.all()[i].severity == Severity::remark) continue;
      const bool serves = std::any_of(troubles.begin(), troubles.end(), [&](const Trouble& trouble) {
        if (!trouble.ways.empty()) return false;
        const auto about = case_of(scene_.findings.all()[static_cast<std::size_t>(trouble.finding)]);
        return about && about->verdict.beat >= 0 && about->verdict.beat == beat_of(index);
      });
      if (serves) others.push_back(index);
    }
    return others;
  }

  static std::optional<std::pair<int, std::size_t>> way_that_mends(const std::vector<Trouble>& troubles, int finding) {
    for (const Trouble& trouble : troubles) {
      for (std::size_t way = 0; way < trouble.ways.size(); ++way) {
        const std::vector<int>& mends = trouble.ways[way].mends;
        if (std::find(mends.begin(), mends.end(), finding) != mends.end()) return std::pair(trouble.number, way);
      }
    }
    return std::nullopt;
  }

  Trouble ways_out_of(int index) {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(index)];
    Trouble trouble;
    trouble.finding = index;
    trouble.number = numbers_[static_cast<std::size_t>(index)];
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
      std::optional<WayOut> way = proof_.repaired(finding, repair);
      if (!way) continue;
      trouble.ways.push_back(std::move(*way));
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

  std::string cue_in(Span where) const { return cue_clause(source().line_text(source().position(where.begin).line)); }

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

  Trial change_of(const Offer& offer, const Slot& slot) const {
    return {{edit_of(offer, slot)}, {offer}, {{slot.line, false, offer.line + slot.cue}}};
  }

  // Of an offer that knows its place.
  Trial change_of(const Offer& offer) const {
    const bool instead = !offer.edit->where.empty();
    const int line = source().position(offer.edit->where.begin).line;
    std::string old(source().line_text(line));
    old.erase(0, std::min(old.find_first_not_of(" \t"), old.size()));
    if (!instead) return {{*offer.edit}, {offer}, {{line - 1, false, offer.line}}};
    return {{*offer.edit}, {offer}, {{line, true, offer.line, old}}};
  }

  // Offers of one rank, each in each slot in which it can be played; below the wish is the least surprise.
  std::vector<Trial> single_changes(const Finding& finding, const std::vector<Offer>& offers, int rank,
                                    const Case& about, Trouble& trouble) const {
    std::vector<Trial> changes;
    for (const Offer& offer : offers) {
      if (offer.rank == rank && offer.edit) changes.push_back(change_of(offer));
    }
    for (const Slot& slot : slots_for(finding, about.verdict)) {
      for (const Offer& offer : offers) {
        if (offer.rank == rank && !offer.edit) changes.push_back(change_of(offer, slot));
      }
    }
    quick_look_.look_at_all(about, changes);
    trouble.tried += static_cast<int>(changes.size());
    const auto idle = [](const Trial& change) { return !change.plays; };
    changes.erase(std::remove_if(changes.begin(), changes.end(), idle), changes.end());
    std::stable_sort(changes.begin(), changes.end());
    return changes;
  }

  void prove(const Finding& finding, const Case& about, const std::vector<Trial>& changes, Trouble& trouble,
             std::size_t& proofs) {
    prove_some(finding, about, changes, true, trouble, proofs);
    prove_some(finding, about, changes, false, trouble, proofs);
  }

  void prove_some(const Finding& finding, const Case& about, const std::vector<Trial>& changes, bool hold,
                  Trouble& trouble, std::size_t& proofs) {
    std::vector<std::string> said;  // one way of each kind: a turn further is no other way out
    std::vector<std::string> proved_before;
    for (const Trial& change : changes_[trouble.finding]) said.push_back(kind_of(change));
    const auto holds = [](const std::vector<std::string>& words, const std::string& one) {
      return std::find(words.begin(), words.end(), one) != words.end();
    };
    for (const Trial& change : changes) {
      if (!change.mends || change.holds != hold || proofs == 0 || trouble.ways.size() == limits_.ways_at_most) continue;
      // The same lines elsewhere in the beat come to much the same.
      if (holds(said, kind_of(change)) || holds(proved_before, lines_of(change))) continue;
      --proofs;
      proved_before.push_back(lines_of(change));
      std::optional<WayOut> way = proof_.proved(finding, about, change);
      if (!way) continue;
      trouble.ways.push_back(std::move(*way));
      changes_[trouble.finding].push_back(change);
      said.push_back(kind_of(change));
    }
  }

  void try_lines(const Finding& finding, const Case& about, Trouble& trouble) {
    std::size_t proofs = limits_.proofs_at_most;
    const std::vector<Offer> offers = offers_for(scene_, about.verdict, finding.rule);
    std::vector<Trial>& singles = singles_[trouble.finding];
    for (int rank = 0; rank < ranks && trouble.ways.size() < limits_.ways_at_most; ++rank) {
      const std::vector<Trial> changes = single_changes(finding, offers, rank, about, trouble);
      prove(finding, about, changes, trouble, proofs);
      singles.insert(singles.end(), changes.begin(), changes.end());
    }
    if (!trouble.ways.empty() || !about.judged) return;
    std::vector<Trial> pairs = pairs_from(singles);
    quick_look_.look_at_all(about, pairs);
    trouble.tried += static_cast<int>(pairs.size());
    std::stable_sort(pairs.begin(), pairs.end());
    prove(finding, about, pairs, trouble, proofs);
  }

  // ---- What the finding says itself --------------------------------------------------------------------------------

  static Department department_of_line(const std::string& line) {
    if (line.starts_with("camera ")) return Department::lens;
    return line.starts_with("light ") ? Department::light : Department::floor;
  }

  // The line that a next step tells to write: `mark O1 at (3.12, 1.12) m` below the line of a place, others below the
  // wish.
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
      const Offer offer{line, department_of_line(line), 0, 0, std::nullopt, line.substr(0, line.find(' '))};
      const Trial change = change_of(offer, slot);
      ++trouble.tried;
      std::optional<WayOut> way = proof_.proved(finding, about, change);
      if (!way) continue;
      trouble.ways.push_back(std::move(*way));
      changes_[trouble.finding].push_back(change);
      return;
    }
  }

  // ---- With what mends another finding of the beat -----------------------------------------------------------------

  int beat_of(int index) const {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(index)];
    return finding.at ? beat_at(scene_.plan, *finding.at) : -1;
  }

  // What mends one wish may spoil the next, which a line of its own puts right.
  void lean_on_others(const std::vector<Trouble>& troubles, Trouble& trouble) {
    const Finding& finding = scene_.findings.all()[static_cast<std::size_t>(trouble.finding)];
    const std::optional<Case> about = case_of(finding);
    if (!about || about->verdict.beat < 0) return;
    std::vector<Trial> sets;
    for (const Trouble& other : troubles) {
      if (changes_[other.finding].empty() || beat_of(other.finding) != about->verdict.beat) continue;
      for (const Trial& single : singles_[trouble.finding]) add_set(single, changes_[other.finding].front(), sets);
    }
    quick_look_.look_at_all(*about, sets);
    trouble.tried += static_cast<int>(sets.size());
    std::stable_sort(sets.begin(), sets.end());
    std::size_t proofs = limits_.proofs_at_most;
    prove(finding, *about, sets, trouble, proofs);
  }

  static void add_set(const Trial& single, const Trial& other, std::vector<Trial>& sets) {
    const auto known = [&](const Trial& set) { return set.offers.front().line == single.offers.front().line; };
    if (other.offers.size() != 1 || !go_together(single.edits, other.edits)) return;
    if (std::none_of(sets.begin(), sets.end(), known)) sets.push_back(joined(single, other));
  }

  const Rehearsal& scene_;
  const MendingLimits& limits_;
  Proof proof_;
  QuickLook quick_look_;
  std::vector<int> numbers_;  // by finding
  // By finding: what was tried a line at a time, and what was proved, in the order of the ways out.
  std::map<int, std::vector<Trial>> singles_, changes_;
};

}  // namespace

std::vector<Trouble> mend(const Rehearsal& scene, const Rehearse& rehearse,
                          const std::function<bool(const Finding&)>& wanted, const MendingLimits& limits) {
  return Mender(scene, rehearse, limits).run(wanted);
}

int times_found(const Findings& findings, const Finding& finding) { return times(findings, key_of(finding)); }

}  // namespace lensward
