#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage turned_away_page{
    .sees =
        "The favoured one or the speaker whose chest is three-quarter back or back to the lens, and whose "
        "face is past profile, for more than a third of the stretch.",
    .why = "A face turned away cannot be read, however near it is.",
    .example =
        "favour Tobias\n"
        "Tobias is at the Range, back to lens",
    .better =
        "favour Tobias\n"
        "Tobias is at the Range, back to lens\n"
        "Tobias turns three-quarter, on \"Monday\"",
    .source =
        "common practice, no source; that a turned back gives the eye away: T. J. Smith 2011 on ensemble "
        "staging.",
};

void turned_away(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.of_the_stretch = Share{1.0 / 3};
  rule.how_bad = [](const Slice&, const PersonSeen& seen) {
    const bool away = seen.view == BodyView::three_quarter_back || seen.view == BodyView::back;
    const bool shown = seen.head_visible.value > 0.1;
    return shown && away && seen.face_angle.value > 90 ? seen.face_angle.value : 0.0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const Share of_stretch{static_cast<double>(together.count) /
                           static_cast<double>((one.when.end - one.when.begin).count)};
    return quoted(checked, one.who) + (one.speaks ? " speaks" : " is favoured") + " turned away for " +
           text_of(of_stretch) + " of " + (one.speaks ? "the line" : "the stretch") + " in " +
           beat_words(checked, one.beat) + ", limit 33 %; the face is " + text_of(seen.face_angle) + " off the lens " +
           at_words(slice.begin);
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen&) {
    return "try `" + name_of(checked.plan, one.who) + " turns three-quarter`";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
