#include "syntax/tidy.h"

#include <random>
#include <sstream>

#include "read_text.h"
#include "syntax/tidy_proof.h"
#include "syntax/verb_forms.h"

using namespace lensward;

namespace {

Tidied tidied(const std::string& text) {
  SourceSet sources;
  return tidy(sources, sources.add(SourceFile("test.staging", text)));
}

// The tidied text. Requires that it is proved, and that tidying it again changes nothing.
std::string settled(const std::string& text, const Tidied& once) {
  INFO(text.substr(0, 6000));
  REQUIRE(once.refusal == "");
  const Tidied twice = tidied(once.text);
  REQUIRE(twice.refusal == "");
  REQUIRE(twice.text == once.text);
  return once.text;
}

std::string tidy_text(const std::string& text) { return settled(text, tidied(text)); }

const std::string head = "staging 1.0 scene\nscene S\npeople Oda, Tobias\ngroup Guests, of Oda and Tobias\n\nbeat B\n";

// What a line of a beat becomes.
std::string line(const std::string& written) {
  const std::string text = tidy_text(head + written + "\n");
  REQUIRE(text.starts_with(head));
  return text.substr(head.size());
}

std::string difference_between(const std::string& a, const std::string& b) {
  SourceSet one;
  SourceSet other;
  one.add(SourceFile("a", a));
  other.add(SourceFile("b", b));
  return difference(read_file(one, 0), read_file(other, 0));
}

// All that is spoken, as the script has it, without the spaces at which a speech may have been broken.
std::string spoken_in(const Reading& reading) {
  std::string words;
  for (const Statement& statement : reading.script.statements) {
    const auto* speech = std::get_if<SpeechLine>(&statement.body);
    if (speech == nullptr) continue;
    for (const SpeechPart& part : speech->parts) words += part.words;
  }
  std::erase(words, ' ');
  return words;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string each; std::getline(in, each);) lines.push_back(each);
  return lines;
}

std::string mangled(std::string text, std::mt19937& random) {
  const std::string pieces[] = {"\"",   ", on \"tar\"", ":",        ",",           " -- x ",          "  ", "\n\n",
                                "\r\n", "2.50 m",       "the ",     "\xFF",        "instead of Nell", "[",  "]",
                                "+ ",   "'s ",          "beat X\n", "\xEF\xBB\xBF"};
  for (int cut = 0; cut < 30; ++cut) {
    const std::size_t at = random() % text.size();
    switch (random() % 4) {
      case 0:
        text.erase(at, 1 + random() % 6);
        break;
      case 1:
        text.insert(at, pieces[random() % std::size(pieces)]);
        break;
      case 2: {
        const std::size_t from = random() % text.size();
        text.insert(at, text.substr(from, random() % 60));
        break;
      }
      default:
        text[at] = static_cast<char>(32 + random() % 95);
    }
    if (text.empty()) text = " ";
  }
  return text;
}

}  // namespace

TEST_CASE("one spelling") {
  CHECK(line("favor   Oda") == "  favour Oda\n");
  CHECK(line("Oda walks towards Tobias ,around the Table") == "  Oda walks toward Tobias, round the Table\n");
  CHECK(line("Oda is frame center,background") == "  Oda is frame centre, deep\n");
  CHECK(line("pause 2.50s") == "  pause 2.5 s\n");
  CHECK(line("Oda is at ( 3.0 , −2.0 )m, height 1.60  m") == "  Oda is at (3, -2) m, height 1.6 m\n");
  CHECK(line("light Lamp fades to 40.0 %") == "  light Lamp fades to 40%\n");
  CHECK(line("camera A is at the Table, stop T2.80") == "  camera A is at the Table, stop T2.8\n");
  CHECK(line("Oda is at O’Brien’s left") == "  Oda is at O'Brien's left\n");
  // Words of the writer's own keep their spelling.
  CHECK(line("note for color \"a color\"") == "  note for color \"a color\"\n");
  CHECK(line("Oda to Tobias:\"My favor,  towards  the center.\"") ==
        "  Oda to Tobias: \"My favor,  towards  the center.\"\n");
}

