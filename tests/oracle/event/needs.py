"""What each team of a pool still needs, by brute force: every course of the open matches is played by
chain_model.py, and what the core says of them must be so.

    needs.py --probe event_probe --chains shared-core/standings/chains --pools 60 --seed 1

Exact answers: for each team the number of courses that put it through, out, or leave it hanging, its
fate, and the shortest conditions: each one is enough, none can be shorter, none is left out. Sampled
answers: 95 of 100 shares are as far from the exact one as the stated error at most, none far beyond.
"""

import argparse
import itertools
import math
import os
import pathlib
import random
import sys

import random_pools
from chain_model import Chain, Ranking
from pool_model import Pool, Result
from probe import ask

# As needs.h says them.
MOST_COURSES = 1 << 16
MOST_EXACT = 12
LONGEST, MOST_CONDITIONS = 3, 32
SAMPLES, CONFIDENCE = 20_000, 0.95
# So many times the stated error is further off than chance would have it: once in 100 million shares
# by Hoeffding's bound.
FAR = 2.3
# Whether each share that was drawn lies within the stated error.
shares_within = []
# Pools beside the random ones: all twelve open, and more than twelve.
FULL, SAMPLED = 1, 2


class Length:
    """How long a match is: ("best-of", 3) ends once it is won, ("all", 2) when both sets are played."""

    def __init__(self, how, sets):
        self.how, self.sets = how, sets

    def __str__(self):
        return f"{self.how} {self.sets}"

    def scores(self):
        """Every (sets of the first, sets of the second), found by playing set after set."""
        ended, courses = set(), [(0, 0)]
        while courses:
            a, b = courses.pop()
            over = a + b == self.sets if self.how == "all" else 2 * max(a, b) > self.sets
            if over:
                ended.add((a, b))
            else:
                courses += [(a + 1, b), (a, b + 1)]
        return sorted(ended)


def winner_of(score):
    """1: the first, 2: the second, 0: nobody."""
    a, b = score
    return 1 if a > b else 2 if b > a else 0


class Question:
    """A pool, its open matches, and the last place that goes through."""

    def __init__(self, pool, open_matches, cut, length):
        self.pool, self.open, self.cut, self.length = pool, open_matches, cut, length

    def written(self, chain):
        more = [f"O {a} {b} {order}" for a, b, order in self.open]
        return self.pool.written(chain, [*more, f"N {self.cut} {self.length} 1"])


def outcomes(length, with_sets):
    """(who wins, sets of the loser or nothing, the score or nothing). Without sets, the score only
    where it follows from who wins; a match that ends level has one."""
    scores = length.scores()
    of = {w: [s for s in scores if winner_of(s) == w] for w in (1, 2, 0)}
    found = []
    for winner, possible in of.items():
        if with_sets or len(possible) == 1:
            found += [(winner, min(s) if winner else None, s) for s in possible]
        elif possible:
            found.append((winner, None, None))
    return found


def played(match, outcome):
    first, second, order = match
    winner, _, score = outcome
    if score is None:
        return Result(first, second, order, "winner", first_won=winner == 1)
    return Result(first, second, order, "sets", sets=score)


def fates_of(chain, question, course):
    """Of each team: through, out or hangs, when the open matches end so."""
    pool = question.pool
    results = [played(m, o) for m, o in zip(question.open, course)]
    after = Pool(pool.teams, pool.results + results, pool.cuts, pool.withdrawn, pool.decisions)
    fates = {}
    for place in Ranking(chain, after, trace=False).places:
        last = place.number + len(place.teams) - 1
        fate = "through" if last <= question.cut else "out" if place.number > question.cut else "hangs"
        fates.update(dict.fromkeys(place.teams, fate))
    return fates


