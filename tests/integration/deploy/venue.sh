#!/usr/bin/env bash
# deploy/run as a keeper of processes: whatever way it ends, nothing that it started goes on; a second
# one joins or says so. The programs are stand-ins, so that only the script is under test.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

export STARTED=$SCRATCH/started SCRATCH
export COURTHAND_BUILD_DIR=$SCRATCH/build
mkdir "$COURTHAND_BUILD_DIR"
# A stand-in notes its pid and words, then stays until it is told to end.
program() {
    { printf '#!/usr/bin/env bash\n'; cat; cat <<'BODY'; } >"$COURTHAND_BUILD_DIR/$1"
trap "exit 0" TERM
echo "$$ ${0##*/} $*" >>"$STARTED"
sleep 45 &
trap "kill $!; exit 0" TERM
wait
BODY
    chmod 755 "$COURTHAND_BUILD_DIR/$1"
}
program courthand-server <<'BODY'
if [[ $1 == code ]]; then echo "7K3M 9QXA 04ZT V8WB 5C1N HRJ6"; exit; fi
if [[ -e $SCRATCH/server-fails ]]; then echo "cannot listen"; exit 1; fi
echo "ready on 127.0.0.1"
BODY
program courthand <<'BODY'
if [[ $1 == enrol ]]; then
    echo "$*" >>"$SCRATCH/enrolled"
    read -r code
    if [[ $code != "7K3M 9QXA 04ZT V8WB 5C1N HRJ6" ]]; then echo "no code"; exit 1; fi
    if [[ -e $SCRATCH/enrol-fails ]]; then echo "the code has expired"; exit 1; fi
    exit
fi
BODY
program courthand-tables </dev/null

# shellcheck source=/dev/null
source "$DEPLOY/lib/ports.sh"
# Below the ports that outgoing connections are given: those look free and are not.
PORT=$(port_free_from 27100)
run() { exec "$DEPLOY/run" --no-packages --no-build --data "$DATA" --port "$PORT" "$@"; }

wait_for() {
    local tick
    for ((tick = 0; tick < 400; tick++)); do
        if grep -qs -- "$1" "$2"; then return; fi
        sleep 0.05
    done
    cat "$2"
    die "never said: $1"
}
# wait_for_times N PATTERN FILE
wait_for_times() {
    local tick
    for ((tick = 0; tick < 400; tick++)); do
        if (($(grep -cs -- "$2" "$3" || true) >= $1)); then return; fi
        sleep 0.05
    done
    cat "$3"
    die "not $1 times: $2"
}
# Time enough for a deploy/run without a seat of its own to see the others: it looks every second.
noticed() { sleep 2.5; }
start_run() {
    : >"$STARTED"
    run "$@" >"$SCRATCH/run.out" 2>&1 &
    RUN=$!
    wait_for "The venue is open" "$SCRATCH/run.out"
    wait_for "courthand --seat" "$STARTED"
    wait_for "table-6" "$STARTED"
    wait_for "desk-simulated" "$STARTED"
}
alive() { [[ -e /proc/$1 ]] && ! grep -qs 'State:.*Z' "/proc/$1/status"; }
none_left() {
    local pid rest
    while read -r pid rest; do
        if alive "$pid"; then die "still there: $pid $rest"; fi
    done <"$STARTED"
}
pid_of() { awk -v part="$1" 'index($0, part) { pid = $1 } END { print pid }' "$STARTED"; }
ended_with() {
    local status=0
    wait "$RUN" || status=$?
    [[ $status == "$1" ]] || { cat "$SCRATCH/run.out"; die "ended with $status, not $1"; }
}

echo "-- all starts; TERM ends all of it, the database too"
start_run
grep -q "6 tables started; each plays what its court has to play" "$SCRATCH/run.out" || die "more was said of the tables than is known"
for part in "courthand-server serve" "--event .*harbour-cup.event" "--publish 127.0.0.1:0" table-1 table-2 table-3 table-6 --desk-dir "--seat head" --text; do
    grep -q -- "$part" "$STARTED" || die "not started: $part"
done
grep -q "There is no display" "$SCRATCH/run.out" || die "the missing display was not named"
if grep -q "$(<"$DATA/postgres/password")" "$STARTED"; then die "the password is on a command line"; fi
grep -q "devices/table-6" "$SCRATCH/enrolled" || die "table 6 was not enrolled"
grep -q -- "--pace 4.167" "$STARTED" || die "six times as fast is a rally every 25/6 seconds"
if grep -q "7K3M" "$SCRATCH/enrolled"; then die "an enrolment code is on a command line"; fi

