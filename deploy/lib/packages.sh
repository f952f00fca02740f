# shellcheck shell=bash
# Debian packages: finds what is missing with one query, installs only that.

# packages_listed LIST...: the names in deploy/packages/LIST.txt
packages_listed() {
    local list
    for list in "$@"; do
        sed -e 's/#.*//' -e '/^[[:space:]]*$/d' "$DEPLOY_DIR/packages/$list.txt"
    done | sort -u
}

# packages_missing LIST...: the names that are not installed
packages_missing() {
    local wanted
    mapfile -t wanted < <(packages_listed "$@")
    comm -23 <(printf '%s\n' "${wanted[@]}" | sort) \
        <(dpkg-query -W -f '${db:Status-Status} ${Package}\n' "${wanted[@]}" 2>/dev/null |
            sed -n 's/^installed //p' | sort -u)
}

# packages_ensure LIST...: installs what is missing, or says exactly what to run.
packages_ensure() {
    local missing as_root=() command
    if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
        fail "this machine has no apt: packages are known for Debian 12 only" \
            "install what deploy/packages/*.txt names, then use --no-packages"
    fi
    mapfile -t missing < <(packages_missing "$@")
    if ((${#missing[@]} == 0)); then
        say "    all there"
        return
    fi
    command="apt-get install --no-install-recommends -y ${missing[*]}"
    if [[ $(id -u) != 0 ]]; then
        # A person at a terminal can type a password; a script cannot.
        if command -v sudo >/dev/null && { [[ -t 0 ]] || sudo -n true 2>/dev/null; }; then
            as_root=(sudo)
        else
            fail "${#missing[@]} packages are missing and this account may not install them" \
                "run as root:  apt-get update && $command"
        fi
    fi
    say "    installing ${#missing[@]}: ${missing[*]}"
    packages_install "${missing[@]}"
}

# packages_install NAME...: uses as_root from its caller.
packages_install() {
    local log=${TMPDIR:-/tmp}/courthand-apt.$$.log free_mib=2500
    need_free_space /usr "$free_mib" "packages"
    local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y
        -o DPkg::Lock::Timeout=120)
    # In the foreground: a package manager is not stopped half-way, and sudo may ask for a password.
    if ! { "${apt[@]}" update && "${apt[@]}" install --no-install-recommends "$@"; } \
        >"$log" 2>&1; then
        show_log_end "$log"
        fail "apt could not install the packages" \
            "read the lines above (no network? no mirror? another apt at work?), then run this again"
    fi
    rm -f -- "$log"
}
