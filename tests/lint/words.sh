#!/usr/bin/env bash
# Words that must not stay in a project's files: things left to do, paths of
# somebody's machine.
set -euo pipefail
. "$(dirname "$0")/files.bash"

left_over='\b(TO''DO|FIX''ME|XX''X|HA''CK)\b'
somebodys_path='(^|[^A-Za-z0-9_.~-])/(home|root|Users|work|mnt)/[A-Za-z0-9]'
skipped='g_test_''skip|g_test_''incomplete|should_''fail *: *true|exit 7''7'

bad=0
if project_files '*' '.ci/*' ':!COPYING' ':!*.po' |
  for_files grep -nHIE "$left_over|$somebodys_path|$skipped" >&2; then
  echo "The lines above hold a left-over, a machine's path or a skipped test." >&2
  bad=1
fi
exit $bad
