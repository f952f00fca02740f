"""Makes every draw of pools, moves in them, every draw of a bracket by lot and every round robin a
second time and compares with the core.

    draws.py --probe event_probe

The snake is walked as a person deals cards; the lot uses SplitMix64 and Fisher-Yates written out
here. Round robins are compared as round robins: every pair once, the rounds of the circle. The core
is asked twice: the same seed gives the same draw.
"""

import argparse
import itertools
import sys

from probe import ask

WORD = (1 << 64) - 1

# 12 teams: a published template of a tournament day; the others: computed by hand.
PRINTED = {
    (12, 3): [[1, 6, 7, 12], [2, 5, 8, 11], [3, 4, 9, 10]],
    (16, 4): [[1, 8, 9, 16], [2, 7, 10, 15], [3, 6, 11, 14], [4, 5, 12, 13]],
    (20, 4): [[1, 8, 9, 16, 17], [2, 7, 10, 15, 18], [3, 6, 11, 14, 19], [4, 5, 12, 13, 20]],
}


class SplitMix64:
    def __init__(self, seed):
        self.state = seed

    def next(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & WORD
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & WORD
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & WORD
        return z ^ (z >> 31)

    def below(self, limit):
        whole = (WORD + 1) // limit * limit
        reject = WORD + 1 - whole
        while True:
            drawn = self.next()
            if drawn >= reject:
                return drawn % limit


def snake(teams, pools):
    dealt = [[] for _ in range(pools)]
    way = itertools.cycle(list(range(pools)) + list(reversed(range(pools))))
    for seed, pool in zip(range(1, teams + 1), way):
        dealt[pool].append(seed)
    return dealt


def shuffled(part, rng):
    """Fisher-Yates in Durstenfeld's form, from the last place down."""
    part = list(part)
    for i in range(len(part) - 1, 0, -1):
        k = rng.below(i + 1)
        part[i], part[k] = part[k], part[i]
    return part


def drawn(teams, pools, seed):
    """Each row of the snake but the first by lot."""
    rng = SplitMix64(seed)
    order = list(range(1, min(pools, teams) + 1))
    for row in range(pools, teams, pools):
        order += shuffled(range(row + 1, min(row + pools, teams) + 1), rng)
    return [[order[seed - 1] for seed in pool] for pool in snake(teams, pools)]


def lot(teams, kept, seed):
    """The best stay, the others by lot."""
    return list(range(1, kept + 1)) + shuffled(range(kept + 1, teams + 1), SplitMix64(seed))


def circle(teams):
    """The polygon form: in round r the fixed team meets r, and r-i meets r+i, all modulo n-1."""
    seats = teams + teams % 2
    rounds = []
    for r in range(seats - 1):
        pairs = [(0, r)] + [((r - i) % (seats - 1), (r + i) % (seats - 1))
                            for i in range(1, seats // 2)]
        # Seat 0 of the polygon is the fixed team 1; the others stand in the order 2, 3, ...
        named = [(1, b + 2) if n == 0 else (a + 2, b + 2) for n, (a, b) in enumerate(pairs)]
        rounds.append({frozenset(p) for p in named if max(p) <= teams})
    return rounds


def sorted_round(pairs):
    return sorted(sorted(p) for p in pairs)


def check_draw(d):
    teams, pools = d["teams"], d["pools"]
    assert d["snake"] == snake(teams, pools), f"the snake gives {snake(teams, pools)}"
    assert d["drawn"] == drawn(teams, pools, d["seed"]), f"the lot gives {drawn(teams, pools, d['seed'])}"
    assert d["snake"] == PRINTED.get((teams, pools), d["snake"]), "not as printed"


def check_lot(d):
    expected = lot(d["teams"], d["kept"], d["seed"])
    assert d["drawn"] == expected, f"the lot gives {expected}"


def check_rounds(d):
    core = [{frozenset(p) for p in r} for r in d["rounds"]]
    model = circle(d["teams"])
    assert sorted(map(sorted_round, core)) == sorted(map(sorted_round, model)), f"the circle gives {model}"


# As pools.h counts them.
SIZE, UNEVEN, CLUB, LAST_POOL, FAR = range(5)
MOST_AWAY = 3                      # places from the snake; one league allows three


def breaches(pools, d):
    found = set()
    teams = sorted(t for p in pools for t in p)
    assert teams == list(range(1, len(teams) + 1)), "a team is lost"
    for n, pool in enumerate(pools):
        if not 3 <= len(pool) <= 8:
            found.add((SIZE, n, tuple(pool), len(pool)))
        for kind, of in ((CLUB, d["clubs"]), (LAST_POOL, d["last_pools"])):
            found |= {(kind, n, (a, b), 0) for a, b in itertools.combinations(pool, 2)
                      if of[a - 1] and of[a - 1] == of[b - 1]}
        # Where the snake comes to this pool for the first time, the second, and so on.
        visits = [row * len(pools) + (n if row % 2 == 0 else len(pools) - 1 - n) + 1
                  for row in range(len(pool))]
        found |= {(FAR, n, (t,), abs(t - at)) for t, at in zip(sorted(pool), visits)
                  if abs(t - at) > MOST_AWAY}
    sizes = [len(p) for p in pools]
    if max(sizes) > min(sizes) + 1:
        found.add((UNEVEN, sizes.index(max(sizes)), (), max(sizes) - min(sizes)))
    return found


def check_move(d):
    before, after = breaches(d["before"], d), breaches(d["after"], d)
    for key, expected in (("broken", after - before), ("mended", before - after)):
        found = {(kind, pool, tuple(teams), away) for kind, pool, teams, away in d[key]}
        assert found == expected and len(found) == len(d[key]), f"{key}: the model says {expected}"


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options = options.parse_args()
    checked = 0
    for what, check in (("draws", check_draw), ("moves", check_move), ("lots", check_lot),
                        ("rounds", check_rounds)):
        answers = ask(options.probe, what)
        if answers != ask(options.probe, what):
            print(f"{what}: asked again, the core says something else")
            return 1
        for answer in answers:
            try:
                check(answer)
            except AssertionError as wrong:
                print(f"{what}: {answer}\n{wrong}")
                return 1
        checked += len(answers)
    print(f"{checked} draws, moves, lots and round robins agree")
    return 0


if __name__ == "__main__":
    sys.exit(main())
