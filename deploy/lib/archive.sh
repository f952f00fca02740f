# shellcheck shell=bash
# What backup and restore share: which database, and how many rows each table has.

# archive_database DATA DATABASE: DSN, from the flag or from the private cluster, which must run; PG_BIN
archive_database() {
    local data=$1 database=$2
    if [[ -n $database ]]; then
        pg_find_programs
        dsn_hide_password "$database"
        return
    fi
    pg_open "$data"
    [[ -f $PG_HOME/ready ]] || fail "there is no database in $PG_HOME" \
        "name the venue's folder with --data, or its database with --database"
    archive_run_database
    DSN=$(pg_dsn_quiet)
}

# A database that was not running is stopped again at the end.
archive_run_database() {
    if pg_running; then return; fi
    at_exit pg_stop
    pg_start
}

# One line a table, "schema.table rows", in a fixed order.
readonly ARCHIVE_COUNTS="
    select format('%I.%I', table_schema, table_name) || ' ' || (xpath('/row/n/text()', query_to_xml(
        format('select count(*) as n from %I.%I', table_schema, table_name), false, true, '')))[1]::text
    from information_schema.tables
    where table_type = 'BASE TABLE' and table_schema not in ('pg_catalog', 'information_schema')
    order by table_schema, table_name"

sql() { "$PG_BIN/psql" -X -q -At -v ON_ERROR_STOP=1 "$DSN" "$@" </dev/null; }
