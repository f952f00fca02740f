# shellcheck shell=bash
# Connection texts that people name themselves.

# dsn_hide_password DSN: DSN becomes the text without its password, which goes to PGPASSWORD for libpq:
# every account of a machine can read command lines, none but ours the environment.
dsn_hide_password() {
    DSN=$1
    if [[ $DSN =~ ^(postgres(ql)?://[^:@/?]+):([^@/]*)@(.*)$ ]]; then
        DSN=${BASH_REMATCH[1]}@${BASH_REMATCH[4]}
        PGPASSWORD=$(uri_unquote "${BASH_REMATCH[3]}")
        export PGPASSWORD
    elif [[ $DSN =~ ^(.*)[[:space:]]?password=([^\'[:space:]]+)(.*)$ && $DSN != *://* ]]; then
        DSN=${BASH_REMATCH[1]}${BASH_REMATCH[3]}
        export PGPASSWORD=${BASH_REMATCH[2]}
    fi
}

uri_unquote() {
    local text=${1//\\/\\\\}
    printf '%b' "${text//%/\\x}"
}

# dsn_check: the database named by DSN answers and is new enough
dsn_check() {
    local version psql
    psql=$(command -v psql) || psql=$(find /usr/lib/postgresql/*/bin -name psql 2>/dev/null | sort | tail -n 1)
    [[ -n $psql ]] || fail "psql is not installed" "apt-get install --no-install-recommends postgresql-client-15"
    version=$(PGCONNECT_TIMEOUT=10 "$psql" -X -At -d "$DSN" -c 'show server_version_num' </dev/null) || fail \
        "the database that was named does not answer" \
        "read the line above; check the DSN (--database or DATABASE_URL), or leave it out for a private database"
    ((version / 10000 >= 15)) || fail "PostgreSQL $((version / 10000)) is too old: 15 or newer is needed" \
        "name a newer one, or leave --database and DATABASE_URL out for a private one"
    say "    using the PostgreSQL $((version / 10000)) that was named"
}