TEST_CASE("verbs agree with their subjects") {
  CHECK(line("Oda look at Tobias") == "  Oda looks at Tobias\n");
  CHECK(line("Oda and Tobias hurries to the Table") == "  Oda and Tobias hurry to the Table\n");
  CHECK(line("Oda, Tobias and Wren is at the Table") == "  Oda, Tobias and Wren are at the Table\n");
  CHECK(line("Guests looks at Oda") == "  Guests look at Oda\n");
  CHECK(line("everyone but Oda and Tobias look at Oda") == "  everyone but Oda and Tobias looks at Oda\n");
  CHECK(line("camera push in 20 cm") == "  camera pushes in 20 cm\n");
  // Of the Keys the file does not tell whether they are one.
  CHECK(line("the Keys fall") == "  the Keys fall\n");
  CHECK(line("Oda flurb the Table") == "  Oda flurb the Table\n");
  CHECK(verb_of_several("carries") == "carry");
  CHECK(verb_of_one("lie") == "lies");
}

TEST_CASE("one order of clauses") {
  CHECK(line("Oda walks as Cross, named Go, to the Table, over 2 s, slowly, frontal, medium shot") ==
        "  Oda walks to the Table, medium shot, frontal, slowly, over 2 s, as Cross, named Go\n");
  CHECK(line("Oda to Tobias, named Shut, on \"x\", softly: \"Now.\"") ==
        "  Oda to Tobias, softly, on \"x\", named Shut: \"Now.\"\n");
  // `off` is no part of the verb.
  CHECK(line("Oda hums as Gull, off") == "  Oda hums, off, as Gull\n");
  CHECK(line("Oda walks via (3, 2) m, to the Table, via (1, 2) m") ==
        "  Oda walks via (3, 2) m, to the Table, via (1, 2) m\n");
  // A declaration keeps its writer's order.
  CHECK(tidy_text("staging 1.0 scene\nscene S\nlight Lamp, height 2 m, over the Table, practical\n") ==
        "staging 1.0 scene\nscene S\nlight Lamp, height 2 m, over the Table, practical\n");
}

TEST_CASE("clauses in any order come out in one") {
  std::mt19937 random(30);
  std::vector<std::string> clauses = {"to the Table", "medium shot",    "sitting",  "frontal",       "with both hands",
                                      "height 1.2 m", "slowly",         "over 2 s", "as Go",         "until Cross",
                                      "runs on",      "named Crossing", "fixed",    "because \"so\""};
  std::string in_order;
  for (const std::string& clause : clauses) in_order += ", " + clause;
  const std::string expected = line("Oda walks" + in_order);
  for (int round = 0; round < 40; ++round) {
    std::shuffle(clauses.begin(), clauses.end(), random);
    std::string shuffled;
    for (const std::string& clause : clauses) shuffled += ", " + clause;
    CHECK(line("Oda walks" + shuffled) == expected);
  }
}

TEST_CASE("one layout") {
  const std::string text =
      "\xEF\xBB\xBF\r\n\r\nstaging 1.0 scene\r\n\r\n   scene  S   \"A title\"\t\r\n\r\n\r\nroom 5 m by 4 m -- small "
      "\r\n"
      "-- of the first\r\nbeat One\r\nOda is near Tobias-- here\r\n\r\n\r\n+ sitting\r\n-- kept\r\nOda:\r\n\"Yes.\"\r\n"
      "way B of One\r\nwithout Oda is\r\n\r\n";
  CHECK(tidy_text(text) ==
        "staging 1.0 scene\nscene S \"A title\"\n\nroom 5 m by 4 m  -- small\n\n-- of the first\nbeat One\n"
        "  Oda is near Tobias  -- here\n\n  + sitting\n  -- kept\n  Oda:\n    \"Yes.\"\n\nway B of One\n"
        "  without Oda is\n");
  CHECK(tidy_text("").empty());
  CHECK(tidy_text("\n \n\t\n").empty());
}