class Courses:
    """All courses of the open matches, as bits of whole numbers."""

    def __init__(self, chain, question, with_sets):
        self.with_sets, self.question = with_sets, question
        self.choices = outcomes(question.length, with_sets)
        self.all = list(itertools.product(self.choices, repeat=len(question.open)))
        self.sets = {(t, f): 0 for t in question.pool.ranked() for f in ("through", "out", "hangs")}
        for c, course in enumerate(self.all):
            for team, fate in fates_of(chain, question, course).items():
                self.sets[team, fate] |= 1 << c

    def count(self, team, fate):
        return self.sets[team, fate].bit_count()

    def requirements(self):
        """(match, who wins, sets of the loser or nothing): the courses that fulfil it."""
        asked = {}
        for m in range(len(self.question.open)):
            for c, course in enumerate(self.all):
                for lost in {None, course[m][1]}:
                    key = m, course[m][0], lost
                    asked[key] = asked.get(key, 0) | 1 << c
        return asked

    def shortest(self, goal):
        """Every condition of LONGEST requirements at most that stays within `goal`, if none that asks
        for less does: a set of requirements each."""
        asked = self.requirements()
        enough = []
        for length in range(1, LONGEST + 1):
            for chosen in itertools.combinations(asked, length):
                if len({match for match, _, _ in chosen}) < length:
                    continue
                courses = -1
                for r in chosen:
                    courses &= asked[r]
                if courses & ~goal == 0:
                    enough.append(frozenset(chosen))
        return {c for c in enough if not any(k != c and asks_less(k, c) for k in enough)}


def asks_less(known, condition):
    """Whatever fulfils `condition` fulfils `known`."""
    return all(any(m == n and w == v and lost in (None, exact) for n, v, exact in condition)
               for m, w, lost in known)


def conditions(told):
    return [frozenset((m, won, lost) for m, won, lost in condition) for condition in told]


def exact_differs(chain, question, core):
    with_sets = len(question.length.scores()) ** len(question.open) <= MOST_COURSES
    courses = Courses(chain, question, with_sets)
    if not core["exact"] or core["courses"] != len(courses.all) or core["error"] != 0:
        return f"courses: core {core['courses']}, model {len(courses.all)}"
    if [t["team"] for t in core["teams"]] != question.pool.ranked():
        return "other teams"
    for team in core["teams"]:
        number = team["team"]
        counts = [courses.count(number, f) for f in ("through", "out", "hangs")]
        fate = {counts[0]: "through", counts[1]: "out"}.get(len(courses.all), "undecided")
        if (team["courses"], team["fate"]) != (counts, fate):
            return f"team {number}: core {team['courses']} {team['fate']}, model {counts} {fate}"
        for key, of in (("enough", "through"), ("too_bad", "out")):
            told = conditions(team[key])
            model = set() if fate != "undecided" else courses.shortest(courses.sets[number, of])
            if len(told) < MOST_CONDITIONS and set(told) != model or not set(told) <= model:
                return f"team {number}, {key}: core {sorted(map(sorted_, told))}\n" \
                       f"model {sorted(map(sorted_, model))}"
            if [len(c) for c in told] != sorted(len(c) for c in told):
                return f"team {number}, {key}: a longer condition before a shorter one"
    return None


def sorted_(condition):
    return sorted(condition, key=str)


def sampled_differs(chain, question, core):
    courses = Courses(chain, question, True)
    error = math.sqrt(math.log(2 / (1 - CONFIDENCE)) / (2 * SAMPLES))
    if core["exact"] or core["courses"] != SAMPLES or abs(core["error"] - error) > 1e-6:
        return f"not sampled as stated: {core['courses']} courses, error {core['error']}"
    for team in core["teams"]:
        if team["fate"] != "undecided" or sum(team["courses"]) != SAMPLES:
            return f"team {team['team']}: {team['fate']}, {team['courses']}"
        for n, fate in enumerate(("through", "out", "hangs")):
            share = courses.count(team["team"], fate) / len(courses.all)
            away = abs(team["courses"][n] / SAMPLES - share)
            shares_within.append(away <= error)
            if away > FAR * error:
                return f"team {team['team']}, {fate}: {team['courses'][n] / SAMPLES}, not {share}"
    return None


def all_sets(rng, first, second, order, sets):
    """A match of a fixed number of sets, played to the last."""
    scores = [(25, rng.choice([20, 23]))[:: rng.choice([1, -1])] for _ in range(sets)]
    return Result(first, second, order, "points", scores)


