#!/usr/bin/env bash
# Measures against peers in the same run. "links": Modbus against libmodbus in C, the wire, allocation and poll jitter.
# RESULT tcp_ratio= rtu_ratio= wire_pct= alloc_b= jitter_ms=
# "numbers": feature extraction, and its steps against NumPy and SciPy.
# RESULT msamples_s= polled_msamples_s= worst_ratio= judge_us=
set -euo pipefail
cd "$(dirname "$0")/../.."

subject=${1:-links}
if [[ $subject == numbers ]]; then
  python=
  for candidate in /usr/bin/python3 python3; do
    "$candidate" -c 'import scipy' 2>/dev/null && { python=$candidate; break; }
  done
  [[ -n $python ]] || { echo "no python3 with scipy; on Debian: apt-get install python3-scipy" >&2; exit 2; }
  dotnet build -c Release -v quiet --nologo tests/Bench.Benchmarks
  # On one core the compiler waits for its turn; without a delay, code is compiled for speed before it is timed.
  DOTNET_TC_CallCountingDelayMs=0 OPENBLAS_NUM_THREADS=1 exec taskset -c $(($(nproc) - 1)) .artifacts/bin/Bench.Benchmarks/release/Bench.Benchmarks numbers "$python"
fi

if [[ $subject != links ]]; then
  echo "There is no subject '$subject'; there are: links, numbers. For BenchmarkDotNet: dotnet run -c Release --project tests/Bench.Benchmarks -- --filter '*'" >&2
  exit 2
fi

for program in cc taskset; do
  command -v "$program" >/dev/null || { echo "$program is missing; on Debian: apt-get install gcc util-linux" >&2; exit 2; }
done
[[ -f /usr/include/modbus/modbus.h ]] || { echo "libmodbus is missing; on Debian: apt-get install libmodbus-dev" >&2; exit 2; }

dotnet build -c Release -v quiet --nologo tests/Bench.Benchmarks
core=$(($(nproc) - 1))
exec .artifacts/bin/Bench.Benchmarks/release/Bench.Benchmarks links "$core"