TEST_CASE("wide lines are broken at commas, speeches at spaces") {
  CHECK(
      line("Oda walks to the Table, round the Sideboard, past Tobias, via (3, 3) m, passing beyond Tobias, hurrying") ==
      "  Oda walks to the Table, round the Sideboard, past Tobias, via (3, 3) m, passing beyond Tobias\n"
      "  + hurrying\n");
  const std::string broken = line(
      "Oda to Tobias, softly: \"The house, the jetty, the two boats and all of it. He has the keys tomorrow. [Then] I "
      "never knew how.\"");
  CHECK(broken ==
        "  Oda to Tobias, softly:\n"
        "    \"The house, the jetty, the two boats and all of it. He has the keys tomorrow. [Then] I never\"\n"
        "    \"knew how.\"\n");
  // Cells, not bytes: 45 characters of two cells each, and no space to break at.
  std::string wide;
  for (int i = 0; i < 45; ++i) wide += "林";
  CHECK(line("Oda:「" + wide + "」") == "  Oda:\n    「" + wide + "」\n");
  // Hand-made breaks stay.
  CHECK(line("Oda walks to the Table\n+ slowly") == "  Oda walks to the Table\n  + slowly\n");
}

TEST_CASE("what cannot be read stays byte for byte") {
  const std::string text = head + "  Oda   flies  ; away \t\n\t Oda walks too 2 paces\r\nfavour Oda\n";
  CHECK(tidy_text(text) == head + "  Oda   flies  ; away \t\n\t Oda walks too 2 paces\n  favour Oda\n");
  // An unfinished merge, whole.
  const std::string merge = head + "<<<<<<< mine\nfavor   Oda\n\n\n=======\nfavour  Tobias\n>>>>>>> theirs\n";
  CHECK(tidy_text(merge) == merge);
  // A number without its unit is read by no one, nor is a line that stands where it may not.
  CHECK(line("pause   2") == "pause   2\n");
  CHECK(line("room  3 m   by 4 m") == "room  3 m   by 4 m\n");
  const std::string newer = "staging 2.0 scene\n\n\n  anything   at all\n\n";
  CHECK(tidy_text(newer) == newer);
  CHECK(tidied(std::string("beat B\r")).text == "beat B\r\r\n");
}

TEST_CASE("names are composed, spoken words are not") {
  const std::string decomposed = "Ame\xCC\x81lie";
  const std::string composed_name = "Am\xC3\xA9lie";
  CHECK(line("favour " + decomposed + "  -- " + decomposed) ==
        "  favour " + composed_name + "  -- " + composed_name + "\n");
  CHECK(line("Oda: \"[" + decomposed + "] " + decomposed + "\"") ==
        "  Oda: \"[" + composed_name + "] " + decomposed + "\"\n");
  CHECK(Reading(head + "favour " + decomposed).last<IntentLine>().names[0].text == composed_name);
}

TEST_CASE("a way still calls the lines it called") {
  const std::string text =
      head +
      "favor   Oda\nOda  walks  to the Table, named Go, slowly\nOda: \"Now or never.\"\n\nway C of B\n"
      "without favor   Od\ninstead of Oda  walks  to the Table, named: Oda rises\n"
      "without \"Now or\"\nwithout Nobody\n";
  CHECK(tidy_text(text) ==
        head +
            "  favour Oda\n  Oda walks to the Table, named Go, slowly\n  Oda: \"Now or never.\"\n\nway C of B\n"
            "  without favour Od\n  instead of Oda walks to the Table, named: Oda rises\n"
            "  without \"Now or\"\n  without Nobody\n");
}

