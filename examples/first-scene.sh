#!/bin/sh
# Installs what the build needs, builds lensward, checks a scene and makes its staging book.
set -eu
cd "$(dirname "$0")/.."
. .ci/install.sh

echo "== Packages"
install_packages build

echo "== Building (about five minutes on two cores the first time)"
start=$(date +%s)
configure build -DCMAKE_BUILD_TYPE=Release -DLENSWARD_TOGETHER=ON
cmake --build build --target lensward

echo "== Checking examples/one-vote.staging"
status=0
build/lensward check examples/one-vote.staging || status=$?
[ "$status" -le 1 ] || exit "$status"

echo "== Making its staging book"
build/lensward book examples/one-vote.staging -o build/one-vote.pdf
echo
echo "The book is build/one-vote.pdf. Built and made in $(took "$start")."
