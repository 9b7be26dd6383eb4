#!/usr/bin/env bash
# The files that are not C: well-formed XML, a desktop entry, a metainfo file
# and settings that their own tools accept.
set -euo pipefail
. "$(dirname "$0")/files.bash"

bad=0
project_files 'data/*.xml' 'data/*.rng' 'data/*.svg' 'data/*.in' 'ui/*.ui' 'ui/*.xml' 'src/*.xml' |
  grep -v '\.desktop\.in$' | for_files xmllint --noout --nonet || bad=1
project_files 'data/*.desktop' | for_files desktop-file-validate || bad=1
project_files 'data/*.metainfo.xml' | for_files appstreamcli validate --no-net --no-color >&2 || bad=1
for schema in $(project_files 'data/*.gschema.xml' | for_files -n 1 dirname | sort -u); do
  glib-compile-schemas --strict --dry-run "$schema" || bad=1
done
exit $bad
