// The socket that browsers come to. It is a module of its own, loaded when a preview is asked for: the library it uses
// brings five others, which would take a third of the program's start for every other command.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "server/board.h"
#include "server/door.h"

namespace lensward {

struct Reply {
  int status = 200;
  std::string type = "text/plain; charset=utf-8";
  Bytes body;            // may be null: empty
  bool lasting = false;  // the address will never mean anything else
  bool stream = false;   // instead of a body: everything that is new, as server-sent events (HTML, 9.2)
};

// Whoever answers. Called from many threads at once.
class Audience {
 public:
  virtual ~Audience() = default;
  virtual Reply answer(const Request& request) = 0;
  // Waits for something newer than `seen`, which it then moves on; older news are skipped. An empty string is a sign of
  // life. Nothing: it is over.
  virtual std::optional<std::string> news(std::int64_t& seen) = 0;
};

class Listener {
 public:
  virtual ~Listener() = default;
  // 0: none was to be had.
  virtual int port() const = 0;
  // Returns after `stop`.
  virtual void listen() = 0;
  virtual void stop() = 0;
};

// Most streams at once; whoever comes then is told to come back.
inline constexpr int most_streams = 32;

}  // namespace lensward

// What the module holds. The audience must outlive the listener. `port` 0: any that is free.
extern "C" {
lensward::Listener* lensward_listener(const char* address, int port, lensward::Audience* audience);
// A QR code (ISO/IEC 18004) of a text, in rows of UTF-8 half blocks, two modules high a letter, for dark terminals and
// light ones alike, with its quiet zone. Empty when the text is too long.
void lensward_qr_code(const char* text, std::string* code);
}
