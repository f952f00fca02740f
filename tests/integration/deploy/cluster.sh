#!/usr/bin/env bash
# A private cluster keeps what it was given through restart, kill -9 and stale notes of a dead server.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

postmaster() { head -n 1 "$DATA/postgres/cluster/postmaster.pid"; }

database start
database status
query 'create table kept (n int); insert into kept values (1)'
[[ $(query "select rolsuper from pg_roles where rolname = current_user") == f ]] || die "the role must be no superuser"
[[ $(stat -c %a "$DATA/postgres/password") == 600 ]] || die "the password file must be private"

echo "-- a second start finds it running"
first=$(postmaster)
expect_text "$(database start)" "already running"
[[ $(postmaster) == "$first" ]] || die "a second start must not restart"

echo "-- restart, from another folder"
(cd / && database restart)
query 'insert into kept values (2)'

echo "-- kill -9 of the postmaster, started again at once"
kill -9 "$(postmaster)"
database start
[[ $(query 'select count(*) from kept') == 2 ]] || die "rows lost after kill -9"

echo "-- stale pid file whose number now belongs to another process of the same account"
database stop
if [[ $(id -u) == 0 ]]; then
    setpriv --reuid postgres --clear-groups sleep 100 &
else
    sleep 100 &
fi
stranger=$!
printf '%s\n%s\n0\n54329\n\n127.0.0.1\n\n' "$stranger" "$DATA/postgres/cluster" >"$DATA/postgres/cluster/postmaster.pid"
expect_failure "not running" -- database status
database start
[[ $(query 'select count(*) from kept') == 2 ]] || die "rows lost after a stale pid file"
kill -0 "$stranger" || die "a stranger was ended"
kill "$stranger"

echo "-- stop, status"
database stop
expect_failure "not running" -- database status
echo passed
