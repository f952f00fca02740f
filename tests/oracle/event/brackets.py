"""Checks every bracket of 2 to 64 teams: its graph with NetworkX, every match and place against a
second generator (bracket_model.py), and courses of it; and every crossover of pools.

    brackets.py --probe event_probe
"""

import argparse
import itertools
import random
import sys

from bracket_model import STAGES, Names, sheet_of, size_of, top_to_bottom
from probe import ask

try:
    import networkx
except ImportError:
    sys.exit("this check needs NetworkX: install python3-networkx (deploy/packages/test.txt)")

COURSES = 3


# Pools up to which every crossover is tried against all others.
MOST_TRIED = 4


def log2_up(n):
    return (n - 1).bit_length()


def graph_of(bracket):
    """Teams, matches and places; an edge for each way, named after who takes it."""
    g = networkx.MultiDiGraph()
    for t in range(1, bracket["teams"] + 1):
        g.add_node(("team", t))

    def edge(source, target):
        kind, of = source[0], source[1]
        g.add_edge(("team", of) if kind == "team" else ("match", of), target, by=kind)

    for m, (a, b, *_) in enumerate(bracket["matches"]):
        edge(a, ("match", m))
        edge(b, ("match", m))
    for n, (_, _, source) in enumerate(bracket["places"]):
        edge(source, ("place", n))
    return g


def check_graph(bracket):
    g = graph_of(bracket)
    n = bracket["teams"]
    assert networkx.is_directed_acyclic_graph(g), "a circle"
    assert networkx.is_weakly_connected(g), "parts that do not meet"
    matches = [v for v in g if v[0] == "match"]
    for v in g:
        if v[0] == "team":
            assert g.out_degree(v) == 1, f"{v} has {g.out_degree(v)} ways"
        elif v[0] == "match":
            assert g.in_degree(v) == 2, f"{v} has {g.in_degree(v)} sides"
        else:
            assert g.in_degree(v) == 1, f"{v} is given {g.in_degree(v)} times"
    repeated = {m[3] for m in bracket["matches"]} - {None}   # finals that may be played again
    for v in matches:
        ways = sorted(d["by"] for _, _, d in g.out_edges(v, data=True))
        assert ways == ["loser", "winner"] or v[1] in repeated, f"{v} leads {ways}"
    assert len(bracket["places"]) == n
    covered = sorted((first, last) for first, last, _ in bracket["places"])
    assert [first for first, _ in covered] == sorted(
        first for first, last in set(covered) for _ in range(last - first + 1))
    assert covered[0] == (1, 1)
    # What the best seeds have to play for the first place.
    final = ("place", [i for i, p in enumerate(bracket["places"]) if p[0] == 1][0])
    winners = networkx.MultiDiGraph((u, v) for u, v, d in g.edges(data=True)
                                    if d["by"] != "loser" or v[0] == "place")
    depth = {t: networkx.shortest_path_length(winners, ("team", t), final) - 1
             for t in range(1, n + 1)}
    rounds = log2_up(n)
    if bracket["kind"] in ("single", "single-third", "consolation", "placement"):
        byes = 2 ** rounds - n
        for t, matches_to_win in depth.items():
            assert matches_to_win == rounds - (t <= byes), f"team {t}: {matches_to_win}"


def expected_matches(kind, n):
    if kind == "single":
        return n - 1
    if kind == "single-third":
        return n - 1 + (n >= 4)
    if kind == "double":
        return 2 * n - 2
    if kind == "double-second":
        return 2 * n - 1
    if kind == "placement":
        return placement_matches(n)
    first = n - 2 ** (log2_up(n) - 1)                   # matches of the first round
    second = 0
    if log2_up(n) >= 3:                                  # of the second with a bye, not the final
        byes = 2 ** log2_up(n) - n
        second = len({min(s, 2 ** (log2_up(n) - 1) + 1 - s) for s in range(1, byes + 1)})
    elif log2_up(n) == 2:
        first = n - 2
        second = 0
    again = first + second if log2_up(n) > 1 else 0
    return n - 1 + max(0, again - 1)


def placement_matches(n):
    if n <= 1:
        return 0
    half = 2 ** (log2_up(n) - 1)
    return (n - half) + placement_matches(half) + placement_matches(n - half)


