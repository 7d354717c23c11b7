#include "editor/frames.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace lensward;

namespace {

// The messages that come of the bytes, given in pieces; what is malformed between angle brackets.
std::vector<std::string> heard(const std::string& bytes, std::size_t piece) {
  FrameReader reader;
  std::vector<std::string> all;
  for (std::size_t at = 0; at < bytes.size(); at += piece) {
    reader.add(std::string_view(bytes).substr(at, piece));
    while (const auto frame = reader.next())
      all.push_back(frame->malformed.empty() ? frame->message : '<' + frame->malformed + '>');
  }
  return all;
}

void check_heard(const std::string& bytes, const std::vector<std::string>& expected) {
  for (const std::size_t piece : {std::size_t{1}, std::size_t{7}, bytes.size()}) CHECK(heard(bytes, piece) == expected);
}

}  // namespace

TEST_CASE("messages come whole, whatever the pieces") {
  check_heard(framed("{}") + framed("") + framed("Content-Length: 3\r\n\r\nabc"),
              {"{}", "", "Content-Length: 3\r\n\r\nabc"});
  check_heard("content-type: x\r\nCONTENT-LENGTH:   2  \r\n\r\nhi", {"hi"});
}

TEST_CASE("after a header that cannot be read the next one counts") {
  check_heard("Content-Length: two\r\n\r\nhi" + framed("{}"),
              {"<a message came whose Content-Length is no number>", "{}"});
  check_heard("Content-Length: -2\r\n\r\nhi" + framed("{}"),
              {"<a message came whose Content-Length is no number>", "{}"});
  check_heard("Content-Type: x\r\n\r\n{\"id\":1}" + framed("{}"),
              {"<a message came without its Content-Length>", "{}"});
}

TEST_CASE("a message that is too large is passed over") {
  const std::string large = "Content-Length: 67108865\r\n\r\n" + std::string(67108865, 'x') + framed("{}");
  CHECK(heard(large, 1 << 16) ==
        std::vector<std::string>{"<a message came that is larger than 64 MiB; it was passed over>", "{}"});
}

TEST_CASE("a header without an end is given up") {
  const auto all = heard(std::string(9000, 'x') + framed("{}"), 512);
  REQUIRE(all.size() == 2);
  CHECK(all[0] == "<a header came that does not end>");
  CHECK(all[1] == "{}");
}
