#include "syntax/film_path.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <array>
#include <vector>

#include "source/character.h"
#include "source/spelling_of_names.h"

namespace lensward {
namespace {

constexpr std::size_t most_bytes = 200, most_parts = 8;

std::vector<std::string> parts_of(std::string_view path) {
  std::vector<std::string> parts{""};
  for (char c : path) {
    if (c == '/') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::string lowered(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

// Names that are devices on one system or another (Windows file naming conventions), whatever their case.
bool names_device(const std::string& part) {
  static constexpr std::array<const char*, 6> plain{"con", "prn", "aux", "nul", "conin$", "conout$"};
  const std::string name = lowered(part);
  if (std::any_of(plain.begin(), plain.end(), [&](const char* device) { return name == device; })) return true;
  const bool port = name.size() == 4 && (name.starts_with("com") || name.starts_with("lpt"));
  return port && name[3] >= '0' && name[3] <= '9';
}

std::optional<std::string> refusal_of_part(const std::string& part) {
  if (part.empty()) return "there is an empty name between its slashes";
  if (part == "." || part == "..") return '`' + part + "` is not a folder name here";
  if (names_device(part)) return '`' + part + "` is the name of a device";
  for (std::size_t at = 0; at < part.size();) {
    const Character next = character_at(part, at);
    const std::string_view letter = std::string_view(part).substr(at, next.length);
    const bool plain = next.code >= 0 && (u_isalnum(next.code) || u_charType(next.code) == U_NON_SPACING_MARK);
    if (!plain && letter != "_" && letter != "-") {
      return '`' + printable(letter) + "` cannot stand in it: letters, digits, `_` and `-` can";
    }
    at += next.length;
  }
  return std::nullopt;
}

}  // namespace

std::string joined_path(const std::string& folder, const std::string& name) {
  if (folder.empty() || folder == ".") return name;
  return folder.ends_with('/') ? folder + name : folder + '/' + name;
}

std::optional<std::string> refusal_of(std::string_view path, std::string_view ending) {
  if (path.empty()) return "it is empty";
  if (path.size() > most_bytes) return "it is longer than 200 bytes";
  if (path.front() == '/') return "it starts at the top of the disk";
  if (path.front() == '~') return "`~` leads out of the folder";
  if (path.ends_with(".staging")) return "it is written without `.staging`";
  if (!ending.empty()) {
    if (!path.ends_with(ending)) return "it does not end with `" + std::string(ending) + '`';
    path.remove_suffix(ending.size());
  }
  const std::vector<std::string> parts = parts_of(path);
  if (parts.size() > most_parts) return "it is more than 8 folders deep";
  for (const std::string& part : parts) {
    if (auto why = refusal_of_part(part)) return why;
  }
  return std::nullopt;
}

std::variant<FoundFile, NotFound, LeadsOut> find_in_film(Host& host, const std::string& folder, const std::string& path,
                                                         std::string_view ending) {
  std::vector<std::string> parts = parts_of(path);
  parts.back() += ending;
  std::string at = folder, alike;
  bool exact = true;
  for (const std::string& part : parts) {
    const auto names = host.names_in(at.empty() ? "." : at);
    if (!names) return NotFound{};
    const auto same = std::find_if(names->begin(), names->end(),
                                   [&](const std::string& name) { return composed_form(name) == composed_form(part); });
    const auto near = std::find_if(names->begin(), names->end(),
                                   [&](const std::string& name) { return looks_of(name) == looks_of(part); });
    const auto found = same != names->end() ? same : near;
    if (found == names->end()) return NotFound{};
    exact = exact && same != names->end();
    at = joined_path(at, *found);
    alike = joined_path(alike, *found);
  }
  if (!exact) return NotFound{alike.substr(0, alike.size() - ending.size())};
  const auto home = host.canonical(folder.empty() ? "." : folder);
  const auto canonical = host.canonical(at);
  if (!home || !canonical) return NotFound{};
  const std::string within = *home == "/" ? *home : *home + '/';
  if (!canonical->starts_with(within)) return LeadsOut{};
  return FoundFile{at, *canonical};
}

}  // namespace lensward
