#include "server/watched.h"

#include <algorithm>

namespace lensward {
namespace {

FileAnswer answer_of(const std::variant<std::string, HostError>& read) {
  if (const auto* error = std::get_if<HostError>(&read)) return {false, error->reason};
  return {true, std::get<std::string>(read)};
}

bool is_missing(const FileAnswer& file) { return !file.there || file.words.empty(); }

bool anything_went(const Answers& shown, const Answers& now) {
  return std::any_of(now.files.begin(), now.files.end(), [&](const auto& file) {
    const auto before = shown.files.find(file.first);
    return is_missing(file.second) && before != shown.files.end() && !is_missing(before->second);
  });
}

}  // namespace

Answers asked_again(const Answers& answers, Host& host) {
  Answers now;
  for (const auto& [path, _] : answers.files) now.files.emplace(path, answer_of(host.read(path)));
  for (const auto& [path, _] : answers.canonical) now.canonical.emplace(path, host.canonical(path));
  for (const auto& [path, _] : answers.folders) now.folders.emplace(path, host.names_in(path));
  return now;
}

void add_answers(const Answers& more, Answers& answers) {
  for (const auto& [path, answer] : more.files) answers.files.insert_or_assign(path, answer);
  for (const auto& [path, answer] : more.canonical) answers.canonical.insert_or_assign(path, answer);
  for (const auto& [path, answer] : more.folders) answers.folders.insert_or_assign(path, answer);
}

Answers part_of(const Answers& all, const Answers& some) {
  Answers part;
  for (const auto& [path, _] : some.files) part.files.emplace(path, all.files.at(path));
  for (const auto& [path, _] : some.canonical) part.canonical.emplace(path, all.canonical.at(path));
  for (const auto& [path, _] : some.folders) part.folders.emplace(path, all.folders.at(path));
  return part;
}

std::size_t size_of(const Answers& answers) {
  std::size_t bytes = 0;
  for (const auto& [_, file] : answers.files) bytes += file.there ? file.words.size() : 0;
  return bytes;
}

std::variant<std::string, HostError> RememberingHost::read(const std::string& path) {
  auto read = host_.read(path);
  answers_.files.insert_or_assign(path, answer_of(read));
  return read;
}

std::variant<std::monostate, HostError> RememberingHost::write(const std::string&, std::string_view) {
  return HostError{"is only looked at"};
}

std::optional<std::string> RememberingHost::canonical(const std::string& path) {
  auto whole = host_.canonical(path);
  answers_.canonical.insert_or_assign(path, whole);
  return whole;
}

std::optional<std::vector<std::string>> RememberingHost::names_in(const std::string& folder) {
  auto names = host_.names_in(folder);
  answers_.folders.insert_or_assign(folder, names);
  return names;
}

bool Settling::look(const Answers& shown, const Answers& now) {
  if (now == shown) {
    seen_.reset();
    same_ = differing_ = 0;
    return false;
  }
  ++differing_;
  same_ = seen_ && *seen_ == now ? same_ + 1 : 1;
  seen_ = now;
  const int wanted = anything_went(shown, now) ? missing_looks : same_looks;
  if (same_ < wanted && differing_ < most_looks) return false;
  seen_.reset();
  same_ = differing_ = 0;
  return true;
}

}  // namespace lensward
