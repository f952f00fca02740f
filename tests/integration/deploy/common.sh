# shellcheck shell=bash
# What the tests of deploy/ share: a scratch folder every account can reach, a copy of deploy/ in it,
# and checks that say what they expected.
set -euo pipefail
HERE=$(cd "$(dirname -- "${BASH_SOURCE[0]}")" && pwd -P)
REPO=$(cd "$HERE/../../.." && pwd -P)
SCRATCH=$(mktemp -d "${TMPDIR:-/tmp}/courthand-deploy.XXXXXX")
chmod 755 "$SCRATCH"
mkdir "$SCRATCH/repo"
cp -R "$REPO/deploy" "$SCRATCH/repo/"
rm -rf "$SCRATCH/repo/deploy/data"
chmod -R a+rX "$SCRATCH/repo"
DEPLOY=$SCRATCH/repo/deploy
DATA=$SCRATCH/data
export TMPDIR=$SCRATCH
unset DATABASE_URL DISPLAY WAYLAND_DISPLAY

cleanup() {
    local status=$?
    set +e
    local cluster
    for cluster in "$SCRATCH"/*/postgres "$SCRATCH"/clusters/*; do
        if [[ -f $cluster/cluster/postmaster.pid ]]; then
            kill -QUIT "$(head -n 1 "$cluster/cluster/postmaster.pid")" 2>/dev/null && sleep 0.3
        fi
    done
    rm -rf "$SCRATCH"
    exit "$status"
}
trap cleanup EXIT

die() { printf 'FAILED: %s\n' "$*" >&2; exit 1; }
database() { "$DEPLOY/database" "$@" --data "$DATA"; }
query() { psql -X -At -v ON_ERROR_STOP=1 "$(database dsn)" -c "$1"; }

# expect_text TEXT PART
expect_text() { [[ $1 == *"$2"* ]] || die "expected '$2' in: $1"; }

# expect_failure PART... -- COMMAND...: the command fails and says each part on standard error
expect_failure() {
    local parts=() output status=0
    while [[ $1 != -- ]]; do parts+=("$1"); shift; done
    shift
    output=$("$@" 2>&1) || status=$?
    ((status != 0)) || die "should have failed: $*"
    local part
    for part in "${parts[@]}"; do expect_text "$output" "$part"; done
}

# listen_on PORT: something that is not ours takes a port; pid in LISTENER
listen_on() {
    perl -MIO::Socket::INET -e '
        my $s = IO::Socket::INET->new(LocalAddr => "127.0.0.1", LocalPort => $ARGV[0], Listen => 5, ReuseAddr => 1)
            or die "listen: $!"; $| = 1; print "ready\n"; while (my $c = $s->accept) { close $c }' "$1" \
        >"$SCRATCH/listener" &
    LISTENER=$!
    until grep -q ready "$SCRATCH/listener"; do
        kill -0 "$LISTENER" 2>/dev/null || die "port $1 cannot be listened on"
        sleep 0.05
    done
}
