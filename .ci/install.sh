# Sourced by examples/first-scene.sh, tests/run.sh and .ci/run from the project's root: installs the sections of
# .ci/packages named. Without apt it says what is wanted and goes on; the build then says what it cannot find.

wanted_packages() {
  for section in "$@"; do
    sed -n "/^\[$section\]/,/^\[/p" .ci/packages | grep -v '^\[' | grep -v '^#' || true
  done
}

missing_packages() {
  for package in $(wanted_packages "$@"); do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || echo "$package"
  done
}

install_packages() {
  if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
    echo "No apt here. Please have these installed, under your system's names for them:"
    wanted_packages "$@" | sed 's/^/  /'
    return 0
  fi
  missing=$(missing_packages "$@")
  if [ -z "$missing" ]; then
    echo "All packages are there."
    return 0
  fi
  as_root=
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      echo "Neither root nor sudo. Please have these installed:"
      echo "$missing" | sed 's/^/  /'
      return 0
    fi
    as_root=sudo
  fi
  echo "Installing:" $missing
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq update
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends $missing >/dev/null
}

# Prints how long it took since the given `date +%s`.
took() {
  seconds=$(($(date +%s) - $1))
  echo "$((seconds / 60)) min $((seconds % 60)) s"
}

# configure FOLDER OPTIONS...: a configure that was interrupted leaves false memories behind, so a failure is tried once
# more from nothing.
configure() {
  folder=$1
  shift
  mkdir -p "$folder"
  cmake -S . -B "$folder" -G Ninja "$@" >"$folder/configure.log" 2>&1 && return 0
  cmake --fresh -S . -B "$folder" -G Ninja "$@" >"$folder/configure.log" 2>&1 && return 0
  cat "$folder/configure.log"
  exit 2
}
