#include "cli/real_host.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>
#include <utility>

namespace lensward {
namespace {

using Read = std::variant<std::string, HostError>;
using Written = std::variant<std::monostate, HostError>;

HostError reason_of(int error) {
  switch (error) {
    case ENOENT:
      return {"no such file"};
    case EISDIR:
      return {"is a directory"};
    case ENOTDIR:
      return {"part of the path is not a directory"};
    case EACCES:
    case EPERM:
      return {"permission denied"};
    case ENOSPC:
    case EDQUOT:
      return {"disk full"};
    case EFBIG:
      return {"larger than files may be here"};
    case EROFS:
      return {"the disk is read-only"};
    case ENAMETOOLONG:
      return {"the name is too long"};
    case ELOOP:
      return {"its links lead round in a circle"};
    case EIO:
      return {"the disk reports a fault"};
    case EBADF:
      return {"it is closed"};
    default:
      return {std::strerror(error)};
  }
}

// Closes what it holds.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ > STDERR_FILENO) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }
  bool open() const { return number_ >= 0; }

 private:
  int number_;
};

Read read_all(int descriptor) {
  std::string bytes;
  char part[65536];
  while (bytes.size() <= largest_file) {
    const ssize_t got = ::read(descriptor, part, sizeof part);
    if (got == 0) return bytes;
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return reason_of(errno);
    bytes.append(part, static_cast<std::size_t>(got));
  }
  return HostError{"larger than 16 MiB"};
}

Written write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(descriptor, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return reason_of(errno);
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  return std::monostate{};
}

// Some file systems report a full disk only here. Pipes and devices cannot be synchronised, and need not be.
Written write_through(int descriptor, std::string_view bytes) {
  Written written = write_all(descriptor, bytes);
  if (std::holds_alternative<HostError>(written)) return written;
  if (::fsync(descriptor) != 0 && errno != EINVAL && errno != EROFS) return reason_of(errno);
  return written;
}

Written write_straight(const std::string& path, std::string_view bytes) {
  const Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  return file.open() ? write_all(file.number(), bytes) : reason_of(errno);
}

mode_t mode_for_new_files() {
  const mode_t masked = ::umask(0);
  ::umask(masked);
  return 0666 & ~masked;
}

// A whole file beside the one it will replace, since a rename cannot cross disks; gone again when it never does.
class Draft {
 public:
  Draft() = default;
  ~Draft() {
    if (!temporary_.empty()) ::unlink(temporary_.c_str());
  }
  Draft(Draft&& other) noexcept
      : path_(std::move(other.path_)), temporary_(std::exchange(other.temporary_, {})), placed_(other.placed_) {}
  Draft& operator=(Draft&&) = delete;

  Written write(const std::string& path, std::string_view bytes, mode_t mode) {
    std::string temporary = path + ".XXXXXX";
    const Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
    if (!file.open()) return errno == ENOENT ? HostError{"no such directory"} : reason_of(errno);
    path_ = path;
    temporary_ = temporary;
    Written written = write_through(file.number(), bytes);
    if (std::holds_alternative<HostError>(written)) return written;
    if (::fchmod(file.number(), mode) != 0) return reason_of(errno);
    return written;
  }

  // Changes places with the old file, which can then be given back until the draft is gone. Where the disk cannot do
  // that it is replaced for good.
  Written take_its_place() {
    if (swapped()) {
      placed_ = Placed::swapped;
      return std::monostate{};
    }
    const bool anew = errno == ENOENT;
    if (!anew && errno != EINVAL && errno != ENOSYS) return reason_of(errno);
    if (::rename(temporary_.c_str(), path_.c_str()) != 0) return reason_of(errno);
    placed_ = anew ? Placed::anew : Placed::for_good;
    temporary_.clear();
    return std::monostate{};
  }

  void give_it_back() {
    if (placed_ == Placed::anew) ::unlink(path_.c_str());
    if (placed_ == Placed::swapped) swapped();
    placed_ = Placed::not_yet;
  }

 private:
  enum class Placed { not_yet, anew, swapped, for_good };

  bool swapped() const {
    return ::renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_EXCHANGE) == 0;
  }

