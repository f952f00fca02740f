"""Random pools and chains: few different scores, so that teams are often level."""

from pool_model import Pool, Result

CRITERIA = ("matches-won", "set-quotient", "set-percentage", "set-difference", "point-quotient",
            "point-percentage", "point-difference", "points-against", "match-points",
            "beat-all-others", "lost-to-all-others", "last-match")


def set_scores(rng, winner_first, sets_to_win, kinds):
    """The sets of a match: [(25, 20), …] as the first team has them."""
    lost = rng.randrange(sets_to_win) if kinds > 1 else 0
    winners = [winner_first] * (sets_to_win - 1) + [not winner_first] * lost
    rng.shuffle(winners)
    return [(25, low)[:: 1 if w else -1] for w in [*winners, winner_first]
            for low in [rng.choice([20, 23, 15, 11][:kinds])]]


def random_result(rng, first, second, order, sets_to_win, kinds, fullness):
    """`fullness`: 0 all results are played with their points, 1 any kind of result."""
    kind = rng.random()
    won = rng.random() < 0.5
    scores = set_scores(rng, won, sets_to_win, kinds)
    if kind >= fullness:
        return Result(first, second, order, "points", scores)
    if kind < 0.3 * fullness:
        return Result(first, second, order, "first", [(0, 25)] * sets_to_win)
    if kind < 0.4 * fullness:
        return Result(first, second, order, "second", [(25, 0)] * sets_to_win)
    if kind < 0.6 * fullness:
        return Result(first, second, order, "both")
    if kind < 0.8 * fullness:
        a = sum(x > y for x, y in scores)
        return Result(first, second, order, "sets", sets=(a, len(scores) - a))
    return Result(first, second, order, "winner", first_won=won)


def random_pool(rng, best_of):
    """`best_of`: the formats that the chain values."""
    teams = rng.choice([2, 3, 3, 4, 4, 4, 5, 5, 6, 7, 8])
    sets_to_win = rng.choice(best_of) // 2 + 1
    kinds = rng.choice([1, 1, 2, 2, 4])
    fullness = rng.choice([0, 0, 0, 0.15, 0.5])
    missing = rng.choice([0, 0, 0.2])
    pairs = [(a, b) for a in range(teams) for b in range(a) if rng.random() >= missing]
    if rng.random() < 0.15:
        pairs += pairs                                     # a double round robin
    rng.shuffle(pairs)
    results = [random_result(rng, *rng.choice([(a, b), (b, a)]), order, sets_to_win, kinds, fullness)
               for order, (a, b) in enumerate(pairs)]
    pool = Pool(teams, results)
    if rng.random() < 0.5 and teams > 1:
        pool.cuts = rng.sample(range(1, teams), rng.choice([1, 1, min(2, teams - 1)]))
    if rng.random() < 0.2 and teams > 2:
        for team in rng.sample(range(teams), rng.choice([1, 1, 2])):
            pool.withdrawn[team] = rng.choice(["struck", "kept"])
    return pool


def random_chain(rng):
    """The text of a chain that nobody published; its steps are meant for two and for three teams."""
    steps = []
    for n in range(rng.randint(2, 7)):
        criterion = rng.choice(CRITERIA)
        tied = rng.choice(["any", "any", "two", "three-or-more"]) if n else "any"
        matches = rng.choice(["all", "mutual"])
        if criterion == "last-match":
            if n == 0:
                criterion = "matches-won"
            else:
                tied = "two"
        if criterion in ("beat-all-others", "lost-to-all-others", "last-match"):
            matches = "mutual"
        cut = "play-off-if-cut = true\n" if rng.random() < 0.1 else ""
        steps.append(f'[[step]]\ncriterion = "{criterion}"\nmatches = "{matches}"\n'
                     f'tied = "{tied}"\n{cut}source = "memory"\n')
    after = rng.choice(["restart", "go-on"])
    among = rng.choice(["still-tied", "first-tied"])
    last = rng.choice(["lot", "play-off", "director"])
    worth = ""
    for to_win in (2, 3):
        for lost in range(to_win):
            worth += f'"{to_win}-{lost}" = {{ value = {rng.randint(2, 4)}, source = "memory" }}\n'
            worth += f'"{lost}-{to_win}" = {{ value = {rng.randint(-1, 1)}, source = "memory" }}\n'
    head = "".join(f'{key} = "random"\n' for key in ("id", "title", "source", "edition"))
    head += "".join(f'{key} = {{ value = "{value}", source = "memory" }}\n' for key, value in
                    (("after-split", after), ("mutual-among", among), ("last-resort", last)))
    forfeit = f'forfeit = {{ value = {rng.randint(-2, 1)}, source = "memory" }}\n'
    return f"{head}\n[match-points]\n{worth}{forfeit}\n" + "\n".join(steps)
