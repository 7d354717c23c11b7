#include "plan/speech_times.h"

#include <unicode/ubrk.h>
#include <unicode/utext.h>

#include <algorithm>
#include <initializer_list>
#include <memory>
#include <string_view>
#include <utility>

namespace lensward {
namespace {

constexpr double short_pause = 0.2, stop_pause = 0.4, ellipsis_pause = 0.6;
constexpr double letter_weight = 0.5;

// A stretch of a text: a word of so much weight, or what stands between words.
struct Token {
  std::size_t begin = 0, end = 0;
  double weight = 0;
};

struct CloseText {
  void operator()(UText* text) const { utext_close(text); }
};
struct CloseIterator {
  void operator()(UBreakIterator* iterator) const { ubrk_close(iterator); }
};

// One iterator for the whole run would be quicker still, but would be state outside any value.
class WordBreaks {
 public:
  WordBreaks() {
    UErrorCode error = U_ZERO_ERROR;
    // The root rules: the same words on every machine.
    iterator_.reset(ubrk_open(UBRK_WORD, "", nullptr, 0, &error));
    if (U_FAILURE(error) != 0) iterator_.reset();
  }

  std::vector<Token> tokens(std::string_view text) {
    UErrorCode error = U_ZERO_ERROR;
    const std::unique_ptr<UText, CloseText> utf8(
        utext_openUTF8(nullptr, text.data(), static_cast<std::int64_t>(text.size()), &error));
    std::vector<Token> found;
    if (iterator_ == nullptr || U_FAILURE(error) != 0) return found;
    ubrk_setUText(iterator_.get(), utf8.get(), &error);
    if (U_FAILURE(error) != 0) return found;
    auto from = static_cast<std::size_t>(ubrk_first(iterator_.get()));
    for (std::int32_t to = ubrk_next(iterator_.get()); to != UBRK_DONE; to = ubrk_next(iterator_.get())) {
      const auto end = static_cast<std::size_t>(to);
      add(text, from, end, ubrk_getRuleStatus(iterator_.get()), found);
      from = end;
    }
    return found;
  }

 private:
  static std::size_t next_character(std::string_view text, std::size_t at) {
    do ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U);
    return at;
  }

  static void add(std::string_view text, std::size_t from, std::size_t to, std::int32_t status,
                  std::vector<Token>& found) {
    if (status < UBRK_WORD_KANA) {
      found.push_back({from, to, status < UBRK_WORD_NUMBER ? 0.0 : 1.0});
      return;
    }
    // Where these are divided into words depends on a dictionary, and dictionaries change: letters do not.
    for (std::size_t at = from; at < to;) {
      const std::size_t end = std::min(next_character(text, at), to);
      found.push_back({at, end, letter_weight});
      at = end;
    }
  }

  std::unique_ptr<UBreakIterator, CloseIterator> iterator_;
};

bool holds_any(std::string_view text, std::initializer_list<std::string_view> signs) {
  return std::any_of(signs.begin(), signs.end(),
                     [&](std::string_view sign) { return text.find(sign) != std::string_view::npos; });
}

double pause_in(std::string_view between) {
  if (holds_any(between, {"…", "..."})) return ellipsis_pause;
  if (holds_any(between, {".", "?", "!", "。", "！", "？", "؟", "।"})) return stop_pause;
  if (holds_any(between, {",", ";", ":", "、", "，", "；", "：", "،"})) return short_pause;
  return 0;
}

double pace_factor(Pace pace) {
  switch (pace) {
    case Pace::slowly:
      return 1.35;
    case Pace::briskly:
      return 0.8;
    case Pace::hurrying:
      return 0.6;
    case Pace::usual:
      break;
  }
  return 1;
}

double seconds_of(const Figure& figure) {
  if (figure.unit == "ms") return figure.number / 1000;
  if (figure.unit == "min") return figure.number * 60;
  return figure.number;
}

// Seconds that bend with the pace, and seconds that do not.
struct Stretch {
  double spoken = 0, rest = 0;
  double at(double factor) const { return spoken * factor + rest; }
};
struct RawWord {
  std::string text;
  Stretch begin, end;
  Span span;
};
struct RawMark {
  std::string name;
  Stretch at;
  Span span;
};

class Speaking {
 public:
  explicit Speaking(WordsPerMinute rate) : second_a_word_(60 / rate.value) {}

  void add(const SpeechPart& part) {
    switch (part.kind) {
      case SpeechPart::Kind::words:
        add_words(part);
        break;
      case SpeechPart::Kind::mark:
        waiting_.push_back({part.mark.text, {}, part.mark.span});
        break;
      case SpeechPart::Kind::rest:
        settle_marks();
        now_.rest += seconds_of(part.rest);
        break;
    }
  }

