// People: where they come to rest, when they come and go, how they sit, turn, look, and what their hands do.
#include <algorithm>
#include <optional>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "compare/match.h"
#include "compare/parts.h"
#include "plan/floor.h"
#include "plan/state.h"

namespace lensward {
namespace {

// Closer than this to a piece, somebody stands at it.
constexpr Metres at_a_piece{0.6};

const PersonTrack& track_of(const Draft& draft, int person) {
  return draft.plan.people[static_cast<std::size_t>(person)];
}

// From 0 up, as a compass counts.
std::string bearing_words(Degrees facing) {
  const Degrees bearing = wrapped(facing);
  return text_of(bearing.value < -0.5 ? bearing + Degrees{360} : bearing);
}

// One thing that somebody comes to in the course of a beat.
struct Step {
  Moment at;  // from the top of the beat
  std::string words;
};

// One beat of one person in both drafts.
class PersonInBeat {
 public:
  PersonInBeat(Comparing& comparing, const BeatPair& beat, std::pair<int, int> person, std::vector<Change>& into)
      : comparing_(comparing),
        was_(comparing.before.plan.beats[static_cast<std::size_t>(beat.before)]),
        is_(comparing.after.plan.beats[static_cast<std::size_t>(beat.after)]),
        old_{person.first},
        new_{person.second},
        name_(comparing.after.plan.stage.people[static_cast<std::size_t>(person.second)].name),
        into_(into) {}

  // `apart`: how far the person stood from the old place when the beat before ended; set for the next.
  void compare(Vec2& apart) {
    compare_places(apart);
    compare_steps(Aspect::entrance, entrances(comparing_.before, was_, old_, true),
                  entrances(comparing_.after, is_, new_, true));
    compare_steps(Aspect::exit, entrances(comparing_.before, was_, old_, false),
                  entrances(comparing_.after, is_, new_, false));
    compare_marks();
    compare_steps(Aspect::posture, postures(comparing_.before, was_, old_), postures(comparing_.after, is_, new_));
    compare_turns();
    compare_steps(Aspect::gaze, looks(comparing_.before, was_, old_), looks(comparing_.after, is_, new_));
    compare_steps(Aspect::hands, business(comparing_.before, was_, old_), business(comparing_.after, is_, new_));
  }

 private:
  static std::vector<Step> entrances(const Draft& draft, const Beat& beat, PersonId person, bool in) {
    std::vector<Step> steps;
    bool present = false;
    for (const auto& segment : track_of(draft, person.index).present) {
      const bool told = segment.to != present && segment.to == in && within(draft.plan, beat, segment.begin);
      if (told) steps.push_back({segment.begin - beat.begin, ""});
      present = segment.to;
    }
    return steps;
  }

  // Whoever walks to a chair stands there first: only another posture or another seat is a step.
  static std::vector<Step> postures(const Draft& draft, const Beat& beat, PersonId person) {
    std::vector<Step> steps;
    Stance last;
    for (const auto& segment : track_of(draft, person.index).stance) {
      const Stance& now = segment.to;
      const bool standing = now.posture == Posture::standing;
      const bool same = now.posture == last.posture && (standing || now.seat == last.seat);
      last = now;
      if (same || !within(draft.plan, beat, segment.begin)) continue;
      std::string words = spelling(now.posture);
      const bool seated = !standing && now.seat.known();
      if (seated) words += " at the " + draft.plan.stage.pieces[static_cast<std::size_t>(now.seat.index)].name;
      steps.push_back({segment.begin - beat.begin, words});
    }
    return steps;
  }

  static std::string look_words(const Draft& draft, const Gaze& gaze) {
    const std::string manner = spelling(gaze.manner), whom = name_of(draft.plan, gaze.target);
    if (gaze.manner == Gaze::Manner::away) return manner + " from " + whom;
    return gaze.manner == Gaze::Manner::at_target ? manner + " " + whom : manner;
  }

  // Only looks that a line tells: the others follow from who speaks.
  static std::vector<Step> looks(const Draft& draft, const Beat& beat, PersonId person) {
    std::vector<Step> steps;
    for (const auto& segment : track_of(draft, person.index).eyes) {
      if (!within(draft.plan, beat, segment.begin) || segment.origin == Origin::assumed) continue;
      steps.push_back({segment.begin - beat.begin, look_words(draft, segment.to)});
    }
    return steps;
  }

  static std::vector<Step> business(const Draft& draft, const Beat& beat, PersonId person) {
    std::vector<Step> steps;
    for (const Business& one : track_of(draft, person.index).hands) {
      if (within(draft.plan, beat, one.begin)) steps.push_back({one.begin - beat.begin, one.what});
    }
    return steps;
  }

