#include "server/board.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace lensward;

namespace {

nlohmann::json news(const Board& board) { return nlohmann::json::parse(board.news()); }
nlohmann::json pictures(const Board& board) { return nlohmann::json::parse(board.pictures_json()); }

PageTold page_of(const std::string& html, int beat = -1) { return {html, "", beat}; }

}  // namespace

TEST_CASE("every change that is told has a number of its own") {
  Board board;
  std::int64_t last = board.version();
  const auto went_up = [&] {
    const bool up = board.version() > last;
    last = board.version();
    return up;
  };
  board.begin_edit();
  CHECK_FALSE(went_up());
  board.show(page_of("one"));
  CHECK(went_up());
  board.show_trouble("broken", {});
  CHECK(went_up());
  board.wish({{0, ""}}, 1);
  board.drawn(0, "png");
  CHECK_FALSE(went_up());
  board.tell_pictures();
  CHECK(went_up());
  board.show_scenes({{"a", "no findings", true}});
  CHECK(went_up());
}

TEST_CASE("the last page stays while the text is broken, and is fresh again with the next") {
  Board board;
  board.begin_edit();
  board.show(page_of("good", 2));
  const auto before = news(board);
  CHECK(before["stale"] == false);
  CHECK(before["beat"] == 2);

  board.begin_edit();
  board.show_trouble("it cannot be staged", {{"the line ends early", "finish it", "a.staging", "beat", 3}});
  const auto broken = news(board);
  CHECK(*board.page() == "good");
  CHECK(broken["stale"] == true);
  CHECK(broken["page"] == before["page"]);
  CHECK(broken["edits"] == before["edits"]);
  CHECK(broken["headline"] == "it cannot be staged");
  CHECK(broken["trouble"][0]["where"]["line"] == 3);
  CHECK(broken["trouble"][0]["where"]["text"] == "beat");

  board.begin_edit();
  board.show(page_of("better"));
  const auto mended = news(board);
  CHECK(*board.page() == "better");
  CHECK(mended["stale"] == false);
  CHECK(mended["trouble"].empty());
  CHECK(mended["edits"] > before["edits"]);
}

TEST_CASE("stages of one text share its edit") {
  Board board;
  board.begin_edit();
  board.show(page_of("floor"));
  const auto first = news(board);
  board.show(page_of("findings"));
  CHECK(news(board)["edits"] == first["edits"]);
  CHECK(news(board)["page"] > first["page"]);
}

TEST_CASE("of much that is wrong the first is told, and how much there is") {
  Board board;
  board.show_trouble("broken", std::vector<BoardFinding>(40, {"wrong", "", "a.staging", "x", 1}));
  const auto trouble = news(board)["trouble"];
  CHECK(trouble.size() == 13);
  CHECK(trouble[12]["message"] == "and 28 more");
  CHECK(trouble[12]["where"].is_null());
}

TEST_CASE("a line that is not UTF-8 is told all the same") {
  Board board;
  board.show_trouble("broken", {{"wrong", "", "a.staging", "caf\xE9", 1}});
  CHECK(news(board)["trouble"][0]["where"]["text"] == "caf\xEF\xBF\xBD");
}

TEST_CASE("pictures come in the order of the scene, those not drawn yet as -1") {
  Board board;
  board.wish({{0, ""}, {400, ""}, {900, ""}}, 2);
  CHECK(pictures(board)["showing"] == nlohmann::json::parse("[[0,-1],[400,-1],[900,-1]]"));
  const std::string id = board.drawn(2, "late");
  board.drawn(0, "early");
  CHECK(board.drawn_for_beat(1, "late") == id);
  const auto told = pictures(board);
  CHECK(told["showing"] == nlohmann::json::parse("[[0,0],[400,-1],[900,1]]"));
  CHECK(told["addresses"][1] == "pictures/" + id + ".png");
  CHECK(told["beats"] == nlohmann::json::array({"", "pictures/" + id + ".png"}));
  REQUIRE(board.picture(id));
  CHECK(*board.picture(id) == "late");
  CHECK_FALSE(board.picture("0"));
}

TEST_CASE("pictures are kept for the next text too, and not for ever") {
  Board board;
  std::string last;
  for (int i = 0; i < 200; ++i) {
    board.begin_edit();
    board.wish({{0, ""}}, 1);
    const std::string first = board.drawn(0, "first frame " + std::to_string(i));
    board.wish({{0, ""}, {1, first}}, 1);
    const std::string id = board.drawn(0, "first " + std::to_string(i));
    board.drawn(1, "second " + std::to_string(i));
    board.drawn_for_beat(0, "still " + std::to_string(i));
    CHECK(board.picture(first));
    if (i > 0) CHECK(board.picture(last));
    CHECK(board.picture_count() <= 12);
    last = id;
  }
}
