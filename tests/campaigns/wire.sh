#!/usr/bin/env bash
# Runs of a healthy unit under faults drawn from a seed, with an oracle at the plant (docs/simulation.md, Campaign).
# wire.sh [SEED [RUNS]]; run n has seed SEED + n - 1.
# RESULT violations= condemned= runs= s_per_1000=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec dotnet run -c Release --no-build --project tests/Bench.Campaigns -- wire "${1:-1}" "${2:-20000}"
