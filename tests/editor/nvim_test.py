"""A session in Neovim, headless, with the settings of docs/editors/nvim.lua.

Usage: nvim_test.py NVIM PROGRAM
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
SETTINGS = HERE.parents[1] / "docs/editors/nvim.lua"

SCENE = """staging 1.0 scene
scene Parting "The last tram \U0001D11E"
people Oda, Tobias
room 6 m by 5 m
furniture Table, centre

beat Asking
  Oda is at frame left, medium shot
  Tobias is by the Table
  favour Oda
  Oda  to Tobias: "\U0001D11E\U0001D11E Will you wait, Oda?"
  Oda walsk to the Tabel
  -- \U0001D11E\U0001D11E
  Tobias looks at the Tabel,   on "\U0001D11E\U0001D11E Will"
"""


def checked(program, path):
    findings = json.loads(subprocess.run([program, "check", path, "--as", "json"], capture_output=True).stdout)
    lines = path.read_text().split("\n")

    def column(where):
        return len(lines[where["line"] - 1][:where["column"] - 1].encode()) + 1
    return sorted((one["where"]["line"], column(one["where"]), one["rule"], one["message"])
                  for one in findings["findings"])


def main(nvim, program):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        scene = folder / "scene.staging"
        scene.write_text(SCENE)
        expected = checked(program, scene)
        tidy = subprocess.run([program, "tidy", scene], capture_output=True, text=True).stdout
        (folder / "bin").mkdir()
        (folder / "bin/lensward").symlink_to(pathlib.Path(program).resolve())
        environment = {**os.environ, "PATH": f"{folder / 'bin'}:{os.environ['PATH']}", "HOME": str(folder),
                       "XDG_CONFIG_HOME": str(folder), "XDG_STATE_HOME": str(folder), "XDG_DATA_HOME": str(folder),
                       "XDG_CACHE_HOME": str(folder)}
        ran = subprocess.run([nvim, "--headless", "-n", "-i", "NONE", "-u", SETTINGS, "-c", f"luafile {HERE / 'session.lua'}",
                              scene], capture_output=True, text=True, timeout=240, env=environment)
        lines = [line for line in ran.stdout.split("\n") if line.startswith("{")]
        if not lines:
            return f"the editor said nothing: {ran.stdout}{ran.stderr}"
        seen = json.loads(lines[-1])
        if "fault" in seen:
            return seen["fault"]
        found = sorted((one["line"], one["column"], one["code"], one["message"].split("\n")[0])
                       for one in seen["findings"])
        renamed = scene.read_text()
        for what, wanted, got in (("findings", expected, found), ("formatting", tidy, seen["formatted"]),
                                  ("file type", "staging", seen["filetype"]), ("outline", "Parting", seen["scene"]),
                                  ("refusal", "`Tobias` is taken: it stands in line 3", seen["refused"]),
                                  ("renaming", tidy.replace("Oda", "Åsa").replace("wait, Åsa", "wait, Oda"), renamed)):
            if wanted != got:
                return f"{what}: wanted\n{wanted}\ngot\n{got}"
        if "favour" not in seen["hover"]:
            return f"hover: {seen['hover']}"
    return ""


if __name__ == "__main__":
    FAULT = main(*sys.argv[1:3])
    print(FAULT or "the session went as it should")
    sys.exit(1 if FAULT else 0)
