// The names on every floor plan of every example, as a reader sees them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>

#include "cli/pipeline.h"
#include "cli/real_host.h"
#include "floor_check.h"
#include "pages/draw.h"
#include "pages/floor_paper.h"
#include "pages/words.h"

using namespace lensward;

namespace {

namespace fs = std::filesystem;

std::vector<std::string> scene_files() {
  std::vector<std::string> files;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(LENSWARD_EXAMPLES))
    if (entry.path().extension() == ".staging") files.push_back(entry.path().string());
  std::ranges::sort(files);
  return files;
}

// Files without a scene, those that others use, give none.
std::optional<Run> compiled(const std::string& path) {
  RealHost host;
  Run run;
  const auto read = read_file(host, path, run);
  REQUIRE(std::holds_alternative<int>(read));
  if (run.is_film(std::get<int>(read))) return std::nullopt;
  compile(std::get<int>(read), Until::verdicts, run);
  return run.has_scene() ? std::optional{std::move(run)} : std::nullopt;
}

// The column of a beat's page, from little room to much, and the sheet of `floor`.
constexpr Vec2 sizes[] = {{112, 70}, {112, 95}, {112, 120}, {112, 150}, {182, 230}};
constexpr Vec2 corner{14, 20};

std::vector<Moment> moments_of(const Run& run, int beat) {
  const Beat& whole = run.plan.beats[static_cast<std::size_t>(beat)];
  return {deciding_moment(run.results(), beat), whole.begin, whole.end - Milliseconds{1}};
}

struct Checked {
  int plans = 0;
  std::vector<std::string> complaints;
};

void check_beat(const std::string& file, const Run& run, int beat, Checked& checked) {
  for (const Moment moment : moments_of(run, beat)) {
    for (const Vec2 most : sizes) {
      const Overhead drawing = draw_overhead(run.results(), beat, moment, corner, most);
      ++checked.plans;
      for (const std::string& words : floor_check::complaints(drawing, run.plan, moment, corner, most))
        checked.complaints.push_back(fs::path(file).stem().string() + ", " + drawing.group.id + " at " +
                                     std::to_string(moment.count) + " ms, " + std::to_string(static_cast<int>(most.y)) +
                                     " mm high: " + words);
    }
  }
}

Checked checked_examples() {
  Checked checked;
  for (const std::string& file : scene_files()) {
    const std::optional<Run> run = compiled(file);
    for (int beat = 0; run && beat < static_cast<int>(run->plan.beats.size()); ++beat)
      check_beat(file, *run, beat, checked);
  }
  return checked;
}

// A plan of an example, and its label groups to tamper with.
struct Tampered {
  explicit Tampered()
      : run(*compiled(std::string(LENSWARD_EXAMPLES) + "/one-vote.staging")),
        moment(deciding_moment(run.results(), 0)),
        drawing(draw_overhead(run.results(), 0, moment, corner, most)) {}

  Item& label(const std::string& part) {
    const std::string id = drawing.group.id + "/" + part + "/name";
    for (Item& item : drawing.group.items)
      if (const auto* group = std::get_if<Group>(&item.body); group != nullptr && group->id == id) return item;
    FAIL("no label " + id);
    return drawing.group.items.front();
  }
  Vec2 place(const std::string& part) {
    for (const Item& item : std::get<Group>(label(part).body).items)
      if (const auto* text = std::get_if<Text>(&item.body)) return text->at;
    FAIL("no words in " + part);
    return {};
  }
  // The leader goes: the name is moved by hand, as it were.
  void move(const std::string& part, Vec2 by) {
    Item& item = label(part);
    auto& items = std::get<Group>(item.body).items;
    std::erase_if(items, [](const Item& inner) {
      const auto* shape = std::get_if<Shape>(&inner.body);
      return shape != nullptr && shape->steps.size() == 2;
    });
    shift(item, by);
  }
  bool complained(const std::string& words) const {
    const auto all = floor_check::complaints(drawing, run.plan, moment, corner, most);
    return std::ranges::any_of(all, [&](const std::string& one) { return one.find(words) != std::string::npos; });
  }

  static constexpr Vec2 most{182, 230};
  Run run;
  Moment moment;
  Overhead drawing;
};

}  // namespace

TEST_CASE("on no floor plan of the examples is a name covered, covering, far off or missing") {
  const Checked checked = checked_examples();
  CHECK(checked.plans >= 600);
  for (const std::string& words : checked.complaints) {
    INFO(words);
    CHECK(false);
  }
}

TEST_CASE("a name laid over another is found") {
  Tampered floor;
  REQUIRE_FALSE(floor.complained("` over `"));
  floor.move("person-maud", floor.place("table") - floor.place("person-maud"));
  CHECK(floor.complained("` over `"));
}

TEST_CASE("a name laid over a person is found") {
  Tampered floor;
  REQUIRE_FALSE(floor.complained(" over floor-third-count/person-maud"));
  const FloorPaper paper = fitted(extent_of(floor.run.plan, {}, floor.run.plan.beats[0].end), corner, {182, 221});
  const Vec2 maud = paper.mm(person_at(floor.run.plan, PersonId{0}, floor.moment).at);
  floor.move("table", maud - floor.place("table"));
  CHECK(floor.complained(" over floor-third-count/person-maud"));
}

TEST_CASE("a name far off is found, on no leader and on one that leads elsewhere") {
  Tampered floor;
  REQUIRE_FALSE(floor.complained("on no leader"));
  floor.move("yard-window", {20, 12});
  CHECK(floor.complained("on no leader"));
  const Vec2 words_at = floor.place("yard-window");
  auto& items = std::get<Group>(floor.label("yard-window").body).items;
  items.push_back(line(words_at + Vec2{20, 20}, words_at, pen(Ink::mid, hairline)));
  CHECK(floor.complained("on no leader"));
}

TEST_CASE("a name left out, and a wrong one, are found") {
  Tampered floor;
  REQUIRE_FALSE(floor.complained(" has no name"));
  REQUIRE_FALSE(floor.complained(", not `"));
  for (Item& item : std::get<Group>(floor.label("table").body).items)
    if (auto* text = std::get_if<Text>(&item.body)) text->words = "Desk";
  CHECK(floor.complained("bears `Desk`, not `Table`"));
  std::get<Group>(floor.label("prop-ring").body).id.clear();
  CHECK(floor.complained("prop-ring has no name"));
}

TEST_CASE("a name off the paper is found") {
  Tampered floor;
  REQUIRE_FALSE(floor.complained("off the paper"));
  floor.move("yard-window", {-60, 0});
  CHECK(floor.complained("off the paper"));
}
