"""One table from the results of the measuring programs: what, bare limit, ours, ratio, target."""

import argparse
import datetime
import os
import platform
import re
import statistics
import subprocess

from result_cells import Results, figure, latency_cell, once_cell, ratio


def rate_row(results, what, bare, ours, target=""):
    a, b = results.of(bare, "per_second"), results.of(ours, "per_second")
    return [what, figure(results, bare, "per_second", "M/s", 1e-6),
            figure(results, ours, "per_second", "M/s", 1e-6), ratio(a, b, True), target]


def cpu_row(results, what, bare, ours, target=""):
    a, b = results.of(bare, "cpu_us"), results.of(ours, "cpu_us")
    return [what, figure(results, bare, "cpu_us", "µs"), figure(results, ours, "cpu_us", "µs"),
            ratio(a, b), target]


def latency_row(results, what, bare, ours, target="", p99=False):
    """`p99`: the ratio of the slow ends is told too."""
    cell = ratio(results.of(bare, "p50_us"), results.of(ours, "p50_us"))
    if cell and p99:
        cell += "; p99 " + ratio(results.of(bare, "p99_us"), results.of(ours, "p99_us"))
    return [what, latency_cell(results, bare), latency_cell(results, ours), cell, target]


def throughput_row(results, what, bare, ours, target=""):
    """Entries a second; the ratio is the share of the bare limit that is left."""
    a, b = results.of(bare, "per_second"), results.of(ours, "per_second")
    share = f"{statistics.median(b) / statistics.median(a):.0%}" if a and b else ""
    return [what, figure(results, bare, "per_second", "rows/s"),
            figure(results, ours, "per_second", "entries/s"), share, target]


def beside_rows(results):
    """One push beside ever more stored entries; the ratio is to the fewest."""
    sizes = ((10_000, ""), (1_000_000, "as beside 10,000"), (10_000_000, "as beside 10,000"))
    fewest = results.of("store/ingest_beside/10000", "p50_us")
    table_rows = []
    for stored, target in sizes:
        name = f"store/ingest_beside/{stored}"
        table_rows.append([f"100 entries in one push, beside {stored:,} stored entries of other "
                           "matches", "", latency_cell(results, name),
                           ratio(fewest, results.of(name, "p50_us")) if target else "", target])
    return table_rows


def server_rows(results):
    """Through the server: alone, and with what the one before brought about still under way."""
    kinds = (("hundred", "100 entries of one match in one push, until all are acknowledged (bare: the "
              "message and its answer, then the same rows into the same columns and keys in one "
              "statement and commit)", "≤ 1.6"),
             ("tables", "64 tables push one entry each at the same moment, until the last is acknowledged "
              "(bare: 64 messages and their answers at once, then the same rows into the same columns "
              "and keys in one commit)", "≤ 2.5"))
    table_rows = []
    for name, what, target in kinds:
        table_rows += [
            latency_row(results, what, f"network/bare_{name}/20", f"network/{name}/20", target),
            latency_row(results, "The same again and again without a pause, while the server still folds, "
                        "shows and keeps alerts of the one before", f"network/bare_{name}/0",
                        f"network/{name}/0")]
    return table_rows


def plain_row(results, what, name, key, unit, target):
    values = results.of(name, key)
    text = f"{max(values):,.0f} {unit}".strip() if values else results.missing(name)
    return [what, "", text, "", target]


def drain_row(results, name, how):
    bare, ours = (results.of(f"backlog/{kind}{name}", "seconds") for kind in ("bare_", ""))
    text = "{seconds:.2f} s, {per_second:,.0f}/s"
    entries = results.one(f"backlog/{name}", "entries")
    tables = results.one(f"backlog/{name}", "tables")
    size = f"{entries:,.0f} entries" if entries else "Entries"
    what = how.format(tables=f"{tables:.0f}" if tables else "many")
    return [f"{size} that wait {what} (bare: the same bytes in statements of 500 rows, each a "
            "commit)", once_cell(results, f"backlog/bare_{name}", text),
            once_cell(results, f"backlog/{name}", text), ratio(bare, ours), "≤ 8 s for 100,000"]


