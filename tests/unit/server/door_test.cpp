#include "server/door.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

const Door door{"0123abcd", {"127.0.0.1:8080", "localhost:8080"}};

int status_of(const Request& request) {
  const auto refusal = door.refuses(request);
  if (refusal) CHECK(refusal->words.ends_with(".\n"));
  return refusal ? refusal->status : 200;
}

}  // namespace

TEST_CASE("whoever has the address is let in") {
  CHECK(status_of({"GET", "/0123abcd/", "127.0.0.1:8080", ""}) == 200);
  CHECK(status_of({"GET", "/0123abcd", "localhost:8080", ""}) == 200);
  CHECK(status_of({"HEAD", "/0123abcd/page?x=1", "LOCALHOST:8080", "http://localhost:8080"}) == 200);
}

// RFC 9110, 7.2: a name that somebody else has pointed at this machine comes as the Host.
TEST_CASE("a host that is not ours is refused") {
  for (const char* host : {"", "evil.example", "evil.example:8080", "127.0.0.1", "127.0.0.1:80",
                           "127.0.0.1:8080.evil.example", "127.0.0.1:80800", " 127.0.0.1:8080", "[::1]:8080"})
    CHECK(status_of({"GET", "/0123abcd/", host, ""}) == 403);
}

// RFC 6454, 7; "null" is what a page in a sandbox sends.
TEST_CASE("a page of another origin is refused") {
  for (const char* origin : {"null", "http://evil.example", "https://127.0.0.1:8080", "http://127.0.0.1:8081",
                             "http://127.0.0.1", "http://127.0.0.1:8080.evil.example", "127.0.0.1:8080"})
    CHECK(status_of({"GET", "/0123abcd/", "127.0.0.1:8080", origin}) == 403);
}

TEST_CASE("without the whole token nobody is let in") {
  for (const char* target : {"", "/", "/0123abc", "/0123abcde/", "/0123ABCD/", "//0123abcd/", "/x/0123abcd/",
                             "0123abcd/", "/?0123abcd", "/#0123abcd/", "/%30123abcd/"})
    CHECK(status_of({"GET", target, "127.0.0.1:8080", ""}) == 403);
}

TEST_CASE("the page can only be looked at") {
  for (const char* method : {"POST", "PUT", "DELETE", "OPTIONS", "CONNECT", "get", ""})
    CHECK(status_of({method, "/0123abcd/", "127.0.0.1:8080", ""}) == 405);
}

TEST_CASE("what is asked for stands behind the token") {
  CHECK(door.asked({"GET", "/0123abcd", "", ""}).empty());
  CHECK(door.asked({"GET", "/0123abcd/", "", ""}).empty());
  CHECK(door.asked({"GET", "/0123abcd/?a/b", "", ""}).empty());
  CHECK(door.asked({"GET", "/0123abcd/page?x", "", ""}) == "page");
  CHECK(door.asked({"GET", "/0123abcd/pictures/0a.png", "", ""}) == "pictures/0a.png");
}

TEST_CASE("secrets are the same only when every letter is") {
  CHECK(same_secret("abc", "abc"));
  CHECK_FALSE(same_secret("abc", "abd"));
  CHECK_FALSE(same_secret("abc", "ab"));
  CHECK_FALSE(same_secret("", "a"));
}
