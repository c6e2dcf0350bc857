#!/usr/bin/env bash
# confusion.sh [--mismatch] [SEED [UNITS]]
# Tests simulated units of every condition and says how often the bench is right; with --mismatch units and benches differ
# from what the judge takes for granted (docs/simulation.md, "Mismatch"), and what each difference costs is told.
# RESULT false_scrap_pct= escape_pct= cause_top1_pct= cause_top2_pct= held_pct= calibration= moves_ratio= time_ratio= units=
set -euo pipefail
cd "$(dirname "$0")/../.."

how=()
if [ "${1:-}" = "--mismatch" ]; then
    how=("$1")
    shift
fi

dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec dotnet run -c Release --no-build --project tests/Bench.Campaigns -- confusion "${how[@]}" "${1:-1}" "${2:-2000}"
