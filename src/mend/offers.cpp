#include "mend/offers.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/quantity_text.h"
#include "emphasis/window.h"
#include "mend/statement.h"
#include "plan/state.h"

namespace lensward {
namespace {

// Who should have more of the eye and who less; a wish to hide or to pass over somebody asks for the opposite.
struct Sides {
  Target raised, lowered;
};

bool asks_for_less(const Rehearsal& rehearsal, const Verdict& verdict) {
  if (verdict.story >= 0) {
    const StoryState::State state = rehearsal.plan.stories[static_cast<std::size_t>(verdict.story)].state;
    return state == StoryState::State::runs_under || state == StoryState::State::drops_out;
  }
  if (verdict.intent < 0) return false;
  const Intent& intent = rehearsal.plan.intents[static_cast<std::size_t>(verdict.intent)];
  return intent.kind == Intent::Kind::hide || intent.kind == Intent::Kind::throw_away ||
         intent.kind == Intent::Kind::plant || intent.kind == Intent::Kind::favour_nobody;
}

constexpr Milliseconds about_the_moment{2500};

bool is_person(const Target& target) { return target.kind == Target::Kind::person; }

class Proposer {
 public:
  Proposer(const Rehearsal& rehearsal, const Verdict& verdict, std::string_view rule)
      : rehearsal_(rehearsal),
        verdict_(verdict),
        plan_(rehearsal.plan),
        moment_(verdict.decided),
        first_(department_of(rule)) {
    find_view(rehearsal.attention);
    sides_ = asks_for_less(rehearsal, verdict) ? Sides{verdict.rival, verdict.favoured}
                                               : Sides{verdict.favoured, verdict.rival};
  }

  std::vector<Offer> all() && {
    if (is_person(sides_.raised)) raise(sides_.raised);
    if (is_person(sides_.lowered)) lower(sides_.lowered);
    if (is_person(sides_.raised)) move_mark(sides_.raised, 1);
    if (is_person(sides_.lowered)) move_mark(sides_.lowered, -1);
    let_others_look();
    move_cues(verdict_.beat);
    move_camera();
    set_lamps();
    std::stable_sort(offers_.begin(), offers_.end(), [](const Offer& a, const Offer& b) {
      return std::pair(a.rank, a.cost) < std::pair(b.rank, b.cost);
    });
    return std::move(offers_);
  }

 private:
  void find_view(const Attention& attention) {
    const auto later = std::upper_bound(attention.views.begin(), attention.views.end(), moment_,
                                        [](Moment at, const View& view) { return at < view.moment; });
    view_ = later == attention.views.begin() ? nullptr : &*(later - 1);
  }

  void offer(Department department, int cost, const std::string& about, const std::string& deed) {
    const int rank = department == first_ ? 0 : 1 + static_cast<int>(department);
    offers_.push_back({about + ' ' + deed, department, rank, cost, std::nullopt, about});
  }

  std::string name(const Target& who) const { return name_of(plan_, who); }

  Posture posture_of(const Target& who) const { return person_at(plan_, PersonId{who.index}, moment_).posture; }

  const PersonSeen* seen(const Target& who) const { return view_ == nullptr ? nullptr : person_in(*view_, who); }

  void raise(const Target& who) {
    const std::string name = this->name(who);
    const PersonSeen* now = seen(who);
    const auto turn = [&](BodyView to, int cost, const char* words) {
      if (now == nullptr || now->view > to) offer(Department::floor, cost, name, words);
    };
    turn(BodyView::three_quarter, 3, "turns three-quarter");
    turn(BodyView::frontal, 4, "turns frontal");
    offer(Department::floor, 2, name, "cheats 20 deg");
    if (posture_of(who) == Posture::standing) {
      offer(Department::floor, 6, name, "steps 30 cm toward lens");
      offer(Department::floor, 7, name, "steps 60 cm toward lens");
      offer(Department::floor, 8, name, "steps 1.2 m toward lens");
      offer(Department::floor, 9, name, "walks to frame centre");
      offer(Department::floor, 10, name, "walks to foreground");
    } else {
      offer(Department::floor, 8, name, "rises");
    }
  }

  void lower(const Target& who) {
    const std::string name = this->name(who);
    const PersonSeen* now = seen(who);
    const auto turn = [&](BodyView to, int cost, const char* words) {
      if (now == nullptr || now->view < to) offer(Department::floor, cost, name, words);
    };
    if (is_person(sides_.raised)) {
      offer(Department::floor, 1, name, "looks at " + this->name(sides_.raised));
      offer(Department::floor, 3, name, "turns to " + this->name(sides_.raised));
    }
    offer(Department::floor, 2, name, "looks down");
    turn(BodyView::profile, 4, "turns profile");
    turn(BodyView::three_quarter_back, 5, "turns three-quarter back");
    turn(BodyView::back, 6, "turns back to lens");
    if (busy(who)) offer(Department::floor, 5, name, "holds");
    if (posture_of(who) != Posture::standing) return;
    offer(Department::floor, 7, name, "steps 30 cm deeper");
    offer(Department::floor, 8, name, "steps 60 cm deeper");
    offer(Department::floor, 9, name, "steps 1.2 m deeper");
  }

