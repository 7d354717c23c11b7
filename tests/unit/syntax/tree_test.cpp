#include <nlohmann/json.hpp>
#include <random>

#include "read_text.h"
#include "syntax/dump.h"
#include "syntax/node_kind.h"

using namespace lensward;

namespace {

// What must hold of the tree of any bytes.
void check_whole(const std::string& text) {
  const Reading reading(text);
  INFO(text.substr(0, 2000));
  REQUIRE(print(reading.sources, reading.tree) == text);
  std::uint32_t at = 0;
  for (const Leaf& leaf : reading.tree.leaves) {
    REQUIRE(leaf.begin == at);
    REQUIRE(leaf.end > leaf.begin);
    at = leaf.end;
  }
  at = 0;
  std::uint32_t node = 0;
  for (const TreeLine& line : reading.tree.lines) {
    REQUIRE(line.begin == at);
    REQUIRE(line.first_node == node);
    REQUIRE((!line.broken || line.node_count == 0));
    at = line.end;
    node += line.node_count;
  }
  REQUIRE(at == text.size());
  REQUIRE(node == reading.tree.nodes.size());
}

int broken_lines(const Tree& tree) {
  return static_cast<int>(
      std::count_if(tree.lines.begin(), tree.lines.end(), [](const TreeLine& l) { return l.broken; }));
}

// Findings that came from reading single lines, not from folding them.
int parse_findings(const std::string& text) {
  SourceSet sources;
  Findings findings;
  parse(sources, sources.add(SourceFile("t", text)), findings);
  return static_cast<int>(std::count_if(findings.all().begin(), findings.all().end(),
                                        [](const Finding& f) { return f.rule != "parse.header-missing"; }));
}

}  // namespace

TEST_CASE("whole texts are read without a finding of syntax") {
  for (const std::string& text : whole_texts()) CHECK(Reading(text).said() == std::vector<std::string>{});
}

TEST_CASE("every byte belongs to one leaf") {
  for (const std::string& text : whole_texts()) check_whole(text);
  check_whole("");
  check_whole("\n");
  check_whole("\r\n\r\n");
  check_whole("\xEF\xBB\xBFstaging 1.0 scene\r\nscene S\r\n");
  check_whole("  -- only a comment");
  check_whole(std::string("beat \0 X\n\0", 10));
  check_whole("Oda to Tobias: \"caf\xE9\"\nbeat B\r");
  check_whole("\t \xE3\x80\x80Oda\xE3\x80\x80looks up  --x");
}

TEST_CASE("every byte belongs to one leaf, in mangled lines") {
  std::mt19937 random(20);
  const std::string pieces[] = {"\"", "[",  ":",    ",",    "--",           " left ", "\n",
                                "\r", "2 ", "the ", "\xFF", "\xE2\x80\xAE", "「",     "'s "};
  for (const std::string& text : whole_texts()) {
    for (int round = 0; round < 60; ++round) {
      std::string mangled = text;
      for (int cut = 0; cut < 40; ++cut) {
        const std::size_t at = random() % mangled.size();
        switch (random() % 3) {
          case 0:
            mangled.erase(at, 1 + random() % 6);
            break;
          case 1:
            mangled.insert(at, pieces[random() % std::size(pieces)]);
            break;
          default:
            mangled[at] = static_cast<char>(random() % 256);
        }
      }
      check_whole(mangled);
    }
  }
}

TEST_CASE("every byte belongs to one leaf, in random bytes") {
  std::mt19937 random(21);
  for (int round = 0; round < 300; ++round) {
    std::string bytes(random() % 3000, '\0');
    for (char& byte : bytes) byte = static_cast<char>(random() % (round % 2 == 0 ? 256 : 128));
    check_whole(bytes);
  }
}

