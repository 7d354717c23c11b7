#include "editor/frames.h"

#include <algorithm>

namespace lensward {
namespace {

constexpr std::string_view length_name = "content-length:";
constexpr std::size_t longest_header = 8192;

char lowered(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::size_t find_length_name(std::string_view text) {
  const auto same = [](char a, char b) { return lowered(a) == b; };
  const auto found = std::search(text.begin(), text.end(), length_name.begin(), length_name.end(), same);
  return found == text.end() ? std::string_view::npos : static_cast<std::size_t>(found - text.begin());
}

// The number behind the name, up to the end of its line; nothing when none stands there, or one of more than ten
// digits.
std::optional<std::size_t> length_in(std::string_view line) {
  line.remove_prefix(length_name.size());
  line = line.substr(0, line.find_first_of("\r\n"));
  while (line.starts_with(' ') || line.starts_with('\t')) line.remove_prefix(1);
  while (line.ends_with(' ') || line.ends_with('\t')) line.remove_suffix(1);
  if (line.empty() || line.size() > 10 || line.find_first_not_of("0123456789") != std::string_view::npos)
    return std::nullopt;
  std::size_t length = 0;
  for (const char digit : line) length = length * 10 + static_cast<std::size_t>(digit - '0');
  return length;
}

}  // namespace

void FrameReader::add(std::string_view bytes) {
  constexpr std::size_t kept = std::size_t{1} << 20;
  bytes_.erase(0, at_);
  if (bytes_.empty() && bytes_.capacity() > kept) bytes_ = std::string();
  at_ = 0;
  bytes_ += bytes;
}

std::optional<Frame> FrameReader::next() {
  const std::size_t skipped = std::min(skip_, bytes_.size() - at_);
  at_ += skipped;
  skip_ -= skipped;
  if (skip_ > 0) return std::nullopt;
  if (!length_) {
    if (auto malformed = find_header()) return malformed;
    if (!length_) return std::nullopt;
  }
  if (bytes_.size() - at_ < *length_) return std::nullopt;
  Frame frame{bytes_.substr(at_, *length_), {}};
  at_ += *length_;
  length_.reset();
  return frame;
}

// Sets length_ when a whole header is there.
std::optional<Frame> FrameReader::find_header() {
  if (lost_) {
    const std::size_t found = find_length_name(std::string_view(bytes_).substr(at_));
    if (found == std::string_view::npos) {
      at_ = std::max(at_, bytes_.size() - std::min(bytes_.size(), length_name.size()));
      return std::nullopt;
    }
    at_ += found;
    lost_ = false;
  }
  const std::string_view rest = std::string_view(bytes_).substr(at_);
  const std::size_t end = rest.find("\r\n\r\n");
  if (end == std::string_view::npos) {
    if (rest.size() > longest_header) return lose_the_thread("a header came that does not end");
    return std::nullopt;
  }
  const std::string_view header = rest.substr(0, end);
  const std::size_t name = find_length_name(header);
  if (name == std::string_view::npos) return lose_the_thread("a message came without its Content-Length");
  const auto length = length_in(header.substr(name));
  if (!length) return lose_the_thread("a message came whose Content-Length is no number");
  at_ += end + 4;
  if (*length > longest_message) {
    skip_ = *length;
    return Frame{{}, "a message came that is larger than 64 MiB; it was passed over"};
  }
  length_ = length;
  return std::nullopt;
}

std::optional<Frame> FrameReader::lose_the_thread(const std::string& why) {
  lost_ = true;
  at_ = std::min(bytes_.size(), at_ + 1);
  return Frame{{}, why};
}

std::string framed(const std::string& message) {
  return "Content-Length: " + std::to_string(message.size()) + "\r\n\r\n" + message;
}

}  // namespace lensward
