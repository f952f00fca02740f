#!/usr/bin/env bash
# A taken port gives a plain error with its cure; without a named port another one is found.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

# shellcheck source=/dev/null
source "$DEPLOY/lib/say.sh"
# shellcheck source=/dev/null
source "$DEPLOY/lib/ports.sh"
busy=$(port_free_from 26100)
listen_on "$busy"
trap 'kill "$LISTENER"; cleanup' EXIT

expect_failure "port $busy on 127.0.0.1 is taken" "cure:" "--db-port" -- database start --db-port "$busy"
expect_failure "is not a port" -- database start --db-port 80
expect_failure "is not a port" -- database start --db-port 70000

echo "-- the cluster's own port is taken by somebody else: it moves and says so"
database start
database stop
own=$(<"$DATA/postgres/port")
kill "$LISTENER"
wait "$LISTENER" 2>/dev/null || true
listen_on "$own"
expect_text "$(database start)" "port $own is taken"
[[ $(query 'select 1') == 1 ]] || die "no answer on the other port"
database stop
echo passed