def venue_rows(results):
    load = results.values.get("venue/load", [{}])[0]
    size = "A venue under load"
    if load:
        size = (f"{load['tables']:.0f} tables, {load['boards']:.0f} boards, "
                f"{load['minutes']:g} min, an entry every {load['pace_s']:g} s at each table")
    memory = ("{rss_start_mb:.0f} MB at the start, {rss_median_mb:.0f} median, {rss_end_mb:.0f} at "
              "the end, {rss_mb_per_minute:+.2f} a minute")
    times = "{p50_us:,.0f} µs; p99 {p99_us:,.0f} µs"
    work = "{server_cores:.2f} cores, {server_threads:.0f} threads; all clients {clients_cores:.2f}"
    sums = "{entries:,.0f} entries, {matches_finished:.0f} matches finished, {faults:.0f} faults"
    return [
        [f"{size}: memory of the server", "", once_cell(results, "venue/memory", memory), "",
         "≤ 300 MB, flat"],
        ["The same: from making an entry until it is acknowledged", "",
         once_cell(results, "venue/acknowledged", times), "", ""],
        ["The same: from making an entry until a board shows it, all boards", "",
         once_cell(results, "venue/shown", times), "", "p99 ≤ 100 ms"],
        ["The same: processor of the server", "", once_cell(results, "venue/processor", work), "",
         ""],
        ["The same: what was played", "", once_cell(results, "venue/load", sums), "", "0 faults"],
    ]


def restart_rows(results):
    entries = results.one("restart/fill", "entries")
    size = f"{entries:,.0f} entries stored" if entries else "Many entries stored"
    rows_of = [("until it says that it is ready", "ready_s", "≤ 2 s"),
               ("until a table has an entry acknowledged", "acknowledged_s", "≤ 2 s"),
               ("until a board has all its cards", "board_s", "")]
    table_rows = [[f"{size}, server killed: {what}", "",
                   once_cell(results, "restart/back", "{" + key + ":.2f} s"), "", target]
                  for what, key, target in rows_of]
    memory = "{rss_before_mb:.0f} MB before, {rss_after_mb:.0f} MB after the restart"
    return table_rows + [["The same: memory of the server", "",
                          once_cell(results, "restart/back", memory), "", ""]]


def plan_rows(results):
    """A plan as on paper where others have the bare limit: the least that is to be beaten."""
    halls = (("24", "24 teams in a day on 6 courts", "gap ≤ 2 % in ≤ 10 s"),
             ("64", "64 teams in two days on 16 courts", "gap ≤ 5 % in ≤ 60 s"))
    quality = ("{waiting_share:.1%} of the time of teams is waiting; days of {end_minutes:.0f} minutes in all; "
               "worst rest {worst_rest:.0f} minutes; {gap:.1%} above the bound")
    times = "; first plan after {first_s:.2f} s, within 5 % after {five_s:.2f} s (0: not), {nodes:,.0f} steps"
    return [[f"Plan of {what} (bare: match by match in the order of the list, as on paper)",
             once_cell(results, f"plan/paper/{size}", quality),
             once_cell(results, f"plan/ours/{size}", quality + times), "", target]
            for size, what, target in halls]


def rows(results):
    return short_rows(results) + plan_rows(results) + desk_rows(results) + venue_rows(results) + [
        drain_row(results, "one_table", "on one table, drained"),
        drain_row(results, "many_tables", "on {tables} tables, drained at the same time"),
    ] + restart_rows(results)


