// What of a line says when, and what is only said.
#include "mend/statement.h"

#include <catch2/catch.hpp>

using namespace lensward;

TEST_CASE("speech and comment are overwritten, and everything else keeps its place") {
  const std::string line = "  Oda to Pell: \"Well, on (1, 2) m\" -- not so";
  const std::string bare = without_speech(line);
  CHECK(bare.size() == line.size());
  CHECK(bare.substr(0, 15) == line.substr(0, 15));
  CHECK(bare.find_first_not_of('"', 15) == bare.size() - 10);  // the blank before the comment
  CHECK(without_speech("Oda: «x, on y», on z").find(", on ") ==
        std::string_view("Oda: «x, on y», on z").rfind(", on "));
}

TEST_CASE("the cue is the clause of the statement, not of its comment or of what is said") {
  CHECK(cue_clause("  Ansel turns to Key, as Handing -- not so, on the night") == ", as Handing");
  CHECK(cue_clause("  Ansel turns to Key -- not so, on the night").empty());
  CHECK(cue_clause("  favour Oda, on \"well, then -- go\"") == ", on \"well, then -- go\"");
  CHECK(cue_clause("  favour Oda, on \"well\", over 2 s") == ", on \"well\"");
  CHECK(cue_clause("  Oda says \"no, on Sunday\", after Giving") == ", after Giving");
}

TEST_CASE("the earliest of two words of time begins the cue") {
  CHECK(cue_clause("  Oda turns, as Handing, on \"x\"") == ", as Handing");
  CHECK(cue_clause("  Oda turns, after Handing").size() == std::string_view(", after Handing").size());
  CHECK(cue_clause("  Oda turns").empty());
}
