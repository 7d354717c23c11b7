// Hair and cut of dress, so that people are told apart in the smallest picture.
#pragma once

namespace lensward {

enum class Hair { crop, bob, bun, long_hair, bowl, fringe_of_bald, curls, tail };
enum class Cut { shirt, skirt, coat, jumper, apron, dress };

struct Look {
  Hair hair = Hair::crop;
  Cut cut = Cut::shirt;
  bool beard = false;
};
inline constexpr int look_count = 12;

// Any number picks a look; neighbours differ in both hair and cut.
constexpr Look look_of(int number) {
  constexpr Look looks[look_count] = {
      {Hair::crop, Cut::shirt, false}, {Hair::bun, Cut::skirt, false},           {Hair::tail, Cut::coat, false},
      {Hair::bob, Cut::jumper, false}, {Hair::curls, Cut::apron, false},         {Hair::long_hair, Cut::dress, false},
      {Hair::bowl, Cut::coat, false},  {Hair::crop, Cut::jumper, true},          {Hair::tail, Cut::shirt, false},
      {Hair::bob, Cut::coat, false},   {Hair::fringe_of_bald, Cut::apron, true}, {Hair::bun, Cut::dress, false}};
  const int picked = number % look_count;
  return looks[picked < 0 ? picked + look_count : picked];
}

}  // namespace lensward
