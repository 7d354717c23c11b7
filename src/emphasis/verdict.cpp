#include "emphasis/verdict.h"

namespace lensward {
namespace {

const char* spelling(StoryState::State state) {
  switch (state) {
    case StoryState::State::leads:
      return "leads";
    case StoryState::State::runs_under:
      return "runs under";
    case StoryState::State::comes_up:
      return "comes up";
    case StoryState::State::breaks_in:
      return "breaks in";
    case StoryState::State::drops_out:
      return "drops out";
    case StoryState::State::closes:
      return "closes";
  }
  return "";
}

}  // namespace

std::string asked_words(const Plan& plan, const Verdict& verdict) {
  if (verdict.intent >= 0) return plan.intents[static_cast<std::size_t>(verdict.intent)].words;
  if (verdict.story < 0) return "nothing asked: whoever speaks";
  const StoryState& state = plan.stories[static_cast<std::size_t>(verdict.story)];
  const Story& story = plan.stage.stories[static_cast<std::size_t>(state.story.index)];
  return "story " + story.name + ' ' + spelling(state.state);
}

Span asked_at(const Plan& plan, const Verdict& verdict) {
  if (verdict.intent >= 0) return plan.intents[static_cast<std::size_t>(verdict.intent)].said_at;
  if (verdict.story >= 0) return plan.stories[static_cast<std::size_t>(verdict.story)].said_at;
  if (verdict.speech >= 0) return plan.speeches[static_cast<std::size_t>(verdict.speech)].said_at;
  return {};
}

const char* name_of(Verdict::Result result) {
  switch (result) {
    case Verdict::Result::holds:
      return "holds";
    case Verdict::Result::close:
      return "close";
    case Verdict::Result::fails:
      return "fails";
    case Verdict::Result::not_judged:
      break;
  }
  return "not judged";
}

}  // namespace lensward
