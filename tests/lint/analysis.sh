#!/usr/bin/env bash
# Static analysis of the C.  Only what cppcheck is sure of stops the gate; it
# does not know GLib's cleanup attributes, hence the library file glib's macros
# are taken from and the few messages left out.
set -euo pipefail
. "$(dirname "$0")/files.bash"

log=$(mktemp)
trap 'rm -f "$log"' EXIT
project_files 'src/*.c' >"$log"
[ -s "$log" ] || exit 0
mkdir -p build/cppcheck
cppcheck --quiet -j "$(nproc)" --cppcheck-build-dir=build/cppcheck \
  --std=c11 --language=c --library=gtk --enable=warning,performance,portability \
  --suppress=missingInclude --suppress=unknownMacro --suppress=normalCheckLevelMaxBranches \
  --suppress=nullPointerRedundantCheck --suppress=checkLevelNormal \
  --inline-suppr --error-exitcode=1 -I src \
  --template='{file}:{line}: {severity}: {message} [{id}]' --file-list="$log" >&2
