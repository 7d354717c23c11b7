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

// Outside check: single characters from the charts of the Unicode Standard (names and general categories).
TEST_CASE("letters of names") {
  // LATIN SMALL E WITH ACUTE, CYRILLIC CAPITAL I, a CJK ideograph, COMBINING ACUTE ACCENT, SUPERSCRIPT TWO, ROMAN
  // NUMERAL TWELVE, DEVANAGARI SIGN VIRAMA, a CJK ideograph of plane 2, COMBINING ENCLOSING CIRCLE.
  for (const std::uint32_t point : {0xE9U, 0x418U, 0x6797U, 0x301U, 0xB2U, 0x216BU, 0x94DU, 0x20000U, 0x20DDU}) {
    INFO(std::hex << point);
    CHECK(grammar::is_wide_letter(point));
  }
  // NO-BREAK SPACE, MULTIPLICATION SIGN, EN DASH, RIGHT SINGLE QUOTATION MARK, IDEOGRAPHIC SPACE, LEFT CORNER BRACKET,
  // MINUS SIGN, ZERO WIDTH JOINER, an emoji, a private character, a byte-order mark, one that is not assigned.
  for (const std::uint32_t point :
       {0xA0U, 0xD7U, 0x2013U, 0x2019U, 0x3000U, 0x300CU, 0x2212U, 0x200DU, 0x1F600U, 0xE000U, 0xFEFFU, 0x378U}) {
    INFO(std::hex << point);
    CHECK(!grammar::is_wide_letter(point));
  }
  // ASCII has its own rules.
  for (std::uint32_t point = 0; point <= 0xA0; ++point) CHECK(!grammar::is_wide_letter(point));
}
