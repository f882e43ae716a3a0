#!/usr/bin/env bash
# Builds in Release, and says on standard error how far it is: a project or the solution in place, or the program alone,
# compiled ahead for this system, into a folder.
# Usage: bash src/build.sh PROJECT|SOLUTION, or bash src/build.sh --program FOLDER
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
. "$here/progress.sh"
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
command -v dotnet >/dev/null || { echo "build.sh: the .NET 10 SDK is missing: https://dotnet.microsoft.com/download" >&2; exit 1; }
case $1 in
  # What the analyzers say is for those who change the sources: the solution's build asks them.
  --program) told build.sh "$(projects_of SensorLab.Cli)" dotnet publish "$here/SensorLab.Cli/SensorLab.Cli.csproj" -c Release -o "$2" \
    --use-current-runtime --self-contained false -p:PublishReadyToRun=true -p:RunAnalyzers=false ;;
  *) told build.sh "$(projects_of "$1")" dotnet build "$1" -c Release ;;
esac
