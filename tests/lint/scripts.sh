#!/usr/bin/env bash
# Shell scripts, and that every test file is built.
set -euo pipefail
. "$(dirname "$0")/files.bash"

bad=0
project_files dev .ci/run 'tests/*.sh' | for_files shellcheck --severity=warning --exclude=SC2046 >&2 || bad=1
for file in $(project_files 'tests/*/test-*.c' 'tests/*/bench-*.c'); do
  stem=$(basename "$file" .c)
  stem=${stem#test-}
  stem=${stem#bench-}
  grep -qs -- "$stem" "$(dirname "$file")/meson.build" || {
    echo "$file is named by no meson.build." >&2
    bad=1
  }
done
exit $bad
