#include "plan/follow.h"

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"

namespace lensward {
namespace {

// One thing of this scene and what it was in the one before.
template <class Thing>
int index_named(const std::vector<Thing>& things, const std::string& name) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.name == name; });
  return found == things.end() ? -1 : static_cast<int>(found - things.begin());
}

bool same_room(const Stage& a, const Stage& b) { return a.room.outline == b.room.outline; }

// The same target by the ids of this scene; nothing when it has no such thing.
Target translated(const Target& target, const Plan& before, const Plan& now) {
  Target here = target;
  const auto index = static_cast<std::size_t>(target.index);
  switch (target.kind) {
    case Target::Kind::person:
      here.index = index_named(now.stage.people, before.stage.people[index].name);
      break;
    case Target::Kind::piece:
      here.index = index_named(now.stage.pieces, before.stage.pieces[index].name);
      break;
    case Target::Kind::prop:
      here.index = index_named(now.stage.props, before.stage.props[index].name);
      break;
    case Target::Kind::opening:
      here.index = index_named(now.stage.openings, before.stage.openings[index].name);
      break;
    default:
      return here;
  }
  return here.index < 0 ? Target{} : here;
}

std::string coordinates(Vec2 at) { return "(" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"; }

class Follower {
 public:
  Follower(const Plan& before, Building& building)
      : before_(before), building_(building), now_(building.plan), end_(before.duration()) {}

  void carry() {
    for (std::size_t i = 0; i < now_.stage.people.size(); ++i) {
      const int was = index_named(before_.stage.people, now_.stage.people[i].name);
      if (was >= 0) carry_person(i, person_at(before_, PersonId{was}, end_));
    }
    for (std::size_t i = 0; i < now_.stage.props.size(); ++i) {
      const int was = index_named(before_.stage.props, now_.stage.props[i].name);
      if (was < 0 || before_.props[static_cast<std::size_t>(was)].rests.empty()) continue;
      const auto& rests = before_.props[static_cast<std::size_t>(was)].rests;
      const Target last = translated(rests.back().to, before_, now_);
      const bool point_elsewhere = last.kind == Target::Kind::point && !same_room(before_.stage, now_.stage);
      if (last.kind != Target::Kind::nothing && !point_elsewhere) now_.props[i].rests = {carried(last)};
    }
  }

  void compare(const HeadingLine& opening) {
    for (std::size_t i = 0; i < now_.stage.people.size(); ++i) {
      const int was = index_named(before_.stage.people, now_.stage.people[i].name);
      if (was < 0) continue;
      compare_dress(i, before_.stage.people[static_cast<std::size_t>(was)], opening);
      compare_person(i, person_at(before_, PersonId{was}, end_), opening);
    }
  }

 private:
  template <class Value>
  static Segment<Value> carried(const Value& value) {
    return {Moment{}, Moment{}, value, value, Origin::carried, Span{}};
  }

  void carry_person(std::size_t index, const PersonState& was) {
    PersonTrack& track = now_.people[index];
    if (!was.present) return;
    // Whoever enters, or is said to be away, has left in between; that is for the comparison to tell.
    const Segment<bool> told = track.present.empty() ? carried(true) : track.present.front();
    const bool unsaid = told.to || told.said_at.empty();
    if (!unsaid) return;
    track.present = {carried(true)};
    if (same_room(before_.stage, now_.stage)) {
      track.feet = {carried(Walk{{was.at}})};
      track.body = {carried(Facing{was.facing, {}})};
      Stance stance{was.posture, {}};
      if (was.seat.known()) {
        const Piece& seat = before_.stage.pieces[static_cast<std::size_t>(was.seat.index)];
        stance.seat = PieceId{index_named(now_.stage.pieces, seat.name)};
      }
      track.stance = {carried(stance)};
    }
    const Target held = translated(was.holding, before_, now_);
    if (held.kind != Target::Kind::nothing) track.right_hand = {carried(held)};
  }

  Span where_said(std::size_t index, const HeadingLine& opening) const {
    const PersonTrack& track = now_.people[index];
    if (!track.feet.empty() && !track.feet.front().said_at.empty()) return track.feet.front().said_at;
    if (!track.present.empty() && !track.present.front().said_at.empty()) return track.present.front().said_at;
    return opening.of->span;
  }

  void tell(std::size_t index, Span where, const std::string& message, std::string next_step) {
    const std::string& name = now_.stage.people[index].name;
    Finding& finding = report(building_, "does-not-follow", Severity::warning, where, '`' + name + "` " + message,
                              std::move(next_step));
    finding.on_set = "the cut from one scene to the next would show a jump";
    finding.subject.people = {name};
    finding.at = Moment{};
  }

  void compare_dress(std::size_t index, const Person& was, const HeadingLine& opening) {
    const Person& is = now_.stage.people[index];
    if (was.dress == is.dress) return;
    const Span where = is.declared.file == opening.of->span.file ? is.declared : opening.of->span;
    tell(index, where,
         std::string("is dressed ") + spelling(is.dress) + " and was dressed " + spelling(was.dress) + " when " +
             scene_before() + " ended",
         std::string("dressed ") + spelling(was.dress));
  }

  void compare_person(std::size_t index, const PersonState& was, const HeadingLine& opening) {
    const std::string& name = now_.stage.people[index].name;
    const PersonState is = person_at(now_, PersonId{static_cast<int>(index)}, Moment{});
    const Span where = where_said(index, opening);
    if (was.present != is.present) {
      tell(index, where,
           (was.present ? "is away, and was there when " : "is there, and was away when ") + scene_before() + " ended",
           was.present ? "let them exit there, or begin here" : "let them enter here: `" + name + " enters …`");
      return;
    }
    if (!is.present) return;
    const double allowed = figure_told(building_, "mark-tolerance", 0.2);
    const double off = length(is.at - was.at);
    if (same_room(before_.stage, now_.stage) && off > allowed) {
      tell(index, where,
           "begins at " + coordinates(is.at) + ", " + text_of(Metres{off}) + " from where " + scene_before() +
               " left them, limit " + text_of(Metres{allowed}),
           name + " is at " + coordinates(was.at));
    }
    if (was.posture != is.posture) {
      tell(index, where,
           std::string("is ") + spelling(is.posture) + " and was " + spelling(was.posture) + " when " + scene_before() +
               " ended",
           std::string("say `") + spelling(was.posture) + "` here, or change it there");
    }
    const std::string held = name_of(before_, was.holding), holds = name_of(now_, is.holding);
    const bool known = was.holding.kind != Target::Kind::prop || index_named(now_.stage.props, held) >= 0;
    if (known && was.holding.kind == Target::Kind::prop && held != holds) {
      tell(index, where, "held `" + held + "` when " + scene_before() + " ended, and does not now",
           name + " holds " + held);
    }
  }

  std::string scene_before() const { return '`' + before_.facts.name + '`'; }

  const Plan& before_;
  Building& building_;
  Plan& now_;
  Moment end_;
};

}  // namespace

