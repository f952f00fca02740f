#!/usr/bin/env bash
# Missing packages and no right to install them: the error names the exact command. All there: nothing is run.
source "$(dirname -- "${BASH_SOURCE[0]}")/common.sh"

fake=$SCRATCH/fake
mkdir "$fake"
program() { printf '#!/bin/sh\n%s\n' "$2" >"$fake/$1"; chmod 755 "$fake/$1"; }
program id 'echo 1000'
program sudo 'exit 1'
program apt-get "touch $SCRATCH/apt-was-run; exit 1"

ask() {
    PATH=$fake:$PATH bash -c '
        set -euo pipefail
        DEPLOY_DIR=$1
        for part in say children ports packages; do source "$DEPLOY_DIR/lib/$part.sh"; done
        packages_ensure build run test' ask "$DEPLOY" </dev/null
}

echo "-- nothing is installed, no rights"
program dpkg-query 'exit 1'
expect_failure "packages are missing and this account may not install them" \
    "apt-get update && apt-get install --no-install-recommends -y " "libpqxx-dev" "postgresql-15" "xvfb" -- ask

echo "-- one is missing: only that one is named"
sed -e 's/#.*//' -e '/^[[:space:]]*$/d' "$DEPLOY"/packages/{build,run,test}.txt | grep -v '^ccache$' |
    sed 's/^/installed /' >"$SCRATCH/installed"
program dpkg-query "cat $SCRATCH/installed; exit 1"
expect_failure "1 packages are missing" "apt-get install --no-install-recommends -y ccache" -- ask

echo "-- rights, but apt fails: its words are shown"
program id 'echo 0'
program apt-get 'echo "E: no mirror answers" >&2; exit 100'
expect_failure "E: no mirror answers" "apt could not install" "cure:" -- ask

echo "-- all there"
program apt-get "touch $SCRATCH/apt-was-run; exit 1"
echo "installed ccache" >>"$SCRATCH/installed"
expect_text "$(ask)" "all there"
[[ ! -e $SCRATCH/apt-was-run ]] || die "apt was run although nothing was missing"
echo passed
