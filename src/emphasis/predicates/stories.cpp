// The states of a story.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double leads_for = 0.7, followed_for = 0.4, dropped_at_most = 20;
constexpr Milliseconds gone_at_most{6000}, eye_at_most{1500}, comes_up_within{600}, breaks_in_within{500},
    ending_for{1500};

std::vector<Target> people_of(const Plan& plan, StoryId story) {
  std::vector<Target> people;
  for (const PersonId person : plan.stage.stories[static_cast<std::size_t>(story.index)].people) {
    people.push_back({Target::Kind::person, person.index, {}});
  }
  return people;
}

template <class Ask>
bool any_of(const std::vector<Target>& people, Ask ask) {
  return std::any_of(people.begin(), people.end(), ask);
}

bool any_has_the_eye(const Slice& slice, const std::vector<Target>& people) {
  return any_of(people, [&](const Target& person) { return has_the_eye(slice, person); });
}

bool any_legible(const Playback& playback, const Slice& slice, const std::vector<Target>& people) {
  return any_of(people, [&](const Target& person) { return legible(playback, slice, person); });
}

// The story's own best at a moment stands for it in the verdict.
void decide_for(const Slice* slice, const std::vector<Target>& people, Verdict& verdict) {
  if (slice == nullptr) return;
  for (const Target& person : people) {
    if (verdict.favoured.kind == Target::Kind::nothing ||
        points_of(*slice, person) > points_of(*slice, verdict.favoured)) {
      verdict.favoured = person;
    }
  }
  decide_at(slice, {}, verdict);
}

const Slice* where_weakest(const Window& window, const std::vector<Target>& people) {
  return least(window, [&](const Slice& slice) {
    double best = -100;
    for (const Target& person : people) best = std::max(best, lead_of(slice, person).value);
    return best;
  });
}

void judge_leading(const Window& window, const std::vector<Target>& people, const char* complaint, Verdict& verdict) {
  verdict.led = part(window, [&](const Slice& slice) { return any_has_the_eye(slice, people); });
  measure(verdict, "has the eye for", text_of(verdict.led), text_of(Share{leads_for}), verdict.led.value >= leads_for,
          "it has the eye for only " + text_of(verdict.led) + ", limit " + text_of(Share{leads_for}));
  conclude(verdict, complaint);
  decide_for(where_weakest(window, people), people, verdict);
}

void judge_running_under(const Playback& playback, const Window& window, const std::vector<Target>& people,
                         Verdict& verdict) {
  const Share followed = part(window, [&](const Slice& slice) { return any_legible(playback, slice, people); });
  const Stretch gone = longest(window, [&](const Slice& slice) {
    return !any_of(people, [&](const Target& person) { return clear_part(slice, person).value > 0; });
  });
  const Milliseconds held = together(window, [&](const Slice& slice) { return any_has_the_eye(slice, people); });
  measure(verdict, "can be followed for", text_of(followed), text_of(Share{followed_for}),
          followed.value >= followed_for,
          "it can be read for only " + text_of(followed) + ", limit " + text_of(Share{followed_for}));
  measure(verdict, "gone at a stretch for", text_of(gone.end - gone.begin), text_of(gone_at_most),
          gone.end - gone.begin <= gone_at_most,
          "it is gone for " + text_of(gone.end - gone.begin) + " at a stretch, limit " + text_of(gone_at_most));
  conclude(verdict, "cold-background");
  measure(verdict, "has the eye together for", text_of(held), text_of(eye_at_most), held <= eye_at_most,
          "it has the eye for " + text_of(held) + " together, limit " + text_of(eye_at_most));
  if (verdict.result == Verdict::Result::holds) conclude(verdict, "hungry-background");
  verdict.led = part(window, [&](const Slice& slice) { return any_has_the_eye(slice, people); });
  const Slice* taken = first(window, [&](const Slice& slice) { return any_has_the_eye(slice, people); });
  decide_for(taken != nullptr ? taken : &window.front(), people, verdict);
}

