// Hair, build and cut of dress, so that people are told apart in the smallest picture. What would tell of a man, a
// woman or a trade is left out, since no text tells it.
#pragma once

namespace lensward {

enum class Hair { crop, bowl, curls };
enum class Cut { shirt, jumper, coat };

struct Look {
  Hair hair = Hair::crop;
  Cut cut = Cut::shirt;
  double build = 1;  // breadth of trunk and arms: slim below 1, stout above
};
inline constexpr int look_count = 9;

// Any number picks a look; neighbours differ in both hair and cut.
constexpr Look look_of(int number) {
  constexpr double builds[] = {1, 0.95, 1.07};
  const int rest = number % look_count, picked = rest < 0 ? rest + look_count : rest, round = picked / 3;
  return {static_cast<Hair>(picked % 3), static_cast<Cut>((picked + round) % 3), builds[(picked + 2 * round) % 3]};
}

}  // namespace lensward
