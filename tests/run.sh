#!/bin/sh
# Installs what the tests need, builds everything and runs every test. Arguments go to ctest: sh tests/run.sh -R plan
set -eu
cd "$(dirname "$0")/.."
. .ci/install.sh

echo "== Packages"
install_packages build test

echo "== Building"
start=$(date +%s)
configure build-tests -DCMAKE_BUILD_TYPE=Release -DLENSWARD_TESTS=ON -DLENSWARD_TOGETHER=ON
cmake --build build-tests
echo "Built in $(took "$start")."

echo "== Testing"
ctest --test-dir build-tests --output-on-failure --no-tests=error -j 2 "$@"
