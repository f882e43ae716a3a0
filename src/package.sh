#!/usr/bin/env bash
# Makes the downloads: one self-contained archive for each system named, win-x64, osx-arm64, osx-x64, linux-x64 and
# linux-arm64 where none is, into out/packages, with SHA256SUMS beside them. Usage: bash src/package.sh [RID…]
# The same commit gives the same bytes. linux-x64 is compiled natively and needs clang and zlib1g-dev.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/out/package-build
target=$root/out/packages
# Debian's: the text of a licence that a package names and does not carry.
common=/usr/share/common-licenses
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 LC_ALL=C
. "$root/src/package-parts.sh"

fail() { echo "package.sh: $*" >&2; exit 1; }

version=$(sed -n 's|.*<Version>\(.*\)</Version>.*|\1|p' "$root/Directory.Build.props")
commit=$(git -C "$root" rev-parse HEAD)
seconds=$(git -C "$root" log -1 --format=%ct)
[ -z "$(git -C "$root" status --porcelain)" ] || echo "package.sh: the tree has changes that no commit holds: the archives say $commit all the same" >&2

publish() { # RID FOLDER
  dotnet publish "$root/src/SensorLab.Cli/SensorLab.Cli.csproj" -c Release -r "$1" -o "$2" --artifacts-path "$build/artifacts" \
    -p:ContinuousIntegrationBuild=true -p:DebugType=none -p:RunAnalyzers=false -v quiet >"$build/$1.log" 2>&1 \
    || { cat "$build/$1.log" >&2; fail "$1 does not build"; }
}

# What a person double-clicks. There is no page of the lab's own to open yet: it shows the help and waits.
launcher() { # RID FOLDER
  case $1 in
    win-*)
      printf '@echo off\r\n"%%~dp0sensorlab.exe" --help\r\necho.\r\necho Type sensorlab and a command; "sensorlab characterise --help" tells its options.\r\ncd /d "%%~dp0"\r\ncmd /k\r\n' >"$2/SensorLab.cmd" ;;
    *)
      local name=SensorLab.sh
      [[ $1 != osx-* ]] || name=SensorLab.command
      printf '#!/bin/sh\ncd "$(dirname "$0")" || exit\n./sensorlab --help\nprintf "\\nPress Enter to close. "\nread -r _\n' >"$2/$name"
      chmod 755 "$2/$name" ;;
  esac
}

readme() { # RID FOLDER
  local libraw='apt-get install libraw20' program=./sensorlab
  case $1 in
    osx-*) libraw='brew install libraw' ;;
    win-*) libraw='none is to be had ready-made: convert to DNG' program=sensorlab.exe ;;
  esac
  cat >"$2/READ-ME.txt" <<TEXT
SensorLab $version for $1, commit $commit

$program --help        all commands
$program rehearse practice --iso 100,400
$program characterise practice --out practice.json --report practice-report

Raw files in the DNG format work as they are. Cameras' own formats need LibRaw: $libraw.
licences/ holds the licences of all that is inside, parts.cdx.json lists it (CycloneDX 1.6).
TEXT
}

archive() { # RID NAME
  find "$build/$2" -exec touch -h -d "@$seconds" {} +
  case $1 in
    win-*) (cd "$build" && rm -f "$target/$2.zip" && find "$2" -type f | sort | TZ=UTC zip -q -X -9 "$target/$2.zip" -@) ;;
    *) tar -C "$build" --sort=name --mtime="@$seconds" --owner=0 --group=0 --numeric-owner --format=ustar -cf - "$2" | gzip -9n >"$target/$2.tar.gz" ;;
  esac
}

[ $# -gt 0 ] || set -- win-x64 osx-arm64 osx-x64 linux-x64 linux-arm64
mkdir -p "$build" "$target"
for rid in "$@"; do
  case $rid in
    win-x64 | osx-arm64 | osx-x64 | linux-x64 | linux-arm64) ;;
    *) fail "$rid: win-x64, osx-arm64, osx-x64, linux-x64 or linux-arm64" ;;
  esac
  echo "package.sh: $rid" >&2
  name=sensorlab-$version-$rid
  folder=$build/$name
  rm -rf "$folder"
  publish "$rid" "$folder"
  rm -f "$folder"/*.pdb "$folder"/*.dbg "$folder"/*.xml
  program=sensorlab
  [[ $rid != win-* ]] || program=sensorlab.exe
  mv "$folder/SensorLab.Cli${program#sensorlab}" "$folder/$program"
  find "$folder" -type f -exec chmod 644 {} +
  chmod 755 "$folder/$program"
  parts "$rid" "$folder"
  launcher "$rid" "$folder"
  readme "$rid" "$folder"
  archive "$rid" "$name"
done
(cd "$target" && sha256sum sensorlab-"$version"-*.tar.gz sensorlab-"$version"-*.zip 2>/dev/null >SHA256SUMS) || [ -s "$target/SHA256SUMS" ]
cat "$target/SHA256SUMS"
