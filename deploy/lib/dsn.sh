# shellcheck shell=bash
# Connection texts that people name themselves.

# dsn_hide_password DSN: DSN becomes the text without its password, which goes to PGPASSWORD for libpq:
# every account of a machine can read command lines, none but ours the environment.
dsn_hide_password() {
    DSN=$1
    if [[ $DSN == *://* ]]; then dsn_hide_in_uri; else dsn_hide_in_words; fi
}

# In front of the host, or as a parameter after the question mark (which wins, as with libpq).
dsn_hide_in_uri() {
    local part parts kept=()
    if [[ $DSN =~ ^(postgres(ql)?://[^:@/?]*):([^@/]*)@(.*)$ ]]; then
        DSN=${BASH_REMATCH[1]}@${BASH_REMATCH[4]}
        PGPASSWORD=$(uri_unquote "${BASH_REMATCH[3]}")
        export PGPASSWORD
    fi
    [[ $DSN == *\?* ]] || return 0
    IFS='&' read -ra parts <<<"${DSN#*\?}"
    for part in "${parts[@]}"; do
        if [[ $(uri_unquote "${part%%=*}") == password ]]; then
            PGPASSWORD=$(uri_unquote "${part#*=}")
            export PGPASSWORD
        else
            kept+=("$part")
        fi
    done
    DSN=${DSN%%\?*}
    if ((${#kept[@]} > 0)); then DSN+="?$(IFS='&'; printf '%s' "${kept[*]}")"; fi
}

# Words with or without quotes: host=db password='it\'s a secret'. What cannot be read so stays as it is:
# libpq will refuse it.
dsn_hide_in_words() {
    local rest=$DSN other_words='' password='' found=''
    local quoted="'([^'\\]|\\\\.)*'" bare="([^[:space:]'\\]|\\\\.)([^[:space:]\\]|\\\\.)*"
    local word="^[[:space:]]*([a-z_]+)[[:space:]]*=[[:space:]]*($quoted|$bare|)([[:space:]].*|)$"
    while [[ $rest =~ $word ]]; do
        rest=${BASH_REMATCH[6]}
        if [[ ${BASH_REMATCH[1]} == password ]]; then
            password=${BASH_REMATCH[2]} found=yes
        else
            other_words+=${other_words:+ }${BASH_REMATCH[1]}=${BASH_REMATCH[2]}
        fi
    done
    [[ $found && $rest =~ ^[[:space:]]*$ ]] || return 0
    DSN=$other_words
    PGPASSWORD=$(word_unquote "$password")
    export PGPASSWORD
}

word_unquote() {
    local text=$1
    if [[ $text == \'*\' ]]; then text=${text:1:-1}; fi
    sed -E 's/\\(.)/\1/g' <<<"$text"
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
