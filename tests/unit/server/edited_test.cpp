#include "server/edited.h"

#include <catch2/catch.hpp>
#include <string>

using namespace lensward;

namespace {

const std::string text = "scene X\npeople A\nbeat One\n  A waits\nbeat Two\n  A turns\nbeat Three\n  A goes\n";

std::vector<std::uint32_t> headings_in(const std::string& of) {
  std::vector<std::uint32_t> begins;
  for (std::size_t at = of.find("beat "); at != std::string::npos; at = of.find("beat ", at + 1))
    begins.push_back(static_cast<std::uint32_t>(at));
  return begins;
}

std::string with(std::string changed, const std::string& old_words, const std::string& new_words) {
  return changed.replace(changed.find(old_words), old_words.size(), new_words);
}

int edited(const std::string& new_text) { return edited_beat(text, new_text, headings_in(new_text)); }

}  // namespace

TEST_CASE("the beat of the first line that differs") {
  CHECK(edited(with(text, "A waits", "A waits long")) == 0);
  CHECK(edited(with(text, "A turns", "A turn")) == 1);
  CHECK(edited(with(text, "A goes", "A went")) == 2);
  CHECK(edited(with(with(text, "A turns", "A sits"), "A goes", "A went")) == 1);
  CHECK(edited(with(text, "beat Two", "beat Twice")) == 1);
}

TEST_CASE("what differs before the first beat may mean any of them") {
  CHECK(edited(with(text, "people A", "people A, B")) == -1);
  CHECK(edited(text) == -1);
  CHECK(edited_beat("", "", {}) == -1);
  CHECK(edited_beat("a\n", "b\n", {}) == -1);
}

TEST_CASE("lines that come and lines that go") {
  CHECK(edited(with(text, "beat Two\n", "beat New\n  A sits\nbeat Two\n")) == 1);
  CHECK(edited(with(text, "  A turns\n", "")) == 2);
  CHECK(edited(with(text, "  A goes\n", "")) == 2);
  CHECK(edited(text + "  A comes back\n") == 2);
  CHECK(edited(with(text, "beat Three\n  A goes\n", "")) == 1);
}
