# How far a build is, on standard error: read by build.sh and package.sh.

# How many projects a build of a solution has; of a project, those of src, all of which the program needs.
projects_of() { # PROJECT|SOLUTION
  case $1 in
    *.sln) grep -c '\.csproj"' "$1" ;;
    *) find "$(dirname "${BASH_SOURCE[0]}")" -maxdepth 2 -name '*.csproj' | wc -l ;;
  esac
}

# Runs a build and tells what is done, with the time since; the build's own words only where it fails.
told() { # WHO PROJECTS COMMAND…
  local who=$1 projects=$2 log status
  shift 2
  log=$(mktemp)
  set +e
  "$@" -v minimal 2>&1 | tee "$log" | tell
  status=${PIPESTATUS[0]}
  set -e
  [ "$status" -eq 0 ] || cat "$log" >&2
  rm -f "$log"
  return "$status"
}

tell() {
  local began=$SECONDS built=0 line status
  say() { printf '%s: %d:%02d %s\n' "$who" $(((SECONDS - began) / 60)) $(((SECONDS - began) % 60)) "$1" >&2; }
  while true; do
    IFS= read -r -t 30 line
    status=$?
    if [ $status -gt 128 ]; then
      say "at work"
    elif [ $status -ne 0 ]; then
      return
    else
      case $line in
        *'Determining projects to restore'*) say "fetching packages" ;;
        *'Generating native code'*) say "compiling natively, the longest step" ;;
        *'Optimizing assemblies for size'*) say "leaving out what is not used" ;;
        *' -> '*.dll)
          built=$((built + 1)) line=${line%% -> *}
          say "${line##* }, $built of $projects" ;;
      esac
    fi
  done
}
