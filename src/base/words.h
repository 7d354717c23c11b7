// The closed word classes of the trade that the language uses: sizes, postures, sides, kinds of furniture.
#pragma once

namespace lensward {

enum class FileKind { film, company, kit, set, scene };

enum class Compass { north, north_east, east, south_east, south, south_west, west, north_west };
enum class Side { left, right };
enum class OwnSide { left, right, front, back };

enum class ShotSize {
  extreme_close_up,
  close_up,
  medium_close_up,
  medium_shot,
  knee_shot,
  full_shot,
  wide_shot,
  extreme_wide_shot,
};

// How a body is turned to the lens, as the picture shows it: 0, 45, 90, 135 and 180 degrees.
enum class BodyView { frontal, three_quarter, profile, three_quarter_back, back };

enum class Posture { standing, sitting, leaning, perching, crouching, kneeling, lying };

enum class Pace { usual, slowly, briskly, hurrying };
enum class Loudness { whispered, softly, plain, loudly, shouted };
enum class Scale { small, usual, busy, large };
enum class Tone { dark, mid, light };

// A piece of furniture by its kind word (docs/language.md, "Kinds of furniture").
enum class PieceKind {
  table,
  desk,
  counter,
  bar,
  stove,
  sink,
  basin,
  bath,
  fridge,
  cupboard,
  wardrobe,
  sideboard,
  bookcase,
  chest,
  crate,
  barrel,
  chair,
  armchair,
  stool,
  bench,
  sofa,
  bed,
  bunk,
  pew,
  piano,
  lectern,
  trolley,
  screen,
  curtain,
  cloth,
  pillar,
  rail,
  fence,
  tree,
  hedge,
  steps,
  ladder,
  fireplace,
  rug,
  box,
};

// The spelling the language uses: "medium close-up", "three-quarter back", "north-east".
const char* spelling(Compass compass);
const char* spelling(Side side);
const char* spelling(ShotSize size);
const char* spelling(BodyView view);
const char* spelling(Posture posture);
const char* spelling(Loudness loudness);
const char* spelling(Tone tone);
const char* spelling(PieceKind kind);

}  // namespace lensward
