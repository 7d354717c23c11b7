#include "base/words.h"

#include <cstddef>

namespace lensward {
namespace {

// Each table stands in the order of its enumeration; its length is checked where it is used.
constexpr const char* compasses[] = {"north", "north-east", "east", "south-east",
                                     "south", "south-west", "west", "north-west"};
constexpr const char* sides[] = {"left", "right"};
constexpr const char* sizes[] = {"extreme close-up", "close-up",  "medium close-up", "medium shot",
                                 "knee shot",        "full shot", "wide shot",       "extreme wide shot"};
constexpr const char* views[] = {"frontal", "three-quarter", "profile", "three-quarter back", "back"};
constexpr const char* postures[] = {"standing", "sitting", "leaning", "perching", "crouching", "kneeling", "lying"};
constexpr const char* loudnesses[] = {"whispered", "softly", "", "loudly", "shouted"};
constexpr const char* tones[] = {"dark", "mid", "light"};
constexpr const char* pieces[] = {
    "table",    "desk",      "counter",  "bar",   "stove", "sink",    "basin",   "bath",      "fridge",  "cupboard",
    "wardrobe", "sideboard", "bookcase", "chest", "crate", "barrel",  "chair",   "armchair",  "stool",   "bench",
    "sofa",     "bed",       "bunk",     "pew",   "piano", "lectern", "trolley", "screen",    "curtain", "cloth",
    "pillar",   "rail",      "fence",    "tree",  "hedge", "steps",   "ladder",  "fireplace", "rug",     "box"};

// `Last` is the enumeration's last word.
template <auto Last, class Word, std::size_t Count>
const char* look_up(const char* const (&table)[Count], Word word) {
  static_assert(Count == static_cast<std::size_t>(Last) + 1);
  return table[static_cast<std::size_t>(word)];
}

}  // namespace

const char* spelling(Compass compass) { return look_up<Compass::north_west>(compasses, compass); }
const char* spelling(Side side) { return look_up<Side::right>(sides, side); }
const char* spelling(ShotSize size) { return look_up<ShotSize::extreme_wide_shot>(sizes, size); }
const char* spelling(BodyView view) { return look_up<BodyView::back>(views, view); }
const char* spelling(Posture posture) { return look_up<Posture::lying>(postures, posture); }
const char* spelling(Loudness loudness) { return look_up<Loudness::shouted>(loudnesses, loudness); }
const char* spelling(Tone tone) { return look_up<Tone::light>(tones, tone); }
const char* spelling(PieceKind kind) { return look_up<PieceKind::box>(pieces, kind); }

}  // namespace lensward
