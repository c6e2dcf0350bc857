#!/usr/bin/env bash
# Records four channels at 10,000 samples a second through the journal of a run, flushed to the disk, and reads them back.
# record.sh [SECONDS]; 1800 for half an hour. Wants a machine that does nothing else.
# RESULT lag_ms= memory_mb= growth_mb= samples_s= lost=
# (lag at most 250 ms; working set at most 200 MB, in the second half at most 20 MB more than in the first; nothing lost)
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec .artifacts/bin/Bench.Campaigns/release/Bench.Campaigns record "${1:-120}"
