#!/usr/bin/env bash
# Builds a project or the solution in Release; says nothing unless it fails.
set -euo pipefail

log=$(mktemp)
trap 'rm -f "$log"' EXIT
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
if ! dotnet build "$1" -c Release -v quiet >"$log" 2>&1; then
  cat "$log" >&2
  exit 1
fi
