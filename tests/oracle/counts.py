"""Counts the legal sequences of moves from pinned positions, and compares them with counts.txt.

    counts.py                   all positions of states.txt to depth 3 (minutes)
    counts.py --quick           all to depth 1, some to depth 2 and 3
    counts.py --make 240        plays new positions and writes states.txt and counts.txt

What a move is stands at the head of counts.txt. The core counts the same in counts_test.cpp.
"""

import argparse
import copy
import multiprocessing
import pathlib
import random
import sys

import oracle
import play
import profiles
import script

FOLDER = pathlib.Path(__file__).resolve().parent
STATES, COUNTS = FOLDER / "states.txt", FOLDER / "counts.txt"
DEPTH = 3
RUNNING = ("before-set", "dead-ball", "whistled", "in-play")

HEAD = """\
# How many sequences of legal moves there are from the positions of states.txt: position, then the
# number of sequences of one, two and three moves. Both models count them (counts.py and
# counts_test.cpp).
#
# A move is one of these facts, where the set is running, for the team named at the position:
#   libero T IN for OUT        IN is on the team's list and not on court, or moves to position I to
#                              serve; OUT is on court; no libero has left IN's own place empty;
#                              nothing is raised
#   sub T IN for OUT           one pair; IN is on the list and not on court, OUT is on court;
#                              nothing is raised
#   captain T N                N is on court; nothing is raised
#   redesignate T IN for OUT   IN and OUT are on the list, OUT is a libero of the set; nothing is
#                              raised
# and, whatever it raises:
#   rally A, rally B
# Nothing is raised where no verdict becomes armed or open; one that ends does not count.
"""


def states():
    """(number, team whose moves count, script) of each section of states.txt."""
    for section in STATES.read_text(encoding="utf-8").split("\n[")[1:]:
        head, _, body = section.partition("\n")
        number, _, rest = head.partition("] ")
        yield int(number), rest.split()[-1], body


def position(text):
    """The model after a script, and how many entries it took."""
    profile, records = script.read(text, profiles.load)
    model = oracle.Model(profile)
    for n, (_, _, _, fact) in enumerate(records, 1):
        model.take(n, fact)
    return model, len(records)


def twin(model):
    """A copy for an act that changes no verdict that stands but by ending it."""
    other = oracle.Model.__new__(oracle.Model)
    other.__dict__.update(model.__dict__)
    for name in ("facts", "match", "set", "settled", "faults"):
        setattr(other, name, list(getattr(model, name)))
    return other


def fork(model):
    """A copy that may go its own way: its verdicts are copies too."""
    copies = {}

    def own(fault):
        if id(fault) not in copies:
            copies[id(fault)] = copy.copy(fault)
        return copies[id(fault)]

    other = twin(model)
    other.faults = [own(f) for f in model.faults]
    other.settled = [own(f) for f in model.settled]
    other.set = [(*h[:3], [own(f) for f in h[3]], *h[4:]) if h[0] == "hit" else h
                 for h in model.set]
    return other


def candidates(model, team):
    """Facts that may be moves."""
    look = model.now()
    if look.places[team] is None:
        return
    six = [n for n in look.six(team) if n is not None]
    listed = model.roster(team)
    off = [n for n in listed if n not in six]
    left_empty = [p.off for p in look.places[team] if p.on is None]
    for new in listed:
        if new in off and new in left_empty:
            continue
        for old in six:
            if new in off or model.moves_to_serve(team, new, look.place_of(team, old)):
                yield ("libero", team, new, old)
    for new in off:
        for old in six:
            yield ("sub", team, [(new, old)])
    for n in six:
        yield ("captain", team, n)
    for new in listed:
        for old in dict.fromkeys(look.liberos[team]):
            if old in listed:
                yield ("redesignate", team, new, old)