TEST_CASE("a leaf dropped or doubled shows") {
  Reading reading(every_form());
  const std::vector<Leaf> leaves = reading.tree.leaves;
  for (std::size_t i = 0; i < leaves.size(); i += 7) {
    reading.tree.leaves = leaves;
    reading.tree.leaves.erase(reading.tree.leaves.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK(print(reading.sources, reading.tree) != every_form());
  }
}

TEST_CASE("a broken line is one finding and harms no other") {
  const std::string text =
      "staging 1.0 scene\nscene S\nbeat One\nOda wlaks 2 paces too left left\nfavour Oda\nbeat two\n";
  const Reading reading(text);
  REQUIRE(reading.tree.lines.size() == 6);
  CHECK(broken_lines(reading.tree) == 2);
  CHECK(parse_findings(text) == 2);
  CHECK(std::get<BrokenLine>(reading.script.statements[3].body).first_word == "Oda");
  CHECK(std::get<IntentLine>(reading.script.statements[4].body).names[0].text == "Oda");
  CHECK(std::get<BrokenLine>(reading.script.statements[5].body).first_word == "beat");
}

TEST_CASE("as many findings as broken lines, whatever the text") {
  std::mt19937 random(22);
  const std::string good = every_form();
  for (int round = 0; round < 100; ++round) {
    std::string mangled = good;
    // Below the language line, which decides how the rest is read.
    for (int i = 0; i < 30; ++i) {
      const std::size_t at = 20 + random() % (mangled.size() - 20);
      if (mangled[at] != '\n') mangled[at] = static_cast<char>(32 + random() % 95);
    }
    const Reading reading(mangled);
    CHECK(parse_findings(mangled) == broken_lines(reading.tree));
  }
}

TEST_CASE("line ends, byte-order mark and blanks do not change what is read") {
  const std::string lf = every_form();
  std::string crlf = "\xEF\xBB\xBF";
  for (const char c : lf) crlf += c == '\n' ? std::string("\r\n") : c == ' ' ? std::string(" \t") : std::string(1, c);
  const Reading plain(lf);
  const Reading other(crlf);
  REQUIRE(plain.tree.nodes.size() == other.tree.nodes.size());
  for (std::size_t i = 0; i < plain.tree.nodes.size(); ++i) {
    REQUIRE(plain.tree.nodes[i].kind == other.tree.nodes[i].kind);
    REQUIRE(plain.tree.nodes[i].subtree == other.tree.nodes[i].subtree);
  }
}

TEST_CASE("too long a line or file") {
  const std::string head = "staging 1.0 scene\nscene S\nbeat B\n";
  // Speech of n characters all told: 12 before the words and one after.
  const auto speech = [](std::size_t length) { return "Oda to Wren: \"" + std::string(length - 15, 'a') + "\""; };
  REQUIRE(speech(2000).size() == 2000);
  CHECK(Reading(head + speech(2000)).said() == std::vector<std::string>{});
  const Reading over(head + speech(2001));
  REQUIRE(over.said().size() == 1);
  CHECK(over.said()[0] == "4:2001 parse.too-long [\"]");
  CHECK(over.findings.all()[0].message == "this line holds 2001 characters; a line may hold 2000");
  // Characters are counted, not bytes.
  std::string wide = "Oda to Wren: \"";
  for (int i = 0; i < 1900; ++i) wide += "林";
  CHECK(Reading(head + wide + "\"").said() == std::vector<std::string>{});

  const Reading huge(head + std::string(10'000'000, 'x'));
  REQUIRE(huge.said().size() == 1);
  CHECK(huge.findings.all()[0].rule == "parse.too-long");
  check_whole(std::string(2 * 1024 * 1024 + 1, '\n'));
}

TEST_CASE("the dump names nodes by rule") {
  const Reading reading("staging 1.0 scene\npause 2 s\n???\n");
  const auto dump = dump_tree(reading.sources, reading.tree);
  CHECK(dump["schema"] == "lensward/tree/1");
  CHECK(dump["statements"][1].dump() ==
        R"({"line":2,"nodes":[{"pause":[{"amount":[{"quantity":[{"number":"2"},{"unit":"s"}]}]}]}]})");
  CHECK(dump["statements"][2].dump() == R"({"line":3,"broken":true})");
}
