#!/usr/bin/env bash
# Makes the downloads: one self-contained archive for each system named, win-x64, osx-arm64, osx-x64, linux-x64 and
# linux-arm64 where none is, into out/packages, with SHA256SUMS beside them. Usage: bash src/package.sh [RID…]
# The same commit gives the same bytes. linux-x64 is compiled natively and needs clang and zlib1g-dev, win-x64 needs zip;
# on Debian, as root, what is missing is installed.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/out/package-build
target=$root/out/packages
# Debian's: the text of a licence that a package names and does not carry.
common=/usr/share/common-licenses
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 LC_ALL=C
. "$root/src/progress.sh"
. "$root/src/package-parts.sh"

fail() { echo "package.sh: $*" >&2; exit 1; }

version=$(sed -n 's|.*<Version>\(.*\)</Version>.*|\1|p' "$root/Directory.Build.props")
commit=$(git -C "$root" rev-parse HEAD)
seconds=$(git -C "$root" log -1 --format=%ct)
[ -z "$(git -C "$root" status --porcelain)" ] || echo "package.sh: the tree has changes that no commit holds: the archives say $commit all the same" >&2

publish() { # RID FOLDER
  told "package.sh: $1" "$(projects_of SensorLab.Cli)" dotnet publish "$root/src/SensorLab.Cli/SensorLab.Cli.csproj" -c Release -r "$1" -o "$2" \
    --artifacts-path "$build/artifacts" -p:ContinuousIntegrationBuild=true -p:DebugType=none -p:RunAnalyzers=false \
    || fail "$1 does not build"
}

# What a person double-clicks.
launcher() { # RID FOLDER
  local from=$root/src/SensorLab.Cli/Launchers
  case $1 in
    win-*) sed 's/$/\r/' "$from/SensorLab.cmd" >"$2/SensorLab.cmd" ;;
    osx-*) install -m 755 "$from/SensorLab.sh" "$2/SensorLab.command" ;;
    *) install -m 755 "$from/SensorLab.sh" "$2/SensorLab.sh" ;;
  esac
}

readme() { # RID FOLDER
  local begin='Double-click SensorLab.sh: the bench opens in your browser. Or open a terminal in this folder.' program=./sensorlab
  local libraw='need LibRaw: apt-get install libraw20 (Debian 12; newer systems have a higher number).'
  case $1 in
    osx-*)
      begin='Double-click SensorLab.command: the bench opens in your browser. Or open a terminal in this folder. Nobody has signed the program, so macOS
stops what a browser fetched. If you trust the sum in SHA256SUMS, type this here, once:
xattr -dr com.apple.quarantine .'
      libraw='need LibRaw: brew install libraw.' ;;
    win-*)
      begin='Double-click SensorLab.cmd: the bench opens in your browser. Or open a terminal in this folder. Nobody has signed the program, so Windows may ask
whether it should run.'
      libraw='are read after conversion to DNG.' program=.\\sensorlab ;;
  esac
  local needs=
  [[ $1 != linux-x64 ]] || needs='
The processor has to know AVX2, as most since 2015 do (grep avx2 /proc/cpuinfo).'
  [[ $1 != linux-* ]] || needs+='
A bare Linux may lack OpenSSL and a font: apt-get install libssl3 fonts-dejavu-core.'
  cat >"$2/READ-ME.txt" <<TEXT
SensorLab $version for $1, commit $commit

$begin

$program --help
$program rehearse practice --iso 100,400
$program characterise practice --out practice.json --report practice-report

The first line lists all commands. The others simulate a set of frames and measure it, to practise on.
Raw files in the DNG format work as they are. Cameras' own formats $libraw$needs
licences/ holds the licences of all that is inside, parts.cdx.json lists it (CycloneDX 1.6).
TEXT
  [[ $1 != win-* ]] || sed -i 's/$/\r/' "$2/READ-ME.txt"
}

archive() { # RID NAME
  find "$build/$2" -exec touch -h -d "@$seconds" {} +
  case $1 in
    win-*) (cd "$build" && rm -f "$target/$2.zip" && find "$2" -type f | sort | TZ=UTC zip -q -X -9 "$target/$2.zip" -@) ;;
    *) tar -C "$build" --sort=name --mtime="@$seconds" --owner=0 --group=0 --numeric-owner --format=ustar -cf - "$2" | gzip -9n >"$target/$2.tar.gz" ;;
  esac
}

[ $# -gt 0 ] || set -- win-x64 osx-arm64 osx-x64 linux-x64 linux-arm64
for rid in "$@"; do
  case $rid in
    win-x64 | osx-arm64 | osx-x64 | linux-x64 | linux-arm64) ;;
    *) fail "$rid: win-x64, osx-arm64, osx-x64, linux-x64 or linux-arm64" ;;
  esac
done
[ -d "$common" ] || fail "the licence texts of Debian, $common, are needed"
bash "$root/src/install.sh" --packages
for tool in clang zip; do
  command -v $tool >/dev/null || case "$tool $*" in
    clang*linux-x64* | zip*win-x64*) fail "$tool is missing (as root: apt-get install clang zlib1g-dev zip)" ;;
  esac
done

mkdir -p "$build" "$target"
for rid in "$@"; do
  name=sensorlab-$version-$rid
  folder=$build/$name
  rm -rf "$folder"
  publish "$rid" "$folder"
  rm -f "$folder"/*.pdb "$folder"/*.dbg "$folder"/*.xml
  program=sensorlab
  [[ $rid != win-* ]] || program=sensorlab.exe
  [ -s "$folder/SensorLab.Cli${program#sensorlab}" ] || fail "$rid: the build brought no program"
  mv "$folder/SensorLab.Cli${program#sensorlab}" "$folder/$program"
  find "$folder" -type f -exec chmod 644 {} +
  chmod 755 "$folder" "$folder/$program"
  parts "$rid" "$folder"
  launcher "$rid" "$folder"
  readme "$rid" "$folder"
  archive "$rid" "$name"
  rm -rf "$folder"
done
(cd "$target" && sha256sum $(ls | grep -E "^sensorlab-$version-.*\.(zip|tar\.gz)$") >SHA256SUMS)
cat "$target/SHA256SUMS"
