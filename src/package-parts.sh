# What lies inside an archive: its licences and its list of parts. Read by package.sh.

# The packages of a system, one "id version sha512" a line, out of the restored graph; natives of other systems are not inside.
packages_of() { # RID
  awk '
    /^  "libraries": \{/ { inside = 1 }
    inside && /^    "[^"]+\/[^"]+": \{/ { split($1, part, "/"); id = substr(part[1], 2); version = part[2]; sub(/".*/, "", version) }
    inside && /"sha512":/ { hash = $2; gsub(/[",]/, "", hash) }
    inside && /"type": "package"/ { print id, version, hash }
    inside && /^  \}/ { exit }
  ' "$build/artifacts/obj/SensorLab.Cli/project.assets.json" | while read -r id version hash; do
    case $id in
      *.NativeAssets.Linux*) [[ $1 == linux-* ]] || continue ;;
      *.NativeAssets.Win32) [[ $1 == win-* ]] || continue ;;
      *.NativeAssets.macOS) [[ $1 == osx-* ]] || continue ;;
      Microsoft.DotNet.ILCompiler | Microsoft.NET.ILLink.Tasks | runtime.*ILCompiler) continue ;;
    esac
    echo "$id $version $hash"
  done | sort
}

# The runtime inside: its package's name and version, and no sum, since no graph holds one.
runtime_of() { # RID
  local kind=Microsoft.NETCore.App.Runtime
  [[ $1 != linux-x64 ]] || kind=Microsoft.NETCore.App.Runtime.NativeAOT
  sed -n "/\"name\": \"$kind.$1\"/{n;s|.*\[\([^,]*\),.*|$kind.$1 \1 -|p;q}" "$build/artifacts/obj/SensorLab.Cli/project.assets.json"
}

field() { sed -n "s|.*<$1[^>]*>\([^<]*\)</.*|\1|p" "$2" | head -1; }

# The licence that a package is used under: one of those that it offers.
licence_of() { # NUSPEC
  local said
  said=$(sed -n 's|.*<license type="expression">\([^<]*\)<.*|\1|p' "$1")
  case ${said:-$(field licenseUrl "$1")} in
    *Apache-2.0*) echo Apache-2.0 ;;
    MIT) echo MIT ;;
    # Adobe's XMP toolkit, of which XmpCore is a port.
    *adobe.com*xmp*) echo BSD-3-Clause ;;
    *) fail "$(basename "$1") names a licence that is not known here: $said" ;;
  esac
}

# A licence's text with the owner's line, for packages that carry none.
licence_text() { # LICENCE OWNER
  echo "$2"
  echo
  case $1 in
    MIT) sed '/^Copyright/d' "$root/LICENSE" ;;
    Apache-2.0) cat "$common/Apache-2.0" ;;
    BSD-3-Clause) sed '/^Copyright/d; /^All rights reserved/d; s/the University/the copyright holder/; s/THE REGENTS/THE COPYRIGHT HOLDERS/' "$common/BSD" ;;
  esac
}

# Licences into FOLDER/licences, the list into FOLDER/parts.cdx.json.
parts() { # RID FOLDER
  local id number hash files nuspec licence separator='' cache=${NUGET_PACKAGES:-$HOME/.nuget/packages}
  mkdir -p "$2/licences"
  cp "$root/LICENSE" "$2/licences/SensorLab.txt"
  {
    printf '{\n  "bomFormat": "CycloneDX",\n  "specVersion": "1.6",\n  "version": 1,\n  "metadata": {\n'
    printf '    "timestamp": "%s",\n' "$(date -u -d "@$seconds" +%Y-%m-%dT%H:%M:%SZ)"
    printf '    "component": {"type": "application", "bom-ref": "sensorlab", "name": "sensorlab", "version": "%s", "licenses": [{"license": {"id": "MIT"}}], ' "$version"
    printf '"properties": [{"name": "commit", "value": "%s"}, {"name": "system", "value": "%s"}]}\n  },\n  "components": [' "$commit" "$1"
    { packages_of "$1"; runtime_of "$1"; } | while read -r id number hash; do
      files=$cache/${id,,}/${number,,}
      nuspec=$(ls "$files"/*.nuspec)
      licence=$(licence_of "$nuspec")
      mkdir -p "$2/licences/$id"
      find "$files" -maxdepth 2 -type f \( -iname 'licen*' -o -iname '*notices*' -o -ipath '*/notices/*' \) -exec cp {} "$2/licences/$id/" \;
      find "$2/licences/$id" -iname 'licen*' | grep -q . \
        || licence_text "$licence" "$(field copyright "$nuspec") ($(field authors "$nuspec"))" >"$2/licences/$id/$licence.txt"
      printf '%s\n    {"type": "library", "bom-ref": "pkg:nuget/%s@%s", "name": "%s", "version": "%s", "purl": "pkg:nuget/%s@%s", ' "$separator" "$id" "$number" "$id" "$number" "$id" "$number"
      [ "$hash" = - ] || printf '"hashes": [{"alg": "SHA-512", "content": "%s"}], ' "$(base64 -d <<<"$hash" | od -An -v -tx1 | tr -d ' \n')"
      printf '"licenses": [{"license": {"id": "%s"}}]}' "$licence"
      separator=,
    done
    printf '\n  ]\n}\n'
  } >"$2/parts.cdx.json"
}
