#!/bin/sh
# What counts as a failed test: whatever did not say that it passed.
set -eu

dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
mkdir -p "$dir/build/x"
cd "$dir"
number=0

# expect NAME LINE STATUS RECORD…: the closing line that the records come to.
expect ()
{
  name=$1 line=$2 status=$3
  shift 3
  number=$((number + 1))
  printf '%s\n' "$@" >build/x/log.json
  [ -n "$*" ] || : >build/x/log.json
  got=$(python3 "$PIN_SOURCE_ROOT/tests/tally.py" count "$status" build/x/log.json) && exit=0 || exit=$?
  wanted=0
  case $line in *", 0 failed") ;; *) wanted=1 ;; esac
  if [ "$(printf '%s\n' "$got" | tail -n 1)" = "$line" ] && [ "$exit" -eq "$wanted" ]; then
    echo "ok $number /tally/$name"
  else
    echo "not ok $number /tally/$name"
    printf '%s\n' "$got" | sed 's/^/# /'
  fi
}

echo 1..8
good='{"name":"a","stdout":"1..2\nok 1 /a\nok 2 /b\n","result":"OK","returncode":0}'
expect passes '2 passed, 0 failed' 0 "$good"
expect skipped '3 passed, 1 failed' 0 "$good" \
  '{"name":"b","stdout":"1..2\nok 1 /a\nok 2 /b # SKIP no display\n","result":"OK","returncode":0}'
expect bails-out '3 passed, 1 failed' 1 "$good" \
  '{"name":"b","stdout":"1..3\nok 1 /a\nnot ok /b - ERROR\nBail out!\n","result":"ERROR","returncode":-6}'
expect crashes '3 passed, 1 failed' 1 "$good" \
  '{"name":"b","stdout":"1..3\nok 1 /a\n","result":"ERROR","returncode":-11}'
expect leaks '4 passed, 1 failed' 1 "$good" \
  '{"name":"b","stdout":"1..2\nok 1 /a\nok 2 /b\n","result":"ERROR","returncode":1}'
expect runs-nothing '2 passed, 1 failed' 0 "$good" \
  '{"name":"b","stdout":"","result":"SKIP","returncode":0}'
expect no-records '0 passed, 1 failed' 0 ''
expect does-not-build '2 passed, 1 failed' 1 "$good"
