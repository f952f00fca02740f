"""Ranks random pools a second time under every chain and under chains made up at random, and compares
places, the steps that led to each with their values and in words, and the sums of every team.

    chains.py --probe event_probe --chains shared-core/standings/chains --pools 500 --seed 1

The chain is read from its file; the arithmetic is that of chain_model.py, in exact fractions. Each
pool is asked twice, the second time with its teams numbered anew and its results in another order:
the places must be the same. Exit status 1 when the models differ; the pool is printed.
"""

import argparse
import decimal
import os
import pathlib
import random
import re
import sys
import tempfile

import random_pools
from chain_model import Chain, Ranking
from pool_model import quotient
from probe import ask

# "T3 4:2 = 2.0000", "T3 4 of 6 = 0.6667" as a reason says it
SAID = re.compile(r"T(\d+) (\d+)(:| of )(\d+) = (\d+\.\d{4})")
BATCH = 1000
POOLS_OF_A_RANDOM_CHAIN = 10


def best_of(chain):
    """The formats whose results the chain values."""
    to_win = {w for w, _ in chain.worth if w > 1} & {l for _, l in chain.worth if l > 1}
    return sorted(2 * n - 1 for n in to_win) or [3, 5]


def decide_some(rng, chain, pool):
    """Orders what the chain leaves level, now and then, and sometimes what it does not."""
    if rng.random() < 0.5:
        for place in Ranking(chain, pool, trace=False).places:
            if place.open and rng.random() < 0.7:
                pool.decisions += [rng.sample(place.teams, len(place.teams))
                                   for _ in range(rng.choice([1, 1, 2]))]
    if rng.random() < 0.1 and pool.teams > 2:
        pool.decisions.append(rng.sample(range(pool.teams), rng.randint(2, pool.teams)))
        rng.shuffle(pool.decisions)


def told_by_core(found):
    """The core's answer as the model would say it; a group of level teams has no order."""
    places = []
    for number, teams, because, decision, why, decider in found["places"]:
        steps = []
        for i in because:
            step, among, values, _, _ = found["comparisons"][i]
            values = [quotient(*v) for v in values]
            steps.append((step, tuple(sorted(zip(among, values)))))
        places.append((number, tuple(sorted(teams)), tuple(steps), decision, why,
                       decider if why else None))
    return places


def told_by_model(ranking):
    return [(p.number, tuple(sorted(p.teams)),
             tuple((step, tuple(sorted(zip(among, values)))) for step, among, values in p.because),
             p.decision, p.open, p.decider if p.open else None) for p in ranking.places]


def differs(chain, pool, found):
    if "fault" in found:
        return f"the core refuses it: {found['fault']}"
    ranking = Ranking(chain, pool)
    core, model = told_by_core(found), told_by_model(ranking)
    if core != model:
        return f"core  {core}\nmodel {model}"
    for team, record in enumerate(found["records"]):
        if record != ranking.sums(team).listed():
            return f"team {team}: core {record}, model {ranking.sums(team).listed()}"
    used = {p.decision for p in ranking.places}
    if found["unused"] != [i for i in range(len(pool.decisions)) if i not in used]:
        return f"unused decisions: core {found['unused']}, model used {used}"
    return None


def words_differ(found):
    """The reasons of a place: a sentence for each step, with the values of the step as people read them."""
    for place, lines in zip(found["places"], found["words"], strict=True):
        _, _, because, decision, why, _ = place
        if len(lines) != len(because) + (decision is not None) + (why is not None):
            return f"{len(lines)} sentences for {place}: {lines}"
        for i, line in zip(because, lines):
            _, among, values, counted, separated = found["comparisons"][i]
            if line.endswith(": level") == separated:
                return f"level or not: {line}"
            if counted and counted != sorted(among) and not all(f"T{t}" in line for t in counted):
                return f"whose matches were counted is not said: {line}"
            for team, won, _, of, rounded in SAID.findall(line):
                exact = decimal.Decimal(int(won)) / max(1, int(of))
                exact = exact.quantize(decimal.Decimal("0.0001"), decimal.ROUND_HALF_UP)
                if [int(won), int(of)] != values[among.index(int(team))] or exact != decimal.Decimal(rounded):
                    return f"a value of T{team} is said wrongly: {line}"
    return None


def laws(pool, found, again, to):
    """What must hold whatever the chain."""
    records = found["records"]
    for won, lost, what in ((4, 5, "sets"), (6, 7, "points")):
        if sum(r[won] for r in records) != sum(r[lost] for r in records):
            return f"{what} won and lost differ over the pool"
    places = [(number, sorted(to[t] for t in teams)) for number, teams, *_ in found["places"]]
    if places != [(number, sorted(teams)) for number, teams, *_ in again["places"]]:
        return f"the places depend on the order of matches or the numbers of teams: {again}"
    following = 1
    for number, teams, *_ in found["places"]:
        if number != following:
            return f"place {number} where {following} follows"
        following += len(teams)
    return None if following == len(pool.ranked()) + 1 else "teams without a place"


def check(probe, name, chain, path, count, rng):
    """Whether the models agree on `count` random pools, and how many needed a decision."""
    undecided = 0
    for start in range(0, count, BATCH):
        pools, text = [], []
        for _ in range(min(BATCH, count - start)):
            pool = random_pools.random_pool(rng, best_of(chain))
            decide_some(rng, chain, pool)
            to = rng.sample(range(pool.teams), pool.teams)
            other = pool.renamed(to, rng)
            pools.append((pool, to))
            text += [pool.written(path), other.written(path)]
        found = ask(probe, "pools", "".join(text))
        for (pool, to), core, again in zip(pools, found[::2], found[1::2], strict=True):
            wrong = differs(chain, pool, core) or words_differ(core) or laws(pool, core, again, to)
            if wrong:
                print(f"{name}:\n{pool.written(path)}{wrong}")
                return None
            undecided += any(p[4] for p in core["places"])
    return undecided


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options.add_argument("--chains", required=True, type=pathlib.Path, help="folder of chain files")
    options.add_argument("--pools", type=int, default=500, help="for each chain")
    options.add_argument("--seed", type=int, default=1)
    options = options.parse_args()
    os.nice(10)
    files = sorted(options.chains.glob("*.toml"))
    if not files:
        sys.exit(f"no chain in {options.chains}")
    for file in files:
        chain = Chain(file.read_text(encoding="utf-8"))
        undecided = check(options.probe, chain.id, chain, chain.id, options.pools,
                          random.Random(f"{options.seed} {chain.id}"))
        if undecided is None:
            print(f"seed {options.seed}")
            return 1
        print(f"{chain.id}: {options.pools} pools agree, {undecided} of them need a decision")
    rng = random.Random(f"{options.seed} random chains")
    made_up = max(1, options.pools // POOLS_OF_A_RANDOM_CHAIN)
    with tempfile.TemporaryDirectory() as folder:
        for n in range(made_up):
            file = pathlib.Path(folder, f"{n}.toml")
            file.write_text(random_pools.random_chain(rng), encoding="utf-8")
            chain = Chain(file.read_text(encoding="utf-8"))
            if check(options.probe, file.read_text(encoding="utf-8"), chain, file,
                     POOLS_OF_A_RANDOM_CHAIN, rng) is None:
                print(f"seed {options.seed}")
                return 1
    print(f"{made_up} chains made up at random: {POOLS_OF_A_RANDOM_CHAIN} pools of each agree")
    return 0


if __name__ == "__main__":
    sys.exit(main())
