#include "base/shared_work.h"

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <stdexcept>
#include <vector>

using namespace lensward;

TEST_CASE("Every piece of shared work is taken once") {
  std::vector<std::atomic<int>> taken(1000);
  share_work(taken.size(), [&](const NextIndex& next) {
    while (const auto index = next()) ++taken[*index];
  });
  CHECK(std::all_of(taken.begin(), taken.end(), [](const auto& times) { return times.load() == 1; }));
}

TEST_CASE("No pieces, no work") {
  std::atomic<int> calls{0};
  share_work(0, [&](const NextIndex&) { ++calls; });
  CHECK(calls.load() == 0);
}

TEST_CASE("What shared work throws comes out, after all of it has ended") {
  std::atomic<int> taken{0};
  const auto fail_at_the_third = [&](const NextIndex& next) {
    while (next()) {
      if (++taken == 3) throw std::runtime_error("the third");
    }
  };
  CHECK_THROWS_AS(share_work(100, fail_at_the_third), std::runtime_error);
}
