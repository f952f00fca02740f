"""Ranks random pools a second time, each chain written out as a person would follow its words, and
compares with the core.

    standings.py --probe event_probe --pools 10000 --seed 1 [--chain international-2017]

Nothing of the chain files is read here. Exit status 1 when the models differ: the pool and both
answers are printed, and the seed that makes it.
"""

import argparse
import os
import random
import sys
from fractions import Fraction

from probe import ask

INFINITY = Fraction(10 ** 12)
BATCH = 2500


def quotient(won, lost):
    if lost == 0:
        return INFINITY if won > 0 else Fraction(0)
    return Fraction(won, lost)


def share(won, lost):
    return Fraction(won, won + lost) if won + lost else Fraction(0)


class Sums:
    """What a team has over the matches between the teams of `among`."""

    def __init__(self, pool, team, among, worth):
        self.wins = self.sets = self.sets_lost = self.points = self.against = self.worth = 0
        for a, b, scores in pool.matches:
            if team not in (a, b) or a not in among or b not in among:
                continue
            mine = [s if team == a else s[::-1] for s in scores]
            won = sum(x > y for x, y in mine)
            lost = len(mine) - won
            self.wins += won > lost
            self.sets += won
            self.sets_lost += lost
            self.points += sum(x for x, _ in mine)
            self.against += sum(y for _, y in mine)
            self.worth += worth[won, lost] if worth else 0


class Pool:
    def __init__(self, teams, matches, cuts):
        self.teams, self.matches, self.cuts = teams, matches, cuts

    def beat(self, a, b):
        """+1 when `a` won the last match against `b`, -1 when it lost it, 0 without one."""
        for x, y, scores in reversed(self.matches):
            if {x, y} == {a, b}:
                won = sum(p > q for p, q in scores)
                first = won > len(scores) - won
                return 1 if first == (x == a) else -1
        return 0

    def sums(self, team, among=None, worth=None):
        return Sums(self, team, set(among if among is not None else range(self.teams)), worth)


def by(value, teams):
    """Groups of teams, the highest value first."""
    groups = {}
    for t in teams:
        groups.setdefault(value(t), []).append(t)
    return [groups[v] for v in sorted(groups, reverse=True)]


def flat(groups_of_groups):
    return [g for groups in groups_of_groups for g in groups]


FIVE = {(3, 0): 3, (3, 1): 3, (3, 2): 2, (2, 3): 1, (1, 3): 0, (0, 3): 0,
        (2, 0): 3, (2, 1): 2, (1, 2): 1, (0, 2): 0}


def two_by_last_match(pool, pair):
    a, b = pair
    who = pool.beat(a, b)
    return [[a], [b]] if who > 0 else [[b], [a]] if who < 0 else [pair]


def international(pool, keys):
    """Two: last match. Three or more: a table of their own matches, and again for those left."""
    def value(t, among=None):
        s = pool.sums(t, among, FIVE)
        own = {"wins": s.wins, "worth": s.worth}
        return (own[keys[0]], own[keys[1]], quotient(s.sets, s.sets_lost),
                quotient(s.points, s.against))

    def among_themselves(group):
        if len(group) == 1:
            return [group]
        if len(group) == 2:
            return two_by_last_match(pool, group)
        # The first of the four values that tells them apart divides them; then each part anew.
        for i in range(4):
            parts = by(lambda t: value(t, group)[i], group)
            if len(parts) > 1:
                return flat(among_themselves(p) for p in parts)
        return [group]

    return flat(among_themselves(g) for g in by(value, range(pool.teams)))


def best_of_three_league(pool):
    def whole(t):
        s = pool.sums(t, None, FIVE)
        return (s.worth, s.wins, quotient(s.sets, s.sets_lost), quotient(s.points, s.against))

    def mutual(group):
        parts = by(lambda t: pool.sums(t, group).wins, group)
        return [group] if len(parts) == 1 else flat(mutual(p) for p in parts)

    return flat(mutual(g) for g in by(whole, range(pool.teams)))


def mutual_wins(pool, pair):
    return by(lambda t: pool.sums(t, pair).wins, pair)


def us_junior_national(pool):
    def loses_a_place(first, group):
        return any(first <= cut < first + len(group) - 1 for cut in pool.cuts)

    def put(first, parts):
        out = []
        for p in parts:
            out += resolve(first, p)
            first += len(p)
        return out

    def resolve(first, group):
        if len(group) == 1:
            return [group]
        if len(group) == 2:
            parts = mutual_wins(pool, group)
            if len(parts) == 2:
                return parts
        else:
            for sign in (1, -1):
                swept = [t for t in group if all(pool.beat(t, o) == sign for o in group if o != t)]
                if swept:
                    rest = [t for t in group if t not in swept]
                    return put(first, [swept, rest] if sign == 1 else [rest, swept])
        parts = by(lambda t: share(pool.sums(t).sets, pool.sums(t).sets_lost), group)
        if len(parts) > 1:
            return put(first, parts)
        if loses_a_place(first, group):
            return [group]
        parts = by(lambda t: share(pool.sums(t).points, pool.sums(t).against), group)
        return put(first, parts) if len(parts) > 1 else [group]

    return put(1, by(lambda t: pool.sums(t).wins, range(pool.teams)))


def carried_on(pool, values):
    """A list that is carried on: simply the order of the values one after the other, the mutual
    ones among all that are level in matches won."""
    out = []
    for group in by(lambda t: pool.sums(t).wins, range(pool.teams)):
        out += by(lambda t: values(pool.sums(t, group), pool.sums(t)), group)
    return out


