#include "editor/wire.h"

#include <algorithm>
#include <utility>

#include "source/character.h"

namespace lensward {
namespace {

constexpr std::string_view file_scheme = "file://";
constexpr std::string_view hex_digits = "0123456789ABCDEF";

// Unreserved characters of RFC 3986, and the slash.
bool stands_for_itself(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         std::string_view("-._~/").find(c) != std::string_view::npos;
}

int hex_value(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::optional<std::string> unescaped(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      plain += text[i];
      continue;
    }
    const int high = i + 2 < text.size() ? hex_value(text[i + 1]) : -1;
    const int low = i + 2 < text.size() ? hex_value(text[i + 2]) : -1;
    if (high < 0 || low < 0 || high + low == 0) return std::nullopt;
    plain += static_cast<char>(high * 16 + low);
    i += 2;
  }
  return plain;
}

// The unit that an escape \uXXXX at `at` writes; -1 when none stands there.
int unit_at(std::string_view text, std::size_t at) {
  if (at + 6 > text.size() || text[at] != '\\' || text[at + 1] != 'u') return -1;
  int unit = 0;
  for (std::size_t i = at + 2; i < at + 6; ++i) {
    const int digit = hex_value(text[i]);
    if (digit < 0) return -1;
    unit = unit * 16 + digit;
  }
  return unit;
}

bool is_high_half(int unit) { return unit >= 0xD800 && unit < 0xDC00; }
bool is_low_half(int unit) { return unit >= 0xDC00 && unit < 0xE000; }

}  // namespace

std::string uri_of(const std::string& path) {
  std::string uri(file_scheme);
  for (const char c : path) {
    if (stands_for_itself(c)) {
      uri += c;
    } else {
      const auto byte = static_cast<unsigned char>(c);
      uri += {'%', hex_digits[byte / 16], hex_digits[byte % 16]};
    }
  }
  return uri;
}

std::optional<std::string> path_of(const std::string& uri) {
  if (!uri.starts_with(file_scheme)) return std::nullopt;
  std::string_view rest = std::string_view(uri).substr(file_scheme.size());
  if (rest.starts_with("localhost/")) rest.remove_prefix(std::string_view("localhost").size());
  if (!rest.starts_with('/')) return std::nullopt;
  return unescaped(rest.substr(0, rest.find_first_of("?#")));
}

JsonValue to_json(Caret caret) { return {{"line", caret.line}, {"character", caret.character}}; }

JsonValue to_json(const CaretRange& range) { return {{"start", to_json(range.begin)}, {"end", to_json(range.end)}}; }

Caret caret_of(const JsonValue& json) {
  return {json.at("line").get<std::int64_t>(), json.at("character").get<std::int64_t>()};
}

CaretRange range_of(const JsonValue& json) { return {caret_of(json.at("start")), caret_of(json.at("end"))}; }

JsonValue answer_to(const JsonValue& id, JsonValue result) {
  return {{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}};
}

JsonValue refusal_of(const JsonValue& id, Fault fault, const std::string& words) {
  return {{"jsonrpc", "2.0"}, {"id", id}, {"error", {{"code", static_cast<int>(fault)}, {"message", words}}}};
}

JsonValue notice(const std::string& method, JsonValue params) {
  return {{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}};
}

std::string with_bad_characters_replaced(std::string_view message) {
  std::string good;
  for (std::size_t at = 0; at < message.size();) {
    const int unit = unit_at(message, at);
    if (is_high_half(unit) && is_low_half(unit_at(message, at + 6))) {
      good += message.substr(at, 12);
      at += 12;
    } else if (is_high_half(unit) || is_low_half(unit)) {
      good += "\\ufffd";
      at += 6;
    } else if (message[at] == '\\') {
      good += message.substr(at, 2);
      at += std::min<std::size_t>(2, message.size() - at);
    } else {
      const Character next = character_at(message, at);
      if (next.code < 0) {
        good += "\\u001a";
      } else {
        good += message.substr(at, next.length);
      }
      at += next.length;
    }
  }
  return good;
}

}  // namespace lensward