void judge_coming_up(const Window& window, const std::vector<Target>& people, Verdict& verdict) {
  const Slice* taken = first(window, [&](const Slice& slice) { return any_has_the_eye(slice, people); });
  const Moment from = window.front().begin;
  const bool in_time = taken != nullptr && taken->begin - from <= comes_up_within;
  judge_leading(window, people, "lost-story", verdict);
  measure(verdict, "has the eye after", taken != nullptr ? text_of(taken->begin - from) : "never",
          text_of(comes_up_within), in_time,
          taken == nullptr
              ? "it never has the eye"
              : "it has the eye only after " + text_of(taken->begin - from) + ", limit " + text_of(comes_up_within));
  if (!in_time) conclude(verdict, "late-story");
}

// First sight of one of the story's people that the beat has not shown before the state begins.
void judge_breaking_in(const Playback& playback, const Window& window, const std::vector<Target>& people,
                       Verdict& verdict) {
  const Beat& beat = playback.plan.beats[static_cast<std::size_t>(verdict.beat)];
  const Window before = window_of(playback, {beat.begin, verdict.begin});
  const auto seen = [](const Slice& slice, const Target& person) { return clear_part(slice, person).value > 0.05; };
  std::vector<Target> fresh;
  for (const Target& person : people) {
    if (first(before, [&](const Slice& slice) { return seen(slice, person); }) == nullptr) fresh.push_back(person);
  }
  const Slice* sight = first(window, [&](const Slice& slice) {
    return any_of(fresh, [&](const Target& person) { return seen(slice, person); });
  });
  const Slice* taken = first(window, [&](const Slice& slice) { return any_has_the_eye(slice, fresh); });
  const bool both = sight != nullptr && taken != nullptr;
  const bool in_time = both && taken->begin - sight->begin <= breaks_in_within;
  const Window rest = both ? window_of(playback, {taken->begin, verdict.end}) : window;
  judge_leading(rest.empty() ? window : rest, people, "weak-break-in", verdict);
  measure(verdict, "somebody not seen before in the beat comes into sight", sight != nullptr ? "yes" : "no", "yes",
          sight != nullptr, "nobody comes into sight whom the beat has not shown before");
  measure(verdict, "has the eye after first sight by", both ? text_of(taken->begin - sight->begin) : "never",
          text_of(breaks_in_within), in_time,
          !both ? "it never has the eye"
                : "it has the eye only " + text_of(taken->begin - sight->begin) + " after first sight, limit " +
                      text_of(breaks_in_within));
  conclude(verdict, "weak-break-in");
}

bool still_runs(const StoryState& other, const StoryState& dropped) {
  const bool running = other.state != StoryState::State::drops_out && other.state != StoryState::State::closes;
  return running && other.story != dropped.story && other.begin < dropped.end && dropped.begin < other.end;
}

void judge_dropping_out(const Playback& playback, const Window& window, const StoryState& state,
                        std::vector<Target> people, Verdict& verdict) {
  for (const StoryState& other : playback.plan.stories) {
    if (!still_runs(other, state)) continue;
    for (const Target& held : people_of(playback.plan, other.story)) std::erase(people, held);
  }
  double most = 0;
  const Slice* worst = &window.front();
  for (const Target& person : people) {
    const Slice* peak = least(window, [&](const Slice& slice) { return -points_of(slice, person).value; });
    if (points_of(*peak, person).value <= most) continue;
    most = points_of(*peak, person).value;
    worst = peak;
  }
  measure(verdict, "shows with", text_of(Points{most}) + " points", text_of(Points{dropped_at_most}) + " points",
          most <= dropped_at_most,
          "it has " + points_text(Points{most}) + ", limit " + text_of(Points{dropped_at_most}));
  conclude(verdict, "lingering-story");
  decide_for(worst, people, verdict);
}

