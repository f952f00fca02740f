#!/usr/bin/env bash
# Connection texts that people name: whatever way a password stands in one, no command line shows it.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"
# shellcheck source=/dev/null
source "$DEPLOY/lib/dsn.sh"

# hidden TEXT DSN PASSWORD: after hiding, the text is DSN and the environment has PASSWORD
hidden() {
    unset PGPASSWORD
    dsn_hide_password "$1"
    [[ $DSN == "$2" ]] || die "of $1: '$DSN', not '$2'"
    [[ ${PGPASSWORD-none} == "$3" ]] || die "of $1: the password is '${PGPASSWORD-none}', not '$3'"
    if [[ $3 != none ]]; then
        [[ $(env -0 | tr '\0' '\n' | grep -c '^PGPASSWORD=') == 1 ]] || die "of $1: not exported"
    fi
}

echo "-- as a URI"
hidden "postgresql://ann@db/cup" "postgresql://ann@db/cup" none
hidden "postgresql://ann:secret@db:5432/cup" "postgresql://ann@db:5432/cup" secret
hidden "postgres://ann:p%40ss%2Fword@db/cup?sslmode=require" "postgres://ann@db/cup?sslmode=require" "p@ss/word"
hidden "postgresql://db/cup?user=ann&password=secret" "postgresql://db/cup?user=ann" secret
hidden "postgresql://db/cup?password=p%26q&user=ann" "postgresql://db/cup?user=ann" "p&q"
hidden "postgresql://db/cup?password=secret" "postgresql://db/cup" secret
hidden "postgresql://ann:first@db/cup?password=second" "postgresql://ann@db/cup" second
hidden "postgresql://db/cup?passfile=/etc/pass" "postgresql://db/cup?passfile=/etc/pass" none
hidden "postgresql://db/cup?pass%77ord=secret" "postgresql://db/cup" secret

echo "-- as words"
hidden "host=db dbname=cup" "host=db dbname=cup" none
hidden "cup" "cup" none
hidden "host=db password=secret dbname=cup" "host=db dbname=cup" secret
hidden "password=secret" "" secret
hidden "host=db password = secret" "host=db" secret
hidden "host=db password='secret' dbname=cup" "host=db dbname=cup" secret
hidden "host=db password='two words' dbname='a cup'" "host=db dbname='a cup'" "two words"
hidden "password='it\\'s \\\\ here' host=db" "host=db" "it's \\ here"
hidden "password=it\\'s host=db" "host=db" "it's"
hidden "passfile=/etc/pass host=db" "passfile=/etc/pass host=db" none
hidden "application_name='password=no' host=db" "application_name='password=no' host=db" none

echo "-- a database reads the same from both"
database start
named=$(database dsn)
[[ $named =~ ^postgresql://([^:]+):([^@]+)@([^:]+):([0-9]+)/(.*)$ ]] || die "an unknown form: $named"
user=${BASH_REMATCH[1]} secret=${BASH_REMATCH[2]} host=${BASH_REMATCH[3]} port=${BASH_REMATCH[4]} name=${BASH_REMATCH[5]}
for text in "$named" "postgresql://$host:$port/$name?user=$user&password=$secret" \
    "host=$host port=$port user=$user dbname=$name password='$secret'"; do
    unset PGPASSWORD
    dsn_hide_password "$text"
    if [[ $DSN == *"$secret"* ]]; then die "the password is still in: $DSN"; fi
    [[ $(psql -X -At -d "$DSN" -c 'select 1') == 1 ]] || die "no answer to $DSN"
done
database stop
echo passed
