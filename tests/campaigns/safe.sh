#!/usr/bin/env bash
# 'bench safe' while a run holds the serial port (it must take it), and while one holds a TCP connection (a second one
# must do): outputs off and read back, the run ended and recorded, no matter who comes first (S10).
# RESULT serial_ms= tcp_ms= off=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo src/Bench.Cli
work=$(mktemp -d)
python3 - "$PWD/.artifacts/bin/Bench.Cli/release/bench" "$PWD/profiles/nutrient-diverter-4.toml" "$work" <<'PY' && code=0 || code=$?
import json, os, sqlite3, subprocess, sys, time
bench, profile, work = sys.argv[1:4]
def wait_for(what, why, seconds=30):
    end = time.time() + seconds
    while time.time() < end:
        if what():
            return
        time.sleep(0.02)
    raise SystemExit(f"gave up waiting: {why}")
def switched_on(data):
    try:
        with sqlite3.connect(f"file:{data}/bench.db?mode=ro", uri=True, timeout=5) as store:
            return store.execute("select count(*) from journal_event where event like '%: on%'").fetchone()[0] > 0
    except sqlite3.OperationalError:
        return False
def once(kind, *sim_options):
    file, data, log = f"{work}/{kind}.toml", f"{work}/{kind}", f"{work}/{kind}.log"
    sim = subprocess.Popen([bench, "sim", "--bench-file", file, *sim_options], stdout=open(log, "w"), stderr=subprocess.STDOUT)
    run = None
    try:
        wait_for(lambda: os.path.exists(file) and "Serving" in open(log).read(), "simulator")
        run = subprocess.Popen([bench, "run", "--bench", file, "--profile", profile, "--serial", "GH-0051", "--symptom", "intermittent",
                                "--yes", "--data", data, "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        wait_for(lambda: switched_on(data), "switching on")
        time.sleep(1.0)
        begin = time.time()
        safe = subprocess.run([bench, "safe", "--bench", file, "--json"], capture_output=True, text=True)
        took = (time.time() - begin) * 1000
        out, _ = run.communicate(timeout=60)
        record = json.loads(out)
        off = safe.returncode == 0 and json.loads(safe.stdout)["all_off"] and record["outputs_confirmed_off"]
        print(f"{kind}: safe exit {safe.returncode} in {took:.0f} ms; run ended {record['outcome']}, {record['abort']}, exit {run.returncode}; off {off}. {safe.stderr.strip()}")
        return took, bool(off) and record["outcome"] == "aborted"
    finally:
        for process in (run, sim):
            if process and process.poll() is None:
                process.terminate()
                process.wait()
serial_ms, serial = once("serial")
tcp_ms, tcp = once("tcp", "--tcp", "0")
print(f"RESULT serial_ms={serial_ms:.0f} tcp_ms={tcp_ms:.0f} off={int(serial and tcp)}")
sys.exit(0 if serial and tcp else 1)
PY
rm -rf "$work"
exit "$code"
