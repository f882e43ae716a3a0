#!/usr/bin/env bash
# Installs what SensorLab needs beside the .NET SDK, quietly and only where it is missing:
# a font for the charts' words, and LibRaw for cameras' own raw files (DNG needs none).
# With --tests also what the tests alone need: Chromium for pages, Poppler to read PDFs back.
set -euo pipefail

missing=()
font=$(find /usr/share/fonts /usr/local/share/fonts -name 'DejaVuSans.ttf' -print -quit 2>/dev/null || true)
[ -n "$font" ] || missing+=(fonts-dejavu-core)
# Read whole before it is searched: a search that stops early breaks the pipe and passes for "missing".
libraries=$(ldconfig -p 2>/dev/null || /sbin/ldconfig -p)
# The package's name follows the library's version: Debian 12 has 20, later systems have newer ones.
grep -q 'libraw_r\.so' <<<"$libraries" || missing+=(libraw)
if [ "${1:-}" = --tests ]; then
  command -v chromium >/dev/null || missing+=(chromium)
  command -v pdftotext >/dev/null || missing+=(poppler-utils)
fi
[ ${#missing[@]} -eq 0 ] && exit 0

if ! command -v apt-get >/dev/null || [ "$(id -u)" -ne 0 ]; then
  echo "install.sh: please install: ${missing[*]} (as root: apt-get install fonts-dejavu-core libraw20)" >&2
  exit 0
fi

export DEBIAN_FRONTEND=noninteractive
apt-get update -qq >/dev/null
for package in "${missing[@]}"; do
  if [ "$package" = libraw ]; then
    package=$(apt-cache search --names-only '^libraw[0-9]+(t64)?$' | cut -d' ' -f1 | sort -V | tail -1)
  fi
  echo "install.sh: installing $package" >&2
  apt-get install -qq -y -o DPkg::Lock::Timeout=120 --no-install-recommends "$package" >/dev/null
done
