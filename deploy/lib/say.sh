# shellcheck shell=bash
# What the person at the terminal reads: steps with their time, and errors with their cure.

say() { printf '%s\n' "$*"; }

# fail WHAT CURE: one plain error and what to do about it; ends the script.
fail() {
    printf '\nerror: %s\n' "$1" >&2
    if [[ -n "${2:-}" ]]; then printf ' cure: %s\n' "$2" >&2; fi
    exit 1
}

# word_of WHAT OPTION [WORD]...: what follows an option; another option is no such word
word_of() {
    local what=$1 option=$2 word=${3:-}
    [[ -n $word && $word != --* ]] ||
        fail "$option needs $what" "write it after $option; $(basename -- "$0") --help lists all words"
    printf '%s' "$word"
}

now_us() { printf '%s' "${EPOCHREALTIME/[.,]/}"; }

# seconds_since MICROSECONDS: "1.3 s"
seconds_since() {
    local tenths=$((($(now_us) - $1 + 50000) / 100000))
    printf '%d.%d s' $((tenths / 10)) $((tenths % 10))
}

# step TITLE COMMAND...: runs the command in this shell and says how long it took.
step() {
    local title=$1 began
    shift
    began=$(now_us)
    say "==> $title"
    "$@"
    say "    $title: $(seconds_since "$began")"
}

# A command that hides its output while all is well: show_log_end FILE prints what matters after a failure.
show_log_end() {
    [[ -s "$1" ]] || return 0
    printf '\n--- end of %s\n' "$1" >&2
    tail -n "${2:-25}" "$1" >&2
    printf -- '---\n' >&2
}

# need_free_space DIR MEBIBYTES PURPOSE
need_free_space() {
    local dir=$1 need=$2 purpose=$3 free
    while [[ ! -d "$dir" ]]; do dir=$(dirname -- "$dir"); done
    free=$(($(df -Pk -- "$dir" | awk 'NR == 2 { print $4 }') / 1024))
    free=${COURTHAND_PRETEND_FREE_MIB:-$free}
    ((free >= need)) || fail \
        "no room on the disk for $purpose: $free MiB free under $dir, $need MiB needed" \
        "free some space there, or name another folder with --data"
}