echo "-- a second one says so, or opens one more seat"
expect_failure "a venue already runs here" "process $RUN" "cure:" -- run
run --seat head --headless >"$SCRATCH/second.out" 2>&1 &
second=$!
wait_for "devices/head-2" "$STARTED"
kill -TERM "$second"
wait "$second" || true
alive "$(pid_of devices/head-1)" || die "the second window took the first one with it"

echo "-- a person takes the table of court 2: its simulated table stops, the others go on"
simulated=$(pid_of devices/table-2)
DISPLAY=:77 run --seat table --court 2 >"$SCRATCH/person.out" 2>&1 &
person=$!
wait_for "courthand --seat table" "$STARTED"
if alive "$simulated"; then die "the simulated table of court 2 goes on"; fi
alive "$(pid_of devices/table-3)" || die "another table was stopped"
DISPLAY=:77 expect_failure "table seat of court 2 is open already" -- run --seat table --court 2
kill -TERM "$person"
wait "$person" || true
kill -TERM "$RUN"
ended_with 143
none_left
expect_failure "not running" -- database status

echo "-- killed outright: its children end by themselves, the next one starts"
start_run --headless
kill -9 "$RUN"
wait "$RUN" 2>/dev/null || true
for tick in $(seq 50); do
    if (none_left) 2>/dev/null; then break; fi
    sleep 0.1
done
none_left
start_run --headless --speed 60
grep -q -- "--pace 0.417" "$STARTED" || die "sixty times as fast is a rally every 25/60 seconds"

echo "-- the server dies: said, and all ends"
kill -9 "$(pid_of "courthand-server serve")"
ended_with 1
expect_text "$(<"$SCRATCH/run.out")" "the server ended (exit 137)"
none_left

echo "-- the only seat falls: all ends with its status"
start_run --headless
kill -9 "$(pid_of "--seat head")"
ended_with 137
expect_text "$(<"$SCRATCH/run.out")" "The head seat ended (exit 137, signal KILL)"
expect_text "$(<"$SCRATCH/run.out")" "No other seat is open: all ends here"
none_left

echo "-- a seat falls beside another: said with its status and how to open it again, all else goes on"
start_run --headless
run --seat head --headless >"$SCRATCH/other.out" 2>&1 &
other=$!
wait_for "devices/head-2" "$STARTED"
kill -9 "$(pid_of devices/head-1)"
wait_for "The venue goes on with head-2" "$SCRATCH/run.out"
expect_text "$(<"$SCRATCH/run.out")" "The head seat ended (exit 137, signal KILL)"
expect_text "$(<"$SCRATCH/run.out")" "deploy/run --seat head --data $DATA"
for part in "courthand-server serve" devices/table-3 --desk-dir; do
    alive "$(pid_of "$part")" || die "$part ended with the seat"
done
kill -9 "$(pid_of --desk-dir)"
wait_for "The simulated desk ended (exit 137, signal KILL" "$SCRATCH/run.out"
wait_for "deploy/run --seat desk --data $DATA" "$SCRATCH/run.out"

echo "-- it is opened again as the same device; one that falls elsewhere stops nothing either"
run --seat head --headless >"$SCRATCH/second.out" 2>&1 &
second=$!
wait_for_times 2 "courthand --seat head.*devices/head-1" "$STARTED"
noticed
kill -9 "$(pid_of devices/head-1)"
if wait "$second"; then die "a seat that was killed was called closed"; fi
expect_text "$(<"$SCRATCH/second.out")" "open it again: deploy/run --seat head"
noticed
alive "$(pid_of "courthand-server serve")" || die "the server ended with one seat of several"

echo "-- it is open again as the last one falls elsewhere: all ends with its status"
run --seat head --headless >"$SCRATCH/second.out" 2>&1 &
second=$!
wait_for_times 3 "courthand --seat head.*devices/head-1" "$STARTED"
kill -TERM "$(pid_of devices/head-2)"
wait "$other" || die "a seat that was closed was called a failure"
noticed
kill -9 "$(pid_of devices/head-1)"
wait "$second" || true
ended_with 137
expect_text "$(<"$SCRATCH/run.out")" "The last seat that was open ended (exit 137, signal KILL)"
none_left

echo "-- the last seat is closed: all ends"
start_run --headless
run --seat head --headless >"$SCRATCH/second.out" 2>&1 &
second=$!
wait_for "devices/head-2" "$STARTED"
kill -TERM "$(pid_of devices/head-1)"
wait_for "The venue goes on with head-2" "$SCRATCH/run.out"
noticed
kill -TERM "$(pid_of devices/head-2)"
wait "$second" || die "a seat that was closed was called a failure"
ended_with 0
expect_text "$(<"$SCRATCH/run.out")" "The last seat was closed."
none_left
start_run --headless
kill -TERM "$(pid_of "--seat head")"
ended_with 0
expect_text "$(<"$SCRATCH/run.out")" "The head seat was closed."
none_left

