#include <charconv>
#include <string_view>

#include "base/quantity_text.h"
#include "rules/rule.h"

namespace lensward {

const ManualPage pages_and_time_page{
    .sees =
        "A scene that lasts less than half or more than twice what its pages, told in the heading, come to at a page a "
        "minute.",
    .why = "The schedule counts pages; a scene that plays at another pace upsets the day.",
    .example = "scene Kitchen, number 12, 6 4/8 pages",
    .better = "scene Kitchen, number 12, 4/8 pages",
    .source = "a page a minute, counted in eighths: common practice, an average only; half to twice: the same.",
};

namespace {

int number_in(std::string_view digits) {
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

// Of "2 4/8", "4/8", "2"; 0 of anything else.
int eighths_of(std::string_view pages) {
  const std::size_t slash = pages.find("/8");
  if (slash == std::string_view::npos) return number_in(pages) * 8;
  const std::size_t space = pages.find(' ');
  if (space == std::string_view::npos) return number_in(pages.substr(0, slash));
  return number_in(pages.substr(0, space)) * 8 + number_in(pages.substr(space + 1, slash - space - 1));
}

}  // namespace

void pages_and_time(const Checked& checked, Reporter& report) {
  constexpr std::int64_t an_eighth = 7500;  // ms
  const SceneFacts& facts = checked.plan.facts;
  const Milliseconds lasts = checked.plan.duration() - Moment{}, by_pages{eighths_of(facts.pages) * an_eighth};
  if (by_pages.count == 0 || (lasts.count * 2 >= by_pages.count && lasts.count <= by_pages.count * 2)) return;
  report
      .add(facts.heading, {},
           "the scene lasts " + text_of(lasts) + "; " + facts.pages + " pages come to about " + text_of(by_pages) +
               " at a page a minute, limit half to twice")
      .next_step = "count the pages again, or look for what is missing or too much";
}

}  // namespace lensward