  bool busy(const Target& who) const {
    const auto& hands = plan_.people[static_cast<std::size_t>(who.index)].hands;
    return std::any_of(hands.begin(), hands.end(),
                       [&](const Business& deed) { return deed.begin <= moment_ && moment_ < deed.end; });
  }

  // Where they stand at the moment, if a line of the scene's own file put them there.
  const Mark* mark_of(const Target& who) const {
    const Mark* latest = nullptr;
    for (const Mark& mark : plan_.marks) {
      const bool counts = mark.person.index == who.index && mark.reached <= moment_;
      if (counts && (latest == nullptr || latest->reached <= mark.reached)) latest = &mark;
    }
    const bool own = latest != nullptr && latest->said_at.file == rehearsal_.file && !latest->said_at.empty();
    return own ? latest : nullptr;
  }

  // Nearer the lens along the floor, to either side of it, or farther: `nearer` is 1 or -1.
  void move_mark(const Target& who, int nearer) {
    const Mark* mark = mark_of(who);
    const CameraId camera = on_air(plan_, moment_);
    if (mark == nullptr || !camera.known()) return;
    const Vec3 lens = camera_at(plan_, camera, moment_).at;
    const Vec2 toward = unit(Vec2{lens.x, lens.y} - mark->at) * nearer;
    const Vec2 across{-toward.y, toward.x};
    for (const auto& [metres, cost] : {std::pair(0.1, 3), std::pair(0.3, 5), std::pair(0.6, 7)}) {
      move_mark_to(*mark, name(who), mark->at + toward * metres, cost);
      move_mark_to(*mark, name(who), mark->at + across * metres, cost + 1);
      move_mark_to(*mark, name(who), mark->at + across * -metres, cost + 1);
    }
  }

  // A point that is told is told otherwise; a vague place has a mark put in it.
  void move_mark_to(const Mark& mark, const std::string& who, Vec2 to, int cost) {
    const SourceFile& source = rehearsal_.sources.file(rehearsal_.file);
    const int line = source.position(mark.said_at.begin).line;
    const std::string text(source.line_text(line));
    const std::string point = "(" + number(to.x, 2) + ", " + number(to.y, 2) + ") m";
    const std::optional<PointTold> told = point_told(text);
    const std::size_t first = std::min(text.find_first_not_of(" \t"), text.size());
    Offer offer{{}, Department::floor, first_ == Department::floor ? 0 : 1, cost, std::nullopt, who};
    if (told && mark.area.empty()) {
      const auto at = source.line_start(line) + static_cast<std::uint32_t>(told->begin);
      const auto past = source.line_start(line) + static_cast<std::uint32_t>(told->end);
      offer.line = text.substr(first, told->begin - first) + point + text.substr(told->end);
      offer.edit = TextEdit{{rehearsal_.file, at, past}, point};
    } else if (!mark.area.empty() && line < source.line_count()) {
      offer.line = "mark " + mark.name + " at " + point;
      const std::uint32_t at = source.line_start(line + 1);
      offer.edit = TextEdit{{rehearsal_.file, at, at}, text.substr(0, first) + offer.line + '\n'};
    } else {
      return;
    }
    offers_.push_back(std::move(offer));
  }

  void let_others_look() {
    if (sides_.raised.kind == Target::Kind::nothing) return;
    for (std::size_t i = 0; i < plan_.stage.people.size(); ++i) {
      const Target who{Target::Kind::person, static_cast<int>(i), {}};
      if (who == sides_.raised || who == sides_.lowered) continue;
      const PersonState state = person_at(plan_, PersonId{who.index}, moment_);
      if (!state.present || state.gaze == sides_.raised) continue;
      offer(Department::floor, 1, name(who), "glances at " + name(sides_.raised));
      offer(Department::floor, 2, name(who), "looks at " + name(sides_.raised));
      offer(Department::floor, 4, name(who), "turns to " + name(sides_.raised));
    }
  }

