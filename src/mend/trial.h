// A change of the text that is tried, and what it is tried for.
#pragma once

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include "mend/mend.h"

namespace lensward {

// A change of the text, and what a quick look showed.
struct Trial {
  std::vector<TextEdit> edits;
  std::vector<Offer> offers;
  std::vector<LineTyped> lines;
  bool plays = false;  // the plan has no new complaint
  bool mends = false;  // the verdict holds at a quick look, and no other comes out worse
  bool holds = true;   // it holds
  bool harms = false;  // another comes out worse
  Points gain{};       // of the favoured's least lead
  bool operator<(const Trial& other) const { return order() < other.order(); }

 private:
  std::tuple<std::size_t, int, int> order() const {
    int rank = 0, cost = 0;
    for (const Offer& offer : offers) {
      rank = std::max(rank, offer.rank);
      cost += offer.cost;
    }
    return {offers.size(), rank, cost};
  }
};

// What a finding is about: the verdict behind it; or, when it is none, who and when, as a verdict on nothing.
struct Case {
  Verdict verdict;
  bool judged = false;
};

// The better, the higher: 0 of what fails or is not judged, 1 of what is close, 2 of what holds.
int rank_of(Verdict::Result result);

// Of the favoured, before the best rival, where the verdict was decided.
Points lead_of(const Verdict& verdict);

// Both at once. Requires edits that go together.
Trial joined(const Trial& one, const Trial& other);

// The single lines that helped most without doing it alone or harming another, two by two.
std::vector<Trial> pairs_from(const std::vector<Trial>& singles);

// The lines alone, wherever they are put.
std::string lines_of(const Trial& change);

// Who does what, without how far: "Oda turns;", "camera pans;".
std::string kind_of(const Trial& change);

}  // namespace lensward
