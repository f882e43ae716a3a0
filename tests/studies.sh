#!/usr/bin/env bash
# Runs the long studies and lets each write its RESULTS.md. Without words all of them, some two hours on two idle cores
# (accuracy-mosaic, a part of accuracy, is run by its word alone):
#   bash tests/studies.sh
#   bash tests/studies.sh accuracy accuracy-mosaic matrix clean pairs foreign retest confirm plans bench cards shelf attacks mutation
# The last lines say which study missed a goal; the status is 1 where one did.
set -uo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
run() { dotnet run -c Release --project "tests/SensorLab.$1" -- "${@:2}"; }
study() {
  case $1 in
    accuracy) run AccuracyStudy --sets 140 --write-results ;;
    accuracy-mosaic) run AccuracyStudy --sets 140 --part "Large patterns" --write-results ;;
    matrix) run FlawMatrix --part matrix --seeds 20 --first-seed 2001 --write-results ;;
    clean) run FlawMatrix --part clean --sets 50 --first-seed 3001 --write-results ;;
    pairs) run FlawMatrix --part pairs --seeds 20 --first-seed 4001 --write-results ;;
    foreign) run FlawMatrix --part foreign --seeds 1 --write-results ;;
    retest) run RetestStudy --write-results ;;
    confirm) SENSORLAB_WRITE_RESULTS=1 run Retest.Tests --filter-class '*ConfirmationPairsTests' ;;
    bench)
      local status=0
      SENSORLAB_WRITE_RESULTS=1 run Cli.Tests --filter-method '*Bench_KilledAtFiftyMoments_*' --filter-method '*Bench_OfSixHundredFrames*' || status=1
      SENSORLAB_WRITE_RESULTS=1 run Bench.Tests --filter-trait Category=Study --show-live-output on || status=1
      return $status ;;
    cards) SENSORLAB_WRITE_RESULTS=1 run Tests --filter-method "*Assign_EveryProtocolBodyAndCard_*" --filter-method "*Characterise_EveryForgottenStep_*" ;;
    plans) SENSORLAB_WRITE_RESULTS=1 run Tests --filter-method '*Shoot_EveryPlan_*' ;;
    shelf)
      local status=0
      SENSORLAB_WRITE_RESULTS=1 run Shelf.Tests --filter-trait Category=Study || status=1
      SENSORLAB_WRITE_RESULTS=1 run Cli.Tests --filter-class '*InterruptedShelfTests' || status=1
      bash tests/slurm.sh || status=1
      return $status ;;
    attacks)
      local status=0
      SENSORLAB_WRITE_RESULTS=1 run Cli.Tests --filter-class '*InterruptedRunTests' --filter-class '*HostileStringTests' || status=1
      run Fuzzing documents 20000 1 "$(mktemp -d)" --write-results || status=1
      run Fuzzing raw 20000 1 "$(mktemp -d)" --write-results || status=1
      return $status ;;
    mutation) bash src/build.sh SensorLab.sln && run Mutation --mutants 300 --write-results ;;
    *) echo "studies.sh: no study is called $1" >&2; return 2 ;;
  esac
}

[ $# -gt 0 ] || set -- accuracy matrix clean pairs foreign retest confirm plans bench cards shelf attacks mutation
missed=()
for name in "$@"; do
  echo "studies.sh: $name"
  study "$name" || missed+=("$name")
done
[ ${#missed[@]} -eq 0 ] && { echo "studies.sh: all goals met"; exit 0; }
printf 'studies.sh: not met: %s\n' "${missed[@]}"
exit 1
