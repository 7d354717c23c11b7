#include "server/watched.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

// A host with some files, of which a scene asks two and a folder.
struct Watched {
  MemoryHost host;
  Answers shown;
  Settling settling;

  Watched() {
    host.files = {{"a.staging", "old"}, {"set.staging", "room"}};
    RememberingHost remembering(host);
    (void)remembering.read("a.staging");
    (void)remembering.read("set.staging");
    (void)remembering.read("film.staging");
    (void)remembering.canonical("film.staging");
    shown = remembering.answers();
  }

  bool look() { return settling.look(shown, asked_again(shown, host)); }
  // How many looks until a change is taken; 0: not within a hundred.
  int looks_until_taken() {
    for (int looks = 1; looks <= 100; ++looks)
      if (look()) return looks;
    return 0;
  }
};

}  // namespace

TEST_CASE("what has not changed is never taken") {
  Watched watched;
  CHECK(watched.looks_until_taken() == 0);
  watched.host.files["other.staging"] = "nobody asked for it";
  CHECK(watched.looks_until_taken() == 0);
}

TEST_CASE("a change is taken when two looks agree on it") {
  Watched watched;
  watched.host.files["a.staging"] = "new";
  CHECK(watched.looks_until_taken() == 2);
}

TEST_CASE("a file that is being written in pieces is taken whole") {
  Watched watched;
  for (const char* piece : {"n", "ne", "new"}) {
    watched.host.files["a.staging"] = piece;
    CHECK_FALSE(watched.look());
  }
  CHECK(watched.looks_until_taken() == 1);
}

TEST_CASE("a file that is gone or empty for a moment is being saved") {
  for (const bool gone : {true, false}) {
    Watched watched;
    for (int looks = 0; looks < 19; ++looks) {
      if (gone)
        watched.host.files.erase("a.staging");
      else
        watched.host.files["a.staging"] = "";
      CHECK_FALSE(watched.look());
    }
    watched.host.files["a.staging"] = "new";
    CHECK(watched.looks_until_taken() == 2);
  }
}

TEST_CASE("a file that stays away is gone after half a second") {
  Watched watched;
  watched.host.files.erase("a.staging");
  CHECK(watched.looks_until_taken() == 20);
}

TEST_CASE("the old text written again is no change") {
  Watched watched;
  watched.host.files.erase("a.staging");
  CHECK_FALSE(watched.look());
  watched.host.files["a.staging"] = "old";
  CHECK(watched.looks_until_taken() == 0);
}

TEST_CASE("a file that never comes to rest is taken after a second") {
  Watched watched;
  int taken = 0;
  for (int looks = 1; looks <= 100 && taken == 0; ++looks) {
    watched.host.files["a.staging"] = "new " + std::to_string(looks);
    if (watched.look()) taken = looks;
  }
  CHECK(taken == 40);
}

TEST_CASE("files that are used, and files that were looked for in vain, count too") {
  Watched used;
  used.host.files["set.staging"] = "a larger room";
  CHECK(used.looks_until_taken() == 2);
  Watched came;
  came.host.files["film.staging"] = "film";
  CHECK(came.looks_until_taken() == 2);
}

TEST_CASE("answers of several scenes are asked once and told apart again") {
  Watched watched;
  Answers more;
  more.files.emplace("b.staging", FileAnswer{true, "another"});
  Answers all = watched.shown;
  add_answers(more, all);
  CHECK(all.files.size() == watched.shown.files.size() + 1);
  CHECK(part_of(all, watched.shown) == watched.shown);
  CHECK(part_of(all, more) == more);
  CHECK(size_of(watched.shown) == 7);
}

TEST_CASE("nothing is written through a host that remembers") {
  MemoryHost host;
  RememberingHost remembering(host);
  CHECK(std::holds_alternative<HostError>(remembering.write("a", "b")));
  CHECK(host.files.empty());
}