def us_school_district(pool):
    return carried_on(pool, lambda m, a: (share(m.sets, m.sets_lost), share(a.sets, a.sets_lost),
                                          share(m.points, m.against), share(a.points, a.against)))


def international_schools(pool):
    return carried_on(pool, lambda m, a: (m.wins, m.sets - m.sets_lost, m.points - m.against,
                                          a.sets - a.sets_lost, a.points - a.against))


def us_regional_adult(pool):
    def resolve(group):
        if len(group) == 1:
            return [group]
        if len(group) == 2:
            def pair_value(t):
                m, a = pool.sums(t, group), pool.sums(t)
                return (share(m.sets, m.sets_lost), share(m.points, m.against),
                        share(a.sets, a.sets_lost), share(a.points, a.against))
            return by(pair_value, group)
        for value in (lambda s: share(s.sets, s.sets_lost), lambda s: share(s.points, s.against)):
            parts = by(lambda t: value(pool.sums(t)), group)
            if len(parts) > 1:
                return flat(map(resolve, parts))
        return [group]

    return flat(map(resolve, by(lambda t: pool.sums(t).wins, range(pool.teams))))


def us_event_sheet(pool):
    def resolve(group):
        if len(group) == 1:
            return [group]
        if len(group) == 2:
            parts = mutual_wins(pool, group)
            if len(parts) == 2:
                return parts
        for value in (lambda s: share(s.sets, s.sets_lost), lambda s: s.points - s.against):
            parts = by(lambda t: value(pool.sums(t)), group)
            if len(parts) > 1:
                return flat(map(resolve, parts))
        return [group]

    return flat(map(resolve, by(lambda t: pool.sums(t).wins, range(pool.teams))))


def points_against(pool):
    def resolve(group):
        parts = by(lambda t: -pool.sums(t, group).against, group)
        return [group] if len(parts) == 1 else flat(map(resolve, parts))

    return flat(map(resolve, by(lambda t: pool.sums(t).wins, range(pool.teams))))


CHAINS = {
    "international-2017": lambda p: international(p, ("wins", "worth")),
    "international-points-first": lambda p: international(p, ("worth", "wins")),
    "best-of-three-league": best_of_three_league,
    "us-junior-national": us_junior_national,
    "us-school-district-2006": us_school_district,
    "us-regional-adult": us_regional_adult,
    "us-event-sheet": us_event_sheet,
    "international-schools": international_schools,
    "points-against": points_against,
}


def random_match(rng, best_of, kinds):
    """One of a few scores, so that teams are often level; sometimes every set the same."""
    to_win = best_of // 2 + 1
    first = rng.random() < 0.5
    loser_sets = rng.choice(range(to_win)) if kinds > 1 else 0
    winners = [first] * (to_win - 1) + [not first] * loser_sets
    rng.shuffle(winners)
    winners.append(first)
    return [(25, s)[::1 if w else -1] for w in winners
            for s in [rng.choice([20, 23, 15, 11][:kinds])]]


def random_pool(rng, chain):
    teams = rng.choice([3, 3, 4, 4, 4, 5, 6, 7])
    best_of = 3 if chain == "best-of-three-league" else rng.choice([3, 5])
    kinds = rng.choice([1, 1, 2, 2, 4])
    missing = rng.choice([0, 0, 0.2])
    pairs = [(a, b) for a in range(teams) for b in range(a) if rng.random() >= missing]
    if chain != "us-junior-national" and rng.random() < 0.1:
        pairs += pairs                       # a double round robin
    rng.shuffle(pairs)
    matches = [(*rng.choice([(a, b), (b, a)]), random_match(rng, best_of, kinds)) for a, b in pairs]
    cuts = [rng.randrange(1, teams)] if rng.random() < 0.5 else []
    return Pool(teams, matches, cuts)


def written(chain, pool):
    lines = [f"POOL {chain} {pool.teams} " + " ".join(map(str, pool.cuts))]
    for order, (a, b, scores) in enumerate(pool.matches):
        lines.append(f"M {a} {b} {order} points " + " ".join(f"{x}-{y}" for x, y in scores))
    return "\n".join([*lines, "END\n"])


def answers(probe, text):
    """The places in words, level teams joined by "="."""
    return [" ".join("=".join(map(str, sorted(teams))) for _, teams, *_ in found["places"])
            for found in ask(probe, "pools", text)]


def check(probe, chain, count, seed):
    rng = random.Random(f"{seed} {chain}")
    level = 0
    for start in range(0, count, BATCH):
        pools = [random_pool(rng, chain) for _ in range(min(BATCH, count - start))]
        found = answers(probe, "".join(written(chain, p) for p in pools))
        for pool, core in zip(pools, found, strict=True):
            model = " ".join("=".join(map(str, sorted(g))) for g in CHAINS[chain](pool))
            level += "=" in model
            if core != model:
                print(f"{chain}, seed {seed}:\n{written(chain, pool)}core  {core}\nmodel {model}")
                return False
    print(f"{chain}: {count} pools agree, {level} of them need a decision (seed {seed})")
    return True


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options.add_argument("--pools", type=int, default=1000, help="for each chain")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--chain", choices=sorted(CHAINS), action="append")
    options = options.parse_args()
    os.nice(10)
    chains = options.chain or sorted(CHAINS)
    return 0 if all([check(options.probe, c, options.pools, options.seed) for c in chains]) else 1


if __name__ == "__main__":
    sys.exit(main())