echo "-- half-way: the server does not start, a device cannot be enrolled, the port is taken"
: >"$STARTED"
touch "$SCRATCH/server-fails"
expect_failure "cannot listen" "the server ended before it was ready" "cure:" -- run --headless
rm "$SCRATCH/server-fails"
none_left
rm -r "$DATA/devices"
touch "$SCRATCH/enrol-fails"
expect_failure "the code has expired" "could not be enrolled" -- run --headless
rm "$SCRATCH/enrol-fails"
none_left
listen_on "$PORT"
expect_failure "port $PORT on 127.0.0.1 is taken, the server cannot use it" "--port" -- run --headless
kill "$LISTENER"

echo "-- words"
expect_failure "the table seat needs a display" "--seat head --headless" -- run --seat table
DISPLAY=:77 expect_failure "there is no court '7'" "--court 6" -- run --seat table --court 7
expect_failure "only a table seat stands at a court" "--seat table" -- run --court 3
expect_failure "only a table seat stands at a court" "--seat table" -- run --seat head --court 3
expect_failure "'0' is no speed" "--speed 1 to --speed 600" -- run --speed 0
expect_failure "cannot be read" "--event" -- run --event "$SCRATCH/none.event"
printf 'tournament "Harbour Cup"\n' >"$SCRATCH/empty.event"
expect_failure "has no court" "court 1" -- run --event "$SCRATCH/empty.event"
printf 'tournament "Harbour Cup"\ncourt 33\n' >"$SCRATCH/large.event"
expect_failure "court 33" "32 at most" -- run --event "$SCRATCH/large.event"
printf 'tournament "Lantern Cup"\ncourt 1\n' >"$SCRATCH/other.event"
expect_failure "holds the event \"Harbour Cup\"" "other.event is the event \"Lantern Cup\"; nothing was changed" \
    "another folder for it with --data" -- run --headless --event "$SCRATCH/other.event"
expect_failure "there is no seat 'kitchen'" -- run --seat kitchen
expect_failure "unknown word: --sea" "--help" -- run --sea head
COURTHAND_PRETEND_FREE_MIB=3 expect_failure "no room on the disk" "cure:" -- run --headless
expect_failure "was used with another database" -- run --headless --database "postgresql://a:b@127.0.0.1/c"
expect_failure "not running" -- database status

expect_failure "80 is not a port for the server" "--port" "1024" -- run --headless --port 80 --data "$SCRATCH/nothing"
expect_failure "word is not a port for the database" "--db-port" -- run --headless --db-port word --data "$SCRATCH/nothing"
for option in --seat --court --database --port --db-port --data; do
    expect_failure "$option needs" "cure: write it after $option" -- run --headless "$option"
    expect_failure "$option needs" -- run "$option" --headless
done
if "$DEPLOY/run" --seat 2>&1 | grep -q "line [0-9]"; then die "a person was told a line of the script"; fi
DISPLAY=:77 expect_failure "no venue runs in" "start deploy/run in another terminal" -- run --seat table --court 2 --spare --data "$SCRATCH/nothing"
[[ ! -e $SCRATCH/nothing ]] || die "a command that did nothing made a data folder"
DISPLAY=:77 expect_failure "no venue runs in" -- run --seat table --court 2 --spare
expect_failure "not running" -- database status

echo "-- a port that is taken is noticed before anything is built"
listen_on "$PORT"
mv "$COURTHAND_BUILD_DIR" "$COURTHAND_BUILD_DIR.away"
expect_failure "port $PORT on 127.0.0.1 is taken" "--port" -- run --headless
mv "$COURTHAND_BUILD_DIR.away" "$COURTHAND_BUILD_DIR"
kill "$LISTENER"

echo "-- a start that failed leaves the data folder free for another database"
expect_failure "does not answer" "leave it out" -- run --headless --data "$SCRATCH/other" --database "postgresql://a:b@127.0.0.1:$PORT/c"
expect_failure "does not answer" "leave it out" -- run --headless --data "$SCRATCH/other" --database "postgresql://a:b@127.0.0.1:$PORT/d"

echo "-- a database that exists already"
database start
named=$(database dsn)
DATABASE_URL=$named start_run --data "$SCRATCH/named"
if grep -q "$(<"$DATA/postgres/password")" "$STARTED"; then die "the password is on a command line"; fi
grep -q -- "--database postgresql://courthand@127.0.0.1" "$STARTED" || die "the named database was not used"
run --seat head --headless --data "$SCRATCH/named" >"$SCRATCH/second.out" 2>&1 &
second=$!
wait_for "devices/head-2" "$STARTED"
kill -TERM "$second" "$RUN"
ended_with 143
none_left
[[ ! -d $SCRATCH/named/postgres ]] || die "a private database was made all the same"
database status
database stop
echo passed
