#include "by_chance.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>
#include <sstream>
#include <utility>

namespace fs = std::filesystem;

namespace lensward::test {
namespace {

std::string read_whole(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

// Another digit for one of the line's.
void change_number(std::string& line, Chance& chance) {
  std::vector<std::size_t> digits;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(line[i])) != 0) digits.push_back(i);
  }
  if (!digits.empty()) line[digits[chance.below(digits.size())]] = static_cast<char>('0' + chance.below(10));
}

// A word more or less is said.
void change_words(std::string& line, Chance& chance) {
  const std::size_t begin = line.find('"'), end = line.rfind('"');
  if (begin == std::string::npos || end <= begin + 1) return;
  const std::size_t space = line.find(' ', begin + 1 + chance.below(end - begin - 1));
  if (space == std::string::npos || space >= end || chance.below(2) == 0) {
    line.insert(end, " and so on");
  } else {
    line.erase(space, line.find_first_of(" \"", space + 1) - space);
  }
}

}  // namespace

std::vector<Example> examples_in(const fs::path& folder) {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() == ".staging") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Example> examples;
  for (const fs::path& path : paths) {
    const fs::path relative = path.lexically_relative(folder);
    const bool in_a_film = std::distance(relative.begin(), relative.end()) > 1;
    Example example;
    example.scene = relative.string();
    for (const fs::path& other : paths) {
      const fs::path beside = other.lexically_relative(folder);
      if (other == path || (in_a_film && *beside.begin() == *relative.begin())) {
        example.files[beside.string()] = read_whole(other);
      }
    }
    examples.push_back(std::move(example));
  }
  return examples;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + '\n';
  return text;
}

namespace {

std::vector<std::string>::difference_type some(Chance& chance, const std::vector<std::string>& lines) {
  return static_cast<std::vector<std::string>::difference_type>(chance.below(lines.size()));
}

}  // namespace

void change_lines(std::vector<std::string>& lines, const std::vector<std::string>& others, Chance& chance) {
  const auto first = lines.begin() + some(chance, lines);
  switch (chance.below(6)) {
    case 0:
      if (lines.size() > 1) lines.erase(first);
      return;
    case 1:
      std::iter_swap(first, lines.begin() + some(chance, lines));
      return;
    case 2:
      if (first + 1 == lines.end()) return;
      *first += *(first + 1);
      lines.erase(first + 1);
      return;
    case 3:
      lines.insert(first, lines[chance.below(lines.size())]);
      return;
    case 4:
      // A line of another scene, or half of one.
      *first = first->substr(0, chance.below(first->size() + 1)) + others[chance.below(others.size())];
      return;
    default:
      if (first->empty()) return;
      (*first)[chance.below(first->size())] = static_cast<char>(chance.below(256));
      return;
  }
}

void change_as_a_writer_does(std::vector<std::string>& lines, const std::vector<std::string>& others, Chance& chance) {
  std::string& line = lines[chance.below(lines.size())];
  switch (chance.below(4)) {
    case 0:
    case 1:
      return change_number(line, chance);
    case 2:
      return change_words(line, chance);
    default:
      return change_lines(lines, others, chance);
  }
}

}  // namespace lensward::test