// A story leads until another takes the lead; there is one eye.
Moment leads_until(const Plan& plan, const StoryState& state) {
  const auto takes_the_lead = [](StoryState::State now) {
    return now == StoryState::State::leads || now == StoryState::State::comes_up || now == StoryState::State::breaks_in;
  };
  Moment until = state.end;
  if (!takes_the_lead(state.state)) return until;
  for (const StoryState& other : plan.stories) {
    const bool later = other.begin > state.begin && other.story != state.story;
    if (later && takes_the_lead(other.state)) until = std::min(until, other.begin);
  }
  return until;
}

struct Deed {
  Target person;
  Stretch when;
};

void take_last(std::optional<Deed>& last, const Target& person, Moment begin, Moment end, const Beat& beat) {
  if (begin >= end || begin < beat.begin || begin >= beat.end) return;
  if (!last || end > last->when.end) last = Deed{person, {begin, end}};
}

std::optional<Deed> last_deed(const Plan& plan, const std::vector<Target>& people, const Beat& beat) {
  std::optional<Deed> last;
  for (const Target& person : people) {
    const PersonTrack& track = plan.people[static_cast<std::size_t>(person.index)];
    for (const auto& walk : track.feet) take_last(last, person, walk.begin, walk.end, beat);
    for (const auto& change : track.stance) take_last(last, person, change.begin, change.end, beat);
    for (const auto& turn : track.body) take_last(last, person, turn.begin, turn.end, beat);
    for (const auto& look : track.eyes) {
      if (look.origin != Origin::assumed) take_last(last, person, look.begin, look.end, beat);
    }
    for (const Business& deed : track.hands) take_last(last, person, deed.begin, deed.end, beat);
    for (const Speech& speech : plan.speeches) {
      if (speech.speaker.index == person.index) take_last(last, person, speech.begin, speech.end, beat);
    }
  }
  return last;
}

void judge_closing(const Playback& playback, const std::vector<Target>& people, Verdict& verdict) {
  const Beat& beat = playback.plan.beats[static_cast<std::size_t>(verdict.beat)];
  const std::optional<Deed> deed = last_deed(playback.plan, people, beat);
  if (!deed) {
    measure(verdict, "somebody of it does something in the beat", "no", "yes", false,
            "nobody of it does anything in the beat");
    conclude(verdict, "lost-ending");
    verdict.favoured = people.empty() ? Target{} : people.front();
    verdict.decided = verdict.begin;
    return;
  }
  verdict.favoured = deed->person;
  verdict.begin = deed->when.begin;
  verdict.end = std::max(deed->when.end, deed->when.begin + ending_for);
  const Window window = window_of(playback, {verdict.begin, verdict.end});
  if (window.empty()) return;
  const Milliseconds shown = together(window, [&](const Slice& s) { return legible(playback, s, deed->person); });
  measure(verdict, "its last deed can be read for", text_of(shown), text_of(ending_for), shown >= ending_for,
          "its last deed can be read for only " + text_of(shown) + ", limit " + text_of(ending_for));
  conclude(verdict, "lost-ending");
  decide_at(&window.back(), {}, verdict);
}

}  // namespace

void judge_story(const Playback& playback, const StoryState& state, Verdict& verdict) {
  if (!state.story.known()) return;
  const std::vector<Target> people = people_of(playback.plan, state.story);
  if (state.state == StoryState::State::closes) return judge_closing(playback, people, verdict);
  verdict.end = leads_until(playback.plan, state);
  const Stretch stretch{state.begin, verdict.end};
  const Window window = window_of(playback, stretch);
  if (window.empty()) return;
  switch (state.state) {
    case StoryState::State::leads:
      return judge_leading(settled_window(playback, stretch), people, "lost-story", verdict);
    case StoryState::State::runs_under:
      return judge_running_under(playback, window, people, verdict);
    case StoryState::State::comes_up:
      return judge_coming_up(window, people, verdict);
    case StoryState::State::breaks_in:
      return judge_breaking_in(playback, window, people, verdict);
    case StoryState::State::drops_out:
      return judge_dropping_out(playback, window, state, people, verdict);
    case StoryState::State::closes:
      return;
  }
}

}  // namespace lensward
