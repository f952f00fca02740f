# shellcheck shell=bash
# A private PostgreSQL cluster in a data folder, on a loopback TCP port, for any account.
#
# PostgreSQL refuses root, so root drops to the postgres account; every other account runs it directly.
# No Unix socket is opened: its path would limit how deep the data folder may be, and TCP does all we need.
#
# pg_open DATA first; it sets
#   PG_HOME  where the cluster and its notes live        PG_CLUSTER  the cluster itself
#   PG_BIN   the programs of PostgreSQL 15 or newer

readonly PG_OLDEST=15
readonly PG_DATABASE=courthand
# Below 32768: what is above may be in use by an outgoing connection, which looks free and is not.
readonly PG_FIRST_PORT=25432
# The account that owns the cluster; the application's own role is courthand and no superuser.
readonly PG_ADMIN=venue_admin
# Children of a killed postmaster need about a second to notice; recovery of a large log takes longer.
readonly PG_CHILDREN_SECONDS=15
readonly PG_START_SECONDS=120
readonly PG_NEED_MIB=200

pg_find_programs() {
    local candidate version
    if [[ -n "${COURTHAND_PG_BIN:-}" ]]; then
        PG_BIN=$COURTHAND_PG_BIN
    else
        PG_BIN=
        for candidate in /usr/lib/postgresql/*/bin /usr/pgsql-*/bin /usr/local/pgsql/bin; do
            [[ -x $candidate/initdb ]] || continue
            if [[ -z $PG_BIN ]] || (($(pg_version "$candidate") > $(pg_version "$PG_BIN"))); then
                PG_BIN=$candidate
            fi
        done
    fi
    [[ -n $PG_BIN && -x $PG_BIN/postgres ]] || fail "PostgreSQL is not installed${PG_BIN:+ in $PG_BIN}" \
        "apt-get install --no-install-recommends postgresql-15, or set COURTHAND_PG_BIN to its bin folder"
    version=$(pg_version "$PG_BIN")
    ((version >= PG_OLDEST)) || fail \
        "PostgreSQL $version in $PG_BIN is too old: $PG_OLDEST or newer is needed" \
        "apt-get install --no-install-recommends postgresql-15, or set COURTHAND_PG_BIN to a newer one"
}

# pg_version BIN: the major number, 0 when unreadable
pg_version() {
    local text
    text=$("$1/postgres" --version 2>/dev/null) || text=
    [[ $text =~ ([0-9]+)(\.|devel|beta|rc|[[:space:]]|$) ]] || { printf 0; return; }
    printf '%s' "${BASH_REMATCH[1]}"
}

# pg_as COMMAND...: run as the account that owns the cluster
pg_as() {
    if [[ $(id -u) == 0 ]]; then
        (cd / && exec runuser -u postgres -- "$@")
    else
        (cd / && exec "$@")
    fi
}

# pg_reachable DIR: may the cluster's account pass through DIR (or its nearest parent that exists)?
pg_reachable() {
    local dir=$1
    while [[ ! -d $dir ]]; do dir=$(dirname -- "$dir"); done
    pg_as test -x "$dir"
}

# pg_open DATA: finds programs and folders, creates only the data folder itself.
pg_open() {
    local data=$1 root=${COURTHAND_CLUSTER_ROOT:-/var/lib/courthand} name
    pg_find_programs
    data_folder_make "$data"
    data=$(cd "$data" && pwd -P)
    PG_HOME=$data/postgres
    if [[ $(id -u) == 0 ]] && ! pg_reachable "$data"; then
        name=$(printf '%s' "$data" | cksum)
        PG_HOME=$root/cluster-${name%% *}
        install -d -m 755 -- "$root"
        say "    the postgres account cannot reach $data: the database lives in $PG_HOME"
    fi
    PG_CLUSTER=$PG_HOME/cluster
    if [[ -d $PG_CLUSTER && $(id -u) != 0 && ! -O $PG_CLUSTER ]]; then
        fail "the database in $PG_HOME belongs to the account $(stat -c %U "$PG_CLUSTER")" \
            "run this as the account that made it (root, if it was made by root), or choose another folder with --data"
    fi
}

# data_folder_make DATA: passable for the cluster's account; what is secret in it has its own mode.
data_folder_make() {
    [[ -d $1 ]] && return
    (umask 022 && mkdir -p -- "$1") 2>/dev/null ||
        fail "cannot create the data folder $1" "choose a folder this account may write with --data"
}

