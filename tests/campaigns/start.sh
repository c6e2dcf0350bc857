#!/usr/bin/env bash
# Start-up of `bench --help` against an empty .NET program, taken in turns in one run.
# RESULT ratio= bench_ms= empty_ms=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo src/Bench.Cli
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd "$work" && dotnet new console -n empty -o empty --no-restore >/dev/null && dotnet build -c Release -v quiet --nologo -o out empty >/dev/null)

python3 - "$PWD/.artifacts/bin/Bench.Cli/release/bench" "$work/out/empty" <<'PY'
import statistics, subprocess, sys, time
def once(*command):
    begin = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    return (time.perf_counter() - begin) * 1000
bench, empty = [], []
for i in range(25):
    b, e = once(sys.argv[1], "--help"), once(sys.argv[2])
    if i >= 5:
        bench.append(b)
        empty.append(e)
b, e = statistics.median(bench), statistics.median(empty)
print(f"RESULT ratio={b / e:.2f} bench_ms={b:.1f} empty_ms={e:.1f}")
sys.exit(0 if b / e <= 2 else 1)
PY
