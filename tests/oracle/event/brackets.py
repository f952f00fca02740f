"""Checks every bracket of 2 to 64 teams: its graph with NetworkX, and its matches against a second
generator written independently of the core.

    brackets.py --probe event_probe
"""

import argparse
import json
import random
import subprocess
import sys

try:
    import networkx
except ImportError:
    sys.exit("this check needs NetworkX: install python3-networkx (deploy/packages/test.txt)")

COURSES = 3


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

    for m, (a, b, _, _) in enumerate(bracket["matches"]):
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
        for m, (a, b, stage, only) in enumerate(bracket["matches"]):
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


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options = options.parse_args()
    done = subprocess.run([options.probe, "graphs"], capture_output=True, text=True, check=True)
    brackets = [json.loads(line) for line in done.stdout.splitlines()]
    assert len(brackets) == 6 * 63, f"{len(brackets)} brackets"
    for bracket in brackets:
        try:
            check_graph(bracket)
            count = expected_matches(bracket["kind"], bracket["teams"])
            assert len(bracket["matches"]) == count, f"{len(bracket['matches'])} matches, not {count}"
            check_courses(bracket)
        except AssertionError as wrong:
            print(f"{bracket['kind']} of {bracket['teams']}: {wrong}")
            return 1
    print(f"{len(brackets)} brackets of 2 to 64 teams agree")
    return 0


if __name__ == "__main__":
    sys.exit(main())
