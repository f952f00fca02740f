# shellcheck shell=bash
# A venue on one machine: server, enrolled devices, simulated tables, seats.
#
# DATA/venue     the server's own folder (venue authority)     DATA/devices  one folder for each enrolled device
# DATA/log       what each process printed                     DATA/run      locks and notes of what runs now

# The event that opens an empty venue.
readonly VENUE_EVENT=$DEPLOY_DIR/events/harbour-cup.event
# Each simulated table is a program of its own; a machine on a desk runs so many.
readonly VENUE_MOST_COURTS=32
readonly VENUE_READY_SECONDS=60
readonly VENUE_NEED_MIB=100
# Seconds from one service to the next in a hall. Common practice, no source.
readonly VENUE_RALLY_SECONDS=25

venue_folders() {
    need_free_space "$DATA" "$VENUE_NEED_MIB" "the venue"
    data_folder_make "$DATA"
    DATA=$(cd "$DATA" && pwd -P)
    mkdir -p -- "$DATA/log"
    # Keys of the venue and of its devices, and notes about them, are for this account alone.
    (umask 077 && mkdir -p -- "$DATA/venue" "$DATA/devices" "$DATA/run")
    [[ -w $DATA/run ]] || fail "the data folder $DATA belongs to the account $(stat -c %U "$DATA/run")" \
        "run this as that account, or choose another folder with --data"
}

# venue_note / venue_read: where the running venue is, for a later deploy/run that joins
venue_note() {
    (umask 077 && printf '%s\n' "$$" "$SERVER" "${DATABASE:-$DSN}" "$COURTS" >"$DATA/run/venue")
    at_exit venue_forget
}
venue_forget() { rm -f -- "$DATA/run/venue"; }
venue_read() {
    local lines
    [[ -f $DATA/run/venue ]] || return 1
    mapfile -t lines <"$DATA/run/venue"
    VENUE_PID=${lines[0]} SERVER=${lines[1]} COURTS=${lines[3]}
    dsn_hide_password "${lines[2]}"
}

# log_file NAME: the last run's log is kept beside it
log_file() {
    local log=$DATA/log/$1.log
    if [[ -f $log ]]; then mv -f -- "$log" "$log.1"; fi
    printf '%s' "$log"
}

# The database a data folder was first used with: devices enrolled at one venue are strangers at another.
# Only a server that was ready has used it: a start that failed leaves the folder as free as it was.
venue_check_database() {
    local note=$DATA/run/database-name
    DATABASE_NAME=${1:-private}
    if [[ -f $note && $(<"$note") != "$DATABASE_NAME" ]]; then
        fail "the data folder $DATA was used with another database ($(<"$note")), not with $DATABASE_NAME" \
            "choose another folder with --data, or name the same database"
    fi
}
venue_bind_database() {
    (umask 077 && printf '%s\n' "$DATABASE_NAME" >"$DATA/run/database-name")
}

# name_of_event FILE: as it stands in its line "tournament"
name_of_event() { sed -nE 's/^[[:space:]]*tournament[[:space:]]+"([^"]*)".*$/\1/p' -- "$1" | head -n 1; }

# The event that a data folder was opened with: without --event it goes on, and another one finds no room in it.
venue_held_event() { printf '%s' "$DATA/run/opened.event"; }
venue_bind_event() {
    local held
    held=$(venue_held_event)
    [[ $EVENT -ef $held ]] || (umask 077 && cp -- "$EVENT" "$held.new" && mv -f -- "$held.new" "$held")
}

venue_start_database() {
    if [[ -n $DATABASE ]]; then
        dsn_hide_password "$DATABASE"
        venue_check_database "$DSN"
        dsn_check
        return
    fi
    venue_check_database
    pg_open "$DATA"
    # The note outlives a deploy/run that was killed: the next one stops the database in its place.
    if ! pg_running; then : >"$DATA/run/database-started"; fi
    if [[ -f $DATA/run/database-started ]]; then at_exit venue_stop_database; fi
    pg_start "$DB_PORT"
    DSN=$(pg_dsn_quiet)
}
venue_stop_database() {
    pg_stop
    rm -f -- "$DATA/run/database-started"
}

venue_start_server() {
    local log
    log=$(log_file server)
    spawn "$log" "$BIN_SERVER" serve --listen "$SERVER" --database "$DSN" \
        --data "$DATA/venue" --event "$EVENT" --publish 127.0.0.1:0
    SERVER_PID=$SPAWNED
    wait_for_line "$SERVER_PID" "$log" '^ready on ' "the server"
    venue_bind_database
    venue_bind_event
    say "    $(grep -m 1 '^ready on ' "$log")"
    local pages
    pages=$(sed -n 's/^pages at //p' "$log" | head -n 1)
    if [[ $pages ]]; then say "    pages for everyone in the hall, also on a phone: $pages"; fi
}

# wait_for_line PID LOG PATTERN WHO
wait_for_line() {
    local tick
    for ((tick = 0; tick < VENUE_READY_SECONDS * 20; tick++)); do
        if grep -qs -- "$3" "$2"; then return; fi
        if ! pid_alive "$1"; then
            show_log_end "$2"
            fail "$4 ended before it was ready" "read the lines above; the whole log is $2"
        fi
        sleep 0.05
    done
    show_log_end "$2"
    fail "$4 was not ready after $VENUE_READY_SECONDS s" "read the lines above; the whole log is $2"
}