def single_by_seeds(n):
    """The pairs of seeds by round when the better seed always wins: 1 meets the lowest left."""
    left = list(range(1, 2 ** log2_up(n) + 1))
    rounds = []
    while len(left) > 1:
        pairs = {(left[i], left[-1 - i]) for i in range(len(left) // 2)}
        rounds.append({p for p in pairs if p[1] <= n})
        left = left[:len(left) // 2]
    return rounds


class Course:
    """One course of a bracket; `beats(a, b)` says whether the first wins."""

    def __init__(self, bracket, beats):
        self.won, self.lost, self.pairs = {}, {}, []
        self.losses = dict.fromkeys(range(1, bracket["teams"] + 1), 0)
        self.played = dict.fromkeys(self.losses, 0)
        first_won = {}
        for m, (a, b, stage, only, *_) in enumerate(bracket["matches"]):
            x, y = self.team(a), self.team(b)
            assert x != y
            if only is not None and first_won[only]:
                self.won[m], self.lost[m] = x, y
                continue
            first_won[m] = beats(x, y)
            self.won[m], self.lost[m] = (x, y) if first_won[m] else (y, x)
            self.losses[self.lost[m]] += 1
            self.played[x] += 1
            self.played[y] += 1
            self.pairs.append((stage, min(x, y), max(x, y)))
        self.places = {self.team(s): (first, last) for first, last, s in bracket["places"]}
        assert len(self.places) == bracket["teams"], "a team with two places or none"

    def team(self, source):
        kind, of = source[0], source[1]
        return of if kind == "team" else self.won[of] if kind == "winner" else self.lost[of]


MAIN, FINAL = 1, 6


def check_courses(bracket):
    n, kind = bracket["teams"], bracket["kind"]
    best = Course(bracket, lambda a, b: a < b)
    assert best.places[1] == (1, 1) and best.places[2] == (2, 2)
    if not kind.startswith("double"):
        expected = {p for r in single_by_seeds(n) for p in r}
        found = {(a, b) for stage, a, b in best.pairs if stage in (MAIN, FINAL)}
        # Of a placement bracket the main part is what leads to the first place.
        assert found == expected, f"{sorted(found ^ expected)}"
    for seed in range(COURSES):
        rng = random.Random(seed)
        c = Course(bracket, lambda a, b: rng.random() < 0.5)
        if kind == "single":
            assert sum(c.losses.values()) == n - 1 and max(c.losses.values()) <= 1
        if kind.startswith("double"):
            out = [t for t, (first, _) in c.places.items() if first > 2]
            assert all(c.losses[t] == 2 for t in out)
            champion = next(t for t, p in c.places.items() if p == (1, 1))
            assert c.losses[champion] <= 1
            assert sum(c.losses.values()) in (2 * n - 2, 2 * n - 1)
        if kind == "consolation" and n > 3:
            assert min(c.played.values()) >= 2
        if kind == "placement":
            assert sorted(c.places.values()) == [(p, p) for p in range(1, n + 1)]


def check_sheet(bracket):
    """Match by match what a person would draw, and no two byes against each other."""
    n = bracket["teams"]
    names = Names()
    sheet = sheet_of(bracket["kind"], [("team", t) for t in range(1, n + 1)])
    model = names.of([(a, b, STAGES[stage], only) for a, b, stage, only in sheet.matches], sheet.places)
    core = names.of([m[:4] for m in bracket["matches"]], bracket["places"])
    assert core == model, f"core {core}\nmodel {model}"
    assert len({m[4] for m in bracket["matches"]}) == len(bracket["matches"]), "two of one name"
    if n == 2:
        return
    first_round = [m for m in bracket["matches"] if m[2] == MAIN and m[5] == 1]
    byes = set(range(1, n + 1)) - {s[1] for m in first_round for s in m[:2] if s[0] == "team"}
    assert len(first_round) == n - size_of(n) // 2, f"{len(first_round)} in the first round"
    assert byes == set(range(1, size_of(n) - n + 1)), f"byes of {sorted(byes)}"


def meetings(entrants):
    """Pairs of one pool by the round in which they can meet: the first round first."""
    size = size_of(len(entrants))
    slot = {seed: i for i, seed in enumerate(top_to_bottom(size))}
    rounds = [0] * max(1, log2_up(size))
    for a, b in itertools.combinations(range(len(entrants)), 2):
        if entrants[a][1] == entrants[b][1]:
            rounds[(slot[a + 1] ^ slot[b + 1]).bit_length() - 1] += 1
    return rounds


def check_crossing(crossing):
    pools, first, last = crossing["pools"], crossing["from"], crossing["through"]
    entrants = [tuple(e) for e in crossing["entrants"]]
    rows = [entrants[i:i + pools] for i in range(0, len(entrants), pools)]
    for place, row in zip(range(first, last + 1), rows, strict=True):
        assert sorted(row) == [("place", p, place) for p in range(pools)], f"row {row}"
    assert rows[0] == sorted(rows[0]), "the heads are not in the order of their pools"
    found = meetings(entrants)
    if pools > 1:
        assert found[0] == 0, f"a pool meets at once: {found}"
    if 1 < pools <= MOST_TRIED and len(rows) <= 3:
        others = itertools.product(*(itertools.permutations(row) for row in rows[1:]))
        best = min(meetings(rows[0] + [e for row in other for e in row]) for other in others)
        assert found == best, f"meetings by round {found}, possible are {best}"
    if (pools, first, last) == (2, 1, 2):
        assert entrants == [("place", 0, 1), ("place", 1, 1), ("place", 0, 2), ("place", 1, 2)], entrants


def check_all(things, checks, name):
    for thing in things:
        try:
            for check in checks:
                check(thing)
        except AssertionError as wrong:
            print(f"{name(thing)}: {wrong}")
            return False
    return True


def check_count(bracket):
    count = expected_matches(bracket["kind"], bracket["teams"])
    assert len(bracket["matches"]) == count, f"{len(bracket['matches'])} matches, not {count}"


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options = options.parse_args()
    brackets = ask(options.probe, "graphs")
    crossings = ask(options.probe, "crossings")
    assert len(brackets) == 6 * 63, f"{len(brackets)} brackets"
    assert len(crossings) == 16 * 10, f"{len(crossings)} crossovers"
    agreed = check_all(brackets, (check_graph, check_count, check_sheet, check_courses),
                       lambda b: f"{b['kind']} of {b['teams']}")
    agreed &= check_all(crossings, (check_crossing,),
                        lambda c: f"{c['pools']} pools, places {c['from']} to {c['through']}")
    if agreed:
        print(f"{len(brackets)} brackets of 2 to 64 teams and {len(crossings)} crossovers agree")
    return 0 if agreed else 1


if __name__ == "__main__":
    sys.exit(main())
