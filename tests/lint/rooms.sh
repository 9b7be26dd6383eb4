#!/usr/bin/env bash
# The walls between the rooms of src/.  Meson keeps a room's libraries off its
# link line, but a header in /usr/include is found by anybody, so includes are
# checked here: first the rooms that a room may use, then the headers that it
# must not.
set -euo pipefail
. "$(dirname "$0")/files.bash"

core='base maths library reckoner book inspection service'
bad=0

room ()
{
  local name=$1 may=$2 never=$3 others leaks
  others=$(printf '%s\n' base maths library reckoner book inspection service sheet demo terminal window |
    grep -vxF "$(printf '%s\n' "$name" $may)" | paste -sd '|' -)
  leaks=$(project_files "src/$name/*.c" "src/$name/*.h" |
    for_files grep -nHE "^#include (\"($others)/|<($never)[/.>-])" || :)
  if [ -n "$leaks" ]; then
    printf '%s\n' "$leaks" >&2
    echo "src/$name may not include the headers above; see docs/architecture.md." >&2
    bad=1
  fi
}

toolkit='gtk|gdk'
database='sqlite3'
xml='libxml'
room base '' "$toolkit|$database|$xml|gsl|json-glib"
room maths '' "$toolkit|$database|$xml|glib|gio|json-glib"
room library 'base' "$toolkit|$database|gsl"
room reckoner 'base maths library' "$toolkit|$database|$xml|gsl|json-glib"
room book 'base' "$toolkit|$xml|gsl|json-glib"
room inspection 'base maths library book' "$toolkit|$database|$xml"
room service "$core" "$toolkit|$database|$xml"
room sheet "$core" "gtk|gdk/|$database|$xml"
room demo "$core sheet" "$toolkit|$database|$xml"
room terminal "$core sheet demo" "$toolkit|$database|$xml"
room window "$core sheet demo" "$database|$xml|gsl"

missing=$(project_files 'src/*.h' 'tests/*.h' | for_files grep -L '^#pragma once' || :)
if [ -n "$missing" ]; then
  printf 'No #pragma once in: %s\n' "$missing" >&2
  bad=1
fi
exit $bad
