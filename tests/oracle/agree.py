"""Plays random scripts through both models and compares them verdict by verdict.

    agree.py --profile international-2025 --count 20 --seed 1
    agree.py --all --count 20
    agree.py FILE...            compares the given scripts
    agree.py --found            compares the scripts of found.txt, and holds their expectations

Exit status 1 when the models differ: the first difference is printed with a script as short as it
can be made and both answers.
"""

import argparse
import functools
import json
import multiprocessing
import os
import pathlib
import subprocess
import sys
import tempfile

import oracle
import play
import profiles
import script

@functools.cache
def scratch():
    """A folder in memory, where there is one."""
    return "/dev/shm" if os.access("/dev/shm", os.W_OK) else None


def core_answers(replay, text, expectations=False):
    """What the core says after each entry. `expectations`: the script's own must hold too."""
    with tempfile.NamedTemporaryFile("w", suffix=".match", dir=scratch()) as file:
        file.write(text)
        file.flush()
        done = subprocess.run([replay, "--format", "json", file.name], capture_output=True,
                              text=True, check=False)
    if done.returncode not in (0, 1):
        raise RuntimeError(f"the replay could not read the script:\n{done.stderr}\n{text}")
    if expectations and done.returncode != 0:
        raise RuntimeError(f"{done.stderr}\n{text}")
    return [row for row in map(json.loads, done.stdout.splitlines()) if "entry" in row]


def short(v):
    return f"{v['phase']} {v['reason']} {v['team']}"


def long(v):
    if v["phase"] == "cleared":          # what its remedy would have been no longer matters
        return short(v)
    return f"{v['phase']} {v['reason']} {v['team']} {v['action']} {v['to']} cancel {v['cancel']}"


def core_verdict(v):
    r = v["remedy"]
    return {"phase": v["phase"], "reason": v["reason"], "team": v["team"], "action": r["action"],
            "to": r["team"], "cancel": r["cancel"]}


def core_view(row):
    s = row["state"]
    six = {t: s[t]["court"] for t in "AB"}
    return {"raised": sorted(map(long, map(core_verdict, row["raised"]))),
            "standing": sorted(map(long, map(core_verdict, row["standing"]))),
            "stage": s["stage"], "score": s["score"], "sets": s["sets"], "serving": s["serving"],
            "server": six[s["serving"]][0], "six A": six["A"], "six B": six["B"],
            "captain A": s["A"]["captain"], "captain B": s["B"]["captain"]}


def model_view(a):
    return {"raised": sorted(map(long, a["raised"])), "standing": sorted(map(long, a["standing"])),
            "stage": a["stage"], "score": a["score"], "sets": a["sets"], "serving": a["serving"],
            "server": a["server"], "six A": a["A"]["six"], "six B": a["B"]["six"],
            "captain A": a["A"]["captain"], "captain B": a["B"]["captain"]}


def difference(replay, text, mine=None):
    """The first entry after which the models differ: (entry, line, words), or None. `mine` is what
    the model answers, where that is known already."""
    if mine is None:
        profile, records = script.read(text, profiles.load)
        mine = oracle.answers(profile, records)
    theirs = core_answers(replay, text)
    if len(mine) != len(theirs):
        return (0, 0, [("entries", len(theirs), len(mine))])
    for n, (row, answer) in enumerate(zip(theirs, mine), 1):
        core, model = core_view(row), model_view(answer)
        if core != model:
            words = [(k, core[k], model[k]) for k in core if core[k] != model[k]]
            return (n, line_of(text, n), words)
    return None


def line_of(text, entry):
    return script.read(text, profiles.load)[1][entry - 1][0]


def kind_of(found):
    """What the difference is about, so that a shorter script is about the same."""
    key, core, model = found[2][0]
    if isinstance(core, list) and key in ("raised", "standing"):
        gone = [v for v in core if v not in model] + [v for v in model if v not in core]
        return key, tuple(sorted(set(v.split()[1] for v in gone)))
    return key, ()


SETUP = ("profile", "format", "team", "toss", "set", "lineup", "checked")