TEST_CASE("the proof sees every change") {
  const std::string text =
      head +
      "-- first\nfavour Oda, just, on \"x\"\nOda walks to the Table, over 2 s  -- why\n+ slowly\n"
      "Oda to Tobias: \"Now or never.\"\n\"And [Then] then.\"\nwarp 9\nway C of B\nwithout Oda walks\n";
  CHECK(difference_between(text, text).empty());
  const std::pair<std::string, std::string> changes[] = {{"favour Oda", "favour Tobias"},
                                                         {"just", "outright"},
                                                         {", just", ""},
                                                         {"to the Table", "by the Table"},
                                                         {"2 s", "3 s"},
                                                         {"+ slowly", "+ briskly"},
                                                         {"+ slowly\n", ""},
                                                         {"Now or", "Now  or"},
                                                         {"[Then]", "[When]"},
                                                         {"then.", "than."},
                                                         {"-- first", "-- fist"},
                                                         {"-- first\n", ""},
                                                         {"  -- why", ""},
                                                         {"warp 9", "warp  9"},
                                                         {"warp 9\n", ""},
                                                         {"to Tobias:", ":"},
                                                         {"Oda walks\n", "Oda to\n"},
                                                         {"beat B", "beat C"},
                                                         {"people Oda, Tobias", "people Tobias, Oda"}};
  for (const auto& [was, is] : changes) {
    std::string changed = text;
    changed.replace(changed.find(was), was.size(), is);
    INFO(was << " -> " << is);
    CHECK(!difference_between(text, changed).empty());
  }
  // Every line dropped, and every two neighbours exchanged, shows.
  const std::vector<std::string> lines = lines_of(text);
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    std::string dropped;
    std::string exchanged;
    for (std::size_t j = 0; j < lines.size(); ++j) {
      if (j != i) dropped += lines[j] + "\n";
      exchanged += lines[j == i ? i + 1 : j == i + 1 ? i : j] + "\n";
    }
    INFO(lines[i]);
    if (lines[i].empty()) continue;
    CHECK(!difference_between(text, dropped).empty());
    if (!lines[i + 1].empty()) CHECK(!difference_between(text, exchanged).empty());
  }
}

TEST_CASE("whole texts are tidied without harm") {
  for (const std::string& text : whole_texts()) {
    const std::string after = tidy_text(text);
    const Reading before(text);
    const Reading reading(after);
    CHECK(reading.said() == std::vector<std::string>{});
    CHECK(reading.script.statements.size() == before.script.statements.size());
    for (const std::string& each : lines_of(after)) CHECK((each.empty() || each.back() != ' '));
  }
}

TEST_CASE("mangled texts are tidied without harm") {
  std::mt19937 random(31);
  int refused = 0;
  for (const std::string& text : whole_texts()) {
    for (int round = 0; round < 150; ++round) {
      const std::string bad = mangled(text, random);
      // By chance a style of other words would make the opening words of a way call other lines: then nothing is
      // changed.
      const Tidied once = tidied(bad);
      if (once.refusal.find("opening words") != std::string::npos) {
        REQUIRE(once.text == bad);
        CHECK(++refused < 5);
        continue;
      }
      const std::string after = settled(bad, once);
      const Reading before(bad);
      REQUIRE(spoken_in(before) == spoken_in(Reading(after)));
      // Each broken line is there still.
      for (const TreeLine& each : before.tree.lines) {
        if (!each.broken || each.begin == 0) continue;
        std::string broken = bad.substr(each.begin, each.end - each.begin);
        while (!broken.empty() && (broken.back() == '\n' || broken.back() == '\r')) broken.pop_back();
        REQUIRE(after.find(broken) != std::string::npos);
      }
    }
  }
}

TEST_CASE("the diff shows what becomes of each line") {
  const std::string text = "staging 1.0 scene\nscene S\npeople Oda\nroom 5 m by 4 m\nbeat B\nfavor Oda\npause 1 s";
  CHECK(diff_of("s.staging", text, tidied(text).text, tidied(text).lines) ==
        "--- s.staging\n+++ s.staging\n@@ -2,6 +2,7 @@\n scene S\n people Oda\n room 5 m by 4 m\n+\n beat B\n"
        "-favor Oda\n-pause 1 s\n\\ No newline at end of file\n+  favour Oda\n+  pause 1 s\n");
  const std::string tidy_already = tidied(text).text;
  CHECK(diff_of("s.staging", tidy_already, tidied(tidy_already).text, tidied(tidy_already).lines).empty());
}
