#!/bin/sh
# A double click opens a terminal with the help, in which sensorlab is on the path, and the bench in the browser. macOS
# brings the terminal itself.
here=$(cd "$(dirname "$0")" && pwd) || exit
if [ ! -t 0 ] && [ "${1:-}" != --here ]; then
  for terminal in x-terminal-emulator gnome-terminal konsole xfce4-terminal xterm; do
    command -v "$terminal" >/dev/null || continue
    case $terminal in
      gnome-terminal) exec "$terminal" -- "$here/$(basename "$0")" --here ;;
      xfce4-terminal) exec "$terminal" -x "$here/$(basename "$0")" --here ;;
      *) exec "$terminal" -e "$here/$(basename "$0")" --here ;;
    esac
  done
fi
PATH=$here:$PATH
export PATH
sensorlab --help
printf '\nThis window knows the word sensorlab. cd takes you to your frames, "sensorlab characterise --help" tells what it asks for.\n'
[ -t 0 ] || exit 0
printf 'The bench opens in your browser; Ctrl-C ends it and leaves you this window.\n\n'
sensorlab bench
exec "${SHELL:-/bin/sh}"
