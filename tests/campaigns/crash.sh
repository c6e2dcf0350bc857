#!/usr/bin/env bash
# Kills programs that write a data folder at instants drawn from a seed, and does to data folders what disks, clocks and
# people do: disk full, read-only folder, write-ahead log cut, trace file damaged, clock set back, two programs at once,
# power cut (needs strace). A witness holds what is there against what was acknowledged (docs/records.md).
# crash.sh [KILLS [SEED]]; a small disk and a read-only folder are mounts and need root.
# RESULT kills= faults= lost= unnamed= s=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo src/Bench.Cli
dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec .artifacts/bin/Bench.Campaigns/release/Bench.Campaigns crash "${1:-200}" "${2:-1}"
