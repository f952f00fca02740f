# shellcheck shell=bash
# Configure and build one CMake preset.

readonly BUILD_NEED_MIB=3000
# A gRPC source takes most of this at its peak; more jobs than memory makes the machine swap.
readonly BUILD_JOB_MIB=1500

build_folder() { printf '%s' "${COURTHAND_BUILD_DIR:-$ROOT_DIR/build/$1}"; }

build_jobs() {
    local by_memory cores
    cores=$(nproc)
    by_memory=$(($(awk '/^MemAvailable/ { print $2 }' /proc/meminfo) / 1024 / BUILD_JOB_MIB))
    ((by_memory >= 1)) || by_memory=1
    printf '%d' $((cores < by_memory ? cores : by_memory))
}

# Said to cmake when a preset is configured; whoever builds for no debugger asks for less than everything.
BUILD_DEFINITIONS=()

# build_preset PRESET [TARGET...]: everything when no target is named; false when something did not build
build_preset() {
    local preset=$1 folder log targets=()
    shift
    folder=$(build_folder "$preset")
    log=$folder/build.log
    (($# == 0)) || targets=(--target "$@")
    if [[ ! -d $folder ]]; then need_free_space "$folder" "$BUILD_NEED_MIB" "the build"; fi
    mkdir -p -- "$folder"
    # What one build folder or clone compiled, the cache gives to the next.
    export CCACHE_BASEDIR=$ROOT_DIR CCACHE_NOHASHDIR=1
    if ! (cd "$ROOT_DIR" && cmake --preset "$preset" -B "$folder" "${BUILD_DEFINITIONS[@]}") >"$folder/configure.log" 2>&1; then
        show_log_end "$folder/configure.log"
        say "    cmake could not configure the preset $preset (log: $folder/configure.log)" >&2
        return 1
    fi
    if [[ -t 1 ]]; then
        # Ninja rewrites one line: good to watch
        attend cmake --build "$folder" -j "$(build_jobs)" "${targets[@]}" -- -k 0
    elif ! attend cmake --build "$folder" -j "$(build_jobs)" "${targets[@]}" -- -k 0 >"$log" 2>&1; then
        grep -E -A 12 '^FAILED:|error:|undefined reference' "$log" | cut -c -300 | head -n 80 >&2 || true
        say "    the preset $preset did not build (log: $log)" >&2
        return 1
    fi
}
