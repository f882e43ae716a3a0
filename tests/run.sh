#!/usr/bin/env bash
# Every check but the long studies: installs what is missing, builds Release, runs all tests.
# The last line is "N passed, N failed", with ", N skipped" where tests were skipped.
# Arguments go to the test runner, for example: bash tests/run.sh --filter-class '*FrameTableTests'
set -uo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
bash src/install.sh --tests
if ! bash src/build.sh SensorLab.sln; then
  echo "0 passed, 1 failed"
  exit 1
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
# 8: no test of a project fits the filter.
dotnet test --solution SensorLab.sln -c Release --no-build --no-progress --no-ansi \
  --filter-not-trait 'Category=Study' --ignore-exit-code 8 "$@" 2>&1 | tee "$log"
status=${PIPESTATUS[0]}

# The closing block sums over the test projects.
count() { sed -n '/^Test run summary/,$p' "$log" | sed -n "s/^ *$1: \([0-9]*\)\$/\1/p" | tail -1; }
passed=$(count succeeded) failed=$(count failed) skipped=$(count skipped)
passed=${passed:-0} failed=${failed:-0} skipped=${skipped:-0}
# A project that crashed or could not start fails the run without failing a test.
if [ "$status" -ne 0 ] && [ "$failed" -eq 0 ]; then failed=1; fi
if [ "$passed" -eq 0 ] && [ "$failed" -eq 0 ]; then failed=1; fi
line="$passed passed, $failed failed"
[ "$skipped" -gt 0 ] && line+=", $skipped skipped"
echo "$line"
[ "$failed" -eq 0 ]
