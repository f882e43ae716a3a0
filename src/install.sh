#!/usr/bin/env bash
# Installs what SensorLab needs beside the .NET SDK, quietly and only where it is missing:
# a font for the charts' words, LibRaw for cameras' own raw files (DNG needs none), and the window library that
# OpenCV is linked against, for previews and thumbnails.
# With --tests also what the tests alone need: Chromium for pages, Poppler to read PDFs back, Node to read profiles
# with nothing of ours. With --packages also what the downloads are made with, and with --wine what tries the Windows one.
set -euo pipefail

missing=()
font=$(find /usr/share/fonts /usr/local/share/fonts -name 'DejaVuSans.ttf' -print -quit 2>/dev/null || true)
[ -n "$font" ] || missing+=(fonts-dejavu-core)
# Read whole before it is searched: a search that stops early breaks the pipe and passes for "missing".
libraries=$(ldconfig -p 2>/dev/null || /sbin/ldconfig -p)
# The packages' names follow the libraries' versions: Debian 12 has libraw20 and libgtk-3-0, later systems newer ones.
grep -q 'libraw_r\.so' <<<"$libraries" || missing+=('libraw[0-9]+')
grep -q 'libgtk-3\.so' <<<"$libraries" || missing+=('libgtk-3-0')
if [ "${1:-}" = --tests ]; then
  command -v chromium >/dev/null || missing+=(chromium)
  command -v pdftotext >/dev/null || missing+=(poppler-utils)
  command -v node >/dev/null || missing+=(nodejs)
  command -v npm >/dev/null || missing+=(npm)
fi
if [ "${1:-}" = --packages ]; then
  command -v clang >/dev/null || missing+=(clang)
  [ -e /usr/include/zlib.h ] || missing+=(zlib1g-dev)
  command -v zip >/dev/null || missing+=(zip)
fi
if [ "${1:-}" = --wine ]; then
  command -v wine >/dev/null || missing+=(wine wine64)
  command -v unzip >/dev/null || missing+=(unzip)
fi
[ ${#missing[@]} -eq 0 ] && exit 0

if ! command -v apt-get >/dev/null || [ "$(id -u)" -ne 0 ]; then
  names=${missing[*]/#libraw*/libraw20}
  echo "install.sh: please install what is missing (as root: apt-get install $names)" >&2
  exit 0
fi

export DEBIAN_FRONTEND=noninteractive
# Another apt-get may hold the lists; it is waited for, a minute at most.
for _ in $(seq 12); do
  apt-get update -qq >/dev/null 2>&1 && break
  sleep 5
done
for pattern in "${missing[@]}"; do
  package=$(apt-cache search --names-only "^$pattern(t64)?\$" | cut -d' ' -f1 | sort -V | tail -1)
  echo "install.sh: installing $package" >&2
  apt-get install -qq -y -o DPkg::Lock::Timeout=120 --no-install-recommends "$package" >/dev/null
done