def random_question(rng, teams, open_matches, length, twice=False):
    """A round robin, or a double one, of which some matches are open and the others have a result
    of any kind."""
    pairs = [(a, b) for a in range(teams) for b in range(a)] * (2 if twice else 1)
    rng.shuffle(pairs)
    matches = [(*rng.choice([(a, b), (b, a)]), order) for order, (a, b) in enumerate(pairs)]
    results = []
    for match in matches[open_matches:]:
        if length.how == "all":
            results.append(all_sets(rng, *match, length.sets))
        else:
            fullness = rng.choice([0, 0, 0.3])
            results.append(random_pools.random_result(rng, *match, length.sets // 2 + 1, 2, fullness))
    pool = Pool(teams, results, [rng.randrange(1, teams)] if rng.random() < 0.5 else [])
    return Question(pool, matches[:open_matches], rng.randrange(1, teams), length)


# Open matches at most, by teams and by the number of scores of a match: conditions are looked for by
# brute force.
MOST_OPEN = {3: 3, 4: 4, 5: 4}


def lengths_of(chain):
    """Those whose every result the chain values."""
    lengths = [Length("best-of", sets) for sets in (1, 3, 5)] + [Length("all", sets) for sets in (1, 2, 3, 4, 5)]
    return [n for n in lengths if not chain.worth or all(s in chain.worth for s in n.scores())]


def questions(rng, chain, count):
    """(question, how its answer is checked)"""
    lengths = lengths_of(chain)
    asked = []
    for n in range(count):
        teams = rng.choice([3, 4, 4, 4, 5])
        length = lengths[n % len(lengths)]
        most = MOST_OPEN[teams] if len(length.scores()) <= 4 else 3
        question = random_question(rng, teams, rng.randint(1, most), length, rng.random() < 0.2)
        if rng.random() < 0.15 and teams > 3:
            withdraw(rng, question)
        asked.append((question, exact_differs))
    return asked


def withdraw(rng, question):
    """A team leaves; its open matches with it."""
    team = rng.randrange(question.pool.teams)
    left = [m for m in question.open if team not in m[:2]]
    if not left:
        return
    question.open = left
    question.pool.withdrawn[team] = rng.choice(["struck", "kept"])


def large_questions(rng, chain):
    """Twelve open matches, of which every course is played, and more, of which some are drawn."""
    asked = []
    for _ in range(FULL):
        asked.append((random_question(rng, 6, MOST_EXACT, Length("best-of", 3)), exact_differs))
        # As many as give more courses with their sets than are played: three winners each, or two
        # where the chain has no value for a level match.
        length = Length("all", 4) if not chain.worth else Length("best-of", 5)
        asked.append((random_question(rng, 5, 7, length), exact_differs))
    for _ in range(0 if chain.worth else SAMPLED):
        asked.append((random_question(rng, 6, MOST_EXACT + 1, Length("best-of", 1)), sampled_differs))
    return asked


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options.add_argument("--chains", required=True, type=pathlib.Path, help="folder of chain files")
    options.add_argument("--pools", type=int, default=60, help="for each chain")
    options.add_argument("--large", action="append", default=[],
                         help="chains for which twelve open matches and more are tried too")
    options.add_argument("--seed", type=int, default=1)
    options = options.parse_args()
    os.nice(10)
    for file in sorted(options.chains.glob("*.toml")):
        chain = Chain(file.read_text(encoding="utf-8"))
        rng = random.Random(f"{options.seed} needs {chain.id}")
        asked = questions(rng, chain, options.pools)
        if chain.id in options.large:
            asked += large_questions(rng, chain)
        found = ask(options.probe, "needs", "".join(q.written(chain.id) for q, _ in asked))
        for (question, differs), core in zip(asked, found, strict=True):
            wrong = core.get("fault") or differs(chain, question, core)
            if wrong:
                print(f"{chain.id}, seed {options.seed}:\n{question.written(chain.id)}{wrong}")
                return 1
        print(f"{chain.id}: {len(asked)} unfinished pools agree")
    beyond = shares_within.count(False)
    if beyond > (1 - CONFIDENCE) * len(shares_within):
        print(f"{beyond} of {len(shares_within)} drawn shares are further off than stated, seed {options.seed}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
