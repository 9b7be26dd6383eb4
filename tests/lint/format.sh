#!/usr/bin/env bash
# The form of the files: C as .clang-format says, lines to 100 columns in C, no
# tabs or trailing spaces.  With --mend, the C files are put right.
set -euo pipefail
. "$(dirname "$0")/files.bash"
export LC_ALL=C.UTF-8

# The lines that clang-format may judge, as its options.  Not macros, whose
# braces it takes for blocks and whose dashes for a minus, nor enums on one line,
# nor initialisers over several lines, which are laid out as tables.
judged_lines ()
{
  awk '
    function close_range () { if (from) print "--lines=" from ":" NR - 1; from = 0 }
    { apart = macro || table || /^#define/ || /^G_DEFINE_QUARK/ || /= *\{[^;]*$/ ||
              /^ *(static )?enum *\{.*\};$/
      table = (table || /= *\{[^;]*$/) && !/;/
      macro = (macro || /^#define/) && /\\$/ }
    apart { close_range (); next }
    !from { from = NR }
    END { NR++; close_range () }' "$1"
}

format_each ()
{
  local file bad=0
  local -a lines options=("$1")
  shift

  for file in "$@"; do
    mapfile -t lines < <(judged_lines "$file")
    clang-format "${options[@]}" "${lines[@]}" "$file" || bad=1
  done
  return $bad
}

plain_text ()
{
  project_files 'src/*' 'tests/*' ':!*.tsv' 'ui/*' 'data/*.xml' 'data/*.rng' '*.md' '*.build' dev '.ci/*'
}

command -v clang-format >/dev/null || { echo "clang-format is missing" >&2; exit 1; }
case ${1:-} in
  --mend)
    project_files 'src/*.c' 'tests/*.c' | for_files bash "$0" --these -i
    plain_text | for_files grep -lIE ' +$' | for_files sed -i 's/ *$//' || :
    exit 0
    ;;
  --these)
    shift
    format_each "$@"
    exit
    ;;
esac

bad=0
project_files 'src/*.c' 'tests/*.c' |
  for_files -n 12 -P "$(nproc)" bash "$0" --these --dry-run 2>&1 | grep -A1 'warning:' >&2 &&
  { echo "Run ./dev format to put the C files right." >&2; bad=1; }
if project_files 'src/*.c' 'tests/*.c' | for_files grep -nHE '^.{101,}' >&2; then
  echo "The lines above are longer than 100 columns." >&2
  bad=1
fi
if plain_text | for_files grep -nHIE $'\t|[ \r]$' >&2; then
  echo "The lines above hold a tab or end in a space." >&2
  bad=1
fi
exit $bad
