#include <algorithm>

#include "plan/exchanges.h"
#include "plan/referent.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage crossed_line_page{
    .sees =
        "A cut to a camera on the other side of the line between two people who speak to one another about then, when "
        "each of the pictures shows one of them plainly; and a camera that comes to the other side of a line it was "
        "told to keep to. A camera that is seen to go over the line, without a cut, is let be.",
    .why = "Left and right change over: the two seem to have turned away from one another, or to have changed places.",
    .example =
        "camera A is at (3, -1) m\n"
        "camera B is at (3, 6) m\n"
        "Oda to Pell: \"You came.\"\n"
        "cut to B",
    .better =
        "camera A is at (3, -1) m\n"
        "camera B is at (1, -1) m\n"
        "Oda to Pell: \"You came.\"\n"
        "cut to B",
    .source =
        "the 180-degree rule of every textbook of editing (Thompson and Bowen, Grammar of the Shot; from memory); "
        "20 cm about the line count as on it, common practice, no source.",
};

namespace {

// A line is remembered for so long before and after its words.
constexpr Milliseconds remembered{4000};

bool speaks_about(const Checked& checked, const Exchange& exchange, Moment moment) {
  const Speech& speech = checked.plan.speeches[static_cast<std::size_t>(exchange.speech)];
  return exchange.listener.known() && !exchange.aside && speech.begin < moment + remembered &&
         speech.end + remembered > moment;
}

bool shows_either(const View& view, const Exchange& exchange) {
  return std::ranges::any_of(view.people, [&](const PersonSeen& seen) {
    return is_plain(seen) && (seen.person == exchange.speaker || seen.person == exchange.listener);
  });
}

bool goes_over(const Checked& checked, const CutSeen& cut, const Exchange& exchange) {
  const Vec2 from = person_at(checked.plan, exchange.speaker, cut.after->moment).at;
  const Vec2 to = person_at(checked.plan, exchange.listener, cut.after->moment).at;
  const int before = side_of_line(from, to, floor_of(cut.before->state.at));
  const int after = side_of_line(from, to, floor_of(cut.after->state.at));
  return before * after < 0;
}

void look_at_cut(const Checked& checked, const CutSeen& cut, const std::vector<Exchange>& exchanges, Reporter& report) {
  for (const Exchange& exchange : exchanges) {
    if (!speaks_about(checked, exchange, cut.after->moment) || !shows_either(*cut.before, exchange) ||
        !shows_either(*cut.after, exchange) || !goes_over(checked, cut, exchange))
      continue;
    const Target speaker{Target::Kind::person, exchange.speaker.index, {}};
    const Target listener{Target::Kind::person, exchange.listener.index, {}};
    Finding& finding = report.add(cut.said_at, {cut.beat, cut.after->moment, {speaker, listener}},
                                  "the cut from " + camera_words(checked, cut.before->camera) + " to " +
                                      camera_words(checked, cut.after->camera) + " " + at_words(cut.after->moment) +
                                      " in " + beat_words(checked, cut.beat) + " goes over the line between " +
                                      quoted(checked, speaker) + " and " + quoted(checked, listener));
    finding.next_step = "put " + camera_words(checked, cut.after->camera) + " on the side of " +
                        camera_words(checked, cut.before->camera) + ", or let a camera be seen to go over";
    return;
  }
}

// Of the line from the first to the second; 0 where the side named says nothing of it.
int side_meant(const KeptSide& kept, Vec2 from, Vec2 to) {
  constexpr double along_the_line = 0.2;
  const double off = cross(unit(to - from), direction_of(kept.side));
  if (std::abs(off) < along_the_line) return 0;
  return off > 0 ? 1 : -1;
}

void look_at_promise(const Checked& checked, const KeptSide& kept, Reporter& report) {
  if (kept.between.size() < 2) return;
  const Target &one = kept.between[0], &other = kept.between[1];
  for (const View& view : checked.attention.views) {
    if (view.camera != kept.camera || view.moment < kept.begin || view.moment >= kept.end) continue;
    const auto from = point_of(checked.plan, one, view.moment), to = point_of(checked.plan, other, view.moment);
    if (!from || !to) continue;
    const int meant = side_meant(kept, floor_of(*from), floor_of(*to));
    if (meant * side_of_line(floor_of(*from), floor_of(*to), floor_of(view.state.at)) >= 0) continue;
    const int beat = beat_at(checked.plan, view.moment);
    Finding& finding = report.add(kept.said_at, {beat, view.moment, {one, other}},
                                  camera_words(checked, kept.camera) + " was to keep " + spelling(kept.side) + " of " +
                                      quoted(checked, one) + " and " + quoted(checked, other) + ", and is on the " +
                                      "other side of the line between them " + at_words(view.moment) + " in " +
                                      beat_words(checked, beat));
    finding.next_step = "stop the camera or the two before that, or end the promise: `" +
                        checked.plan.stage.cameras[static_cast<std::size_t>(kept.camera.index)].name + " stops`";
    return;
  }
}

}  // namespace

void crossed_line(const Checked& checked, Reporter& report) {
  for (const KeptSide& kept : checked.plan.kept_sides) look_at_promise(checked, kept, report);
  const std::vector<CutSeen> cuts = cuts_of(checked);
  if (cuts.empty()) return;
  std::vector<CrossedLine> unused;
  const std::vector<Exchange> exchanges = exchanges_of(checked.plan, unused);
  for (const CutSeen& cut : cuts) look_at_cut(checked, cut, exchanges, report);
}

}  // namespace lensward
