#!/usr/bin/env bash
# An old, a missing and a full-disk database each give an error with its cure.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

mkdir "$SCRATCH/old"
printf '#!/bin/sh\necho "postgres (PostgreSQL) 13.14 (Debian 13.14-0+deb11u1)"\n' >"$SCRATCH/old/postgres"
chmod 755 "$SCRATCH/old/postgres"
COURTHAND_PG_BIN=$SCRATCH/old expect_failure "PostgreSQL 13" "too old" "15 or newer" "postgresql-15" -- database start
COURTHAND_PG_BIN=$SCRATCH/none expect_failure "not installed" "cure:" -- database start
COURTHAND_PRETEND_FREE_MIB=7 expect_failure "no room on the disk" "7 MiB free" "cure:" -- database start
[[ ! -d $DATA/postgres/cluster ]] || die "a refused start must leave no cluster"
echo passed