def short_rows(results):
    return [
        rate_row(results, "Judge, realistic play, one core (bare: fold of the same entries into the "
                 "same state, no rule looked at)", "core/bare_fold/realistic",
                 "core/judge/realistic", "≥ 14 M/s"),
        rate_row(results, "Judge, hostile play: about one verdict for each entry",
                 "core/bare_fold/absurd", "core/judge/absurd"),
        plain_row(results, "Allocations for each judged entry", "core/judge/realistic",
                  "allocations", "", "0"),
        cpu_row(results, "Replay of a match of 1,500 entries, decoded", "core/bare_fold/1500",
                "core/replay_1500/decoded", "≤ 250 µs"),
        cpu_row(results, "Replay of the same from its bytes (bare: protobuf parse and SHA-256 of "
                "each)", "core/replay_1500/bare_wire", "core/replay_1500/wire"),
        cpu_row(results, "Late analysis over the same match: faults with their history, and "
                "explanations of every service (bare: as above)", "core/bare_fold/1500",
                "core/late_analysis", "≤ 2,000 µs"),
        cpu_row(results, "Fold of an event of 128 teams, 32 pools and 600 matches (bare: a copy of "
                "the state it ends in)", "event/bare_fold", "event/fold", "≤ 5,000 µs"),
        cpu_row(results, "The order of all its 32 pools anew, as at each rally of 32 courts (bare: "
                "the sets and points of the same results added up)", "event/bare_standings",
                "event/standings", "≤ 1,000 µs"),
        cpu_row(results, "16 pools of 64 teams drawn and a double elimination of all 64 after them "
                "(bare: a copy of the state it ends in)", "event/bare_draw/64_of_64",
                "event/draw/64_of_64", "≤ 5,000 µs"),
        cpu_row(results, "The same with a single elimination of the first two of each pool",
                "event/bare_draw/32_of_64", "event/draw/32_of_64", "≤ 5,000 µs"),
        cpu_row(results, "Forecast of 32 courts over two days, 512 matches, anew as at each rally (bare: as "
                "many numbers drawn and put in order)", "forecast/bare_chance", "forecast/at_a_rally",
                "≤ 200,000 µs"),
        cpu_row(results, "The first one, with the courses of two formats", "forecast/bare_chance",
                "forecast/at_first"),
        plain_row(results, "State of one set", "core/sizes", "set_state_bytes", "bytes",
                  "≤ 1,024 bytes"),
        plain_row(results, "State of the match, set included", "core/sizes", "match_state_bytes",
                  "bytes", ""),
        latency_row(results, "Durable commit on the device (bare: SQLite, write-ahead log, FULL)",
                    "journal/bare_commit", "journal/append"),
        latency_row(results, "One entry, durable at the server (bare: PostgreSQL, one row, one "
                    "commit)", "store/bare_single", "store/ingest_single", "≤ 2"),
        latency_row(results, "100 entries of one match in one push (bare: the same rows into "
                    "the same columns and keys in one statement and commit)", "store/bare_hundred", "store/ingest_hundred", "≤ 1.6"),
        latency_row(results, "64 tables push one entry each at the same moment, until the last is "
                    "durable (bare: the same rows into the same columns and keys in one "
                    "commit)", "store/bare_tables", "store/ingest_tables", "≤ 2.5"),
        throughput_row(results, "Eight pushes of 500 entries waiting at a time (bare: the same rows "
                       "into the same columns and keys, a statement and a commit for each 500)",
                       "store/bare_backlog", "store/ingest_backlog", "≥ 30,000/s; ≥ 60 %"),
        *beside_rows(results),
        latency_row(results, "Push of one entry until it is acknowledged (bare: one message and its "
                    "answer over TLS, no database)", "network/bare_ping_pong",
                    "network/acknowledged_push"),
        latency_row(results, "The same (bare: the message and its answer, then one row and one "
                    "commit)", "network/bare_ping_pong_and_commit", "network/acknowledged_push",
                    "≤ 2"),
        *server_rows(results),
        throughput_row(results, "Eight streams of pushes of 500 entries, made and sealed before (bare: "
                       "a process inserts the same rows into the same columns and keys, 500 in a "
                       "statement and commit, while as many bytes go over TLS to a server that keeps "
                       "nothing)", "network/bare_streams", "network/streams",
                       "≥ 30,000/s; ≥ 60 %"),
        latency_row(results, "Push of one entry until the board of the head seat shows it (bare: a "
                    "message and its answer over TLS, then commit and NOTIFY until another "
                    "connection hears of it)", "network/bare_ping_pong_and_notify",
                    "network/commit_to_board", "≤ 1.8; p99 ≤ 3", p99=True),
        latency_row(results, "Tap on “rally won” until the frame with the new score is painted, "
                    "record in memory (bare: a rectangle that changes colour)",
                    "seat/bare_frame", "seat/tap_to_painted"),
    ]


