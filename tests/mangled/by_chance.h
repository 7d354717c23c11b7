// Scenes of the examples, and changes of their text by chance.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace lensward::test {

// A generator of its own, so that a seed means the same with every standard library (Steele and others, "Fast
// splittable pseudorandom number generators", 2014).
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}

  std::size_t below(std::size_t limit) {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9U;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBU;
    return static_cast<std::size_t>((mixed ^ (mixed >> 31)) % limit);
  }

 private:
  std::uint64_t state_;
};

using Files = std::map<std::string, std::string>;

// A scene with the files around it, as a folder of its own.
struct Example {
  Files files;
  std::string scene;

  const std::string& text() const { return files.at(scene); }
};

// Each file of the folder as the scene of an example, those below a film's folder with all files of the film.
std::vector<Example> examples_in(const std::filesystem::path& folder);

std::vector<std::string> lines_of(const std::string& text);
std::string joined(const std::vector<std::string>& lines);

// Takes out, exchanges, joins or doubles lines, or changes a line or byte of them; `others` are lines of other scenes.
// Requires lines.
void change_lines(std::vector<std::string>& lines, const std::vector<std::string>& others, Chance& chance);

// What somebody who writes does: another number, a word more or less, another line. Requires lines.
void change_as_a_writer_does(std::vector<std::string>& lines, const std::vector<std::string>& others, Chance& chance);

}  // namespace lensward::test
