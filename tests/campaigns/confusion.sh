#!/usr/bin/env bash
# Tests simulated units of every condition and says how often the bench is right.
# RESULT false_scrap_pct= escape_pct= cause_top1_pct= cause_top2_pct= held_pct= moves_ratio= units=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec dotnet run -c Release --no-build --project tests/Bench.Campaigns -- confusion "${1:-1}" "${2:-2000}"
