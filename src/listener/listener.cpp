#include "server/listener.h"

#include <httplib.h>
#include <sys/socket.h>

#include <algorithm>
#include <atomic>

namespace lensward {
namespace {

// Streams keep theirs; the rest is for what is asked for in between.
constexpr std::size_t threads = most_streams + 64;
// Seconds without a byte either way, after which the other side is given up.
constexpr int patience = 2;
// Written at a time, bytes: each has `patience` to be taken.
constexpr std::size_t piece = 1 << 16;
constexpr std::size_t most_sent_to_us = 1 << 16;

// Counts itself among the streams for as long as it lives.
class StreamTurn {
 public:
  explicit StreamTurn(std::atomic<int>& count) : count_(count), number_(++count) {}
  ~StreamTurn() { --count_; }
  StreamTurn(const StreamTurn&) = delete;
  StreamTurn& operator=(const StreamTurn&) = delete;
  bool is_one_too_many() const { return number_ > most_streams; }

 private:
  std::atomic<int>& count_;
  int number_;
};

void add_headers(const Reply& reply, httplib::Response& response) {
  response.set_header("Cache-Control", reply.lasting ? "private, max-age=86400, immutable" : "no-store");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("X-Frame-Options", "DENY");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  response.set_header("Cross-Origin-Opener-Policy", "same-origin");
}

class HttpListener : public Listener {
 public:
  HttpListener(const std::string& address, int port, Audience& audience) : audience_(audience) {
    server_.new_task_queue = [] { return new httplib::ThreadPool(threads); };
    // A connection answers once: one that idles would keep a thread.
    server_.set_keep_alive_max_count(1);
    server_.set_read_timeout(patience);
    server_.set_write_timeout(patience);
    server_.set_payload_max_length(most_sent_to_us);
    server_.set_tcp_nodelay(true);
    // Not the library's own, which would let another program listen on the same port.
    server_.set_socket_options([](int socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    server_.set_pre_routing_handler([this](const httplib::Request& asked, httplib::Response& response) {
      answer(asked, response);
      return httplib::Server::HandlerResponse::Handled;
    });
    if (port == 0)
      port_ = std::max(0, server_.bind_to_any_port(address));
    else
      port_ = server_.bind_to_port(address, port) ? port : 0;
  }

  int port() const override { return port_; }
  void listen() override { server_.listen_after_bind(); }
  void stop() override { server_.stop(); }

 private:
  void answer(const httplib::Request& asked, httplib::Response& response) {
    Reply reply = audience_.answer(
        {asked.method, asked.target, asked.get_header_value("Host"), asked.get_header_value("Origin")});
    if (reply.stream) {
      const auto turn = std::make_shared<StreamTurn>(streams_);
      if (!turn->is_one_too_many()) return stream(turn, response);
      reply = {503, reply.type, std::make_shared<const std::string>("Too many are looking; try again in a moment.\n")};
    }
    response.status = reply.status;
    add_headers(reply, response);
    if (!reply.body || reply.body->empty()) return response.set_content("", reply.type);
    const Bytes body = reply.body;
    response.set_content_provider(body->size(), reply.type,
                                  [body](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
                                    return sink.write(body->data() + offset, std::min(length, piece));
                                  });
  }

  void stream(const std::shared_ptr<StreamTurn>& turn, httplib::Response& response) {
    response.status = 200;
    add_headers({}, response);
    response.set_chunked_content_provider(
        "text/event-stream", [this, turn, seen = std::int64_t{-1}](std::size_t, httplib::DataSink& sink) mutable {
          const std::optional<std::string> news = audience_.news(seen);
          if (!news) {
            sink.done();
            return true;
          }
          const std::string event = news->empty() ? ":\n\n" : "data: " + *news + "\n\n";
          return sink.write(event.data(), event.size());
        });
  }

  Audience& audience_;
  httplib::Server server_;
  int port_ = 0;
  std::atomic<int> streams_{0};
};

}  // namespace
}  // namespace lensward

lensward::Listener* lensward_listener(const char* address, int port, lensward::Audience* audience) {
  return new lensward::HttpListener(address, port, *audience);
}
