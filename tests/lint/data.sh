#!/usr/bin/env bash
# The files that are not C: well-formed XML, a desktop entry, a metainfo file
# and settings that their own tools accept; number and unit kept together in
# the texts (units.py).  With --mend, that is put right.
set -euo pipefail
. "$(dirname "$0")/files.bash"

project_files 'data/*.xml' | for_files python3 tests/lint/units.py "$@" || exit 1
if [ "${1:-}" = --mend ]; then
  exit 0
fi

bad=0
project_files 'data/*.xml' 'data/*.rng' 'data/*.svg' 'data/*.in' 'ui/*.ui' 'ui/*.xml' 'src/*.xml' |
  grep -v '\.desktop\.in$' | for_files xmllint --noout --nonet || bad=1
project_files 'data/*.desktop' | for_files desktop-file-validate || bad=1
project_files 'data/*.metainfo.xml' | for_files appstreamcli validate --no-net --no-color >&2 || bad=1
for schema in $(project_files 'data/*.gschema.xml' | for_files -n 1 dirname | sort -u); do
  glib-compile-schemas --strict --dry-run "$schema" || bad=1
done
exit $bad
