# shellcheck shell=bash
# Loopback TCP ports.

# port_taken PORT: something answers on 127.0.0.1:PORT
port_taken() { (exec 3<>"/dev/tcp/127.0.0.1/$1") 2>/dev/null; }

# port_valid PORT: a number an ordinary account may listen on
port_valid() { [[ $1 =~ ^[0-9]{1,5}$ ]] && (($1 >= 1024 && $1 <= 65535)); }

# port_require_valid PORT PURPOSE FLAG: ends with an error when it is no port
port_require_valid() {
    port_valid "$1" || fail "$1 is not a port for $2" "give $3 a number from 1024 to 65535"
}

# port_require_free PORT PURPOSE FLAG: ends with an error when somebody has it
port_require_free() {
    ! port_taken "$1" || fail "port $1 on 127.0.0.1 is taken, $2 cannot use it" \
        "stop the program that has it (ss -ltnp 'sport = :$1' names it), or choose another with $3"
}

# port_require PORT PURPOSE FLAG: both
port_require() {
    port_require_valid "$@"
    port_require_free "$@"
}

# port_free_from PORT: the first free one of the next 100
port_free_from() {
    local port
    for ((port = $1; port < $1 + 100; port++)); do
        if ! port_taken "$port"; then
            printf '%s' "$port"
            return
        fi
    done
    fail "no free port between $1 and $(($1 + 99)) on 127.0.0.1" "name one with --db-port"
}
