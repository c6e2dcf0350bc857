#!/usr/bin/env bash
# Kills a run with SIGKILL in mid-move and measures how long the board kept its outputs on. The simulator says when its
# watchdog acted: whoever asked the board would feed it. Then the next run must find the cut one, with its samples.
# RESULT dropped_ms= found=
set -euo pipefail
cd "$(dirname "$0")/../.."

# The standard bench's watchdog, and what the host may be late by.
watchdog_ms=1000
grace_ms=100

dotnet build -c Release -v quiet --nologo src/Bench.Cli
work=$(mktemp -d)
python3 - "$PWD/.artifacts/bin/Bench.Cli/release/bench" "$PWD/profiles/nutrient-diverter-4.toml" "$work" "$watchdog_ms" "$grace_ms" <<'PY' && code=0 || code=$?
import datetime, glob, json, os, re, sqlite3, subprocess, sys, time
bench, profile, work = sys.argv[1:4]
most_ms = float(sys.argv[4]) + float(sys.argv[5])
file, data = f"{work}/bench.toml", f"{work}/data"
sim_log = open(f"{work}/sim.log", "w")
sim = subprocess.Popen([bench, "sim", "--bench-file", file], stdout=sim_log, stderr=sim_log)
run = None
def wait_for(what, seconds=30):
    end = time.time() + seconds
    while time.time() < end:
        got = what()
        if got:
            return got
        time.sleep(0.02)
    sys.exit(f"gave up waiting; {open(f'{work}/sim.log').read()}")
def events():
    stores = glob.glob(f"{data}/bench.db")
    if not stores:
        return []
    try:
        with sqlite3.connect(f"file:{stores[0]}?mode=ro", uri=True, timeout=5) as store:
            tables = [t for (t,) in store.execute("select name from sqlite_master where type='table' and name like '%event%'")]
            return [str(row) for t in tables for row in store.execute(f"select * from {t}")]
    except sqlite3.OperationalError:
        return []
try:
    wait_for(lambda: os.path.exists(file) and "Serving" in open(f"{work}/sim.log").read())
    run = subprocess.Popen([bench, "run", "--bench", file, "--profile", profile, "--serial", "GH-0042", "--symptom", "intermittent",
                            "--yes", "--data", data], stdout=subprocess.DEVNULL, stderr=open(f"{work}/run.log", "w"))
    # Homing turns whole revolutions first, some six seconds: in mid-move a second after its first switching on.
    wait_for(lambda: any(": on" in e for e in events()))
    time.sleep(1.0)
    killed = time.time()
    run.kill()
    run.wait()
    def dropped():
        m = re.search(r"Watchdog of io switched (\d+) output\(s\) off at (\S+)Z", open(f"{work}/sim.log").read())
        return m and (int(m[1]), datetime.datetime.fromisoformat(m[2]).replace(tzinfo=datetime.timezone.utc).timestamp())
    outputs, at = wait_for(dropped, 10)
    dropped_ms = (at - killed) * 1000
    safe = subprocess.run([bench, "safe", "--bench", file, "--json"], capture_output=True, text=True)
    off = json.loads(safe.stdout)["all_off"]
    # The next run finds the cut one; nobody confirms it, so it energises nothing.
    again = subprocess.run([bench, "run", "--bench", file, "--profile", profile, "--serial", "GH-0043", "--symptom", "intermittent",
                            "--data", data], stdin=subprocess.DEVNULL, capture_output=True, text=True)
    said = re.search(r"Run (\S+) of unit GH-0042 was cut short: .* Its (\d+) samples are kept\.", again.stderr)
    shown = json.loads(subprocess.run([bench, "show", said[1], "--data", data, "--json"], capture_output=True, text=True).stdout) if said else {}
    samples = int(said[2]) if said else 0
    found = said is not None and shown.get("abort") == "host-died" and samples > 100
    print(f"killed in mid-move; {outputs} output on; dropped {dropped_ms:.0f} ms after the kill, at most {most_ms:.0f} allowed; {samples} samples kept; outputs off: {off}")
    if not found:
        print(again.stderr, shown)
    print(f"RESULT dropped_ms={dropped_ms:.0f} found={int(found)}")
    sys.exit(0 if found and off and 0 < dropped_ms <= most_ms else 1)
finally:
    for process in (run, sim):
        if process and process.poll() is None:
            process.terminate()
            process.wait()
PY
rm -rf "$work"
exit "$code"
