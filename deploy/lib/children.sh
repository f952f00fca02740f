# shellcheck shell=bash
# Processes that a script started, and only those: stopped by pid, newest first, however the script ends.

CHILD_PIDS=()
EXIT_ACTIONS=()
# How long a child may take over a clean stop before it is killed.
readonly CHILD_STOP_SECONDS=10

children_guard() {
    trap children_on_exit EXIT
    trap 'exit 130' INT
    trap 'exit 143' TERM HUP
}

# at_exit COMMAND: run after all children have stopped, newest first.
at_exit() { EXIT_ACTIONS=("$1" "${EXIT_ACTIONS[@]}"); }

children_on_exit() {
    local status=$? action
    # A second Ctrl-C must not leave half of them running.
    trap '' INT TERM HUP
    trap - EXIT
    set +e
    children_stop
    for action in "${EXIT_ACTIONS[@]}"; do $action; done
    exit "$status"
}

# spawn LOG COMMAND...: starts a child, its output in LOG ("-": ours); pid in SPAWNED.
# It leads a session of its own: Ctrl-C reaches this script alone, which then stops its children in
# order, each with all that it started. Should this script be killed outright, the kernel ends the child.
spawn() {
    local log=$1 in_session=(setpriv --pdeathsig TERM -- setsid env --default-signal="INT,QUIT" --)
    shift
    if [[ $log == - ]]; then
        close_locks "${in_session[@]}" "$@" </dev/null &
    else
        close_locks "${in_session[@]}" "$@" </dev/null >"$log" 2>&1 &
    fi
    SPAWNED=$!
    CHILD_PIDS+=("$SPAWNED")
}

# A child that inherited one of our locks would hold it after us.
close_locks() {
    close_lock_fds
    exec "$@"
}
close_lock_fds() {
    local fd
    for fd in "${LOCK_FDS[@]}"; do exec {fd}>&-; done
}

# attend COMMAND...: like a plain call, but a signal to this script stops the command at once.
attend() {
    local status=0
    spawn - "$@"
    local pid=$SPAWNED
    wait "$pid" || status=$?
    child_forget "$pid"
    return "$status"
}

child_forget() {
    local pid kept=()
    for pid in "${CHILD_PIDS[@]}"; do [[ $pid == "$1" ]] || kept+=("$pid"); done
    CHILD_PIDS=("${kept[@]}")
}

# pid_alive PID: running, not merely unreaped
pid_alive() {
    local stat
    { read -r stat <"/proc/$1/stat"; } 2>/dev/null || return 1
    stat=${stat##*) }
    [[ ${stat:0:1} != Z ]]
}

# pid_stop PID: asks it and all of its session to end, waits a while, then ends what is left
pid_stop() {
    kill -TERM -- "-$1" 2>/dev/null || kill -TERM "$1" 2>/dev/null || return 0
    local tick
    for ((tick = 0; tick < CHILD_STOP_SECONDS * 20; tick++)); do
        if ! pid_alive "$1"; then
            # Reaped here when it is ours; what it started may need a moment more.
            wait "$1" 2>/dev/null || true
            kill -0 -- "-$1" 2>/dev/null || return 0
        fi
        sleep 0.05
    done
    kill -KILL -- "-$1" 2>/dev/null || true
}

children_stop() {
    local i
    for ((i = ${#CHILD_PIDS[@]} - 1; i >= 0; i--)); do
        pid_stop "${CHILD_PIDS[i]}"
    done
    CHILD_PIDS=()
}

LOCK_FDS=()
# lock_take FILE: true when this script now holds the lock (until it ends)
lock_take() { lock_wait "$1" 0; }

# lock_wait FILE SECONDS
lock_wait() {
    local fd
    exec {fd}>>"$1"
    if flock -w "$2" "$fd"; then
        LOCK_FDS+=("$fd")
    else
        exec {fd}>&-
        return 1
    fi
}

lock_release_last() {
    local fd=${LOCK_FDS[-1]}
    unset 'LOCK_FDS[-1]'
    exec {fd}>&-
}
