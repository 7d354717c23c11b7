// Messages as they come over a stream: each behind a header that tells its length (protocol, "Base Protocol").
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace lensward {

// Longer messages are passed over unread.
inline constexpr std::size_t longest_message = std::size_t{64} << 20;

struct Frame {
  std::string message;
  std::string malformed;  // why there is no message, in words; else empty
};

// Takes bytes as they come and cuts them into messages. After a header that cannot be read it goes on with the next
// one that can.
class FrameReader {
 public:
  void add(std::string_view bytes);
  // Nothing until a whole message is there.
  std::optional<Frame> next();

 private:
  std::optional<Frame> find_header();
  std::optional<Frame> lose_the_thread(const std::string& why);

  std::string bytes_;
  std::size_t at_ = 0;                 // what lies before is done with
  std::size_t skip_ = 0;               // still to be passed over
  bool lost_ = false;                  // where the next header begins is not known
  std::optional<std::size_t> length_;  // of the message whose header was read
};

// The message with its header.
std::string framed(const std::string& message);

}  // namespace lensward
