// Newness: whoever has just come to be seen.
//
// Kind: trade.
// Formula: 1 at first sight, falling to 0 over 2 s. First sight is a quarter of the head (of a thing: of itself) seen
//   after 5 s or more of not being seen; nobody is new as the scene begins.
// Source: common practice, no source. The onset of a new object draws the eye in laboratory displays (from memory:
//   Yantis & Jonides 1984).
// Weakness: does not ask whether somebody was expected.
#include "emphasis/cues.h"

namespace lensward {

double newness(const CueInput& in) {
  constexpr Milliseconds news_lasts{2000};
  if (!in.memory.new_since) return 0;
  return falling(in.now.view.moment - *in.memory.new_since, news_lasts);
}

}  // namespace lensward
