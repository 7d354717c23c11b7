#include "editor/wire.h"

#include <catch2/catch.hpp>

using namespace lensward;

TEST_CASE("paths as URIs and back") {
  const std::string path = "/a b/é/c%d#e.staging";
  CHECK(uri_of(path) == "file:///a%20b/%C3%A9/c%25d%23e.staging");
  CHECK(path_of(uri_of(path)) == path);
  CHECK(path_of("file://localhost/x") == "/x");
  CHECK_FALSE(path_of("untitled:one"));
  CHECK_FALSE(path_of("file:///a%0"));
  CHECK_FALSE(path_of("file:///a%00b"));
  CHECK_FALSE(path_of("file://elsewhere/x"));
}

TEST_CASE("what JSON cannot hold is replaced one for one") {
  CHECK(with_bad_characters_replaced(R"("\ud834\udd1e \ud834 \udd1e \\ud834")") ==
        R"("\ud834\udd1e \ufffd \ufffd \\ud834")");
  CHECK(with_bad_characters_replaced("\"a\xFF\xC3z\"") == "\"a\\u001a\\u001az\"");
  CHECK(with_bad_characters_replaced("\"é小\\") == "\"é小\\");
  // As many units and bytes as before, so that columns stay what the editor counts.
  CHECK(JsonValue::parse(with_bad_characters_replaced("\"a\xFFz\"")).get<std::string>().size() == 3);
}
