#!/usr/bin/env bash
# Builds the archives of src/package.sh from a fresh clone and tries them from outside: everything that a user does, with
# no .NET in reach. Usage: bash tests/archive.sh [RID…]; the archives of systems that cannot run here are looked into.
# win-x64 runs where wine does. --tried FOLDER takes archives that lie there instead of building.
# The last line is "N passed, N failed".
set -uo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
archives=
if [ "${1:-}" = --tried ]; then archives=$(cd "$2" && pwd); shift 2; fi
[ $# -gt 0 ] || set -- linux-x64 linux-arm64 osx-arm64 osx-x64 win-x64
if [ -z "$archives" ]; then
  git clone -q "$root" "$work/clone" && bash "$work/clone/src/package.sh" "$@" >/dev/null || { echo "0 passed, 1 failed"; exit 1; }
  archives=$work/clone/out/packages
fi

passed=0 failed=0
check() { # WHAT COMMAND…
  local what=$1
  shift
  if "$@"; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "failed: $rid: $what" >&2; tail -5 out err >&2 2>/dev/null; fi
}

# Runs the program as a bare machine would: nothing in the environment, nothing on the path.
run() { # STATUS[|STATUS] ARGUMENTS…
  local expected=$1 status
  shift
  env -i HOME="$work/home" TERM=dumb PATH=/nonexistent "${runner[@]}" "$program" "$@" >out 2>err </dev/null
  status=$?
  [[ "|$expected|" == *"|$status|"* ]] && ! grep -q $'\e' out && ! grep -q 'Unhandled exception' err
}
says() { grep -qF -- "$1" out; }
same() { cmp -s "$1" "$2"; }

# Everything that an archive must hold, and nothing of another system.
look_inside() {
  check "carries its program" test -s "$folder/$(basename "$program")"
  check "carries its own licence" same "$root/LICENSE" "$folder/licences/SensorLab.txt"
  check "names every part that it carries a licence of" parts_are_licensed
  check "holds no native part of another system" has_only_own_natives
  check "says how to begin" grep -q "commit $(git -C "$root" rev-parse HEAD)" "$folder/READ-ME.txt"
}
parts_are_licensed() {
  local listed carried
  listed=$(sed -n 's/.*"purl": "pkg:nuget\/\([^@]*\)@.*/\1/p' "$folder/parts.cdx.json" | sort)
  carried=$(find "$folder/licences" -mindepth 2 -type f -size +200c -printf '%P\n' | cut -d/ -f1 | sort -u)
  [ -n "$listed" ] && [ "$listed" = "$carried" ]
}
has_only_own_natives() {
  local foreign
  case $rid in
    linux-*) foreign='\.(dylib|dll)$' ;;
    win-*) foreign='\.(dylib|so)$' ;;
    *) foreign='\.so$' ;;
  esac
  [[ $rid != linux-arm64 ]] || foreign='\.dylib$'
  ! find "$folder" -type f | grep -E "$foreign" | grep -v '/SensorLab\|/System\|/Microsoft' | grep -iE "skia|opencv|\.dylib|\.so$"
}

