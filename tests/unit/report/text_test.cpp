#include "report/text.h"

#include <catch2/catch.hpp>

#include "report/json.h"

using namespace lensward;

namespace {

struct Written {
  SourceSet sources;
  Findings findings;

  explicit Written(std::string text) { sources.add(SourceFile("monday.staging", std::move(text))); }
  Finding& add(Severity severity, std::uint32_t begin, std::uint32_t end, std::string message) {
    Finding finding;
    finding.rule = "wandering-eye";
    finding.severity = severity;
    finding.where = {0, begin, end};
    finding.message = std::move(message);
    return findings.add(std::move(finding));
  }
};

}  // namespace

TEST_CASE("a finding in full") {
  Written run("people Oda\nfavour Oda\n");
  Finding& finding = run.add(Severity::error, 11, 21, "`Oda` is asked for, `Jun` has the eye");
  finding.on_set = "the turn is lost";
  finding.next_step = "turn Jun away";
  finding.labels.push_back({{0, 7, 10}, "Oda is declared here"});
  finding.because = {{"voice of `Jun`", "22 points", "weight × strength"}, {"gate of `Oda`", "0.4", ""}};
  CHECK(findings_text(run.sources, run.findings, false) ==
        "monday.staging:2:1: error: `Oda` is asked for, `Jun` has the eye [wandering-eye]\n"
        "    2 | favour Oda\n"
        "      | ^~~~~~~~~~\n"
        "  see: line 1: Oda is declared here\n"
        "    1 | people Oda\n"
        "      |        ~~~\n"
        "  why: the turn is lost\n"
        "  next: turn Jun away\n"
        "    because voice of `Jun`: 22 points\n"
        "    because gate of `Oda`: 0.4\n"
        "\n"
        "1 error; start at monday.staging:2:1\n");
}

TEST_CASE("remarks come after all else, without their excerpt") {
  Written run("people Oda\nfavour Oda\n");
  run.add(Severity::remark, 0, 10, "no height told for `Oda`").next_step = "to settle it: `person Oda, height 1.7 m`";
  run.add(Severity::warning, 11, 21, "`Oda` leads by little");
  CHECK(findings_text(run.sources, run.findings, false) ==
        "monday.staging:2:1: warning: `Oda` leads by little [wandering-eye]\n"
        "    2 | favour Oda\n"
        "      | ^~~~~~~~~~\n"
        "\n"
        "monday.staging:1:1: remark: no height told for `Oda` [wandering-eye]\n"
        "  next: to settle it: `person Oda, height 1.7 m`\n"
        "1 warning, 1 remark; start at monday.staging:2:1\n");
}

TEST_CASE("the closing line counts in words and starts at the gravest") {
  Written run("one\ntwo\nthree\n");
  CHECK(counts_in_words(run.sources, run.findings) == "no findings");
  run.add(Severity::remark, 0, 3, "a");
  run.add(Severity::remark, 0, 3, "b");
  run.add(Severity::warning, 4, 7, "c");
  run.add(Severity::error, 8, 13, "d");
  run.add(Severity::error, 0, 3, "e").waived_because = "on purpose";
  CHECK(counts_in_words(run.sources, run.findings) ==
        "1 error, 1 warning, 2 remarks, 1 waived; start at monday.staging:3:1");
}

TEST_CASE("waived findings are one line each, at the end") {
  Written run("one\n");
  run.add(Severity::error, 0, 3, "`Piet` is masked").waived_because = "he is the turned back";
  CHECK(findings_text(run.sources, run.findings, false) ==
        "waived: monday.staging:1:1: `Piet` is masked, because he is the turned back [wandering-eye]\n"
        "no findings, 1 waived\n");
  CHECK(findings_lines(run.sources, run.findings) == "monday.staging:1:1: waived: `Piet` is masked [wandering-eye]\n");
}

TEST_CASE("the same words are told once in text, each time in lines") {
  Written run("one\ntwo\nthree\n");
  for (std::uint32_t begin : {0u, 4u, 8u}) run.add(Severity::error, begin, begin + 3, "nobody is called `Jon`");
  const std::string text = findings_text(run.sources, run.findings, false);
  CHECK(text.find("nobody") == text.rfind("nobody"));
  CHECK(text.find("  also: line 2, line 3\n") != std::string::npos);
  CHECK(text.ends_with("3 errors; start at monday.staging:1:1\n"));
  const std::string lines = findings_lines(run.sources, run.findings);
  CHECK(std::count(lines.begin(), lines.end(), '\n') == 3);
}

