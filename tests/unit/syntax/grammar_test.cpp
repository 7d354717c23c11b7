#include <unicode/uchar.h>

#include <catch2/catch.hpp>
#include <set>
#include <tao/pegtl/contrib/analyze.hpp>

#include "grammar/letters.hpp"
#include "grammar/staging.hpp"
#include "read_text.h"
#include "syntax/node_kind.h"

using namespace lensward;

TEST_CASE("the grammar has no left recursion and no loop without progress") {
  // 1: problems are printed.
  CHECK(tao::pegtl::analyze<grammar::line>(1) == 0);
  CHECK(tao::pegtl::analyze<grammar::speech_text>(1) == 0);
}

TEST_CASE("every rule worth a node is reached by some line") {
  std::set<std::string> reached;
  const std::string others[] = {
      every_form(),
      "staging 1.0 film\nfilm Tides \"The tides\"\norder \"scenes/slipway\"\nfont \"fonts/own.otf\"\n",
  };
  for (const std::string& text : others) {
    const Reading reading(text);
    CHECK(reading.said() == std::vector<std::string>{});
    for (const Node& node : reading.tree.nodes) reached.insert(name_of(node.kind));
  }
  // These two are never in a tree: a merge mark breaks its line, and the words of a speech are divided when read.
  const std::set<std::string> elsewhere = {"merge_mark", "speech_mark", "mark_name", "speech_rest", "speech_words"};
  for (int kind = 0; kind <= static_cast<int>(NodeKind::speech_words); ++kind) {
    const std::string name = name_of(static_cast<NodeKind>(kind));
    INFO(name);
    CHECK(reached.count(name) + elsewhere.count(name) == 1);
  }
}

// Outside check: the character data of ICU, for the characters of Unicode 14.0 and before, of which the table is made.
TEST_CASE("letters of names agree with ICU") {
  constexpr std::uint32_t letters_marks_numbers = U_GC_L_MASK | U_GC_M_MASK | U_GC_N_MASK;
  int wide = 0;
  for (std::uint32_t point = 0xA1; point <= 0x10FFFF; ++point) {
    UVersionInfo age;
    u_charAge(static_cast<UChar32>(point), age);
    if (age[0] > 14) continue;
    const bool expected = (U_GET_GC_MASK(static_cast<UChar32>(point)) & letters_marks_numbers) != 0;
    if (grammar::is_wide_letter(point) != expected) FAIL("U+" << std::hex << point);
    wide += expected ? 1 : 0;
  }
  CHECK(wide > 100000);
}
