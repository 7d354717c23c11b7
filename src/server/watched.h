// Which files a text is made of, and when they count as changed. What was asked of the host is asked again: whatever
// answers otherwise is a change, be it a file that was edited, one that came or one that went.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "source/host.h"

namespace lensward {

struct FileAnswer {
  bool there = false;
  std::string words;  // its bytes, or the reason why there are none

  bool operator==(const FileAnswer&) const = default;
};

// What a host has answered, by path.
struct Answers {
  std::map<std::string, FileAnswer> files;
  std::map<std::string, std::optional<std::string>> canonical;
  std::map<std::string, std::optional<std::vector<std::string>>> folders;

  bool operator==(const Answers&) const = default;
};

// The same questions to the host as it is now.
Answers asked_again(const Answers& answers, Host& host);
// The questions of both; where both have an answer, that of `more`.
void add_answers(const Answers& more, Answers& answers);
// What `all` says to the questions of `some`. Requires that it has them.
Answers part_of(const Answers& all, const Answers& some);
// Of all files together.
std::size_t size_of(const Answers& answers);

// Another host, whose answers are remembered. Writes nothing.
class RememberingHost : public Host {
 public:
  // The host must outlive it.
  explicit RememberingHost(Host& host) : host_(host) {}
  std::variant<std::string, HostError> read(const std::string& path) override;
  std::variant<std::monostate, HostError> write(const std::string& path, std::string_view bytes) override;
  std::optional<std::string> canonical(const std::string& path) override;
  std::optional<std::vector<std::string>> names_in(const std::string& folder) override;

  const Answers& answers() const { return answers_; }

 private:
  Host& host_;
  Answers answers_;
};

// Looks at the same files again and again, and decides when a change is whole. Editors save in several steps: a file is
// gone or empty for a moment, or half written.
class Settling {
 public:
  // Of one look: what is shown was made from `shown`, the files are now `now`. True when `now` is to be shown. Looks
  // are meant to be 25 ms apart.
  bool look(const Answers& shown, const Answers& now);

 private:
  // The same at so many looks; so many when a file has gone or is empty, which is half a second; and a file that never
  // comes to rest is shown all the same after a second.
  static constexpr int same_looks = 2, missing_looks = 20, most_looks = 40;

  std::optional<Answers> seen_;
  int same_ = 0, differing_ = 0;
};

}  // namespace lensward
