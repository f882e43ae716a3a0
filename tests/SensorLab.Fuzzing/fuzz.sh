#!/usr/bin/env bash
# Fuzzes a reader until no new path is found for ten minutes: bash tests/SensorLab.Fuzzing/fuzz.sh dng|jpeg WORK
# Needs Debian's afl++ (apt-get install afl++); the instrumenting tool comes from the package registry into WORK/tools.
# Finds lie in WORK/TARGET/default/crashes and …/hangs afterwards; what to do with them: README.md beside this file.
set -euo pipefail

target=${1:?dng or jpeg} work=$(realpath -m "${2:?a folder outside of the repository}")
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
command -v afl-fuzz >/dev/null || { echo "fuzz.sh: please install afl++ (apt-get install afl++)" >&2; exit 2; }
mkdir -p "$work"
[ -x "$work/tools/sharpfuzz" ] || dotnet tool install SharpFuzz.CommandLine --version 2.3.0 --tool-path "$work/tools" >/dev/null

# Instrumented code goes nowhere near the builds that are tested and shipped.
program=$work/$target-program
rm -rf "$program"
dotnet build "$here" -c Release -v q -o "$program"
"$work/tools/sharpfuzz" "$program/SensorLab.RawFiles.dll"

seeds=$work/$target-seeds
dotnet "$program/SensorLab.Fuzzing.dll" seeds "$target" "$seeds"
[ -f "$here/Corpus/$target.zip" ] && unzip -qo "$here/Corpus/$target.zip" -d "$seeds"

export AFL_SKIP_BIN_CHECK=1 AFL_SKIP_CPUFREQ=1 AFL_NO_AFFINITY=1 AFL_NO_UI=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1
export AFL_AUTORESUME=1 AFL_EXIT_ON_TIME=${EXIT_ON_TIME:-600} DOTNET_TieredPGO=0
exec nice -n 15 afl-fuzz -i "$seeds" -o "$work/$target" -m none -t 5000 -G 8192 -- \
  dotnet "$program/SensorLab.Fuzzing.dll" fuzz "$target" "/dev/shm/sensorlab-fuzz-$target-$$"
