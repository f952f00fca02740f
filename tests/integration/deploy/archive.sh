#!/usr/bin/env bash
# A backup of a busy database restores to the same rows; damage and a used target are refused.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

database start
query "create table match (id int primary key, name text);
       create table \"Odd name\" (match_id int references match);
       insert into match select n, 'match ' || n from generate_series(1, 1000) n;
       insert into \"Odd name\" select n from generate_series(1, 500) n;
       create function renew_generation() returns void language sql as
           \$\$ comment on table match is 'renewed' \$\$" >/dev/null
install -d -m 700 "$DATA/venue"
printf 'a key\n' >"$DATA/venue/authority.key"
chmod 600 "$DATA/venue/authority.key"

echo "-- backup while somebody writes"
(for n in $(seq 2001 2040); do query "insert into match values ($n, 'late')" >/dev/null; done) &
writer=$!
output=$("$DEPLOY/backup" --data "$DATA" --to "$SCRATCH/saved")
wait "$writer"
saved=$(echo "$SCRATCH"/saved/courthand-*)
[[ $(stat -c %a "$saved") == 700 ]] || die "a backup must be private"
grep -q '^public."Odd name" 500$' "$saved/counts.txt" || die "counts: $(<"$saved/counts.txt")"

echo "-- restore into a new place"
"$DEPLOY/restore" --from "$saved" --data "$SCRATCH/second"
expect_failure "not running" -- "$DEPLOY/database" status --data "$SCRATCH/second"
"$DEPLOY/database" start --data "$SCRATCH/second" >/dev/null
second=$("$DEPLOY/database" dsn --data "$SCRATCH/second")
rows=$(psql -X -At "$second" -c 'select count(*) from match')
[[ "public.match $rows" == "$(grep '^public.match ' "$saved/counts.txt")" ]] || die "restored $rows rows"
expect_text "$output" "rows of 2 tables"
renewed=$(psql -X -At "$second" -c "select obj_description('match'::regclass)")
[[ $renewed == renewed ]] || die "a restored database needs another generation"
((rows >= 1000)) || die "restored $rows rows"
[[ $(stat -c %a "$SCRATCH/second/venue/authority.key") == 600 ]] || die "a key must stay private"
cmp "$DATA/venue/authority.key" "$SCRATCH/second/venue/authority.key"

echo "-- nothing that exists is overwritten"
expect_failure "there is a venue authority" "nothing was changed" -- "$DEPLOY/restore" --from "$saved" --data "$SCRATCH/second"
rm -r "$SCRATCH/second/venue"
expect_failure "the database is not empty: it has 2 tables" -- "$DEPLOY/restore" --from "$saved" --data "$SCRATCH/second"

echo "-- damage is found"
printf 'x' >>"$saved/database.dump"
expect_failure "the backup in $saved is damaged" -- "$DEPLOY/restore" --from "$saved" --data "$SCRATCH/third"
rm "$saved/venue.tar"
expect_failure "venue.tar is missing" -- "$DEPLOY/restore" --from "$saved" --data "$SCRATCH/third"

echo "-- counts that do not agree are found"
sed -i 's/ 500$/ 501/' "$saved/counts.txt"
tar -C "$DATA/venue" -cf "$saved/venue.tar" .
psql -X -q "$second" -c 'drop table "Odd name", match; drop function renew_generation'
pg_dump=$(find /usr/lib/postgresql/*/bin -name pg_dump | sort | tail -n 1)
"$pg_dump" -Fc -f "$saved/database.dump" "$(database dsn)"
(cd "$saved" && sha256sum database.dump venue.tar counts.txt >SHA256SUMS)
expect_failure "rows differ" '"Odd name" 501' -- "$DEPLOY/restore" --from "$saved" --data "$SCRATCH/second"
"$DEPLOY/database" stop --data "$SCRATCH/second"
database stop
echo passed