  // Times of steps follow the lines they are cued to: those are told with the lines, except of coming and going.
  void compare_steps(Aspect aspect, const std::vector<Step>& before, const std::vector<Step>& after) {
    const auto words_before = [&](int a) { return before[static_cast<std::size_t>(a)]; };
    const auto words_after = [&](int b) { return after[static_cast<std::size_t>(b)]; };
    const auto same = [&](int a, int b) { return words_before(a).words == words_after(b).words; };
    const auto any = [](int, int) { return true; };
    for (const Pair& pair : paired(static_cast<int>(before.size()), static_cast<int>(after.size()), same, any)) {
      Change change{aspect, ChangeWay::changed, name_, "", "", "", 0};
      if (pair.before >= 0) change.before = value_of(aspect, words_before(pair.before));
      if (pair.after >= 0) change.after = value_of(aspect, words_after(pair.after));
      if (pair.before < 0 || pair.after < 0) {
        change.way = pair.before < 0 ? ChangeWay::added : ChangeWay::dropped;
        into_.push_back(std::move(change));
      } else if (!same(pair.before, pair.after)) {
        into_.push_back(std::move(change));
      } else if (aspect == Aspect::entrance || aspect == Aspect::exit) {
        change.amount = static_cast<double>((words_after(pair.after).at - words_before(pair.before).at).count);
        comparing_.sized(into_, std::move(change), static_cast<double>(comparing_.limits.time.count), 0.5);
      }
    }
  }

  static std::string value_of(Aspect aspect, const Step& step) {
    return aspect == Aspect::entrance || aspect == Aspect::exit ? text_of(step.at) : step.words;
  }

  std::vector<const Mark*> marks(const Draft& draft, const Beat& beat, PersonId person) const {
    std::vector<const Mark*> found;
    for (const Mark& mark : draft.plan.marks) {
      if (mark.person == person && within(draft.plan, beat, mark.reached)) found.push_back(&mark);
    }
    return found;
  }

  void compare_marks() {
    const auto before = marks(comparing_.before, was_, old_), after = marks(comparing_.after, is_, new_);
    const auto near = [&](int a, int b) { return distance(before, a, after, b) <= comparing_.limits.place.value; };
    const auto any = [](int, int) { return true; };
    for (const Pair& pair : paired(static_cast<int>(before.size()), static_cast<int>(after.size()), near, any)) {
      Change change{Aspect::mark, ChangeWay::changed, name_, "", "", "", 0};
      if (pair.before >= 0) change.before = place_words(before, pair.before);
      if (pair.after >= 0) change.after = place_words(after, pair.after);
      if (pair.before < 0 || pair.after < 0) {
        change.way = pair.before < 0 ? ChangeWay::added : ChangeWay::dropped;
        change.note = pair.before < 0 ? piece_near(comparing_.after, at(after, pair.after)) : "";
        into_.push_back(std::move(change));
        continue;
      }
      change.amount = distance(before, pair.before, after, pair.after);
      change.note = direction(at(before, pair.before), at(after, pair.after), after_moment(after, pair.after));
      comparing_.sized(into_, std::move(change), comparing_.limits.place.value, 0.001);
    }
  }

  static Vec2 at(const std::vector<const Mark*>& marks, int index) {
    return marks[static_cast<std::size_t>(index)]->at;
  }
  static double distance(const std::vector<const Mark*>& before, int a, const std::vector<const Mark*>& after, int b) {
    return length(at(after, b) - at(before, a));
  }
  static std::string place_words(const std::vector<const Mark*>& marks, int index) {
    const Mark& mark = *marks[static_cast<std::size_t>(index)];
    return "mark " + mark.name + " " + point_words(mark.at);
  }

  static Moment after_moment(const std::vector<const Mark*>& marks, int index) {
    return marks[static_cast<std::size_t>(index)]->reached;
  }

  // Which way it went as the picture shows it, and what stands there.
  std::string direction(Vec2 from, Vec2 to, Moment moment) const {
    std::string words = way_in_picture(to - from, moment);
    const std::string piece = piece_near(comparing_.after, to);
    return piece.empty() ? words : words + ", " + piece;
  }

  static bool walks_at(const Draft& draft, PersonId person, Moment moment) {
    const auto& feet = track_of(draft, person.index).feet;
    return std::any_of(feet.begin(), feet.end(),
                       [&](const auto& walk) { return walk.begin <= moment && moment < walk.end; });
  }

  // Somebody who comes to rest or sets out as the beat begins is told of with the marks.
  static std::optional<Vec2> place_at_top(const Draft& draft, const Beat& beat, PersonId person) {
    const bool comes = std::any_of(draft.plan.marks.begin(), draft.plan.marks.end(), [&](const Mark& mark) {
      return mark.person == person && mark.reached == beat.begin;
    });
    const PersonState state = person_at(draft.plan, person, beat.begin);
    if (comes || !state.present || walks_at(draft, person, beat.begin)) return std::nullopt;
    return state.at;
  }

