#include "live/page_parts.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "export/markup.h"
#include "lens/see.h"
#include "pages/words.h"

namespace lensward {
namespace {

// A moment that the script makes a button of.
std::string at_html(Moment at) {
  return fmt::format("<time class=\"at\" data-at=\"{}\">{}</time>", at.count, clock_text(at));
}

std::string sign_of(const ShownVerdict& verdict) {
  if (verdict.waived) return "waived";
  std::string name = name_of(verdict.result);
  std::ranges::replace(name, ' ', '-');
  return name;
}

// ---- The frame of a beat
// ---------------------------------------------------------------------------------------------

struct Named {
  double across = 0;
  std::string name;
  bool favoured = false;
};

std::vector<const PersonSeen*> from_left(const View& view) {
  std::vector<const PersonSeen*> people;
  for (const PersonSeen& seen : view.people)
    if (seen.in_front && seen.body_visible.value > 0.02) people.push_back(&seen);
  std::ranges::stable_sort(people, {}, [](const PersonSeen* seen) { return seen->eyes.u; });
  return people;
}

std::string described(const Plan& plan, const View& view) {
  std::string words = fmt::format("The frame at {}.", clock_text(view.moment));
  for (const PersonSeen* seen : from_left(view))
    words += fmt::format("{} {}, {}, at {}", words.ends_with('.') ? " From left to right:" : ";",
                         called(plan, seen->person), spelling(seen->view), text_of(seen->distance));
  return words + (words.ends_with('.') ? " Nobody is in it." : ".");
}

// Under their heads, side by side, in a second row what has no room; see drawHeads in page.js.
struct NamesUnder {
  std::string svg;
  int rows = 1;
};
NamesUnder names_under(const Plan& plan, const View& view, const std::vector<Target>& asked, double top) {
  constexpr double size = 19, row = 22, wide = play_width, gap = 7;
  double taken[2] = {0, 0};
  NamesUnder names;
  for (const PersonSeen* seen : from_left(view)) {
    const std::string name = called(plan, seen->person);
    const bool favoured = std::ranges::find(asked, Target{Target::Kind::person, seen->person.index, {}}) != asked.end();
    const double head = std::clamp(seen->eyes.u, 0.0, 1.0) * wide;
    const double half = std::min(wide / 2, width_of(name, favoured ? Face::sans_bold : Face::sans, size) / 2);
    const double wanted = std::clamp(head, half, wide - half);
    double x = std::max(wanted, taken[0] + half);
    const int line = x + half > wide || x - wanted > 2 * half ? 1 : 0;
    if (line == 1) x = std::min(std::max(wanted, taken[1] + half), wide - half);
    names.rows = std::max(names.rows, line + 1);
    taken[line] = x + half + gap;
    if (favoured)
      names.svg += fmt::format("<path class=\"asked\" d=\"M{} {}l-5 8h10z\"/>", number(head, 1), number(top + 1, 1));
    names.svg += fmt::format("<text{} x=\"{}\" y=\"{}\">{}</text>", favoured ? " class=\"asked\"" : "", number(x, 1),
                             number(top + 24 + line * row, 1), escaped(name));
  }
  return names;
}

std::string frame_html(const PageParts& parts, std::size_t beat) {
  if (parts.pictures.beats.empty()) return {};
  const Plan& plan = parts.results.plan;
  const Moment moment = parts.show.beats[beat].decided;
  const View view = see(plan, moment);
  const double height = play_width * parts.pictures.ratio;
  const std::string& png = parts.pictures.beats[beat];
  const NamesUnder names = names_under(plan, view, asked_for(plan, static_cast<int>(beat), moment), height);
  std::string svg = fmt::format(
      "<svg class=\"gate\" viewBox=\"0 0 {0} {1}\" role=\"img\" aria-label=\"{2}\"><image width=\"{0}\" height=\"{3}\""
      "{4}/><rect class=\"edge\" width=\"{0}\" height=\"{3}\"/>{5}</svg>",
      play_width, number(height + 8 + 22 * names.rows, 1), escaped(described(plan, view)), number(height, 1),
      png.empty() ? "" : " href=\"data:image/png;base64," + base64(png) + '"', names.svg);
  return "<figure class=\"frame\">" + svg + "<figcaption>The frame at " + at_html(moment) + "</figcaption></figure>\n";
}

std::string floor_html(const PageParts& parts, std::size_t beat) {
  const FloorDrawing::BeatFloor& floor = parts.floor.beats[beat];
  std::string html =
      fmt::format("<figure class=\"floor\"><svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\">\n{}</svg>",
                  number(floor.size.x, 1), number(floor.size.y, 1), escaped(floor.description), floor.drawing);
  std::string key;
  for (const std::string& name : floor.key) key += (key.empty() ? "" : ", ") + isolated(name);
  html += "<figcaption>The floor at " + at_html(parts.show.beats[beat].decided);
  if (!key.empty()) html += " · " + key;
  return html + "</figcaption></figure>\n";
}

// ---- What is asked, said and done
// ------------------------------------------------------------------------------------

std::string verdicts_html(const ShownBeat& beat) {
  std::string html;
  for (const ShownVerdict& verdict : beat.verdicts) {
    const std::string result = verdict.waived ? "waived, on purpose" : name_of(verdict.result);
    html += fmt::format("<li class=\"{}\"><b>{}</b> <span class=\"result\">{}</span>{}</li>\n", sign_of(verdict),
                        with_names(verdict.asked), result,
                        verdict.outcome.empty() ? "" : ": " + with_names(verdict.outcome));
  }
  if (!beat.judged) html += "<li class=\"not-judged\">Not judged: a line of this beat could not be read.</li>\n";
  return html.empty() ? "" : "<ul class=\"verdicts\">\n" + html + "</ul>\n";
}

std::string who_html(const Show& show, const ShownSpeech& speech) {
  std::string html = "<b>" + isolated(show.people[static_cast<std::size_t>(speech.speaker.index)].name) + "</b>";
  if (!speech.to.empty()) html += " to " + isolated(speech.to);
  if (!speech.how.empty()) html += ", " + speech.how;
  return html;
}

std::string line_html(const Show& show, const ShownLine& line) {
  std::string who;
  for (const PersonId person : line.concern) who += fmt::format("{}{}", who.empty() ? "" : " ", person.index);
  const bool spoken = line.speech >= 0;
  std::string html =
      fmt::format("<li class=\"{}\" data-who=\"{}\">{} ", spoken ? "speech" : "deed", who, at_html(line.at));
  if (!spoken) return html + "<span class=\"what\">" + isolated(line.what) + "</span></li>\n";
  const ShownSpeech& speech = show.speeches[static_cast<std::size_t>(line.speech)];
  return html + "<div><p class=\"who\">" + who_html(show, speech) + "</p><p class=\"words\" dir=\"auto\">" +
         escaped(speech.line) + "</p></div></li>\n";
}

std::string finding_html(const ShownFinding& finding, std::size_t index) {
  const bool waived = !finding.waived_because.empty();
  std::string html =
      fmt::format("<li class=\"{}\" data-finding=\"{}\"{}>", waived ? "waived" : name_of(finding.severity), index,
                  finding.number > 0 ? fmt::format(" id=\"finding-{}\"", finding.number) : "");
  html += "<p class=\"where\">";
  if (finding.number > 0) html += fmt::format("<b class=\"number\">{}</b> ", finding.number);
  html += waived ? "waived" : name_of(finding.severity);
  if (finding.at) html += " · " + at_html(*finding.at);
  if (!finding.line.empty()) html += " · " + escaped(finding.line);
  html += "</p><p>" + with_names(finding.message) + "</p>";
  if (waived) html += "<p class=\"why\">Because: " + isolated(finding.waived_because) + "</p>";
  if (!waived && !finding.on_set.empty()) html += "<p class=\"why\">" + with_names(finding.on_set) + "</p>";
  if (!waived && !finding.next_step.empty())
    html += "<p class=\"next\">Next: " + with_names(finding.next_step) + "</p>";
  return html + "</li>\n";
}

std::string findings_of_beat(const Show& show, int beat, const char* heading) {
  std::string html;
  for (std::size_t i = 0; i < show.findings.size(); ++i)
    if (show.findings[i].beat == beat) html += finding_html(show.findings[i], i);
  if (html.empty()) return {};
  return fmt::format("<div class=\"found\"><{0}>Findings</{0}>\n<ul class=\"findings\">\n", heading) + html +
         "</ul></div>\n";
}

std::string beat_html(const PageParts& parts, std::size_t index) {
  const ShownBeat& beat = parts.show.beats[index];
  std::string html =
      fmt::format("<section class=\"beat\" id=\"beat-{0}\" aria-labelledby=\"beat-{0}-name\">\n", index + 1);
  html += fmt::format("<header><p class=\"when\">Beat {} of {} · {} – {} · {}</p>", index + 1, parts.show.beats.size(),
                      at_html(beat.begin), clock_text(beat.end), text_of(beat.end - beat.begin));
  html += fmt::format("<h3 id=\"beat-{}-name\">{}</h3>", index + 1, isolated(beat.name));
  if (!beat.title.empty()) html += "<p class=\"title\">“" + isolated(beat.title) + "”</p>";
  html += "</header>\n<div class=\"plates\">\n" + frame_html(parts, index) + floor_html(parts, index) + "</div>\n";
  html += "<div class=\"told\">\n" + verdicts_html(beat) + "<ol class=\"said\">\n";
  for (const ShownLine& line : beat.lines) html += line_html(parts.show, line);
  html += "</ol>\n" + findings_of_beat(parts.show, static_cast<int>(index), "h4");
  return html + "</div>\n</section>\n";
}

std::string move_html(const ShownMove& move) {
  std::string html = "<li>" + at_html(move.at) + " <div><p class=\"cue\">" + isolated(move.cue) +
                     "</p><p class=\"what\">" + isolated(move.what) + "</p>";
  std::string after;
  if (!move.takes.empty()) after = "takes " + move.takes;
  if (!move.mark.empty()) after += (after.empty() ? "" : " · ") + std::string("then at ") + isolated(move.mark);
  if (!after.empty()) html += "<p class=\"after\">" + after + "</p>";
  return html + "</div></li>\n";
}

}  // namespace

std::string isolated(const std::string& words) { return "<bdi>" + escaped(words) + "</bdi>"; }

std::string with_names(const std::string& message) {
  std::string html;
  bool inside = false;
  for (std::size_t at = 0; at <= message.size();) {
    const std::size_t tick = std::min(message.find('`', at), message.size());
    const std::string part = message.substr(at, tick - at);
    html += inside ? "<b>" + isolated(part) + "</b>" : escaped(part);
    inside = !inside;
    at = tick + 1;
  }
  return html;
}

std::string beats_html(const PageParts& parts) {
  std::string html;
  for (std::size_t beat = 0; beat < parts.show.beats.size(); ++beat) html += beat_html(parts, beat);
  return html;
}

std::string people_html(const PageParts& parts) {
  std::string html;
  for (std::size_t i = 0; i < parts.show.people.size(); ++i) {
    const ShownPerson& person = parts.show.people[i];
    if (person.moves.empty()) continue;
    html += fmt::format(
        "<section class=\"person\" id=\"person-{0}\" aria-labelledby=\"person-{0}-name\">"
        "<h3 id=\"person-{0}-name\">{1}</h3>\n<ol class=\"moves\" id=\"moves-{0}\">\n",
        i, isolated(person.name));
    for (const ShownMove& move : person.moves) html += move_html(move);
    html += "</ol></section>\n";
  }
  return html;
}

std::string findings_html(const PageParts& parts) {
  const std::string found = findings_of_beat(parts.show, -1, "h3");
  return found.empty() ? "" : "<section class=\"scene\" aria-label=\"Of the whole scene\">\n" + found + "</section>\n";
}

std::string cautions_html(const Show& show) {
  if (show.cautions.empty()) return {};
  std::string html =
      "<section class=\"cautions\" aria-labelledby=\"cautions-name\"><h2 id=\"cautions-name\">Take care</h2>\n<ul>\n";
  for (const std::string& caution : show.cautions) html += "<li>" + isolated(caution) + "</li>\n";
  return html + "</ul></section>\n";
}

std::string symbols_html(const FloorDrawing& floor) {
  std::string html = "<g id=\"head\">" + floor.head + "</g>\n";
  for (const auto& [key, body] : floor.bodies) {
    html += fmt::format("<g id=\"body-{}-{}\">{}</g>\n", key.first, static_cast<int>(key.second), body.first);
    html += fmt::format("<g id=\"body-{}-{}-asked\">{}</g>\n", key.first, static_cast<int>(key.second), body.second);
  }
  return html;
}

}  // namespace lensward
