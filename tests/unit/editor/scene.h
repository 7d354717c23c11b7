// A scene in memory, as an editor has it open.
#pragma once

#include <map>
#include <stdexcept>
#include <string>

#include "editor/read_files.h"
#include "mend/edited_text.h"
#include "source/host.h"

namespace lensward::test {

inline const std::string scene_text = R"(staging 1.0 scene
scene Parting "The last tram"
people Oda, Tobias
furniture Bench, seats 2, centre
prop Letter, with Oda
camera A
camera B
story Ours, of Oda and Tobias

opening
  Oda sits on Bench.1
  Tobias is beside the Bench, mark T1
  mark T1 at (2, 1) m

beat Asking "Oda asks"
  favour Oda
  Oda to Tobias: "Will [Turn] you wait, Oda?"
  Oda gives the Letter to Tobias, named Giving
  Tobias looks at the Letter, after Giving
  Tobias turns to Oda's front, on [Turn]
  camera A focuses on Tobias, as Giving

beat Answer
  Tobias rises, named Giving
  Oda looks at Tobias, as Giving

way B of Asking
  instead of Oda gives: Oda puts the Letter on the Bench
)";

inline ReadFiles read_from(const std::map<std::string, std::string>& files, const std::string& path) {
  MemoryHost host;
  host.files = files;
  auto read = read_files(host, path);
  if (!read) throw std::runtime_error("no such file: " + path);
  return std::move(*read);
}

inline ReadFiles read_scene(const std::string& text = scene_text) {
  return read_from({{"scene.staging", text}}, "scene.staging");
}

// Where `words` stand first, and `skip` bytes on.
inline std::uint32_t at(const ReadFiles& read, const std::string& words, std::size_t skip = 0) {
  const std::size_t found = read.text().find(words);
  if (found == std::string_view::npos) throw std::runtime_error("not in the text: " + words);
  return static_cast<std::uint32_t>(found + skip);
}

}  // namespace lensward::test
