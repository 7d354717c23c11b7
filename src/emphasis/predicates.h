// What each intent and story state asks, as a predicate over the attention. Each fills result, complaint, measures,
// stretch, favoured, rival, deciding moment and margins of a verdict that already names its intent and beat.
#pragma once

#include "emphasis/verdict.h"
#include "emphasis/window.h"

namespace lensward {

// What a favour asks: a lead of `margin` for `led` of the time.
struct Asking {
  Points margin;
  Share led;
};
Asking asking_of(const Settings& settings, const Intent& intent);

void judge_favour(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_favour_nobody(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_share(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_pass(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_play(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_throw_away(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_plant(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_pay_off(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_hide(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_in_plain_sight(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_hint(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_reveal(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_draw_the_eye(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_settle(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_button(const Playback& playback, const Intent& intent, Verdict& verdict);
void judge_story(const Playback& playback, const StoryState& state, Verdict& verdict);
// Checks every speech of the verdict's beat against its speaker; false when nobody speaks there in the picture.
bool judge_silence(const Playback& playback, Verdict& verdict);

// ---- Shared between predicates ------------------------------------------------------------------------------------

// The stretch an intent is judged over once settled, less what `play` lines give to other people meanwhile.
Window judged_window(const Playback& playback, const Intent& intent);
// The predicate of `favour` over a window, for whoever the verdict favours.
void judge_lead(const Playback& playback, const Window& window, const Asking& asking, const std::vector<Target>& only,
                Verdict& verdict);
// Sets the deciding moment, and points and rival there.
void decide_at(const Slice* slice, const std::vector<Target>& only, Verdict& verdict);
// Without `missed` a measure that is not met is told as "what value, limit limit"; one that is met always as "what
// value".
void measure(Verdict& verdict, std::string what, std::string value, std::string limit, bool met,
             std::string missed = {});
std::string quoted(const Playback& playback, const Target& target);  // the name in backticks
std::string points_text(Points points);                              // "1 point", "8 points"
// Fails as `complaint` when some measure is not met, else holds.
void conclude(Verdict& verdict, const char* complaint);

}  // namespace lensward