def after_moves(model, team, entry):
    """The positions after each move."""
    if model.stage() not in RUNNING or model.interrupted():
        return
    for fact in candidates(model, team):
        after = twin(model)
        after.act(entry, fact)
        if not after.raised:
            yield after
    for winner in "AB":
        after = fork(model)
        after.act(entry, ("rally", winner))
        yield after


def count(model, team, entry, depth, counts):
    """Adds the sequences of one, two ... moves that begin here."""
    for after in after_moves(model, team, entry):
        counts[depth] += 1
        if depth + 1 < len(counts):
            count(after, team, entry + 1, depth + 1, counts)


def counted(job):
    number, team, text, depth = job
    model, entries = position(text)
    counts = [0] * depth
    count(model, team, entries + 1, 0, counts)
    return number, counts


# new positions

def compact(lines):
    """Runs of a service and its winner as one `play` line."""
    out, i = [], 0
    while i < len(lines):
        run = []
        while i + 1 < len(lines) and lines[i] == "serve" and lines[i + 1].startswith("rally"):
            run.append(lines[i + 1][-1])
            i += 2
        if run:
            out.append("play " + " ".join(run))
        else:
            out.append(lines[i])
            i += 1
    return out


def new_position(number):
    """A position in the first fifty entries of a random script of short team lists."""
    ids = profiles.ids()
    profile = ids[number % len(ids)]
    for attempt in range(1000):
        rng = random.Random(f"counts {number} {attempt}")
        writer = play.Writer(profile, rng, wild=number % 3 == 0)
        writer.play()
        cut = rng.randint(12, 52)
        lines = writer.lines[:cut]
        text = "\n".join(compact(lines)) + "\n"
        if len(lines) < cut or any(line.startswith("team") for line in lines[6:]):
            continue
        model, entries = position(text)
        if model.stage() in RUNNING and not model.interrupted() and all(
                model.now().places[t] for t in "AB"):
            team, counts = rng.choice("AB"), [0]
            count(model, team, entries + 1, 0, counts)
            if number % 6 == 0 or 13 <= counts[0] <= 24:
                return team, text
    raise RuntimeError("no position found")


def make(how_many, jobs):
    play.ROSTER = {"A": [1, 2, 3, 4, 5, 6, 11, 21, 22], "B": [31, 32, 33, 34, 35, 36, 37, 41, 42]}
    sections = []
    for number in range(1, how_many + 1):
        team, text = new_position(number)
        sections.append(f"[{number}] moves {team}\n{text}")
    STATES.write_text("# Positions of counts.txt: the script that leads to each, and whose moves\n"
                      "# are counted there.\n\n" + "".join(sections), encoding="utf-8")
    work = [(n, t, s, DEPTH) for n, t, s in states()]
    with multiprocessing.Pool(jobs) as pool, open(COUNTS, "w", encoding="utf-8") as file:
        file.write(HEAD)
        for number, counts in pool.imap(counted, work):
            file.write(" ".join(map(str, [number, *counts])) + "\n")


def stored_counts():
    rows = [line.split() for line in COUNTS.read_text(encoding="utf-8").splitlines()
            if line and not line.startswith("#")]
    return {int(row[0]): [int(n) for n in row[1:]] for row in rows}


def quick_depth(number):
    return 3 if number % 60 == 0 else 2 if number % 10 == 0 else 1


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--make", type=int)
    parser.add_argument("--jobs", type=int)
    args = parser.parse_args()
    if args.make:
        make(args.make, args.jobs)
        return 0
    stored, wrong = stored_counts(), 0
    work = [(n, t, s, quick_depth(n) if args.quick else DEPTH) for n, t, s in states()]
    with multiprocessing.Pool(args.jobs) as pool:
        for number, counts in pool.imap(counted, work, 4):
            if stored.get(number, [])[:len(counts)] != counts:
                wrong += 1
                print(f"position {number}: counted {counts}, counts.txt says {stored.get(number)}")
    print(f"{len(work)} positions, {wrong} differences")
    return 1 if wrong or len(work) != len(stored) else 0


if __name__ == "__main__":
    sys.exit(main())