def frame_cell(results, name):
    """Median of the frames, their slow end, and how many came too late for 60 a second."""
    late = results.of(name, "late_share")
    text = latency_cell(results, name)
    return f"{text}; {max(late):.1%} late" if late else text


def frame_row(results, what, ours):
    bare = "desk/bare_scroll"
    return [what, frame_cell(results, bare), frame_cell(results, ours),
            ratio(results.of(bare, "p50_us"), results.of(ours, "p50_us")), "p99 ≤ 16,667 µs"]


def told_cell(results, name):
    values = results.values.get(name)
    if not values:
        return results.missing(name)
    text = "{rallies:,.0f} points, {rows_changed:,.0f} rows told as changed, {resets:.0f} resets"
    return text.format(**values[0])


def desk_rows(results):
    opened = ["desk/bare_open", "desk/open"]
    memory = ("{open_mb:.0f} MB, {all_facts_mb:.0f} with 10,000 facts, {first_updates_mb:.0f} after "
              "1,000 points, {more_updates_mb:.0f} after 1,000 more")
    return [
        ["Desk seat on an event of 128 teams and 600 matches, in memory: until the first frame that "
         "shows them (bare: a window with 500 plain texts, opened afterwards)",
         figure(results, opened[0], "ms", "ms"), figure(results, opened[1], "ms", "ms"),
         ratio(*(results.of(name, "ms") for name in opened)), "≤ 1,000 ms"],
        frame_row(results, "The same scrolled by 48 pixels a frame: processor time of a frame, 600 "
                  "matches (bare: 500 plain texts in such a window)", "desk/scroll/matches"),
        frame_row(results, "Results of a division of 500 matches", "desk/scroll/results"),
        frame_row(results, "Teams of a division of 64", "desk/scroll/teams"),
        frame_row(results, "Lists of 128 teams", "desk/scroll/team_lists"),
        frame_row(results, "Bracket of a double elimination of 64 teams", "desk/scroll/bracket"),
        frame_row(results, "Matches while each of 32 courts has a point a second",
                  "desk/in_play/matches"),
        frame_row(results, "Results while each of 32 courts has a point a second",
                  "desk/in_play/results"),
        ["The same: what the list of results was told", "",
         told_cell(results, "desk/in_play/results"), "", "0 resets"],
        ["Memory of the desk seat on that event", "", once_cell(results, "desk/memory", memory), "",
         "flat"],
    ]


def aligned(cells):
    return "| " + " | ".join(cells) + " |"


def table(results):
    lines = [aligned(["What", "Bare limit", "Ours", "Ratio", "Target"]),
             aligned(["---", "---", "---", "---:", "---"])]
    return lines + [aligned(row) for row in rows(results)]


def output_of(*command, cwd=None):
    try:
        return subprocess.run(command, cwd=cwd, capture_output=True, text=True,
                              check=True).stdout.strip()
    except (OSError, subprocess.CalledProcessError):
        return ""


