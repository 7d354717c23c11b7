// Two drafts of a scene side by side: frame and floor of each beat as it was and as it is.
#pragma once

#include <string>
#include <vector>

#include "pages/lay_out.h"

namespace lensward {

struct TwoDrafts {
  Results before, after;
  std::string before_words, after_words;  // over the columns: "as it was", "as it is"
};

// A page. A beat that one of the drafts has not is -1 there, and its column says so.
struct BeatOfBoth {
  std::string title;
  int before = -1, after = -1;
  Moment moment_before, moment_after;  // when it is looked at
  std::vector<std::string> words;      // sentences under the pictures; marks for names are taken out
};

// What differs without being of a beat stands on a first page of its own, when there is any.
Book lay_out_two_drafts(const TwoDrafts& drafts, const std::vector<std::string>& of_the_scene,
                        const std::vector<BeatOfBoth>& beats);

}  // namespace lensward
