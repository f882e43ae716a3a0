#!/usr/bin/env bash
# Builds the archives of src/package.sh from a fresh clone and tries them from outside: everything that a user does, with
# no .NET in reach. Usage: bash tests/archive.sh [--tried FOLDER] [--again] [RID…]
# The archives of systems that cannot run here are looked into; win-x64 runs where wine does, and has to give what
# linux-x64 gives: frames and plans to the byte, figures to the last digits. --tried FOLDER takes archives that lie there instead of building; --again builds each a second time,
# in a clone of another path, and compares the bytes.
# The last line is "N passed, N failed".
set -uo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
commit=$(git -C "$root" rev-parse HEAD)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
archives='' again=''
while [[ ${1:-} == --* ]]; do
  case $1 in
    --tried) archives=$(cd "$2" && pwd) || exit; shift 2 ;;
    --again) again=yes; shift ;;
    *) echo "archive.sh: $1 is not known" >&2; exit 2 ;;
  esac
done
[ $# -gt 0 ] || set -- linux-x64 linux-arm64 osx-arm64 osx-x64 win-x64

passed=0 failed=0 rid=
check() { # WHAT COMMAND…
  local what=$1
  shift
  if "$@"; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "failed: $rid: $what" >&2; tail -5 out err >&2 2>/dev/null; fi
}

build() { # FOLDER RID…
  git clone -q "$root" "$1" && bash "$1/src/package.sh" "${@:2}" >/dev/null
}
if [ -z "$archives" ]; then
  build "$work/clone" "$@" || { echo "0 passed, 1 failed"; exit 1; }
  archives=$work/clone/out/packages
fi
if [ -n "$again" ]; then
  build "$work/a clone of another path/repository" "$@" || { echo "0 passed, 1 failed"; exit 1; }
  for rid in "$@"; do
    check "the same commit gives the same bytes" cmp "$archives"/sensorlab-*-"$rid".* "$work/a clone of another path/repository/out/packages"/sensorlab-*-"$rid".*
  done
  rm -rf "$work/a clone of another path"
fi

# Runs the program as a bare machine would: nothing in the environment, nothing on the path.
run() { # STATUS[|STATUS] ARGUMENTS…
  local expected=$1 status
  shift
  env -i HOME="$work/home" TERM=dumb PATH=/nonexistent "${runner[@]}" "$program" "$@" >out 2>err </dev/null
  status=$?
  [[ "|$expected|" == *"|$status|"* ]] && ! grep -q $'\e' out err && ! grep -q 'Unhandled exception\|System\.[A-Z][A-Za-z]*\.' err
}
says() { grep -qF -- "$1" out; }
same() { cmp -s "$1" "$2"; }
# The same document but for the last digits of numbers: each system's C library rounds logarithms and powers its own way.
near() {
  [ "$(wc -l <"$1")" = "$(wc -l <"$2")" ] && paste -d '\t' "$1" "$2" | tr -d '\r' | awk -F '\t' -v name="$2" '
    $1 == $2 { next }
    {
      split($1, a, ": "); split($2, b, ": "); gsub(/[, ]/, "", a[2]); gsub(/[, ]/, "", b[2])
      off = (a[2] - b[2]) / (a[2] == 0 ? 1 : a[2]); off = off < 0 ? -off : off
      if (a[1] != b[1] || a[2] !~ /^-?[0-9.e+-]+$/ || off > 1e-12) { print name ": " $1 " is " $2; wrong = 1; exit }
      many++; if (off > most) most = off
    }
    END { if (many && !wrong) printf "%s: %d of %d lines differ, by %.1g of their number at most\n", name, many, NR, most; exit wrong }' >&2
}

# Everything that an archive must hold, and nothing of another system.
look_inside() {
  check "carries its program" test -s "$folder/$(basename "$program")"
  check "is of this system and processor" is_of_this_machine
  check "carries its own licence" same "$root/LICENSE" "$folder/licences/SensorLab.txt"
  check "lists its parts as JSON" is_json "$folder/parts.cdx.json"
  check "names every part that it carries a licence of" parts_are_licensed
  check "holds no native part of another system" has_only_own_natives
  check "holds no path of the builder's" holds_no_path
  check "says how to begin" grep -q "commit $commit" "$folder/READ-ME.txt"
  case $rid in
    win-*) check "has a launcher for Windows" grep -q $'sensorlab.exe" --help\r$' "$folder/SensorLab.cmd" ;;
    osx-*) check "has a launcher for macOS" test -x "$folder/SensorLab.command" ;;
    *) check "has a launcher for Linux" test -x "$folder/SensorLab.sh" ;;
  esac
  # Apple's processors run no program that is not signed, by whomever.
  [[ $rid != osx-arm64 ]] || check "every program and library is signed" are_signed
}
is_of_this_machine() {
  local head
  head=$(od -An -v -tx1 -N2048 "$program" | tr -d ' \n')
  case $rid in
    # ELF's machine, Mach-O's processor, PE's machine behind its mark.
    linux-x64) [ "${head:0:8}${head:36:4}" = 7f454c463e00 ] ;;
    linux-arm64) [ "${head:0:8}${head:36:4}" = 7f454c46b700 ] ;;
    osx-x64) [ "${head:0:16}" = cffaedfe07000001 ] ;;
    osx-arm64) [ "${head:0:16}" = cffaedfe0c000001 ] ;;
    win-x64) [ "${head:0:4}" = 4d5a ] && [[ $head == *504500006486* ]] ;;
  esac
}
is_json() {
  if command -v node >/dev/null; then node -e 'JSON.parse(require("fs").readFileSync(process.argv[1]))' "$1"; else grep -q '^}$' "$1"; fi
}
parts_are_licensed() {
  local listed carried
  listed=$(sed -n 's/.*"purl": "pkg:nuget\/\([^@]*\)@.*/\1/p' "$folder/parts.cdx.json" | sort)
  carried=$(find "$folder/licences" -mindepth 2 -type f -size +200c -printf '%P\n' | cut -d/ -f1 | sort -u)
  [ -n "$listed" ] && [ "$listed" = "$carried" ]
}
has_only_own_natives() {
  local foreign own files
  case $rid in
    linux-*) foreign='\.dylib$' own='/libSkiaSharp\.so$' ;;
    win-*) foreign='\.(dylib|so)$' own='/libSkiaSharp\.dll$' ;;
    *) foreign='\.so$' own='/libSkiaSharp\.dylib$' ;;
  esac
  # OpenCV's native part would need licences that its package does not hold.
  foreign+='|OpenCvSharpExtern'
  [[ $rid == win-* ]] || foreign+='|\.exe$|/lib(Skia|HarfBuzz)Sharp\.dll$'
  files=$(find "$folder" -type f)
  grep -qE "$own" <<<"$files" && ! grep -E "$foreign" <<<"$files"
}
holds_no_path() { ! grep -rlaF -e "/src/SensorLab." -e "$HOME/.nuget" "$folder" | grep -v '\.json$'; }
are_signed() {
  local file
  while read -r file; do
    LC_ALL=C grep -qaP '\xfa\xde\x0c\xc0' "$file" || { echo "not signed: $file" >&2; return 1; }
  done < <(find "$folder" -type f \( -name '*.dylib' -o -name sensorlab -o -name createdump \))
}