# pg_pids: processes that work in the cluster (PostgreSQL changes into it); an unreaped one has no folder.
pg_pids() {
    local link
    for link in /proc/[0-9]*/cwd; do
        [[ $(readlink -- "$link" 2>/dev/null) == "$PG_CLUSTER" ]] || continue
        link=${link#/proc/}
        printf '%s\n' "${link%/cwd}"
    done
}

# pg_stop_all_under DIR: ends every cluster in a folder that is about to be removed
pg_stop_all_under() {
    local note
    while IFS= read -r -d '' note; do
        PG_CLUSTER=$(dirname -- "$note")
        if pg_running; then kill -QUIT "$(pg_recorded_pid)" 2>/dev/null || true; fi
    done < <(find "$1" -name postmaster.pid -print0 2>/dev/null)
}

# pg_recorded_pid: first line of postmaster.pid, empty when there is none
pg_recorded_pid() {
    local pid=
    [[ -f $PG_CLUSTER/postmaster.pid ]] && pid=$(head -n 1 "$PG_CLUSTER/postmaster.pid" 2>/dev/null)
    [[ $pid =~ ^[0-9]+$ ]] && printf '%s' "$pid"
    return 0
}

# pg_running: the recorded pid is alive and works in this cluster. pg_ctl status only checks that some
# process has that number, which is wrong after a reboot.
pg_running() {
    local pid
    pid=$(pg_recorded_pid)
    [[ -n $pid && $(readlink -- "/proc/$pid/cwd" 2>/dev/null) == "$PG_CLUSTER" ]]
}

# After kill -9 the children live on for a moment, and a start in that window fails; a reused or
# unreaped process number makes PostgreSQL believe that it still runs.
pg_clear_stale() {
    local pid tick
    pid=$(pg_recorded_pid)
    [[ -n $pid ]] || return 0
    say "    postmaster.pid of a dead server found (process $pid): recovering"
    for ((tick = 0; tick < PG_CHILDREN_SECONDS * 10; tick++)); do
        [[ -n $(pg_pids) ]] || break
        sleep 0.1
    done
    [[ -z $(pg_pids) ]] || fail "processes of a dead database server do not end: $(pg_pids | tr '\n' ' ')" \
        "end them with kill -QUIT, then run this again"
    rm -f -- "$PG_CLUSTER/postmaster.pid"
}

# secret_make FILE: 48 hex digits, readable by its owner alone
secret_make() {
    (umask 077 && od -An -N24 -tx1 /dev/urandom | tr -d ' \n' >"$1")
}

pg_init() {
    local log=$PG_HOME/init.log input
    [[ -f $PG_CLUSTER/PG_VERSION && -f $PG_HOME/ready ]] && return
    need_free_space "$PG_HOME" "$PG_NEED_MIB" "the database"
    # Left by an attempt that did not finish: it never held anything.
    if pg_running; then pg_stop; fi
    rm -rf -- "${PG_CLUSTER:?}"
    secret_make "$PG_HOME/admin.secret"
    secret_make "$PG_HOME/password"
    # initdb must read the secret as the cluster's account
    input=$PG_HOME/init.secret
    (umask 077 && cat "$PG_HOME/admin.secret" >"$input")
    mkdir -m 700 -- "$PG_CLUSTER"
    : >"$PG_HOME/postgres.log"
    if [[ $(id -u) == 0 ]]; then chown postgres: "$input" "$PG_CLUSTER" "$PG_HOME/postgres.log"; fi
    chmod 640 "$PG_HOME/postgres.log"
    if ! pg_as "$PG_BIN/initdb" -D "$PG_CLUSTER" -U "$PG_ADMIN" -E UTF8 --locale=C.UTF-8 \
        --auth=scram-sha-256 --pwfile="$input" >"$log" 2>&1; then
        show_log_end "$log"
        fail "the database could not be created in $PG_CLUSTER" \
            "read the lines above; often the disk is full or the folder may not be written"
    fi
    rm -f -- "$input"
}

# pg_choose_port [WANTED]: keeps the cluster's last port while it is free
pg_choose_port() {
    local wanted=${1:-} last=
    [[ -f $PG_HOME/port ]] && last=$(<"$PG_HOME/port")
    if [[ -n $wanted ]]; then
        port_require "$wanted" "the database" "--db-port"
        PG_PORT=$wanted
    elif [[ -n $last ]] && ! port_taken "$last"; then
        PG_PORT=$last
    else
        PG_PORT=$(port_free_from "$PG_FIRST_PORT")
        [[ -z $last ]] || say "    port $last is taken, using $PG_PORT"
    fi
}

# pg_start [PORT]: creates, repairs or finds the running cluster
pg_start() {
    local wanted=${1:-}
    (umask 022 && mkdir -p -- "$PG_HOME")
    lock_wait "$PG_HOME/lock" "$PG_START_SECONDS" ||
        fail "another start of the database in $PG_HOME does not finish" "look at $PG_HOME/postgres.log"
    pg_start_locked "$wanted"
    lock_release_last
}

pg_start_locked() {
    local wanted=$1
    if pg_running && [[ -f $PG_HOME/ready ]]; then
        PG_PORT=$(<"$PG_HOME/port")
        [[ -z $wanted || $wanted == "$PG_PORT" ]] || fail \
            "the database in $PG_HOME already runs on port $PG_PORT, not on $wanted" \
            "stop it first (deploy/database stop), or leave --db-port out"
        say "    already running on 127.0.0.1:$PG_PORT"
        return
    fi
    pg_init
    pg_match_version
    need_free_space "$PG_HOME" 50 "the database"
    pg_clear_stale
    pg_launch_on_port "$wanted"
    printf '%s\n' "$PG_PORT" >"$PG_HOME/port"
    pg_make_role
    say "    PostgreSQL $(pg_version "$PG_BIN") on 127.0.0.1:$PG_PORT, data in $PG_HOME"
}

pg_match_version() {
    local made
    made=$(pg_as cat "$PG_CLUSTER/PG_VERSION")
    [[ $made == "$(pg_version "$PG_BIN")" ]] || fail \
        "the database in $PG_HOME was made by PostgreSQL $made, the programs in $PG_BIN are $(pg_version "$PG_BIN")" \
        "set COURTHAND_PG_BIN to the bin folder of PostgreSQL $made, or move over with deploy/backup and deploy/restore"
}

# Two clusters that start at once may both see the same port free: the one that loses tries the next.
pg_launch_on_port() {
    local attempt
    for attempt in 1 2 3 4 5; do
        pg_choose_port "$1"
        if pg_launch; then return; fi
        [[ -z $1 ]] && tail -n 5 "$PG_HOME/postgres.log" | grep -q 'Address already in use' || break
        sleep "0.$attempt"
    done
    show_log_end "$PG_HOME/postgres.log" 12
    fail "the database did not start (log: $PG_HOME/postgres.log)" \
        "read the lines above: a full disk and a taken port are the usual causes"
}

pg_launch() {
    local options="-c listen_addresses=127.0.0.1 -c unix_socket_directories='' -p $PG_PORT"
    # pg_ctl detaches the server into a session of its own: Ctrl-C does not reach it.
    (close_lock_fds; pg_as "$PG_BIN/pg_ctl" -D "$PG_CLUSTER" -w -t "$PG_START_SECONDS" \
        -l "$PG_HOME/postgres.log" -o "$options" start) </dev/null >"$PG_HOME/start.log" 2>&1
}

# pg_admin SQL: one statement as the cluster's owner
pg_admin() {
    PGPASSWORD=$(<"$PG_HOME/admin.secret") "$PG_BIN/psql" -X -q -At -v ON_ERROR_STOP=1 \
        -h 127.0.0.1 -p "$PG_PORT" -U "$PG_ADMIN" -d "${2:-postgres}" -c "$1" </dev/null
}

# The application's role may create databases (tests do) but is no superuser.
pg_make_role() {
    [[ -f $PG_HOME/ready ]] && return
    local exists
    exists=$(pg_admin "select count(*) from pg_roles where rolname = 'courthand'")
    if [[ $exists == 0 ]]; then
        # The secret is hex, made above: nothing in it to quote.
        PGPASSWORD=$(<"$PG_HOME/admin.secret") "$PG_BIN/psql" -X -q -v ON_ERROR_STOP=1 \
            -h 127.0.0.1 -p "$PG_PORT" -U "$PG_ADMIN" -d postgres \
            <<<"create role courthand login createdb password '$(<"$PG_HOME/password")'"
    fi
    exists=$(pg_admin "select count(*) from pg_database where datname = '$PG_DATABASE'")
    [[ $exists != 0 ]] || pg_admin "create database $PG_DATABASE owner courthand"
    pg_write_passfile
    : >"$PG_HOME/ready"
}

# The port may change between starts, so the password file of libpq names none.
pg_write_passfile() {
    (umask 077 && printf '127.0.0.1:*:*:courthand:%s\n' "$(<"$PG_HOME/password")" >"$PG_HOME/passfile")
}

pg_stop() {
    local log=$PG_HOME/stop.log
    if ! pg_running; then
        say "    the database is not running"
        return
    fi
    if ! pg_as "$PG_BIN/pg_ctl" -D "$PG_CLUSTER" -w -t 60 -m fast stop </dev/null >"$log" 2>&1; then
        show_log_end "$log"
        fail "the database did not stop" "look at $PG_HOME/postgres.log"
    fi
    say "    database stopped"
}

# pg_dsn: with the password, for people and tests. pg_dsn_quiet: password in a file of mode 600, fit
# for a command line, which every account of the machine can read.
pg_dsn() {
    printf 'postgresql://courthand:%s@127.0.0.1:%s/%s\n' \
        "$(<"$PG_HOME/password")" "$(<"$PG_HOME/port")" "$PG_DATABASE"
}
pg_dsn_quiet() {
    printf 'postgresql://courthand@127.0.0.1:%s/%s?passfile=%s\n' \
        "$(<"$PG_HOME/port")" "$PG_DATABASE" "$(uri_quote "$PG_HOME/passfile")"
}

# uri_quote TEXT: percent-encodes all that is not plain in a URI
uri_quote() {
    local LC_ALL=C text=$1 i char
    for ((i = 0; i < ${#text}; i++)); do
        char=${text:i:1}
        case $char in
            [A-Za-z0-9/._~-]) printf '%s' "$char" ;;
            *) printf '%%%02X' "'$char" ;;
        esac
    done
}
