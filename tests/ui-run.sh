#!/bin/sh
# ui-run.sh COMMAND [ARGUMENT…]: runs it on a screen and a session bus of its own,
# with a window manager and nothing else that might answer on the bus.  The exit
# status is the command's.  PIN_SCREEN=1366x900 sets the size of the screen.
set -eu

if [ "${1:-}" != --on-the-bus ]; then
  [ $# -gt 0 ] || { echo "ui-run.sh: which command?" >&2; exit 2; }
  for tool in dbus-run-session Xvfb xauth openbox xprop pkg-config; do
    command -v "$tool" >/dev/null || {
      echo "ui-run.sh: $tool is missing; ./dev test installs what the tests need" >&2
      exit 1
    }
  done
  services=$(pkg-config --variable=session_bus_services_dir dbus-1 2>/dev/null || :)
  services=${services:-/usr/share/dbus-1/services}
  [ -f "$services/org.a11y.Bus.service" ] || {
    echo "ui-run.sh: $services/org.a11y.Bus.service is missing; install at-spi2-core" >&2
    exit 1
  }

  PIN_UI_DIR=$(mktemp -d "${TMPDIR:-/tmp}/hingepin-ui-XXXXXX")
  trap 'rm -rf "$PIN_UI_DIR"' EXIT
  trap 'exit 143' INT TERM
  mkdir -p "$PIN_UI_DIR/services" "$PIN_UI_DIR/run" "$PIN_UI_DIR/config/gtk-4.0"
  chmod 700 "$PIN_UI_DIR/run"
  cp "$services/org.a11y.Bus.service" "$PIN_UI_DIR/services/"
  # No animations: a test waits for effects, not for pictures to come to rest.
  printf '[Settings]\ngtk-enable-animations=false\ngtk-cursor-blink=false\ngtk-font-name=Cantarell 11\n' \
    >"$PIN_UI_DIR/config/gtk-4.0/settings.ini"
  cat >"$PIN_UI_DIR/bus.conf" <<X
<busconfig>
  <type>session</type>
  <listen>unix:tmpdir=$PIN_UI_DIR/run</listen>
  <auth>EXTERNAL</auth>
  <servicedir>$PIN_UI_DIR/services</servicedir>
  <policy context="default">
    <allow send_destination="*" eavesdrop="true"/>
    <allow eavesdrop="true"/>
    <allow own="*"/>
  </policy>
</busconfig>
X
  # The cairo renderer, and GL off: quick and the same on every machine.
  export PIN_UI_DIR XDG_RUNTIME_DIR="$PIN_UI_DIR/run" XDG_CONFIG_HOME="$PIN_UI_DIR/config" \
    GDK_BACKEND=x11 GSK_RENDERER=cairo GDK_DEBUG=gl-disable GSETTINGS_BACKEND=memory \
    LANG=C.UTF-8 G_DEBUG="${G_DEBUG-fatal-warnings}"
  unset GTK_A11Y GTK_THEME WAYLAND_DISPLAY AT_SPI_BUS_ADDRESS DISPLAY DESKTOP_STARTUP_ID
  # The bus and its services talk a lot about themselves; the command keeps our
  # own output.
  status=0
  dbus-run-session --config-file="$PIN_UI_DIR/bus.conf" -- "$0" --on-the-bus "$@" \
    8>&1 9>&2 >"$PIN_UI_DIR/bus.log" 2>&1 || status=$?
  exit $status
fi

shift
exec >&8 2>&9 8>&- 9>&-
screen=
manager=
command=

leave ()
{
  status=$?
  for process in $command $manager $screen; do
    kill "$process" 2>/dev/null || :
  done
  wait
  exit $status
}
trap leave EXIT
trap 'exit 143' INT TERM

# The server chooses a free number itself and tells it once it listens: two runs
# side by side cannot take the same one.
XAUTHORITY="$PIN_UI_DIR/authority"
export XAUTHORITY
cookie=$(od -An -N16 -tx1 /dev/urandom | tr -d ' \n')
: >"$XAUTHORITY"
xauth -q add :0 . "$cookie"
mkfifo "$PIN_UI_DIR/number"
Xvfb -displayfd 3 -screen 0 "${PIN_SCREEN:-1366x900}x24" -nolisten tcp -noreset \
  -auth "$XAUTHORITY" 3>"$PIN_UI_DIR/number" >"$PIN_UI_DIR/screen.log" 2>&1 &
screen=$!
read -r number <"$PIN_UI_DIR/number" || number=
[ -n "$number" ] || {
  echo "ui-run.sh: the virtual screen did not start:" >&2
  cat "$PIN_UI_DIR/screen.log" >&2
  exit 1
}
xauth -q add ":$number" . "$cookie"
DISPLAY=":$number"
export DISPLAY

openbox >"$PIN_UI_DIR/manager.log" 2>&1 &
manager=$!
tries=100
until xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q 'window id'; do
  tries=$((tries - 1))
  if [ $tries -eq 0 ] || ! kill -0 $manager 2>/dev/null; then
    echo "ui-run.sh: the window manager did not start:" >&2
    cat "$PIN_UI_DIR/manager.log" >&2
    exit 1
  fi
  sleep 0.05
done

"$@" &
command=$!
status=0
wait $command || status=$?
command=
exit $status