const HeadingLine* following_opening(const Script& script) {
  for (const Statement& statement : script.statements) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading != nullptr && heading->kind == HeadingLine::Kind::opening && heading->of) return heading;
  }
  return nullptr;
}

std::string scene_name(const Script& script) {
  for (const Statement& statement : script.statements) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading != nullptr && heading->kind == HeadingLine::Kind::scene) return heading->name.text;
  }
  return {};
}

void report_nothing_to_follow(const Name& scene, Findings& findings) {
  Finding finding;
  finding.rule = "name.unknown";
  finding.where = scene.span;
  finding.message = "no scene before this one in the film is called `" + scene.text + '`';
  finding.next_step = "name a scene that an `order` line of the film puts before this one";
  findings.add(std::move(finding));
}

std::set<std::string> people_at_end(const Plan& plan) {
  std::set<std::string> people;
  for (std::size_t i = 0; i < plan.people.size(); ++i) {
    if (person_at(plan, PersonId{static_cast<int>(i)}, plan.duration()).present)
      people.insert(plan.stage.people[i].name);
  }
  return people;
}

void carry_over(const Plan& before, Building& building) { Follower(before, building).carry(); }

void check_follows(const Plan& before, const HeadingLine& opening, Building& building) {
  Follower(before, building).compare(opening);
}

}  // namespace lensward
