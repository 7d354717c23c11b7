// A hand-made playback for tests: points and visibility of each person as functions of time, one beat, ten samples a
// second. The holder is the leader.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "emphasis/judge.h"

namespace lensward {

struct Reel {
  using Numbers = std::function<std::vector<double>(int)>;

  Plan plan;
  int length = 10000;  // ms
  Numbers points;
  Numbers visible = [](int) { return std::vector<double>{}; };  // fewer than the people: all clear
  std::vector<Target> things;                                   // stand after the people

  explicit Reel(int people) {
    for (int i = 0; i < people; ++i) {
      Person person;
      person.name = std::string(1, static_cast<char>('A' + i));
      plan.stage.people.push_back(person);
      plan.people.emplace_back();
    }
    Beat beat;
    beat.name = "One";
    beat.end = Moment{length};
    plan.beats.push_back(beat);
  }

  Intent& asks(Intent::Kind kind, std::vector<int> whom, int begin = 0, int end = -1) {
    Intent intent;
    intent.kind = kind;
    for (const int one : whom) intent.targets.push_back({Target::Kind::person, one, {}});
    intent.begin = Moment{begin};
    intent.end = Moment{end < 0 ? length : end};
    plan.intents.push_back(intent);
    return plan.intents.back();
  }

  Speech& says(int speaker, int begin, int end) {
    Speech speech;
    speech.speaker = PersonId{speaker};
    speech.begin = Moment{begin};
    speech.end = Moment{end};
    plan.speeches.push_back(speech);
    return plan.speeches.back();
  }

  StoryState& story(std::vector<int> people, StoryState::State state, int begin = 0, int end = -1) {
    Story story;
    for (const int one : people) story.people.push_back(PersonId{one});
    plan.stage.stories.push_back(story);
    StoryState now;
    now.story = StoryId{static_cast<int>(plan.stage.stories.size()) - 1};
    now.state = state;
    now.begin = Moment{begin};
    now.end = Moment{end < 0 ? length : end};
    plan.stories.push_back(now);
    return plan.stories.back();
  }

  Attention attention() const {
    Attention made;
    for (int ms = 0; ms <= length; ms += 100) {
      made.samples.push_back(sample(ms));
      made.views.push_back(view(ms));
    }
    return made;
  }

  std::vector<Verdict> verdicts() const { return judge(plan, attention()); }
  Verdict verdict() const { return verdicts().front(); }

 private:
  Target target(std::size_t index) const {
    if (index >= plan.stage.people.size()) return things[index - plan.stage.people.size()];
    return {Target::Kind::person, static_cast<int>(index), {}};
  }

  Sample sample(int ms) const {
    Sample made;
    made.moment = Moment{ms};
    double most = 0;
    const std::vector<double> now = points(ms);
    for (std::size_t i = 0; i < now.size(); ++i) {
      Standing standing;
      standing.target = target(i);
      standing.points = Points{now[i]};
      standing.strength[static_cast<std::size_t>(CueKind::sharp)] = 1;
      made.standings.push_back(standing);
      if (now[i] <= most) continue;
      most = now[i];
      made.leader = made.holder = standing.target;
    }
    return made;
  }

  View view(int ms) const {
    View made;
    made.moment = Moment{ms};
    const std::vector<double> shows = visible(ms);
    const std::size_t everyone = plan.stage.people.size() + things.size();
    for (std::size_t i = 0; i < everyone; ++i) {
      const Share part{i < shows.size() ? shows[i] : 1};
      if (i >= plan.stage.people.size()) {
        made.things.push_back({target(i), part, {0.4, 0.4, 0.45, 0.5}, {0.42, 0.45}, Metres{3}, Millimetres{0}});
        continue;
      }
      PersonSeen seen;
      seen.person = PersonId{static_cast<int>(i)};
      seen.in_front = true;
      seen.distance = Metres{3};
      seen.against_behind = Stops{1};
      seen.eyes = {0.5, 0.4};
      seen.head_box = {0.45, 0.3, 0.55, 0.45};
      seen.head_height = Share{0.15};
      seen.head_in_frame = Share{1};
      seen.head_and_chest_visible = seen.body_visible = seen.head_visible = part;
      made.people.push_back(seen);
    }
    return made;
  }
};

}  // namespace lensward
