#!/usr/bin/env bash
# Client and server against other Modbus programs, as separate processes, over TCP, RTU on ptys and RTU over TCP, both ways.
# RESULT peers= transactions= mismatches=
set -uo pipefail
cd "$(dirname "$0")/../.."

each=${1:-440}
least_peers=3
sources=tests/Bench.SystemTests/Devices/Peers
python=/usr/bin/python3
work=$(mktemp -d)
started=()
finish() {
  for id in "${started[@]}"; do kill "$id" 2>/dev/null; done
  rm -rf "$work"
}
trap finish EXIT

dotnet build -c Release -v quiet --nologo tests/Bench.Benchmarks || exit 1
ours=.artifacts/bin/Bench.Benchmarks/release/Bench.Benchmarks
command -v socat >/dev/null || { echo "socat is missing; on Debian: apt-get install socat" >&2; exit 2; }

declare -A version
pymodbus=$("$python" -c 'import pymodbus; print(pymodbus.__version__)' 2>/dev/null) && version[pymodbus]=$pymodbus
if [[ -f /usr/include/modbus/modbus.h ]] && command -v cc >/dev/null; then
  for side in server client; do
    cc -O2 -o "$work/libmodbus_$side" "$sources/libmodbus_$side.c" -I/usr/include/modbus -lmodbus || exit 1
  done
  version[libmodbus]=$(sed -n 's/.*define LIBMODBUS_VERSION_STRING *"\(.*\)".*/\1/p' /usr/include/modbus/modbus-version.h)
fi
command -v mbpoll >/dev/null && version[mbpoll]=$(dpkg-query -W -f '${Version}' mbpoll 2>/dev/null || mbpoll -V 2>&1 | head -1)

port=0
free_port() { port=$("$python" -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'); }
pty=0
new_pty() {
  pty=$((pty + 1))
  socat "pty,raw,echo=0,link=$work/near$pty" "pty,raw,echo=0,link=$work/far$pty" &
  started+=($!)
  for _ in $(seq 100); do [[ -e $work/far$pty ]] && return; read -rt 0.05 <> <(:); done
  echo "socat made no ptys" >&2
  exit 1
}

# Starts a server and waits until it says "ready". Its process number is left in $serving.
serve() {
  : >"$work/served"
  "$@" >"$work/served" 2>"$work/served.log" &
  serving=$!
  started+=("$serving")
  for _ in $(seq 200); do grep -q ready "$work/served" && return; read -rt 0.05 <> <(:); done
  echo "did not start: $*" >&2
  cat "$work/served.log" >&2
}

total=0
wrong=0
declare -A met
report() { # peer, role, channel, what it printed
  local done_here bad_here
  done_here=$(sed -n 's/.*transactions=\([0-9]*\).*/\1/p' <<<"$4")
  bad_here=$(sed -n 's/.*mismatches=\([0-9]*\).*/\1/p' <<<"$4")
  if [[ -z $done_here ]]; then
    done_here=0 bad_here=1
    echo "$4" >&2
  fi
  printf '%-10s %-12s %-8s %-13s %6d transactions %4d mismatches\n' "$1" "${version[$1]}" "$2" "$3" "$done_here" "$bad_here"
  total=$((total + done_here))
  wrong=$((wrong + bad_here))
  ((done_here > 0)) && met[$1]=1
}

their_server() { # peer, channel, command...
  local peer=$1 channel=$2 place theirs
  shift 2
  if [[ $channel == rtu ]]; then new_pty; place=$work/near$pty theirs=$work/far$pty; else free_port; place=$port theirs=$port; fi
  serve "$@" "$channel" "$theirs"
  report "$peer" server "$channel" "$(timeout 60 "$ours" exercise "$channel" "$place" "$each" 2>&1)"
  kill "$serving" 2>/dev/null
}

our_server() { # channel; leaves the client's place in $place
  if [[ $1 == rtu ]]; then new_pty; place=$work/far$pty; serve "$ours" device rtu "$work/near$pty"; else free_port; place=$port; serve "$ours" device "$1" "$port"; fi
}

their_client() { # peer, channel, command...
  local peer=$1 channel=$2
  shift 2
  our_server "$channel"
  local asked=$each
  [[ $channel == rtu-over-tcp ]] && asked=$((each / 4)) # pymodbus waits its time-out each time
  report "$peer" client "$channel" "$(timeout 60 "$@" "$channel" "$place" "$asked" 2>&1)"
  kill "$serving" 2>/dev/null
}

# mbpoll makes one transaction a run: reads that must show what is there, writes that must read back.
mbpoll_client() {
  local channel=$1 done_here=0 bad_here=0 where i
  our_server "$channel"
  if [[ $channel == tcp ]]; then where=(-m tcp -p "$place" 127.0.0.1); else where=(-m rtu -b 115200 -P none "$place"); fi
  poll() { done_here=$((done_here + 1)); timeout 10 mbpoll -1 -0 -o 3 -a 5 "$@" 2>&1; }
  for i in $(seq 0 9); do
    poll -t 3 -r $((i * 7)) "${where[@]}" >"$work/polled"; grep -Eq "\[$((i * 7))\]:[[:space:]]+$((1000 + i * 7))" "$work/polled" || bad_here=$((bad_here + 1))
    poll -t 4 -r "$i" "${where[@]}" "$((i * 11))" $((i * 13)) >"$work/polled" || bad_here=$((bad_here + 1))
    poll -t 4 -r "$i" -c 2 "${where[@]}" >"$work/polled"; grep -Eq "\[$((i + 1))\]:[[:space:]]+$((i * 13))" "$work/polled" || bad_here=$((bad_here + 1))
    poll -t 0 -r "$i" "${where[@]}" 1 >"$work/polled" || bad_here=$((bad_here + 1))
    poll -t 0 -r "$i" "${where[@]}" >"$work/polled"; grep -Eq "\[$i\]:[[:space:]]+1" "$work/polled" || bad_here=$((bad_here + 1))
    poll -t 1 -r $((i * 3)) "${where[@]}" >"$work/polled"; grep -Eq "\[$((i * 3))\]:[[:space:]]+1" "$work/polled" || bad_here=$((bad_here + 1))
  done
  poll -t 4 -r 5000 "${where[@]}" >"$work/polled"; grep -q "Illegal data address" "$work/polled" || bad_here=$((bad_here + 1))
  report mbpoll client "$channel" "transactions=$done_here mismatches=$bad_here"
  kill "$serving" 2>/dev/null
}

if [[ -n ${version[pymodbus]:-} ]]; then
  for channel in tcp rtu rtu-over-tcp; do
    their_server pymodbus "$channel" "$python" "$sources/pymodbus_server.py"
    their_client pymodbus "$channel" "$python" "$sources/pymodbus_client.py"
  done
fi
if [[ -n ${version[libmodbus]:-} ]]; then
  for channel in tcp rtu; do
    their_server libmodbus "$channel" "$work/libmodbus_server"
    their_client libmodbus "$channel" "$work/libmodbus_client"
  done
fi
if [[ -n ${version[mbpoll]:-} ]]; then
  for channel in tcp rtu; do mbpoll_client "$channel"; done
fi

echo "RESULT peers=${#met[@]} transactions=$total mismatches=$wrong"
((${#met[@]} >= least_peers && wrong == 0))
