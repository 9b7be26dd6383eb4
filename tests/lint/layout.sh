#!/usr/bin/env bash
# How statements are indented, spaced and braced in C; see layout.py.  With --mend,
# the files are put right.
set -euo pipefail
. "$(dirname "$0")/files.bash"

project_files 'src/*.c' 'tests/*.c' | for_files python3 tests/lint/layout.py "$@"
