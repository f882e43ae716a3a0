#!/usr/bin/env bash
# Many frame sets measured by Slurm on this one host, as an array job whose tasks are killed and put back: the shelf must be
# whole at the end, every set on it once. A study: as root on Debian it installs slurm-wlm and munge, and runs them from a
# folder of its own, which it removes. Usage: bash tests/slurm.sh [SETS]
# On a cluster the array is the same: the shelf and the sets lie on a disk that all nodes share, and the tasks' line is the
# one below. Each task writes a profile's file whole, and the index takes turns; `sensorlab shelf list` afterwards brings it
# up to what lies there.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
sets=${1:-40}
kills=$((sets / 4))
program=$root/src/SensorLab.Cli/bin/Release/net10.0/SensorLab.Cli.dll
for tool in slurmctld slurmd munged; do
  command -v $tool >/dev/null || PATH=$PATH:/usr/sbin command -v $tool >/dev/null || { apt-get update -qq && apt-get install -y -qq --no-install-recommends slurm-wlm munge; break; }
done
PATH=$PATH:/usr/sbin
[ -s "$program" ] || bash "$root/src/build.sh" "$root/src/SensorLab.Cli/SensorLab.Cli.csproj"

work=$(mktemp -d)
host=$(hostname -s)
started=()
clean() { # Only what was started here.
  for one in "${started[@]}"; do kill "$one" 2>/dev/null || true; done
  sleep 1
  rm -rf "$work"
}
trap clean EXIT
mkdir -p "$work"/{state,spool,munge,house}
fail() { echo "slurm.sh: $*" >&2; tail -5 "$work"/*.log >&2 2>/dev/null; exit 1; }

# A key and a socket of its own: another munge on this host is left alone.
head -c 1024 /dev/urandom >"$work/munge/key"
chown -R munge:munge "$work/munge" && chmod 700 "$work/munge" && chmod 400 "$work/munge/key" && chmod 711 "$work"
runuser -u munge -- munged --foreground --key-file="$work/munge/key" --socket="$work/munge/socket" --pid-file="$work/munge/pid" --log-file="$work/munge/log" --seed-file="$work/munge/seed" --force >"$work/munged.log" 2>&1 &
started+=($!)
cores=$(nproc)
cat >"$work/slurm.conf" <<CONF
ClusterName=here
SlurmctldHost=$host
SlurmUser=root
AuthType=auth/munge
AuthInfo=socket=$work/munge/socket,cred_expire=10
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd.pid
SlurmctldPort=16817
SlurmdPort=16818
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
JobRequeue=1
RequeueExit=137
MinJobAge=3600
ReturnToService=2
NodeName=$host CPUs=$cores State=UNKNOWN
PartitionName=all Nodes=$host Default=YES State=UP
CONF
export SLURM_CONF=$work/slurm.conf
for i in $(seq 50); do [ -S "$work/munge/socket" ] && break; sleep 0.2; done
[ -S "$work/munge/socket" ] || fail "munge did not start"
chmod 711 "$work/munge"
slurmctld -D -f "$SLURM_CONF" >"$work/slurmctld.log" 2>&1 & started+=($!)
slurmd -D -f "$SLURM_CONF" -N "$host" >"$work/slurmd.log" 2>&1 & started+=($!)
for i in $(seq 100); do sinfo -h -o %t 2>/dev/null | grep -q '^idle' && break; sleep 0.3; done
sinfo -h -o %t | grep -q '^idle' || fail "Slurm did not come up: $(sinfo 2>&1 | tail -1)"

# The sets: every seed another sensor's noise, every fourth another body.
for i in $(seq 0 $((sets - 1))); do
  printf '{"serialNumber": "%d"}' $((20000 + i / 4)) >"$work/body.json"
  dotnet "$program" rehearse "$work/house/set$i" --iso 400 --pixels 96x64 --seed "$i" --body "$work/body.json" >/dev/null 2>&1 || fail "set $i was not rehearsed"
done

cat >"$work/task.sh" <<TASK
#!/bin/bash
dotnet $program shelf measure $work/house/set\$SLURM_ARRAY_TASK_ID --shelf $work/shelf --jobs 1
exit \$?
TASK
job=$(sbatch --parsable --requeue --array=0-$((sets - 1)) --output="$work/task-%a.log" --open-mode=append "$work/task.sh")
killed=0
while [ -n "$(squeue -h -j "$job" 2>/dev/null)" ]; do
  if [ $killed -lt $kills ]; then
    # Any task's own process, killed as a node's end would kill it; Slurm puts the task back.
    one=$(pgrep -f -- "shelf measure $work/house/set" | shuf -n 1 || true)
    [ -z "$one" ] || { kill -KILL "$one" 2>/dev/null && killed=$((killed + 1)); }
  fi
  sleep 1
done

dotnet "$program" shelf list --shelf "$work/shelf" --json >"$work/list.json"
listed=$(grep -c '"profile": ' "$work/list.json" || true)
lying=$(find "$work/shelf/profiles" -name '*.json' | wc -l)
left=$(find "$work/shelf" -name '.sensorlab-*' | wc -l)
echo "slurm.sh: $sets sets, $killed tasks killed and put back: $listed profiles on the shelf, $lying files, $left leftovers"
[ "$listed" -eq "$sets" ] && [ "$lying" -eq "$sets" ] || fail "the shelf is not whole"