  std::string path_, temporary_;
  Placed placed_ = Placed::not_yet;
};

Written replace(const std::string& path, std::string_view bytes, mode_t mode) {
  Draft draft;
  Written written = draft.write(path, bytes, mode);
  return std::holds_alternative<HostError>(written) ? written : draft.take_its_place();
}

// Where a link leads to, though nothing may stand there yet.
std::string behind_links(const std::string& path) {
  char resolved[PATH_MAX];
  if (::realpath(path.c_str(), resolved) != nullptr) return resolved;
  constexpr int most_links = 40;
  std::filesystem::path at = path;
  std::error_code error;
  for (int i = 0; i < most_links && std::filesystem::is_symlink(std::filesystem::symlink_status(at, error)); ++i) {
    const std::filesystem::path target = std::filesystem::read_symlink(at, error);
    if (error) break;
    at = at.parent_path() / target;
  }
  return at.string();
}

// What a new file would take the place of.
struct Place {
  std::string path;
  mode_t mode = 0;
};
// Refuses what is no regular file and what may not be written: a rename would replace it all the same.
std::variant<Place, HostError> place_of(const std::string& path) {
  struct stat facts{};
  if (::stat(path.c_str(), &facts) != 0) {
    if (errno != ENOENT) return reason_of(errno);
    return Place{behind_links(path), mode_for_new_files()};
  }
  if (S_ISDIR(facts.st_mode)) return reason_of(EISDIR);
  if (!S_ISREG(facts.st_mode)) return HostError{"is no regular file"};
  if (::access(path.c_str(), W_OK) != 0) return reason_of(errno);
  return Place{behind_links(path), facts.st_mode & 07777};
}

}  // namespace

Read RealHost::read(const std::string& path) {
  if (path == "-") return read_all(STDIN_FILENO);
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!file.open()) return reason_of(errno);
  struct stat facts{};
  if (::fstat(file.number(), &facts) == 0 && S_ISDIR(facts.st_mode)) return reason_of(EISDIR);
  return read_all(file.number());
}

Written RealHost::write(const std::string& path, std::string_view bytes) {
  if (path == "-") return write_all(STDOUT_FILENO, bytes);
  struct stat facts{};
  const bool there = ::stat(path.c_str(), &facts) == 0;
  if (there && !S_ISREG(facts.st_mode) && !S_ISDIR(facts.st_mode)) return write_straight(path, bytes);
  const auto place = place_of(path);
  if (const auto* error = std::get_if<HostError>(&place)) return *error;
  return replace(std::get<Place>(place).path, bytes, std::get<Place>(place).mode);
}

Written RealHost::write_together(const std::vector<std::pair<std::string, std::string>>& files) {
  std::vector<Draft> drafts;
  drafts.reserve(files.size());
  const auto refused = [&](std::size_t i, const HostError& error) {
    return HostError{files[i].first + ": " + error.reason};
  };
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto place = place_of(files[i].first);
    if (const auto* error = std::get_if<HostError>(&place)) return refused(i, *error);
    Draft& draft = drafts.emplace_back();
    const Written written = draft.write(std::get<Place>(place).path, files[i].second, std::get<Place>(place).mode);
    if (const auto* error = std::get_if<HostError>(&written)) return refused(i, *error);
  }
  for (std::size_t i = 0; i < files.size(); ++i) {
    const Written placed = drafts[i].take_its_place();
    const auto* error = std::get_if<HostError>(&placed);
    if (error == nullptr) continue;
    for (std::size_t done = i; done-- > 0;) drafts[done].give_it_back();
    return refused(i, *error);
  }
  return std::monostate{};
}

std::optional<std::string> RealHost::canonical(const std::string& path) {
  char resolved[PATH_MAX];
  if (::realpath(path.c_str(), resolved) == nullptr) return std::nullopt;
  return resolved;
}

std::optional<std::vector<std::string>> RealHost::names_in(const std::string& folder) {
  const std::unique_ptr<DIR, int (*)(DIR*)> open(::opendir(folder.c_str()), ::closedir);
  if (!open) return std::nullopt;
  std::vector<std::string> names;
  while (const dirent* entry = ::readdir(open.get())) names.emplace_back(entry->d_name);
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace lensward
