#include "editor/positions.h"

#include <catch2/catch.hpp>
#include <string>

using namespace lensward;

namespace {

// é is two bytes and one unit, 小 three and one, the clef four and two.
const std::string text = "a é小\U0001D11E z\r\nsecond\rthird\n";

}  // namespace

TEST_CASE("lines end at LF, CRLF and CR") {
  const TextLines lines(text, Columns::utf8);
  CHECK(lines.count() == 4);
  CHECK(lines.offset({1, 0}) == text.find("second"));
  CHECK(lines.offset({2, 0}) == text.find("third"));
  CHECK(lines.offset({3, 0}) == text.size());
}

TEST_CASE("columns count bytes of UTF-8 or units of UTF-16") {
  const auto z = static_cast<std::uint32_t>(text.find('z'));
  CHECK(TextLines(text, Columns::utf8).caret(z) == Caret{0, 12});
  CHECK(TextLines(text, Columns::utf16).caret(z) == Caret{0, 7});
  CHECK(TextLines(text, Columns::utf8).offset({0, 12}) == z);
  CHECK(TextLines(text, Columns::utf16).offset({0, 7}) == z);
}

TEST_CASE("every byte that begins a character comes back from its caret") {
  for (const Columns columns : {Columns::utf8, Columns::utf16}) {
    const TextLines lines(text, columns);
    for (std::uint32_t at = 0; at <= text.size(); ++at) {
      const bool within = at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80;
      const bool between = at > 0 && at < text.size() && text[at - 1] == '\r' && text[at] == '\n';
      if (!within && !between) CHECK(lines.offset(lines.caret(at)) == at);
    }
  }
}

TEST_CASE("a caret within a character is its beginning, beyond a line its end, beyond the text the end") {
  const TextLines lines(text, Columns::utf16);
  const auto clef = static_cast<std::uint32_t>(text.find("\U0001D11E"));
  CHECK(lines.offset({0, 5}) == clef);
  CHECK(lines.caret(clef + 2) == lines.caret(clef));
  CHECK(lines.offset({0, 500}) == text.find('\r'));
  CHECK(lines.offset({77, 3}) == text.size());
  CHECK(lines.offset({-1, 0}) == 0);
  CHECK(lines.offset({1, -5}) == text.find("second"));
}

TEST_CASE("bytes that are not UTF-8 count one each") {
  const std::string broken = "a\xFF\xC3z";
  CHECK(TextLines(broken, Columns::utf16).caret(3) == Caret{0, 3});
  CHECK(TextLines(broken, Columns::utf8).offset({0, 3}) == 3);
}
