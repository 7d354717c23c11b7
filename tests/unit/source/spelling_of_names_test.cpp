// Confusable letters: Unicode Technical Standard #39, confusables.txt (Cyrillic а U+0430 and Latin a; digit 1 and l).
#include "source/spelling_of_names.h"

#include <catch2/catch.hpp>

namespace lensward {

TEST_CASE("names drawn alike have the same looks") {
  CHECK(looks_of("Runa") == looks_of("Runа"));
  CHECK(looks_of("Runa") == looks_of("RUNA"));
  CHECK(looks_of("Runa") != looks_of("Rune"));
  CHECK(looks_of("Table") != looks_of("Table-2"));
}

TEST_CASE("composed and decomposed spellings of a name of a file are one") {
  CHECK(composed_form("Caf\x65\xCC\x81") == "Caf\xC3\xA9");
  CHECK(composed_form("mess-room") == "mess-room");
}

}  // namespace lensward