  SpokenText finish(Pace pace, std::optional<Milliseconds> told) {
    pending_ = 0;
    settle_marks();
    double factor = pace_factor(pace);
    if (told && now_.spoken > 0) factor = std::max(to_seconds(*told).value - now_.rest, 0.0) / now_.spoken;
    const auto moment = [&](Stretch stretch) { return to_milliseconds(Seconds{stretch.at(factor)}); };
    SpokenText text;
    text.words = std::move(text_);
    for (RawWord& word : words_) {
      text.timed.push_back({std::move(word.text), moment(word.begin), moment(word.end), word.span});
    }
    for (RawMark& mark : marks_) text.marks.push_back({std::move(mark.name), moment(mark.at), mark.span});
    text.length = told.value_or(moment(now_));
    return text;
  }

 private:
  void settle_marks() {
    Stretch at = now_;
    at.spoken += pending_;
    for (RawMark& mark : waiting_) {
      mark.at = at;
      marks_.push_back(std::move(mark));
    }
    waiting_.clear();
  }

  void add_words(const SpeechPart& part) {
    append(part.words);
    for (const Token& token : breaks_.tokens(part.words)) {
      const std::string_view text = std::string_view(part.words).substr(token.begin, token.end - token.begin);
      if (token.weight == 0) {
        // The three points of an ellipsis come one by one.
        points_ = text == "." ? points_ + 1 : 0;
        const double pause = points_ >= 3 ? ellipsis_pause : pause_in(text);
        if (!words_.empty()) pending_ = std::max(pending_, pause);
        continue;
      }
      points_ = 0;
      settle_marks();
      now_.spoken += pending_;
      pending_ = 0;
      const Stretch begin = now_;
      now_.spoken += token.weight * second_a_word_;
      words_.push_back({std::string(text), begin, now_, span_of(part, token)});
    }
  }

  // A part is as written, byte for byte, so a word's place in it is its place in the file.
  static Span span_of(const SpeechPart& part, const Token& token) {
    if (part.span.end - part.span.begin != part.words.size()) return part.span;
    return {part.span.file, part.span.begin + static_cast<std::uint32_t>(token.begin),
            part.span.begin + static_cast<std::uint32_t>(token.end)};
  }

  void append(std::string_view words) {
    bool blank = !text_.empty();
    for (const char c : words) {
      if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
        blank = !text_.empty();
        continue;
      }
      if (blank && !text_.empty()) text_ += ' ';
      blank = false;
      text_ += c;
    }
  }

  WordBreaks breaks_;
  double second_a_word_;
  Stretch now_;
  double pending_ = 0;
  int points_ = 0;
  std::string text_;
  std::vector<RawWord> words_;
  std::vector<RawMark> waiting_, marks_;
};

}  // namespace

SpokenText time_speech(const std::vector<SpeechPart>& parts, WordsPerMinute rate, Pace pace,
                       std::optional<Milliseconds> told) {
  Speaking speaking(rate);
  for (const SpeechPart& part : parts) speaking.add(part);
  return speaking.finish(pace, told);
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (const Token& token : WordBreaks().tokens(text)) {
    if (token.weight > 0) words.push_back(text.substr(token.begin, token.end - token.begin));
  }
  return words;
}

void trail_off(SpokenText& speech) {
  constexpr std::size_t trailing = 3;
  const std::vector<Word> words = speech.timed;
  const std::size_t first = words.size() - std::min(trailing, words.size());
  const double longer = pace_factor(Pace::slowly) - 1;
  const auto later = [&](Milliseconds at) {
    double spoken = 0;
    for (std::size_t i = first; i < words.size(); ++i) {
      if (at > words[i].begin) spoken += to_seconds(std::min(at, words[i].end) - words[i].begin).value;
    }
    return at + to_milliseconds(Seconds{spoken * longer});
  };
  for (Word& word : speech.timed) {
    word.begin = later(word.begin);
    word.end = later(word.end);
  }
  for (SpeechMarkTime& mark : speech.marks) mark.at = later(mark.at);
  speech.length = later(speech.length);
}

void cut_off(SpokenText& speech, std::size_t word) {
  const Milliseconds at = speech.timed[word].begin;
  speech.timed.resize(word + 1);
  speech.timed.back().end = at;
  for (SpeechMarkTime& mark : speech.marks) mark.at = std::min(mark.at, at);
  speech.length = at;
}

}  // namespace lensward
