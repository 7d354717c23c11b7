#include "server/door.h"

#include <algorithm>

namespace lensward {
namespace {

std::string path_of(const Request& request) { return request.target.substr(0, request.target.find_first_of("?#")); }

// "/token/rest" -> "token".
std::string first_part(const std::string& path) {
  if (!path.starts_with('/')) return {};
  return path.substr(1, path.find('/', 1) - 1);
}

bool among(const std::vector<std::string>& hosts, const std::string& host) {
  return std::find(hosts.begin(), hosts.end(), host) != hosts.end();
}

std::string lower(std::string words) {
  for (char& c : words)
    if ('A' <= c && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return words;
}

}  // namespace

bool same_secret(const std::string& a, const std::string& b) {
  if (a.size() != b.size()) return false;
  unsigned differing = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differing |= static_cast<unsigned char>(a[i] ^ b[i]);
  return differing == 0;
}

std::optional<Refusal> Door::refuses(const Request& request) const {
  if (!among(hosts, lower(request.host)))
    return Refusal{403, "This page answers only under the address that `lensward preview` has printed.\n"};
  constexpr const char* scheme = "http://";
  const std::string origin = lower(request.origin);
  if (!origin.empty() && !(origin.starts_with(scheme) && among(hosts, origin.substr(7))))
    return Refusal{403, "Another page asked for this one; only the page itself may.\n"};
  if (!same_secret(first_part(path_of(request)), token))
    return Refusal{403, "The address lacks the word that `lensward preview` has printed in it; copy all of it.\n"};
  if (request.method != "GET" && request.method != "HEAD") return Refusal{405, "This page can only be looked at.\n"};
  return std::nullopt;
}

std::string Door::asked(const Request& request) const {
  const std::string path = path_of(request);
  return path.size() < token.size() + 2 ? std::string() : path.substr(token.size() + 2);
}

}  // namespace lensward