  // What begins about the moment in question may begin a little later, or earlier.
  void move_cues(int beat) {
    for (const BeatLine& line : plan_.beats[static_cast<std::size_t>(beat)].lines) {
      const bool deed = line.kind == BeatLine::Kind::move || line.kind == BeatLine::Kind::look ||
                        line.kind == BeatLine::Kind::hands || line.kind == BeatLine::Kind::camera ||
                        line.kind == BeatLine::Kind::light;
      const Milliseconds off = line.begin < moment_ ? moment_ - line.begin : line.begin - moment_;
      if (!deed || about_the_moment < off || line.said_at.file != rehearsal_.file) continue;
      move_cue(line, "after ", 4);
      move_cue(line, "0.5 s after ", 5);
      move_cue(line, "1 s after ", 6);
      move_cue(line, "0.5 s before ", 5);
      move_cue(line, "1 s before ", 6);
    }
  }

  void move_cue(const BeatLine& line, const std::string& when, int cost) {
    const SourceFile& source = rehearsal_.sources.file(rehearsal_.file);
    const int row = source.position(line.said_at.begin).line;
    const std::string_view whole = source.line_text(row);
    const std::size_t begin = without_speech(whole).find(", on ");
    if (begin == std::string::npos) return;
    const auto at = source.line_start(row) + static_cast<std::uint32_t>(begin) + 2;
    const std::size_t first = whole.find_first_not_of(" \t");
    const Department department = line.kind == BeatLine::Kind::camera  ? Department::lens
                                  : line.kind == BeatLine::Kind::light ? Department::light
                                                                       : Department::floor;
    const int rank = department == first_ ? 0 : 1 + static_cast<int>(department);
    offers_.push_back(
        {std::string(whole.substr(first, begin + 2 - first)) + when + std::string(whole.substr(begin + 5)), department,
         rank, cost, TextEdit{{rehearsal_.file, at, at + 3}, when}, "the cue in line " + std::to_string(row)});
  }

  void move_camera() {
    const CameraId camera = on_air(plan_, moment_);
    if (!camera.known() || sides_.raised.kind == Target::Kind::nothing) return;
    const Camera& filming = plan_.stage.cameras[static_cast<std::size_t>(camera.index)];
    const std::string words = filming.declared.empty() ? "camera" : "camera " + filming.name;
    const std::string whom = name(sides_.raised);
    offer(Department::lens, 1, words, "focuses on " + whom);
    offer(Department::lens, 2, words, "pans to " + whom);
    offer(Department::lens, 3, words, "frames " + whom + " at frame centre");
    offer(Department::lens, 4, words, "pushes in 50 cm");
  }

  void set_lamps() {
    for (std::size_t i = 0; i < plan_.stage.lamps.size(); ++i) {
      const Lamp& lamp = plan_.stage.lamps[i];
      if (lamp.declared.empty()) continue;
      const std::string words = "light " + lamp.name;
      offer(Department::light, 1, words, "dims 0.5 stops");
      offer(Department::light, 2, words, "dims 1 stop");
      if (lamp.beam && sides_.raised.kind != Target::Kind::nothing) {
        offer(Department::light, 2, words, "aims at " + name(sides_.raised));
      }
      if (lamp_at(plan_, LampId{static_cast<int>(i)}, moment_).level.value < 0.9) {
        offer(Department::light, 2, words, "brightens to 100%");
      }
    }
  }

  const Rehearsal& rehearsal_;
  const Verdict& verdict_;
  const Plan& plan_;
  Moment moment_;
  Department first_;
  const View* view_ = nullptr;
  Sides sides_;
  std::vector<Offer> offers_;
};

}  // namespace

const char* name_of(Department department) {
  switch (department) {
    case Department::floor:
      return "floor";
    case Department::lens:
      return "lens";
    case Department::light:
      return "light";
  }
  return "";
}

Department department_of(std::string_view rule) {
  constexpr std::array light{"dark-favourite", "burning", "hot-bystander", "thrown-shadow", "gear-in-shot"};
  constexpr std::array lens{"soft-favourite", "off-the-edge",   "tight-headroom",   "too-near-to-focus",
                            "stuck-camera",   "pull-too-quick", "faint-rack",       "hurried-move",
                            "racing-camera",  "scraping-dolly", "split-too-far",    "crossed-line",
                            "wrong-way-look", "weak-cut",       "cut-at-the-joint", "not-in-kit"};
  const auto is_it = [&](std::string_view one) { return one == rule; };
  if (std::any_of(light.begin(), light.end(), is_it)) return Department::light;
  if (std::any_of(lens.begin(), lens.end(), is_it)) return Department::lens;
  return Department::floor;
}

std::vector<Offer> offers_for(const Rehearsal& rehearsal, const Verdict& verdict, std::string_view rule) {
  return Proposer(rehearsal, verdict, rule).all();
}

}  // namespace lensward
