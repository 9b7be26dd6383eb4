#!/usr/bin/env bash
# Static analysis of the C, as far as cppcheck is sure of it.
set -euo pipefail
. "$(dirname "$0")/files.bash"

list=$(mktemp)
trap 'rm -f "$list"' EXIT
project_files 'src/*.c' >"$list"
[ -s "$list" ] || exit 0
mkdir -p build/cppcheck

# Left out: what it cannot know without the headers of the libraries, and leaks,
# for it does not see g_autoptr nor what a queue takes over; the sanitizers do.
cppcheck --quiet -j "$(nproc)" --cppcheck-build-dir=build/cppcheck \
  --std=c11 --language=c --library=gtk --enable=warning,performance -I src \
  --suppress=missingInclude --suppress=unknownMacro --suppress=internalAstError \
  --suppress=memleak --suppress=nullPointerRedundantCheck \
  --inline-suppr --error-exitcode=1 \
  --template='{file}:{line}: {severity}: {message} [{id}]' --file-list="$list" >&2