def machine():
    with open("/proc/cpuinfo", encoding="utf-8") as file:
        model = re.search(r"model name\s*:\s*(.+)", file.read())
    with open("/proc/meminfo", encoding="utf-8") as file:
        memory = int(re.search(r"MemTotal:\s*(\d+)", file.read()).group(1)) / 1024 / 1024
    system = ""
    with open("/etc/os-release", encoding="utf-8") as file:
        found = re.search(r'PRETTY_NAME="(.+)"', file.read())
        system = found.group(1) if found else platform.system()
    return (f"{os.cpu_count()} cores, {model.group(1) if model else 'model not known'}, "
            f"{memory:.0f} GiB memory, {system}")


def build_type(cache):
    with open(cache, encoding="utf-8") as file:
        text = file.read()
    kind = re.search(r"CMAKE_BUILD_TYPE:\w+=(\w+)", text)
    compiler = re.search(r"CMAKE_CXX_COMPILER:\w+=(.+)", text)
    version = output_of(compiler.group(1), "-dumpfullversion", "-dumpversion") if compiler else ""
    name = os.path.basename(compiler.group(1)) if compiler else "?"
    return f"{kind.group(1) if kind else '?'}, {name} {version}"


def commit(root):
    changed = output_of("git", "status", "--porcelain", "--untracked-files=no", "--",
                        "shared-core", "proto", "server", "client", "tests/bench", cwd=root)
    name = output_of("git", "rev-parse", "--short=12", "HEAD", cwd=root) or "not known"
    return name + (", with changes that were not committed" if changed else "")


def load(folder):
    try:
        with open(os.path.join(folder, "load"), encoding="utf-8") as file:
            return file.read().strip()
    except OSError:
        return "not known"


HEAD = """# Measurements

Written by `tests/bench/run`. Beside each figure of ours stands the bare limit of the same machine,
measured in the same run: what the library or the processor does when nothing else is asked of it.
Ratio: how many times dearer ours is. Figures are the median of three runs, with the lowest and the
highest in square brackets; the long measurements of a whole venue, of backlogs and of a restart are
made once, with `--long`. Computing is timed by processor time; what waits for disk, network or
screen by the clock: p50, and p99 as the median of the three. A target is what was set before it was
measured; a row without one has none.
"""

NOTES = """
How to read it:

- Client, server and database share the cores. An acknowledged push holds a round trip over the
  network and a commit: its second row has both in its bare limit.
- In the venue under load and in the backlogs every client lives in one process beside the server
  and the database, on the same cores. Times count from the moment an entry was made, so that what
  waits behind a slow answer counts too. Boards show an entry when its card has reached its number.
- After a kill, times count from the kill; table and board come back by themselves, as devices do,
  and the median of the deaths is told.
- Realistic play is simulated matches of whole length under `international-2025`; hostile play is
  random facts, most of them against the rules.
- Where the two spreads overlap, a ratio on either side of 1 means no difference that this machine
  can show.
- A commit of a disk that belongs to a virtual machine may end in a cache of its host.
- Frames are drawn by the processor, without a display; Qt waits up to 5 ms before it paints, and so
  does the bare window.
- A frame of the scrolled desk is the processor time of the thread of the screen, which does all the
  work of it: what it takes of the news, rows that come in, layout and drawing. A device with a
  graphics processor draws beside that thread: this is the least that such a device does. A frame is
  late when it takes more than a sixtieth of a second.
"""


def main():
    words = argparse.ArgumentParser()
    words.add_argument("folder")
    words.add_argument("--cache", required=True)
    words.add_argument("--root", required=True)
    words.add_argument("--write")
    given = words.parse_args()
    results = Results(given.folder)
    lines = table(results)
    print("\n".join(lines))
    if not given.write:
        return
    today = datetime.datetime.now(datetime.timezone.utc).date().isoformat()
    facts = [f"- Machine: {machine()}", f"- Build: {build_type(given.cache)}",
             f"- Commit: {commit(given.root)}", f"- Date: {today}",
             f"- Load of the machine when it began: {load(given.folder)}", ""]
    with open(given.write, "w", encoding="utf-8") as file:
        file.write("\n".join([HEAD] + facts + lines) + "\n" + NOTES)


if __name__ == "__main__":
    main()
