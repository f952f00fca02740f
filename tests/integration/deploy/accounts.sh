#!/usr/bin/env bash
# Root and an ordinary account can each run a cluster; root's data folder may be one that postgres cannot reach.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"
if [[ $(id -u) != 0 ]]; then
    database start
    [[ $(stat -c %u "$DATA/postgres/cluster") == "$(id -u)" ]] || die "the cluster must belong to this account"
    database stop
    echo "passed (not root: the root part was not run)"
    exit
fi

echo "-- root"
database start
[[ $(stat -c %U "$DATA/postgres/cluster") == postgres ]] || die "root's cluster must belong to postgres"
[[ $(query 'select 1') == 1 ]] || die "no answer"

echo "-- another account may neither use root's folder nor break it"
expect_failure "belongs to the account postgres" "cure:" -- runuser -u nobody -- "$DEPLOY/database" start --data "$DATA"
database stop

echo "-- an ordinary account"
install -d -o nobody "$SCRATCH/home"
as_nobody() { runuser -u nobody -- "$DEPLOY/database" "$@" --data "$SCRATCH/home/data"; }
as_nobody start
[[ $(stat -c %U "$SCRATCH/home/data/postgres/cluster") == nobody ]] || die "the cluster must belong to nobody"
dsn=$(as_nobody dsn)
[[ $(psql -X -At "$dsn" -c 'select 1') == 1 ]] || die "no answer"
kill -9 "$(head -n 1 "$SCRATCH/home/data/postgres/cluster/postmaster.pid")"
as_nobody start
as_nobody stop

echo "-- root, in a folder that only root may enter"
mkdir -m 700 "$SCRATCH/private"
export COURTHAND_CLUSTER_ROOT=$SCRATCH/clusters
closed() { "$DEPLOY/database" "$@" --data "$SCRATCH/private/data"; }
output=$(closed start)
expect_text "$output" "cannot reach $SCRATCH/private/data: the database lives in $SCRATCH/clusters/"
[[ $(psql -X -At "$(closed dsn)" -c 'select 1') == 1 ]] || die "no answer"
closed stop >/dev/null
expect_text "$(closed start)" "PostgreSQL"
closed stop
echo passed