try_all() {
  local kept="Prüfstand à blanc"
  mkdir -p "$kept/deep/$(printf 'a%.0s' $(seq 120))/$(printf 'b%.0s' $(seq 120))"
  check "--help" run 0 --help
  check "--help lists the commands" says characterise
  check "--version" run 0 --version
  check "--version tells the commit" says "SensorLab 0.1.0 (commit $(git -C "$root" rev-parse HEAD))"
  check "rehearse, where paths have blanks and accents" run 0 rehearse "$kept/set one" --iso 100,400 --pixels 360x240
  check "rehearse a second set" run 0 rehearse second --iso 100,400 --pixels 360x240 --seed 7
  check "characterise with a report" run 0 characterise "$kept/set one" --out profile.json --report report
  check "prints the table" says "Larkmoor LM-2"
  check "the report is whole" test -s report/report.html -a -s report/report.pdf
  check "characterise the second" run 0 characterise second --out second.json
  check "characterise to a long path" run 0 characterise profile.json --out "$kept/deep/$(printf 'a%.0s' $(seq 120))/$(printf 'b%.0s' $(seq 120))/refit.json" --snr 7
  check "intake with a thumbnail" run 0 intake "$kept/set one" --thumbnail field.png --json
  check "intake's document is whole" says '"canBeCharacterised": true'
  check "the thumbnail is a PNG" grep -q PNG field.png
  check "plan" run 0 plan --protocol evening --metered 1/60@100 --mains 50 --out plan
  check "intake beside its plan" run 0 intake second --plan plan/plan.json --json
  check "place" run 0 place profile.json --iso 400 --tone 2.3 --scene -5..3 --json
  check "place's document is whole" says '"headroomEv"'
  check "pocket page" run 0 pocket profile.json --out pocket.html
  check "pocket paper" run 0 pocket profile.json --out pocket.pdf
  check "report from the profile alone" run 0 report profile.json --out again
  check "target" run 0 target --out sheet.pdf
  check "retest of a second set of the same body" run '0|6' retest profile.json second.json --json
  check "retest's document is whole" grep -qE '"verdict": "(equivalent|undecided)"' out
  check "publish" run 0 publish profile.json --out bundle.zip --accept-findings
  check "verify" run 0 verify bundle.zip --json
  check "verify's document is whole" says '"whole": true'
  cp bundle.zip broken.zip && printf x | dd of=broken.zip bs=1 seek=5000 conv=notrunc 2>/dev/null
  check "verify a changed bundle" run 7 verify broken.zip
  check "a frame table with CRLF" with_table
  check "a wrong word ends in 2" run 2 characterise --nonsense
  check "a file that is not there ends in 4" run 4 report none.json --out none
  if [[ $rid == win-* ]]; then
    check "a drive letter and backslashes" run 0 place "Z:${PWD//\//\\}\\profile.json" --iso 400 --tone 2
    check "names in another case" run 0 place PROFILE.JSON --iso 400 --tone 2
  fi
  if [ -d "$work/tried/reference" ]; then
    check "the same profile as natively on Linux" same "$work/tried/reference/profile.json" profile.json
    check "the same frames" diff -rq "$work/tried/reference/second" second
    check "the same plan" same "$work/tried/reference/plan/plan.json" plan/plan.json
  fi
}
with_table() {
  cp second/frames.csv kept.csv && sed -i 's/$/\r/' second/frames.csv
  run 0 intake second
  local status=$?
  mv kept.csv second/frames.csv
  return $status
}

for rid in "$@"; do
  mkdir -p "$work/open" "$work/home" "$work/tried"
  cd "$work/open" || exit 1
  (cd "$archives" && grep -F -- "-$rid." SHA256SUMS | sha256sum -c --quiet -)
  check "is what its sum says" test $? -eq 0
  case $rid in
    win-*) unzip -q "$archives"/sensorlab-*-"$rid".zip; folder=$(echo "$work"/open/*-"$rid"); program=$folder/sensorlab.exe ;;
    *) tar -xzf "$archives"/sensorlab-*-"$rid".tar.gz; folder=$(echo "$work"/open/*-"$rid"); program=$folder/sensorlab ;;
  esac
  look_inside
  runner=()
  case $rid in
    "linux-$(uname -m | sed 's/x86_64/x64/; s/aarch64/arm64/')") ;;
    win-x64)
      command -v wine >/dev/null || continue
      runner=(env PATH=/usr/bin:/bin WINEPREFIX="$work/wine" WINEDEBUG=-all DOTNET_EnableWriteXorExecute=0 wine)
      "${runner[@]}" winecfg -v win10 >/dev/null 2>&1 ;;
    *) continue ;;
  esac
  mkdir -p "$work/tried/$rid" && cd "$work/tried/$rid" || exit 1
  try_all
  [ -d "$work/tried/reference" ] || mv "$work/tried/$rid" "$work/tried/reference"
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
