#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage unseen_speaker_page{
    .sees =
        "Someone who speaks out of the picture for a second or more, or through the whole of a shorter line, "
        "and whose line is not `off`.",
    .why = "A voice without a face sends the eye looking for it.",
    .example =
        "Wren is camera side of the lens\n"
        "Wren: \"Leave it.\"",
    .better = "Wren, off: \"Leave it.\"",
    .source = "common practice, no source.",
};

namespace {

constexpr Milliseconds long_enough{1000};

bool out_of_picture(const Slice& slice, const Target& who) {
  const PersonSeen* seen = person_in(*slice.view, who);
  return seen == nullptr || seen->head_in_frame.value < 0.1;
}

std::string how_long(Milliseconds unseen, bool whole_line) {
  if (whole_line) return "the whole line, " + text_of(unseen) + ", out of the picture";
  return "out of the picture for " + text_of(unseen) + " of the line";
}

}  // namespace

void unseen_speaker(const Checked& checked, Reporter& report) {
  for (const Featured& one : featured(checked, Whom::favoured_or_speaking)) {
    if (!one.speaks) continue;
    const Window window = window_of(checked.playback(), one.when);
    const auto out = [&](const Slice& slice) { return out_of_picture(slice, one.who); };
    const Milliseconds unseen = together(window, out);
    const bool whole_line = unseen.count > 0 && unseen == length_of(window);
    if (unseen < long_enough && !whole_line) continue;
    Finding& finding = report.add(one.said_at, {one.beat, first(window, out)->begin, {one.who}},
                                  quoted(checked, one.who) + " speaks " + how_long(unseen, whole_line) + ' ' +
                                      at_words(one.when.begin) + " in " + beat_words(checked, one.beat) +
                                      (unseen < long_enough ? "" : ", limit 1 s"));
    finding.next_step =
        "put `off` before the colon, or try `camera frames " + name_of(checked.plan, one.who) + " at frame centre`";
  }
}

}  // namespace lensward
