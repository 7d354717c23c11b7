#include "plan/speech_times.h"

#include <catch2/catch.hpp>

using namespace lensward;

namespace {

SpeechPart words(std::string text, std::uint32_t begin = 0) {
  SpeechPart part;
  part.span = {0, begin, begin + static_cast<std::uint32_t>(text.size())};
  part.words = std::move(text);
  return part;
}
SpeechPart mark(const char* name) {
  SpeechPart part;
  part.kind = SpeechPart::Kind::mark;
  part.mark.text = name;
  return part;
}
SpeechPart rest(double number, const char* unit) {
  SpeechPart part;
  part.kind = SpeechPart::Kind::rest;
  part.rest = {number, unit, {}};
  return part;
}
SpokenText spoken(const std::vector<SpeechPart>& parts, double rate = 150, Pace pace = Pace::usual) {
  return time_speech(parts, WordsPerMinute{rate}, pace, std::nullopt);
}

}  // namespace

// Line time is 60·words/rate: 10 words at 150 a minute take 4 s, 12 at 200 take 3.6 s (worked by hand).
TEST_CASE("a speech without signs takes its words by the rate") {
  CHECK(spoken({words("one two three four five six seven eight nine ten")}).length == 4000_ms);
  CHECK(spoken({words("a b c d e f g h i j k l")}, 200).length == 3600_ms);
}

TEST_CASE("signs between words rest, signs at the end do not") {
  CHECK(spoken({words("one, two")}).length == 1000_ms);
  CHECK(spoken({words("one; two: three")}).length == 1600_ms);
  CHECK(spoken({words("one. two?")}).length == 1200_ms);
  CHECK(spoken({words("one … two")}).length == 1400_ms);
  CHECK(spoken({words("one... two")}).length == 1400_ms);
  CHECK(spoken({words("one?! two!")}).length == 1200_ms);
}

// UAX 29, word boundaries: an apostrophe inside a word does not divide it, a hyphen does, a number is one word.
TEST_CASE("words are divided as Unicode divides them") {
  CHECK(words_of("I've twenty-two, 1.5 ok") == std::vector<std::string>{"I've", "twenty", "two", "1.5", "ok"});
  CHECK(words_of("…!").empty());
}

TEST_CASE("letters of scripts without spaces count half a word") {
  const SpokenText text = spoken({words("無給では、乗りません。")});
  CHECK(text.timed.size() == 9);
  CHECK(text.length == Milliseconds{9 * 200 + 200});
}

TEST_CASE("each word has its time and its place in the file") {
  const SpokenText text = spoken({words("Leave the pan. I signed", 100)});
  REQUIRE(text.timed.size() == 5);
  CHECK(text.timed[3].text == "I");
  CHECK(text.timed[3].begin == 1600_ms);
  CHECK(text.timed[3].end == 2000_ms);
  CHECK(text.timed[3].span == Span{0, 115, 116});
}

TEST_CASE("a mark is on the word that follows, or at the end") {
  const SpokenText text = spoken({words("sign it? "), mark("Turn"), words(" Or carry"), mark("Last")});
  REQUIRE(text.marks.size() == 2);
  CHECK(text.marks[0].at == 1200_ms);
  CHECK(text.marks[1].at == 2000_ms);
  CHECK(text.words == "sign it? Or carry");
}

TEST_CASE("rests keep their length whatever the pace") {
  const std::vector<SpeechPart> parts{words("one two"), rest(0.8, "s"), words("three")};
  CHECK(spoken(parts).length == 2000_ms);
  CHECK(spoken(parts, 150, Pace::slowly).length == 2420_ms);
  CHECK(spoken(parts, 150, Pace::briskly).length == 1760_ms);
  CHECK(spoken(parts, 150, Pace::hurrying).length == 1520_ms);
  const SpokenText told = time_speech(parts, WordsPerMinute{150}, Pace::usual, 4400_ms);
  CHECK(told.length == 4400_ms);
  CHECK(told.timed[1].begin == 1200_ms);
  CHECK(told.timed[2].begin == 3200_ms);
}

TEST_CASE("a speech cut off ends where the word begins") {
  SpokenText text = spoken({words("you never once wrote it")});
  cut_off(text, 2);
  CHECK(text.length == 800_ms);
  REQUIRE(text.timed.size() == 3);
  CHECK(text.timed[2].end == 800_ms);
}

TEST_CASE("a speech that trails off slows in its last three words; marks go with them") {
  SpokenText text = spoken({words("you never "), mark("Turn"), words("once wrote it")});
  trail_off(text);
  CHECK(text.length == 2420_ms);
  CHECK(text.timed[1].end == 800_ms);
  CHECK(text.timed[2].begin == 800_ms);
  CHECK(text.timed[3].begin == 1340_ms);
  CHECK(text.marks.front().at == 800_ms);
  SpokenText short_text = spoken({words("it")});
  trail_off(short_text);
  CHECK(short_text.length == 540_ms);
}

TEST_CASE("a speech of no words takes no time") { CHECK(spoken({words("…")}).length == 0_ms); }
