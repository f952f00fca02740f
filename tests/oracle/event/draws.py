"""Makes every draw of pools and every round robin a second time and compares with the core.

    draws.py --probe event_probe

The snake is walked as a person deals cards; the lot uses SplitMix64 and Fisher-Yates written out
here. Round robins are compared as round robins: every pair once, the rounds of the circle.
"""

import argparse
import itertools
import json
import subprocess
import sys

WORD = (1 << 64) - 1


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


def drawn(teams, pools, seed):
    rng = SplitMix64(seed)
    order = []
    for row in range(0, teams, pools):
        part = list(range(row + 1, min(row + pools, teams) + 1))
        if row:
            for i in range(len(part) - 1, 0, -1):
                k = rng.below(i + 1)
                part[i], part[k] = part[k], part[i]
        order += part
    return [[order[seed - 1] for seed in pool] for pool in snake(teams, pools)]


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


def lines(probe, what):
    done = subprocess.run([probe, what], capture_output=True, text=True, check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options = options.parse_args()
    checked = 0
    for d in lines(options.probe, "draws"):
        expected = (snake(d["teams"], d["pools"]), drawn(d["teams"], d["pools"], d["seed"]))
        if (d["snake"], d["drawn"]) != expected:
            print(f"core  {d}\nmodel {expected}")
            return 1
        checked += 1
    for d in lines(options.probe, "rounds"):
        core = [{frozenset(p) for p in r} for r in d["rounds"]]
        model = circle(d["teams"])
        if sorted(map(sorted_round, core)) != sorted(map(sorted_round, model)):
            print(f"{d['teams']} teams\ncore  {core}\nmodel {model}")
            return 1
        checked += 1
    print(f"{checked} draws and round robins agree")
    return 0


def sorted_round(pairs):
    return sorted(sorted(p) for p in pairs)


if __name__ == "__main__":
    sys.exit(main())
