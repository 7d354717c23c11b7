#include <algorithm>
#include <filesystem>

#include "cli/commands.h"

namespace lensward {
namespace {

// Draws at once. Its slips do no harm: one is mended by typing, one has a safe repair, one is a choice.
constexpr const char* first_scene = R"(staging 1.0 scene
scene Shed "The sixth boat"
people Ragna, Ilse, Tor
room 6 m by 5 m
furniture Table, centre, front south
furniture Stove, deep, frame left
camera A, at (3, -1.5) m, height 1.5 m, lens 35 mm, stop T4

beat Waiting "Nobody counts aloud"
-- Slip 1 of 3, to mend by typing: nothing is called that.
Ragna is by the Stvoe, three-quarter to Ilse
Ilse is behind the Table, frontal
Tor is at foreground, frame right, back to lens
camera focuses on Ilse
favour Ilse
Ilse to Ragna: "Six went out. I hear five engines."
-- Slip 2 of 3, with one safe repair: a sign is missing.
then Ilse to Ragna "Count them again."

beat Sixth "She is only slow"
-- Slip 3 of 3, a choice: the audience cannot read a back, and there is more than one way to show them the face.
favour Tor
camera focuses on Tor
Tor to Ilse: "There is the sixth. She is only slow."
)";

bool is_staging(const std::string& name) { return name.ends_with(".staging"); }

}  // namespace

int command_new(const NewOptions& options, Surroundings& around) {
  const std::optional<std::vector<std::string>> names = around.host.names_in(options.folder);
  const auto counts = [](const std::string& name) { return name != "." && name != ".."; };
  if (names && std::any_of(names->begin(), names->end(), counts)) {
    throw CannotRun(options.folder + " is not empty; name a folder that is not there yet");
  }
  std::error_code error;
  std::filesystem::create_directories(options.folder, error);
  if (error) throw CannotRun("cannot make the folder " + options.folder + ": " + error.message());
  const std::string path = (std::filesystem::path(options.folder) / "shed.staging").string();
  put(path, first_scene, around);
  put("-", path + "\n", around);
  tell("lensward: " + path + " is a scene of two beats with three slips, each marked; next: `lensward check " + path +
       "`");
  return 0;
}

void tell_what_is_here(Surroundings& around) {
  std::vector<std::string> names = around.host.names_in(".").value_or(std::vector<std::string>{});
  std::erase_if(names, [](const std::string& name) { return !is_staging(name); });
  if (names.empty()) {
    tell("lensward: no staging file is here; next: `lensward new DIR` writes a scene to begin with");
  } else {
    std::string list = names.front();
    for (std::size_t i = 1; i < names.size(); ++i) list += ", " + names[i];
    const bool film = std::find(names.begin(), names.end(), "film.staging") != names.end();
    tell("lensward: here: " + list + "; next: `lensward check " + (film ? "film.staging" : names.front()) + "`");
  }
  tell("`lensward --help` lists the commands");
}

}  // namespace lensward