def shortest(replay, text):
    """Drops lines while the two models still differ in the same way; what a match cannot do without
    stays."""
    lines = text.splitlines()
    found = difference(replay, text)
    lines = lines[:found[1]]
    want = kind_of(found)
    size = max(1, len(lines) // 2)
    while True:
        at, dropped = len(lines) - 1, False
        while at >= 0:
            start = max(0, at - size + 1)
            part = [row for row in lines[start:at + 1] if row.split()[0] in SETUP]
            fewer = lines[:start] + part + lines[at + 1:]
            if len(fewer) < len(lines) and still_differs(replay, fewer, want):
                lines, dropped = fewer, True
            at = start - 1
        if size == 1 and not dropped:
            return "\n".join(lines) + "\n"
        size = max(1, size // 2)


def still_differs(replay, lines, want):
    try:
        found = difference(replay, "\n".join(lines) + "\n")
    except (RuntimeError, IndexError, KeyError, TypeError, AttributeError):
        return False
    return found is not None and kind_of(found) == want


def tell(name, text, found):
    n, line, words = found
    print(f"the models differ in {name} after entry {n}, line {line}")
    for key, core, model in words:
        print(f"  {key}\n    core  {core}\n    model {model}")
    for i, row in enumerate(text.splitlines(), 1):
        print(f"  {'>' if i == line else ' '} {i:3} {row}")


def checked(replay, name, text, shorten, mine=None):
    """A script that differs, as short as it can be made, and its difference; or None."""
    try:
        found = difference(replay, text, mine)
    except Exception as error:
        raise RuntimeError(f"in {name}:\n{text}") from error
    if found is None:
        return None
    if not shorten:
        return text, found
    text = shortest(replay, text)
    return text, difference(replay, text)


def chunk_of(job):
    """Plays some scripts of one profile: how many, and the differences found in them."""
    replay, profile, seed, first, last, wild, shorten = job
    found = []
    for i in range(first, last):
        name = f"{profile}, seed {seed}, script {i}"
        text, mine = play.played(profile, seed * 1_000_000 + i, wild)
        result = checked(replay, name, text, shorten, mine)
        if result is not None:
            found.append((name, *result))
    return profile, last - first, found


CHUNK = 25                   # scripts a worker takes at a time


def found_scripts():
    """(row of FOUND.md, script) of each section of found.txt."""
    text = (pathlib.Path(__file__).parent / "found.txt").read_text(encoding="utf-8")
    for section in text.split("\n[")[1:]:
        head, _, body = section.partition("\n")
        row, _, rest = head.partition("] ")
        yield row, script_of(rest.split(), body)


def script_of(head, body):
    """The script of a section: the common head with what its own head line says."""
    first = script.after(head, "serve", "A")
    lines = [f"profile {head[0]}"]
    if "format" in head:
        lines.append(" ".join(head[head.index("format"):]))
    lines += ["team A players 1-6 11-14 21 22 captain 3", "team B players 31-42 captain 33",
              f"toss serve {first} left A", "set 1"]
    if "bare" not in head:
        for team, six, boxes in (("A", "1 2 3 4 5 6", "21 22"),
                                 ("B", "31 32 33 34 35 36", "41 42")):
            if "liberos" in head and team in head[head.index("liberos"):]:
                at = head.index(team, head.index("liberos"))
                boxes = " ".join(head[at + 1:at + 3])
            lines.append(f"lineup {team} {six} liberos {boxes}")
        lines += ["checked A", "checked B"]
    return "\n".join(lines) + "\n" + body


def check_found(args):
    """Differences and failed expectations in found.txt."""
    failed = 0
    for row, text in found_scripts():
        try:
            core_answers(args.replay, text, expectations=True)
            what = difference(args.replay, text)
        except RuntimeError as error:
            print(f"row {row} of FOUND.md:\n{error}")
            failed += 1
            continue
        if what is not None:
            tell(f"row {row} of FOUND.md", text, what)
            failed += 1
    print(f"found.txt: {failed} differences")
    return failed


def jobs_of(args, names):
    for profile in names:
        for first in range(0, args.count, CHUNK):
            yield (args.replay, profile, args.seed, first, min(first + CHUNK, args.count),
                   args.wild, not (args.whole or args.quiet))


def report(name, text, found, args):
    if args.quiet:
        gone = "; ".join(kind for kind in kind_of(found)[1]) or found[2][0][0]
        print(f"the models differ in {name} after entry {found[0]}: {gone}", flush=True)
    else:
        tell(name, text, found)
    if args.save:
        folder = pathlib.Path(args.save)
        folder.mkdir(parents=True, exist_ok=True)
        file = name.replace(", seed ", "-").replace(", script ", "-") + ".match"
        (folder / file).write_text(text, encoding="utf-8")


def play_all(args, names):
    """Differences in random scripts of these profiles."""
    played, differences = dict.fromkeys(names, 0), dict.fromkeys(names, 0)
    with multiprocessing.Pool(args.jobs) as pool:
        for profile, count, found in pool.imap(chunk_of, jobs_of(args, names)):
            played[profile] += count
            for name, text, what in found:
                differences[profile] += 1
                report(name, text, what, args)
            if played[profile] == args.count:
                print(f"{profile}: {args.count} scripts, {differences[profile]} differences",
                      flush=True)
            if sum(differences.values()) >= args.keep_going:
                pool.terminate()
                break
    return sum(differences.values())


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--replay", default=os.environ.get("COURTHAND_REPLAY", "courthand-replay"))
    parser.add_argument("--profile", action="append")
    parser.add_argument("--all", action="store_true")
    parser.add_argument("--count", type=int, default=20)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=os.cpu_count(), help="scripts at a time")
    parser.add_argument("--keep-going", type=int, default=1, help="differences to show")
    parser.add_argument("--wild", action="store_true", help="all acts: see FOUND.md")
    parser.add_argument("--quiet", action="store_true", help="only count, and name the seeds")
    parser.add_argument("--whole", action="store_true", help="do not shorten the script")
    parser.add_argument("--save", help="folder for the scripts that differ")
    parser.add_argument("--found", action="store_true", help="the scripts of found.txt")
    parser.add_argument("files", nargs="*")
    args = parser.parse_args()
    differences = check_found(args) if args.found else 0
    for path in args.files:
        text = pathlib.Path(path).read_text(encoding="utf-8")
        result = checked(args.replay, path, text, not (args.whole or args.quiet))
        if result is not None:
            differences += 1
            report(path, *result, args)
    if differences < args.keep_going:
        differences += play_all(args, profiles.ids() if args.all else args.profile or [])
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main())
