# Sourced by the checks: the project's own files, one a line, that match the
# patterns given; those not yet added to git count, ignored ones do not.

cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1

project_files ()
{
  if git rev-parse --is-inside-work-tree >/dev/null 2>&1; then
    git ls-files --cached --others --exclude-standard -- "$@" | while IFS= read -r file; do
      [ -f "$file" ] && printf '%s\n' "$file"
    done
  else
    local pattern
    for pattern in "$@"; do
      find . -path './build*' -prune -o -path "./$pattern" -type f -print | sed 's,^\./,,'
    done | sort -u
  fi
}

# for_files COMMAND…: runs it with the files of standard input as arguments.
for_files ()
{
  xargs -r -d '\n' "$@"
}
