#include "report/outline.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "source/character.h"
#include "source/source_file.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

constexpr int widest_line = 110;

std::string as_json(const Json& value, int indent) {
  return value.dump(indent, ' ', false, Json::error_handler_t::replace);
}

// Words that would read as something else when they stand bare.
bool needs_quotes(std::string_view words) {
  if (words.empty() || words == "true" || words == "false" || words == "null") return true;
  const bool has_digit = words.find_first_of("0123456789") != std::string_view::npos;
  if (has_digit && words.find_first_not_of("+-.0123456789eE") == std::string_view::npos) return true;
  if (std::string_view(" -[]{}\"").find(words.front()) != std::string_view::npos) return true;
  if (words.back() == ' ' || words.back() == ':' || words.find(": ") != std::string_view::npos) return true;
  return std::any_of(words.begin(), words.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; });
}

std::string plain(const Json& value, bool in_list) {
  if (value.is_object()) return "{}";
  if (!value.is_string()) return as_json(value, -1);
  const auto& words = value.get_ref<const std::string&>();
  const bool splits = in_list && words.find_first_of(",]") != std::string::npos;
  return needs_quotes(words) || splits ? as_json(value, -1) : printable(words);
}

bool is_plain(const Json& value) { return !value.is_structured() || value.empty(); }

// The list on one line, or nothing when it is too long or holds parts.
std::string on_one_line(const Json& list, std::size_t indent) {
  std::string line = "[";
  for (const Json& item : list) {
    if (!is_plain(item)) return "";
    line += (line.size() > 1 ? ", " : "") + (item.is_array() ? "[]" : plain(item, true));
  }
  line += "]";
  return static_cast<int>(indent) + display_width(line) <= widest_line ? line : "";
}

class Outliner {
 public:
  void write(const Json& value, std::size_t indent) {
    if (value.is_object() && !value.empty()) return write_object(value, indent);
    if (value.is_array() && !value.empty()) return write_list(value, indent);
    text_ += std::string(indent, ' ') + (value.is_array() ? "[]" : plain(value, false)) + '\n';
  }
  std::string text() && { return std::move(text_); }

 private:
  void write_object(const Json& object, std::size_t indent) {
    for (const auto& [key, value] : object.items()) {
      text_ += std::string(indent, ' ') + plain(Json(key), false) + ':';
      write_after_key(value, indent);
    }
  }

  void write_after_key(const Json& value, std::size_t indent) {
    if (value.is_array()) {
      const std::string line = on_one_line(value, indent);
      if (!line.empty()) {
        text_ += ' ' + line + '\n';
        return;
      }
    }
    if (is_plain(value)) {
      text_ += ' ' + plain(value, false) + '\n';
      return;
    }
    text_ += '\n';
    write(value, indent + 2);
  }

  // The first line of an item stands behind its dash, the others under it.
  void write_list(const Json& list, std::size_t indent) {
    for (const Json& item : list) {
      const std::size_t begin = text_.size();
      const std::string line = item.is_array() ? on_one_line(item, indent + 2) : "";
      if (!line.empty()) {
        text_ += std::string(indent + 2, ' ') + line + '\n';
      } else {
        write(item, indent + 2);
      }
      text_[begin + indent] = '-';
    }
  }

  std::string text_;
};

}  // namespace

std::string outline(const Json& value) {
  Outliner outliner;
  const std::string line = value.is_array() ? on_one_line(value, 0) : "";
  if (!line.empty()) return line + '\n';
  outliner.write(value, 0);
  return std::move(outliner).text();
}

std::string json_text(const Json& value) { return as_json(value, 2) + '\n'; }

}  // namespace lensward
