#include "editor/told.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

std::vector<Told> at(std::uint32_t begin, std::uint32_t end) {
  return {{"rule", Severity::warning, false, {"a", begin, end}, "words", {}}};
}

void check_moved(std::uint32_t begin, std::uint32_t end, const Replaced& change, std::uint32_t to_begin,
                 std::uint32_t to_end) {
  std::vector<Told> told = at(begin, end);
  move_with(change, told);
  CHECK(told[0].where == ToldPlace{"a", to_begin, to_end});
}

}  // namespace

TEST_CASE("places move with their words") {
  check_moved(10, 20, {"a", 2, 4, 7}, 15, 25);
  check_moved(10, 20, {"a", 25, 30, 0}, 10, 20);
  check_moved(10, 20, {"a", 10, 10, 3}, 13, 23);
  check_moved(10, 20, {"a", 20, 20, 3}, 10, 20);
  check_moved(10, 10, {"a", 10, 10, 3}, 13, 13);
  check_moved(10, 20, {"a", 12, 14, 0}, 10, 18);
  check_moved(10, 20, {"a", 5, 15, 2}, 7, 12);
  check_moved(10, 20, {"a", 5, 25, 0}, 5, 5);
  check_moved(10, 20, {"b", 2, 4, 7}, 10, 20);
}

TEST_CASE("the difference of two texts is one replacement") {
  const auto check = [](const std::string& old_text, const std::string& new_text, std::uint32_t begin,
                        std::uint32_t end, std::uint32_t length) {
    const Replaced change = difference("a", old_text, new_text);
    CHECK(change.begin == begin);
    CHECK(change.end == end);
    CHECK(change.length == length);
  };
  check("abcdef", "abXdef", 2, 3, 1);
  check("aaaa", "aaa", 3, 4, 0);
  check("", "new", 0, 0, 3);
  check("same", "same", 4, 4, 0);
}

TEST_CASE("what may be waived or treated is not told ahead") {
  Told told = at(0, 1)[0];
  CHECK_FALSE(will_stand(told, Ahead::text));
  CHECK(will_stand(told, Ahead::marks));
  told.rule = "name.unknown";
  CHECK(will_stand(told, Ahead::text));
  told.severity = Severity::remark;
  CHECK_FALSE(will_stand(told, Ahead::text));
  told.rule = "stale-waiver";
  CHECK_FALSE(will_stand(told, Ahead::marks));
}