  // What a beat takes over from the one before is told there; but that one may be dropped, or new.
  void compare_places(Vec2& apart) {
    const auto before = place_at_top(comparing_.before, was_, old_), after = place_at_top(comparing_.after, is_, new_);
    const Vec2 known = apart;
    apart = apart_at(last_of(was_), last_of(is_)).value_or(apart);
    if (!before || !after) return;
    const double limit = comparing_.limits.place.value;
    const Vec2 now = *after - *before;
    const double news = length(now - known);
    if (news <= 0.001 || (length(known) >= limit && news < limit)) return;
    Change change{Aspect::mark, ChangeWay::changed, name_, point_words(*before), point_words(*after), "", length(now)};
    change.note = direction(*before, *after, is_.begin) + ", as the beat begins";
    comparing_.sized(into_, std::move(change), limit, 0.001);
  }

  static Moment last_of(const Beat& beat) { return beat.end > beat.begin ? beat.end - Milliseconds{1} : beat.begin; }

  std::optional<Vec2> apart_at(Moment before, Moment after) const {
    const PersonState old = person_at(comparing_.before.plan, old_, before);
    const PersonState now = person_at(comparing_.after.plan, new_, after);
    return old.present && now.present ? std::optional(now.at - old.at) : std::nullopt;
  }

  static std::string point_words(Vec2 at) { return "(" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"; }

  std::string way_in_picture(Vec2 moved, Moment moment) const {
    const Plan& plan = comparing_.after.plan;
    if (plan.cuts.empty()) return "away";
    const Vec2 depth = direction_of(camera_at(plan, on_air(plan, moment), moment).pan);
    const double right = -dot(moved, left_of(depth)), deep = dot(moved, depth);
    if (std::fabs(right) >= std::fabs(deep)) return right > 0 ? "further frame right" : "further frame left";
    return deep > 0 ? "deeper" : "nearer the lens";
  }

  static std::string piece_near(const Draft& draft, Vec2 at) {
    std::string name;
    double nearest = at_a_piece.value;
    for (const Piece& piece : draft.plan.stage.pieces) {
      const double reach = distance_to(box_of(piece), at);
      if (reach >= nearest) continue;
      nearest = reach;
      name = piece.name;
    }
    return name.empty() ? "" : "at the " + name;
  }

  std::vector<Moment> turns(const Draft& draft, const Beat& beat, PersonId person) const {
    std::vector<Moment> moments;
    for (const auto& segment : track_of(draft, person.index).body) {
      if (within(draft.plan, beat, segment.begin)) moments.push_back(std::min(segment.end, beat.end));
    }
    return moments;
  }

  // Turns are told where both drafts have as many; a turn more or less shows in where the person faces at the end.
  void compare_turns() {
    std::vector<Moment> before = turns(comparing_.before, was_, old_), after = turns(comparing_.after, is_, new_);
    if (before.empty() && after.empty()) return;
    if (before.size() != after.size()) {
      before = {was_.end};
      after = {is_.end};
    }
    for (std::size_t i = 0; i < before.size(); ++i) compare_turn(before[i], after[i], before.size() > 1);
  }

  void compare_turn(Moment before, Moment after, bool of_several) {
    const PersonState old = person_at(comparing_.before.plan, old_, before);
    const PersonState now = person_at(comparing_.after.plan, new_, after);
    if (!old.present || !now.present) return;
    const Degrees turn = wrapped(now.facing - old.facing);
    comparing_.sized(into_,
                     {Aspect::facing, ChangeWay::changed, name_, bearing_words(old.facing), bearing_words(now.facing),
                      std::string(turn.value > 0 ? "to the right" : "to the left") +
                          (of_several ? ", " + text_of(after - is_.begin) + " into the beat" : ""),
                      turn.value},
                     comparing_.limits.turn.value, 0.05);
  }

  Comparing& comparing_;
  const Beat &was_, &is_;
  PersonId old_, new_;
  std::string name_;
  std::vector<Change>& into_;
};

}  // namespace

void compare_people(Comparing& comparing) {
  const auto people = same_names(comparing.before.plan.stage.people, comparing.after.plan.stage.people);
  std::vector<Vec2> apart(people.size(), Vec2{});
  for (std::size_t i = 0; i < comparing.beats.size(); ++i) {
    for (std::size_t person = 0; person < people.size(); ++person) {
      PersonInBeat(comparing, comparing.beats[i], people[person], *comparing.found[i]).compare(apart[person]);
    }
  }
}

}  // namespace lensward
