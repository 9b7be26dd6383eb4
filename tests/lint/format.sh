#!/usr/bin/env bash
# The form of the files: lines to 120 columns in C, a space before the bracket of a
# call, no tabs or trailing spaces.  Formatters lay compound literals and tables of
# the kind that GTK code is full of out of all reading, so these few rules are held
# and the rest is the writer's.  With --mend, what can be put right by itself is.
set -euo pipefail
. "$(dirname "$0")/files.bash"
export LC_ALL=C.UTF-8

# Headers are laid out as tables, with what a line is about behind it.
c_files ()
{
  project_files 'src/*.c' 'tests/*.c'
}

plain_text ()
{
  project_files 'src/*' 'tests/*' ':!*.tsv' 'ui/*' 'data/*.xml' 'data/*.rng' '*.build' dev '.ci/*'
}

if [ "${1:-}" = --mend ]; then
  plain_text | for_files grep -lIE '[ \r]+$' | for_files sed -i 's/[ \r]*$//' || :
  exit 0
fi

# Calls without their space; strings, comments and macro definitions set aside.
tight_calls ()
{
  awk '
    FNR == 1 { comment = 0 }
    { line = $0
      gsub (/\\"/, "", line); gsub (/"[^"]*"/, "\"\"", line); gsub (/\047.\047/, "", line)
      if (comment) { if (!sub (/^.*\*\//, "", line)) next; comment = 0 }
      gsub (/\/\*[^*]*\*+([^\/*][^*]*\*+)*\//, "", line)
      if (sub (/\/\*.*$/, "", line)) comment = 1
      if (line ~ /^ *#/ || line ~ /\\$/) next
      gsub (/(^|[^A-Za-z0-9_])N?C?_\(/, "", line)
      if (line ~ /[A-Za-z0-9_]\(/) print FILENAME ":" FNR ": " $0 }' "$@"
}

bad=0
if c_files | for_files grep -nHE '^.{121,}' >&2; then
  echo "The lines above are longer than 120 columns." >&2
  bad=1
fi
tight=$(c_files | while read -r file; do tight_calls "$file"; done)
if [ -n "$tight" ]; then
  printf '%s\n' "$tight" >&2
  echo "A space belongs before the bracket of a call." >&2
  bad=1
fi
if plain_text | for_files grep -nHIE $'\t|[ \r]$' >&2; then
  echo "The lines above hold a tab or end in a space (./dev format mends the spaces)." >&2
  bad=1
fi
exit $bad