TEST_CASE("one place and the same people are told once, with the further times") {
  Written run("one\ntwo\n");
  for (int second : {1, 5, 9}) {
    Finding& finding = run.add(Severity::error, 0, 3, "bump at " + std::to_string(second));
    finding.at = Moment{second * 1000};
    finding.subject.people = {"Oda"};
    finding.subject.beat = "Papers";
  }
  run.add(Severity::error, 0, 3, "bump of another").subject.people = {"Jun"};
  const std::string text = findings_text(run.sources, run.findings, false);
  CHECK(text.find("  also: 5 s in beat `Papers`, 9 s in beat `Papers`\n") != std::string::npos);
  CHECK(text.find("bump at 5") == std::string::npos);
  CHECK(text.find("bump of another") != std::string::npos);

  Written alike("beat One\nbeat Two\n");
  for (const char* person : {"Oda", "Jun"}) {
    Finding& finding = alike.add(Severity::error, 9, 17, std::string(person) + " is too bright");
    finding.at = Moment{4000};
    finding.next_step = "dim the lamp";
    finding.subject.people = {person};
    finding.subject.beat = "Two";
  }
  alike.add(Severity::error, 0, 8, "Pell is too bright").subject.people = {"Pell"};
  Finding& reasoned = alike.add(Severity::error, 0, 8, "Wren is too bright");
  reasoned.subject.people = {"Wren"};
  reasoned.next_step = "dim the lamp";
  reasoned.because = {{"the lamp", "900 lux", ""}};
  const std::string once = findings_text(alike.sources, alike.findings, false);
  CHECK(once.find("  also: `Jun`, 4 s in beat `Two`\n") != std::string::npos);
  CHECK(once.find("Jun is too bright") == std::string::npos);
  CHECK(once.find("Pell is too bright") != std::string::npos);
  CHECK(once.find("Wren is too bright") != std::string::npos);

  Written defaults("one\n");
  defaults.add(Severity::remark, 0, 3, "no camera told");
  defaults.add(Severity::remark, 0, 3, "no lamp told");
  CHECK(findings_text(defaults.sources, defaults.findings, false).find("no lamp told") != std::string::npos);
}

TEST_CASE("a flood is cut short in text and counted whole") {
  Written run("one\n");
  for (int i = 0; i < 230; ++i) {
    run.add(Severity::error, 0, 3, "m" + std::to_string(i)).subject.people = {std::to_string(i)};
  }
  for (int i = 0; i < 20; ++i) run.add(Severity::error, 0, 3, "m0");
  const std::string text = findings_text(run.sources, run.findings, false);
  CHECK(text.find(": m199 ") != std::string::npos);
  CHECK(text.find(": m200 ") == std::string::npos);
  CHECK(text.find("8 further\n") != std::string::npos);
  CHECK(text.find("and 30 further, which") != std::string::npos);
  CHECK(text.ends_with("250 errors; start at monday.staging:1:1\n"));
}

TEST_CASE("six reasons at most, and how many more") {
  Written run("one\n");
  Finding& finding = run.add(Severity::error, 0, 3, "m");
  for (int i = 0; i < 8; ++i) finding.because.push_back({"q" + std::to_string(i), "1", ""});
  const std::string text = findings_text(run.sources, run.findings, false);
  CHECK(text.find("q5") != std::string::npos);
  CHECK(text.find("q6") == std::string::npos);
  CHECK(text.find("    and 2 further reasons\n") != std::string::npos);
}

TEST_CASE("long words are wrapped under their lead") {
  Written run("one\n");
  Finding& finding = run.add(Severity::error, 0, 3, "m");
  for (int i = 0; i < 30; ++i) finding.next_step += "weather ";
  finding.next_step += "end";
  const std::string text = findings_text(run.sources, run.findings, false);
  std::size_t begin = text.find("  next: ");
  const std::string first = text.substr(begin, text.find('\n', begin) - begin);
  CHECK(first.size() <= 100);
  CHECK(text.find("\n        weather") != std::string::npos);
}

TEST_CASE("a line to be copied is not broken") {
  Written run("one\n");
  const std::string line = "`camera A, at (3.5, -1) m, height 1.5 m, lens 35 mm, stop T2.8, aims at (3.5, 2.5) m`";
  run.add(Severity::remark, 0, 3, "m").next_step = "to settle it, and for good: " + line;
  CHECK(findings_text(run.sources, run.findings, false).find("        " + line + "\n") != std::string::npos);
}

TEST_CASE("colour only when asked for, and nothing else of it changes") {
  Written run("one\n");
  run.add(Severity::warning, 0, 3, "m\x1b[31m");
  const std::string plain = findings_text(run.sources, run.findings, false);
  CHECK(plain.find('\x1b') == std::string::npos);
  std::string coloured = findings_text(run.sources, run.findings, true);
  CHECK(coloured != plain);
  for (std::size_t at; (at = coloured.find('\x1b')) != std::string::npos;) {
    coloured.erase(at, coloured.find('m', at) + 1 - at);
  }
  CHECK(coloured == plain);
}

TEST_CASE("findings for other programs") {
  // The clef takes four bytes, one code point, two units of UTF-16.
  Written run("\xF0\x9D\x84\x9E Oda\n");
  Finding& finding = run.add(Severity::error, 5, 8, "m");
  finding.at = 1500_ms;
  finding.repairs.push_back({Repair::Kind::safe, "spell it out", {{{0, 5, 8}, "Ada"}}});
  const auto json = findings_json(run.sources, run.findings);
  CHECK(json["schema"] == "lensward/findings/1");
  CHECK(json["counts"]["error"] == 1);
  const auto& first = json["findings"][0];
  CHECK(first["where"]["begin"] == 5);
  CHECK(first["where"]["line"] == 1);
  CHECK(first["where"]["column"] == 3);
  CHECK(first["where"]["utf16_column"] == 4);
  CHECK(first["where"]["end_utf16_column"] == 7);
  CHECK(first["at_ms"] == 1500);
  CHECK(first["on_set"].is_null());
  CHECK(first["repairs"][0]["edits"][0]["text"] == "Ada");
  CHECK(first["waived_because"].is_null());
}
