#include "source/character.h"

#include <catch2/catch.hpp>

using namespace lensward;

TEST_CASE("what a terminal must not be sent is replaced") {
  CHECK(printable("Oda 小林 é") == "Oda 小林 é");
  CHECK(printable("a\x1b[31mb") == "a\xEF\xBF\xBD[31mb");
  CHECK(printable("a\x80z\xFF") == "a\xEF\xBF\xBDz\xEF\xBF\xBD");
  // The right-to-left override, U+202E (Unicode technical report 36 gives why).
  CHECK(printable("a\xE2\x80\xAEz") == "a\xEF\xBF\xBDz");
  CHECK(printable("a\tb") ==
        "a\xEF\xBF\xBD"
        "b");
  CHECK(printable("") == "");
}

TEST_CASE("characters and their lengths") {
  CHECK(character_at("小x", 0).code == 0x5c0f);
  CHECK(character_at("小x", 0).length == 3);
  CHECK(character_at("小x", 3).code == 'x');
  CHECK(character_at("\xF0\x9D\x84\x9E", 0).code == 0x1d11e);
  CHECK(character_at("\xE5\xB0z", 0).code == -1);
  CHECK(character_at("\xE5\xB0z", 0).length == 1);
}
