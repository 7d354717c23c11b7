// Who is let in: only pages that this program itself has handed out, asked for by the address it has told.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace lensward {

// What of a request counts here. Headers that were not sent are empty.
struct Request {
  std::string method, target;  // "/token/page?x", as sent
  std::string host, origin;
};

struct Refusal {
  int status = 403;
  std::string words;  // plain text for whoever asked
};

struct Door {
  std::string token;               // letters and digits
  std::vector<std::string> hosts;  // "127.0.0.1:8080", "localhost:8080"

  // Why a request is refused; nothing: it is let in. Host must be one of ours, or a name of somebody else's could be
  // made to point here (RFC 9110, 7.2; DNS rebinding); Origin, which browsers send along with requests of other pages,
  // must be absent or ours (RFC 6454, 7); and the path begins with the token. Only GET and HEAD.
  std::optional<Refusal> refuses(const Request& request) const;

  // What is asked for behind the token, without query: "", "page", "pictures/0a.png". Requires a request that is let
  // in.
  std::string asked(const Request& request) const;
};

// Whether two are the same, in a time that does not tell how much of them is.
bool same_secret(const std::string& a, const std::string& b);

}  // namespace lensward
