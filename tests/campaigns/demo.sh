#!/usr/bin/env bash
# Runs the demo (every condition, full routine, packets written) and holds it against its targets.
# RESULT runs= wrong= wall_s= factor= mb=
set -euo pipefail
cd "$(dirname "$0")/../.."

seed=${1:-1}
most_wall_s=20
least_factor=200
most_mb=400

dotnet build -c Release -v quiet --nologo src/Bench.Cli
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

begin=$(date +%s.%N)
dotnet run -c Release --no-build --project src/Bench.Cli -- demo --seed "$seed" --data "$work/data" --json >"$work/demo.json" 2>"$work/demo.log"
wall=$(awk -v b="$begin" -v e="$(date +%s.%N)" 'BEGIN { printf "%.2f", e - b }')

packets=$(find "$work/data/packets" -name '*.html' | wc -l)
python3 - "$work/demo.json" "$work/demo.log" "$wall" "$packets" "$most_wall_s" "$least_factor" "$most_mb" <<'PY'
import json, re, sys
runs = json.load(open(sys.argv[1]))
log = open(sys.argv[2]).read()
wall, packets, most_wall, least_factor, most_mb = (float(a) for a in sys.argv[3:8])
wrong = 0
print(f"{'serial':<12}{'condition':<24}{'outcome':<9}{'disposition':<13}{'claim':<16}{'likeliest cause':<34}right")
for r in runs:
    cause = f"{r['causes'][0]['cause']} {r['causes'][0]['probability']:.2f}" if r['causes'] else '-'
    right = r['right']
    wrong += not right
    print(f"{r['serial']:<12}{r['condition']:<24}{r['outcome']:<9}{r['disposition'] or '-':<13}{r['claim'] or '-':<16}{cause:<34}{'yes' if right else 'NO'}")
simulated = sum(r['duration_s'] for r in runs)
factor = float(re.search(r'factor=([0-9.]+)', log).group(1))
mb = float(re.search(r'peak_mb=([0-9.]+)', log).group(1))
print(f"simulated {simulated:.0f} s of testing; packets {packets:.0f}")
bad = wrong > 0 or wall > most_wall or factor < least_factor or mb > most_mb or packets != len(runs) or len(runs) < 10
print(f"RESULT runs={len(runs)} wrong={wrong} wall_s={wall:.2f} factor={factor:.0f} mb={mb:.0f}")
sys.exit(1 if bad else 0)
PY