# device_enrol NAME SEAT [COURT]: once for each device folder
device_enrol() {
    local name=$1 seat=$2 court=${3:-} folder=$DATA/devices/$1 log code
    [[ -f $folder/enrolled ]] && return
    log=$(log_file "enrol-$name")
    mkdir -p -- "$folder"
    if ! code=$("$BIN_SERVER" code --database "$DSN" --data "$DATA/venue" \
        --seat "$seat" ${court:+--court "$court"} 2>"$log"); then
        show_log_end "$log"
        fail "the server gave no enrolment code for the device $name" "read the lines above"
    fi
    # Not as a word of the command: every account of a machine can read those.
    if ! "$BIN_CLIENT" enrol --server "$SERVER" --code - --name "$name" --data "$folder" >>"$log" 2>&1 <<<"$code"; then
        show_log_end "$log"
        fail "the device $name could not be enrolled" \
            "read the lines above; if the venue was set up anew, remove $DATA/devices and try again"
    fi
    : >"$folder/enrolled"
}

# courts_of_event FILE: the highest number of a court in it
courts_of_event() { sed -nE 's/^[[:space:]]*court[[:space:]]+([0-9]{1,4})([[:space:]].*)?$/\1/p' -- "$1" | sort -n | tail -n 1; }

# One device for each court, the desk that acts by itself, and the head seat
venue_enrol_devices() {
    local court
    for ((court = 1; court <= COURTS; court++)); do device_enrol "table-$court" table "$court"; done
    device_enrol desk-simulated desk
    device_enrol head-1 head
    say "    $COURTS tables, a simulated desk and the head seat"
}

# venue_start_tables [FREE]: a simulated table on every court but the one a person takes
venue_start_tables() {
    local court free=${1:-} log pace
    pace=$(awk -v rally="$VENUE_RALLY_SECONDS" -v speed="$SPEED" 'BEGIN { printf "%.3f", rally / speed }')
    for ((court = 1; court <= COURTS; court++)); do
        [[ $court != "$free" ]] || continue
        log=$(log_file "table-$court")
        spawn "$log" "$BIN_TABLES" --server "$SERVER" --device-dir "$DATA/devices/table-$court" \
            --planned-only --pace "$pace" --seed "$((2026 + court))"
        TABLE_PIDS[court]=$SPAWNED
        printf '%s\n' "$SPAWNED" >"$DATA/run/table-$court.pid"
    done
    # What is left to play on a court, the table finds out: after a restart a match may be over.
    say "    ${#TABLE_PIDS[@]} tables started; each plays what its court has to play, $SPEED times as fast as in a hall (logs in $DATA/log)"
}

# A desk that confirms what the tables finished, so that the event goes on; a person's desk seat acts beside it.
venue_start_desk() {
    local log
    log=$(log_file desk-simulated)
    spawn "$log" "$BIN_TABLES" --server "$SERVER" --desk-dir "$DATA/devices/desk-simulated"
    DESK_PID=$SPAWNED
    say "    results are confirmed as they come (log $log)"
}

# A person takes over a court's table: same device, same journal, the record simply goes on.
table_take_over() {
    local note=$DATA/run/table-$1.pid pid
    [[ -f $note ]] || return 0
    pid=$(<"$note")
    rm -f -- "$note"
    # The number may belong to another program by now.
    grep -qsF -- "$BIN_TABLES" "/proc/$pid/cmdline" || return 0
    say "    the simulated table on court $1 stops, you go on where it was"
    pid_stop "$pid"
}

# venue_other_seats: those that other windows of this machine have open, a name a line
venue_other_seats() {
    local lock
    for lock in "$DATA"/run/{table,desk,head}-*.lock; do
        [[ -e $lock ]] || continue
        flock -n "$lock" true || basename -- "$lock" .lock
    done
}

# Whoever keeps the venue is to know that a seat of another window did not end by itself: venue_note_fallen STATUS
# leaves a note, venue_take_fallen prints the status of the last one; nothing when there was none.
# A note is about the seat as it was last opened: seat_claim takes it away, and a venue begins without any.
venue_note_fallen() { (umask 077 && printf '%s\n' "$1" >"$DATA/run/$SEAT_DEVICE.fallen"); }
venue_take_fallen() {
    local note status=
    for note in "$DATA"/run/*.fallen; do
        [[ -e $note ]] || continue
        read -r status <"$note" || true
        rm -f -- "$note"
    done
    printf '%s' "$status"
}

# seat_claim SEAT COURT: SEAT_DEVICE is a device that no other window of this machine uses
seat_claim() {
    local seat=$1 court=$2 n
    if [[ $seat == table ]]; then
        SEAT_DEVICE=table-$court${SPARE:+-spare}
        lock_take "$DATA/run/$SEAT_DEVICE.lock" || fail "the table seat of court $court is open already" \
            "use that window, or choose another court with --court"
        rm -f -- "$DATA/run/$SEAT_DEVICE.fallen"
        return
    fi
    for n in 1 2 3 4 5 6 7 8 9; do
        SEAT_DEVICE=$seat-$n
        if lock_take "$DATA/run/$SEAT_DEVICE.lock"; then
            rm -f -- "$DATA/run/$SEAT_DEVICE.fallen"
            return
        fi
    done
    fail "nine $seat seats are open on this machine" "close one of them"
}

# seat_open SEAT COURT WINDOW|TEXT: pid in SEAT_PID
seat_open() {
    local seat=$1 court=$2 form=$3 log words=(--seat "$1" --data "$DATA/devices/$SEAT_DEVICE" --server "$SERVER")
    if [[ $seat == table ]]; then words+=(--court "$court"); fi
    if [[ $form == text ]]; then
        spawn - "$BIN_CLIENT" "${words[@]}" --text
    else
        log=$(log_file "seat-$SEAT_DEVICE")
        spawn "$log" "$BIN_CLIENT" "${words[@]}"
        say "    the $seat seat${court:+ of court $court} is open; close its window or press Ctrl-C to stop"
    fi
    SEAT_PID=$SPAWNED
}
