#!/usr/bin/env bash
# po/POTFILES names each file with words to translate, and each translation is
# sound.  With --mend, po/POTFILES is written anew.
set -euo pipefail
. "$(dirname "$0")/files.bash"
export LC_ALL=C.UTF-8

with_words ()
{
  {
    project_files 'src/*.c' 'src/*.h' | for_files grep -lE '\b(N?C?_|ngettext|g_dngettext) ?\('
    project_files 'ui/*.ui' | for_files grep -lE 'translatable="(yes|true|1)"'
    project_files 'data/*.desktop' 'data/*.metainfo.xml'
  } | sort -u || :
}

if [ "${1:-}" = --mend ]; then
  with_words >po/POTFILES
  exit 0
fi

bad=0
if ! difference=$(diff <(with_words) <(sort -u po/POTFILES)); then
  printf '%s\n' "$difference" >&2
  echo "po/POTFILES is not up to date: run ./dev format." >&2
  bad=1
fi
while read -r language; do
  msgfmt --check --output-file=/dev/null "po/$language.po" || bad=1
done < <(sed 's/#.*//; /^ *$/d' po/LINGUAS)
exit $bad
