#include "case_file.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace lensward::test {
namespace {

constexpr std::string_view mark = "--!";
constexpr std::string_view directive = "--! expect ";

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

Expect read_expect(const std::string& line) {
  Expect expect;
  std::vector<std::string> words = words_of(line.substr(directive.size()));
  if (words.empty()) return expect;
  std::istringstream path(words[0]);
  std::getline(path, expect.waist, '.');
  for (std::string key; std::getline(path, key, '.');) expect.keys.push_back(key);
  if (words.size() > 1 && words[1] == "of")
    expect.rules.assign(words.begin() + 2, words.end());
  else if (words.size() > 1)
    expect.at = to_milliseconds(Seconds{std::atof(words[1].c_str())});
  return expect;
}

}  // namespace

std::string CaseFile::source() const {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

std::optional<CaseFile> read_case(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  CaseFile file{
      .path = path, .name = std::filesystem::path(path).stem().string(), .whole = {}, .lines = {}, .expects = {}};
  for (std::string line; std::getline(in, line);) {
    file.whole += line + "\n";
    if (line.starts_with(directive))
      file.expects.push_back(read_expect(line));
    else if (line.starts_with(mark))
      continue;
    file.lines.push_back(line);
  }
  return file;
}

std::string with_notes(const CaseFile& file, const std::vector<Note>& notes) {
  std::string text;
  const auto write = [&](int line) {
    for (const Note& note : notes) {
      if (note.line == line) text += "--! " + note.text + "\n";
    }
  };
  write(0);
  for (std::size_t i = 0; i < file.lines.size(); ++i) {
    text += file.lines[i] + "\n";
    write(static_cast<int>(i) + 1);
  }
  write(-1);
  return text;
}

}  // namespace lensward::test
