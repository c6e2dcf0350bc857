#!/usr/bin/env bash
# Builds everything and runs every test. Peers that tests talk to come from Debian; what is missing is installed when
# this runs as root, and named when it does not.
set -euo pipefail
cd "$(dirname "$0")"

# Started in the background, this would hand on Ctrl-C and hang-up as ignored; tests send both.
with_signals=()
env --default-signal=INT,HUP true 2>/dev/null && with_signals=(env --default-signal=INT,HUP)

packages=(socat mbpoll libmodbus-dev gcc libc6-dev python3 python3-pymodbus python3-serial-asyncio python3-scipy python3-pandas python3-openpyxl
  r-base-core sqlite3 openssl strace chromium poppler-utils)
missing=()
if command -v dpkg-query >/dev/null; then
  for package in "${packages[@]}"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
  done
  if ((${#missing[@]})); then
    if [[ $(id -u) == 0 ]]; then
      apt-get update -qq
      DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
    else
      echo "These Debian packages are missing; tests that need them will be skipped: ${missing[*]}" >&2
      echo "To install them: sudo apt-get install ${missing[*]}" >&2
    fi
  fi
else
  echo "This is not Debian: tests against socat, mbpoll, libmodbus and pymodbus are skipped where those are missing." >&2
fi

# Where Node is: a Parquet reader in JavaScript (Debian has none for Python or R), and rules of accessibility.
if command -v npm >/dev/null && ! [[ -d .artifacts/peers/node_modules/hyparquet && -d .artifacts/peers/node_modules/axe-core ]]; then
  npm install --silent --no-audit --no-fund --prefix .artifacts/peers hyparquet@1.33.0 hyparquet-compressors@1.1.2 axe-core@4.14.1 >/dev/null ||
    echo "hyparquet and axe-core could not be installed from npm: their tests are skipped." >&2
fi

dotnet build -c Release -v quiet --nologo
# One project after the other: the system tests run in real time and should have the machine to themselves.
status=0
for project in tests/Bench.Tests tests/Bench.SystemTests; do
  "${with_signals[@]}" dotnet test -c Release --no-build --project "$project" --output normal "$@" || status=$?
done
exit "$status"
