#!/usr/bin/env bash
# An archive of years: real runs from the demo, and casts of them (full records, new id, serial number and time, one
# chain, the same trace files) up to RUNS. Times lists, searches and openings in one process and as commands, cold and
# warm; then verifies all, exports all and reads that back with other programs.
# usage: archive.sh [RUNS [DEMO_SEEDS]]
# RESULT runs= list_ms= search_ms= open_ms= bytes_per_sample= gb= fill_s= verify_s= export_s= export_mb=
set -euo pipefail
cd "$(dirname "$0")/../.."

runs=${1:-100000}
seeds=${2:-5}

dotnet build -c Release -v quiet --nologo src/Bench.Cli
dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bench=.artifacts/bin/Bench.Cli/release/bench
campaign=.artifacts/bin/Bench.Campaigns/release/Bench.Campaigns

for ((seed = 1; seed <= seeds; seed++)); do
  "$bench" demo --seed "$seed" --data "$work/data" >/dev/null 2>&1
done
begin=$(date +%s)
"$campaign" archive fill "$work/data" "$runs"
fill_s=$(($(date +%s) - begin))
within=0
"$campaign" archive measure "$work/data" | tee "$work/measured.txt" || within=1

python3 - "$bench" "$work" "$within" "$fill_s" <<'PY'
import csv, glob, os, re, resource, sqlite3, subprocess, sys, time
bench, work, within, fill_s = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
data = f"{work}/data"
database = f"{data}/bench.db"

def command(*words):
    begin = time.perf_counter()
    done = subprocess.run([bench, *words, "--data", data], capture_output=True, text=True)
    if done.returncode:
        sys.exit(f"bench {' '.join(words)}: {done.returncode} {done.stderr}")
    return (time.perf_counter() - begin) * 1000, done.stdout

def cold():
    os.sync()
    for file in [database, *glob.glob(f"{data}/traces/*.parquet")]:
        with open(file, "rb") as f:
            os.posix_fadvise(f.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)

with sqlite3.connect(f"file:{database}?mode=ro", uri=True) as c:
    many = c.execute("SELECT count(*) FROM run").fetchone()[0]
    some = c.execute("SELECT id, serial FROM run WHERE sequence = ?", (many // 2,)).fetchone()
    samples = dict(c.execute("SELECT DISTINCT trace_file, record ->> '$.samples' FROM run WHERE sequence <= 400 AND trace_file IS NOT NULL"))
sizes = {file: os.path.getsize(f"{data}/{file}") for file in samples}
per_sample = sum(sizes.values()) / sum(samples.values())
print(f"{len(sizes)} traces, {sum(samples.values())} samples, {per_sample:.2f} bytes a sample")

print(f"{'as a command, ms, start-up of the program within':<52}{'cold':>17}{'warm':>9}")
for words in (["runs"], ["runs", "--serial", some[1]], ["runs", "--cause", "none-such"], ["show", some[0]]):
    cold()
    first = command(*words)[0]
    warm = sorted(command(*words)[0] for _ in range(5))[2]
    print(f"{'bench ' + ' '.join(words):<60}{first:9.0f}{warm:9.0f}")

verify_s = command("verify")[0] / 1000
print(f"verify: {verify_s:.0f} s")
export_s, rows = {}, {}
for kind in ("csv", "parquet", "xlsx"):
    out = f"{work}/runs.{kind}"
    export_s[kind] = command("export", "--format", kind, "--out", out)[0] / 1000
    print(f"export of all as {kind}: {export_s[kind]:.0f} s, {os.path.getsize(out) / 1e6:.1f} MB")
most_mb = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
with open(f"{work}/runs.csv", newline="", encoding="utf-8") as f:
    rows["csv"] = sum(1 for _ in csv.DictReader(f))
try:
    import openpyxl
    rows["openpyxl"] = sum(1 for _ in openpyxl.load_workbook(f"{work}/runs.xlsx", read_only=True).worksheets[0].iter_rows()) - 1
except ImportError:
    print("openpyxl is not installed: the workbook was not read back")
print("rows read back: " + ", ".join(f"{reader} {n}" for reader, n in rows.items()))

figures = dict(re.findall(r"(\w+)=([\d.]+)", open(f"{work}/measured.txt").read().splitlines()[-1]))
good = within == 0 and all(n == many for n in rows.values())
print(f"RESULT runs={many} list_ms={figures['list_ms']} search_ms={figures['search_ms']} open_ms={figures['open_ms']} "
      f"bytes_per_sample={per_sample:.2f} gb={os.path.getsize(database) / 1e9:.2f} fill_s={fill_s} verify_s={verify_s:.0f} "
      f"export_s={export_s['csv']:.0f} export_mb={most_mb:.0f}")
sys.exit(0 if good else 1)
PY