try_all() {
  local kept="Prüfstand à blanc" long
  long=$kept/deep/$(printf 'a%.0s' $(seq 120))/$(printf 'b%.0s' $(seq 120))
  mkdir -p "$long"
  check "--help" run 0 --help
  check "--help lists the commands" says characterise
  check "--version" run 0 --version
  check "--version tells the commit" says "SensorLab 0.1.0 (commit $commit)"
  check "rehearse, where paths have blanks and accents" run 0 rehearse "$kept/set one" --iso 100,400 --pixels 360x240
  check "rehearse a second set" run 0 rehearse second --iso 100,400 --pixels 360x240 --seed 7
  check "characterise with a report" run 0 characterise "$kept/set one" --out profile.json --report report
  check "prints the table" says "Larkmoor LM-2"
  check "the report is whole" test -s report/report.html -a -s report/report.pdf -a -s report/charts/latitude-ruler.png
  check "characterise the second" run 0 characterise second --out second.json
  check "characterise to a long path" run 0 characterise profile.json --out "$long/refit.json" --snr 7
  check "the long path is there" test -s "$long/refit.json"
  check "intake with a thumbnail" run 0 intake "$kept/set one" --thumbnail field.png --json
  check "intake's document is whole" says '"canBeCharacterised": true'
  check "the thumbnail is a PNG" grep -q PNG field.png
  check "plan" run 0 plan --protocol evening --metered 1/60@100 --mains 50 --out plan
  check "intake beside its plan" run 0 intake second --plan plan/plan.json --json
  check "assign a card" with_card
  check "place" run 0 place profile.json --iso 400 --tone 2.3 --scene -5..3 --json
  check "place's document is whole" says '"headroomEv"'
  check "pocket page" run 0 pocket profile.json --out pocket.html
  check "pocket paper" run 0 pocket profile.json --out pocket.pdf
  check "report from the profile alone" run 0 report profile.json --out again
  check "target" run 0 target --out sheet.pdf
  check "retest of a second set of the same body" run '0|6' retest profile.json second.json --json
  check "retest's document is whole" grep -qE '"verdict": "(equivalent|undecided)"' out
  cp out retest.json
  check "debrief" run 0 debrief profile.json second --out day
  check "the debrief is whole" test -s day/debrief.html -a -s day/debrief.csv -a -s day/frames.parquet
  check "confirm" run '0|6' confirm profile.json second --json
  check "confirm's document is whole" grep -qE '"verdict": "(consistent|undecided)"' out
  if command -v curl >/dev/null; then check "the bench finishes a set as the command line does" with_bench; else echo "archive.sh: the bench was not tried: curl is missing" >&2; fi
  check "publish" run 0 publish profile.json --out bundle.zip --accept-findings
  check "verify" run 0 verify bundle.zip --json
  check "verify's document is whole" says '"whole": true'
  # Wine's own cryptography lacks what a key is made with.
  if [[ $rid != win-* ]]; then
    check "key" run 0 key --out team.pem
    check "publish signed" run 0 publish profile.json --out signed.zip --accept-findings --key team.pem
    check "verify who signed" run 0 verify signed.zip --trust team.pub.pem
  fi
  cp bundle.zip broken.zip && printf x | dd of=broken.zip bs=1 seek=5000 conv=notrunc 2>/dev/null
  check "shelf add of a profile and a bundle" run 0 shelf add profile.json bundle.zip second.json --shelf team
  check "the bundle's profile is there already" says '2 profiles taken in, 1 there already'
  check "shelf history" run 0 shelf history --shelf team --iso 400
  check "shelf export" run 0 shelf export --shelf team --out parquet
  check "the export is Parquet" grep -q PAR1 parquet/level/maker=Larkmoor/model=LM-2/part-0.parquet
  check "verify a changed bundle" run 7 verify broken.zip
  check "a frame table with CRLF" with_table
  check "folders of roles in another case" with_capitals
  check "a wrong word ends in 2" run 2 characterise --nonsense
  check "a file that is not there ends in 4" run 4 report none.json --out none
  check "the launcher shows the help" launcher_helps
  case $rid in
    win-*)
      check "a drive letter and backslashes" run 0 place "Z:${PWD//\//\\}\\profile.json" --iso 400 --tone 2
      check "names in another case" run 0 place PROFILE.JSON --iso 400 --tone 2
      check "a folder with backslashes" run 0 report profile.json --out 'report\er' ;;
    *)
      check "a backslash in a name" run 0 pocket profile.json --out 'a\b.html'
      check "a console without ANSI" on_a_dumb_console ;;
  esac
  if [ -d "$work/tried/reference" ]; then
    check "the same frames" diff -rq "$work/tried/reference/second" second
    for name in plan/plan.json plan/plan.csv card/frames.csv; do
      check "the same $name as on Linux" same "$work/tried/reference/$name" "$name"
    done
    for name in profile.json second.json retest.json; do
      check "the same figures in $name as on Linux" near "$work/tried/reference/$name" "$name"
    done
  fi
}
with_card() {
  mkdir card
  find second -name '*.dng' -exec cp {} card/ \;
  run '0|3' assign card --plan plan/plan.json && [ -s card/frames.csv ]
}
with_bench() {
  env -i HOME="$work/home" TERM=dumb PATH=/nonexistent "${runner[@]}" "$program" bench second --no-browser >bench.out 2>&1 </dev/null &
  local bench=$! address='' root state='' status=1
  for _ in $(seq 600); do
    [ -n "$address" ] || address=$(grep -ao 'http://[^ ]*' bench.out | tr -d '\r' | head -1)
    [ -z "$address" ] || [ -n "$state" ] || curl -sf -o /dev/null -c cookies "$address" || true
    root=${address%%/?token*}
    [ -z "$address" ] || state=$(curl -sf -b cookies "$root/api/state" || true)
    case $state in
      *'"phase":"shooting"'*'"isLooked":true'*) curl -sf -b cookies -X POST -H 'Content-Type: application/json' -d '{}' "$root/api/characterise" || true ;;
      *'"phase":"done"'*) curl -sf -b cookies "$root/profile.json" -o bench.json && same bench.json second.json; status=$?; break ;;
    esac
    sleep 0.2
  done
  kill $bench 2>/dev/null
  wait $bench 2>/dev/null
  return $status
}
with_table() {
  cp second/frames.csv kept.csv && sed -i 's/$/\r/' second/frames.csv
  run 0 intake second
  local status=$?
  mv kept.csv second/frames.csv
  return $status
}
with_capitals() {
  cp -r second capitals
  rm -f capitals/frames.csv
  local role
  for role in metered bracket dark; do [ ! -d capitals/$role ] || mv capitals/$role capitals/${role^^}; done
  run 0 intake capitals --json && says '"canBeCharacterised": true'
}
launcher_helps() {
  case $rid in
    win-*) "${runner[@]}" cmd /c "$folder/SensorLab.cmd" </dev/null >out 2>err ;;
    *) env -i PATH=/usr/bin:/bin sh "$folder/SensorLab.sh" --here </dev/null >out 2>err ;;
  esac
  says characterise
}
on_a_dumb_console() {
  TERM=dumb script -qec "'$program' place profile.json --iso 400 --tone 2" /dev/null </dev/null >out 2>err && says EV && ! grep -q $'\e' out
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
      command -v wine >/dev/null || { echo "archive.sh: win-x64 was not run: wine is missing (bash src/install.sh --wine)" >&2; continue; }
      # Wine hands over accents only where the locale has them.
      runner=(/usr/bin/env PATH=/usr/bin:/bin LC_ALL=C.UTF-8 WINEPREFIX="$work/wine" WINEDEBUG=-all DOTNET_EnableWriteXorExecute=0 wine)
      "${runner[@]}" winecfg -v win10 >/dev/null 2>&1 ;;
    *) echo "archive.sh: $rid was looked into, not run" >&2; continue ;;
  esac
  mkdir -p "$work/tried/$rid" && cd "$work/tried/$rid" || exit 1
  try_all
  [ -d "$work/tried/reference" ] || mv "$work/tried/$rid" "$work/tried/reference"
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
