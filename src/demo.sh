#!/usr/bin/env bash
# Shows SensorLab at work: rehearses a frame set of three ISOs, characterises it, and prints what was measured beside
# what is true, and its report. Usage: bash src/demo.sh [FOLDER]; without FOLDER, results go to out/demo.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
folder=${1:-$here/../out/demo}
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)

bash "$here/install.sh"
show() {
  echo
  echo "\$ sensorlab $*"
  (cd "$folder" && "$here/sensorlab" "$@")
}
show rehearse frames --iso 100,400,1600 --pixels 900x600
show characterise frames --out profile.json --report report --truth frames.truth.json

echo
echo "The sensor profile is $folder/profile.json"
echo "The report is $folder/report/report.html, to print $folder/report/report.pdf; its charts and tables lie beside it."
echo "The frames are in $folder/frames ($(du -sh "$folder/frames" | cut -f1)); remove the folder when you are done."
echo "With a camera on the table, $here/sensorlab bench opens all of this as a page that watches the frames come in."
