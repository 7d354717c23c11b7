#!/bin/sh
# Installs what the tests need, builds everything and runs every test. Arguments go to ctest: sh tests/run.sh -R plan
set -eu
cd "$(dirname "$0")/.."
. .ci/install.sh

echo "== Packages"
install_packages build test

echo "== Building"
start=$(date +%s)
cmake -S . -B build-tests -G Ninja -DCMAKE_BUILD_TYPE=Release -DLENSWARD_TESTS=ON >build-configure.log 2>&1 ||
  { cat build-configure.log; exit 2; }
rm -f build-configure.log
cmake --build build-tests
echo "Built in $(took "$start")."

echo "== Testing"
ctest --test-dir build-tests --output-on-failure --no-tests=error -j 2 "$@"
