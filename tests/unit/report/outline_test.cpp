#include "report/outline.h"

#include <catch2/catch.hpp>

using namespace lensward;
using Json = nlohmann::ordered_json;

TEST_CASE("objects keep their order and parts are indented") {
  const Json value = {{"schema", "plan/1"}, {"beat", {{"name", "Papers"}, {"from_ms", 0}}}, {"at", {1.5, 2, -3}}};
  CHECK(outline(value) ==
        "schema: plan/1\n"
        "beat:\n"
        "  name: Papers\n"
        "  from_ms: 0\n"
        "at: [1.5, 2, -3]\n");
}

TEST_CASE("lists of parts stand behind dashes") {
  const Json value = {{"people", {{{"name", "Oda"}, {"at", {1, 2}}}, {{"name", "Jun"}, {"held", Json::array()}}}}};
  CHECK(outline(value) ==
        "people:\n"
        "  - name: Oda\n"
        "    at: [1, 2]\n"
        "  - name: Jun\n"
        "    held: []\n");
  CHECK(outline(Json{{"path", {{1, 2}, {3, 4}}}}) ==
        "path:\n"
        "  - [1, 2]\n"
        "  - [3, 4]\n");
}

TEST_CASE("a long list stands one to a line") {
  Json list = Json::array();
  for (int i = 0; i < 12; ++i) list.push_back("a name of some length");
  const std::string text = outline(Json{{"names", list}});
  CHECK(text.starts_with("names:\n  - a name of some length\n"));
}

TEST_CASE("words are quoted only where they could be misread") {
  const Json value = {{"a", ""},     {"b", "12"},    {"c", "true"},         {"d", "two\nlines"}, {"e", "Oda: no"},
                      {"f", "a, b"}, {"g", nullptr}, {"h", Json::object()}, {"i", "- dash"},     {"j", "35 mm"}};
  CHECK(outline(value) ==
        "a: \"\"\nb: \"12\"\nc: \"true\"\nd: \"two\\nlines\"\ne: \"Oda: no\"\nf: a, b\ng: null\nh: {}\ni: \"- dash\"\n"
        "j: 35 mm\n");
  CHECK(outline(Json{{"x", {"a, b", "c"}}}) == "x: [\"a, b\", c]\n");
}

TEST_CASE("bare values and empty ones") {
  CHECK(outline(Json("plain")) == "plain\n");
  CHECK(outline(Json::array()) == "[]\n");
  CHECK(outline(Json::object()) == "{}\n");
  CHECK(outline(Json(3)) == "3\n");
}

TEST_CASE("bytes that are not UTF-8 do not stop a dump") {
  CHECK(json_text(Json{{"a", "x\x80y"}}) == "{\n  \"a\": \"x\xEF\xBF\xBDy\"\n}\n");
  CHECK(outline(Json{{"a", "x\x80y"}}) == "a: x\xEF\xBF\xBDy\n");
}
