"""A division drawn at random: entries, seeds, pools, moves, brackets and matches by hand, as event_model.py
holds it and as an event script says it.
"""

import itertools

import draws
from event_model import Division, Match
from probe import ask

KINDS = {"single": ("single", ""), "single-third": ("single", " third-place"), "double": ("double", ""),
         "double-second": ("double", " second-final"), "consolation": ("consolation", ""),
         "placement": ("placement", "")}
MOST_PLACES = 4                    # of a pool that go on


def said(side):
    """A source as a script says it."""
    if side[0] == "team":
        return f'"{side[1]}"'
    if side[0] == "place":
        return f"{side[2]} of {side[1]}"
    return side[0] + " " + (said(side[1]) + " " + said(side[2]) if side[0] in ("better", "worse") else side[1])


class Core:
    """What is taken from the core because other checks have found it right: the order of matches and
    their names, and who works."""

    def __init__(self, probe):
        self.orders = {o["teams"]: [f[2:] for f in o["fixtures"]] for o in ask(probe, "orders")
                       if o["courts"] == 1}
        self.graphs = {(g["kind"], g["teams"]): g for g in ask(probe, "graphs")}
        self.crossings = {(c["pools"], c["from"], c["through"]): [e[1:] for e in c["entrants"]]
                          for c in ask(probe, "crossings")}


class Writer:
    """A division and its script."""

    def __init__(self, core, chain, rng):
        self.core, self.rng = core, rng
        sets = rng.choice([3, 3, 5]) if (3, 0) in chain.worth or not chain.worth else 3
        self.division = Division(chain, sets, rng.random() < 0.5, [])
        how = "struck" if self.division.struck else "kept"
        self.facts = 2
        self.lines = ["# memory: made up at random",
                      'tournament "Cup" from 2026-11-28 to 2026-11-29 zone Europe/London',
                      f"division U profile international-2021 chain {chain.id} withdrawn {how} "
                      f"format best-of {sets}"]
        self.teams = [f"Team {n}" for n in range(1, rng.choice([3, 4, 5, 6, 7, 8, 9, 12, 16, 20, 24]) + 1)]
        for team in self.teams:
            self.fact(f'team "{team}" in U')
        self.by_seed = self.division.by_seed = self.seeds()
        self.second_leg = False                    # of the pools

    def fact(self, line):
        self.facts += 1
        self.lines.append(line)
        return self.facts

    def expect(self, line):
        self.lines.append(f"expect {line}")

    def seeds(self):
        """Some teams by seed, then the others in the order of their entry."""
        some = self.rng.sample(self.teams, self.rng.randint(0, len(self.teams)))
        if some:
            self.fact("seeds U teams " + " ".join(f'"{t}"' for t in some))
        return some + [t for t in self.teams if t not in some]

    def draw(self):
        division, count = self.division, len(self.teams)
        pools = self.rng.choice([p for p in range(1, 9) if 3 * p <= count <= 8 * p])
        seed = self.rng.randrange(1000)
        method = self.rng.choice(["serpentine", "rows"])
        smallest = count // pools
        if self.rng.random() < 0.5:
            division.cuts = [self.rng.randrange(1, smallest + 2)]
        cuts = f" cuts {division.cuts[0]}" if division.cuts else ""
        self.second_leg = self.rng.random() < 0.2
        leg = " second-leg" if self.second_leg else ""
        self.fact(f"draw U {method} pools {pools} seed {seed}{cuts}{leg}")
        self.expect("fine")
        dealt = draws.snake(count, pools) if method == "serpentine" else draws.drawn(count, pools, seed)
        for name, pool in zip("ABCDEFGH", dealt):
            division.pools[name] = [self.by_seed[s - 1] for s in pool]
        self.fill_pools()
        return smallest

    def fill_pools(self):
        """The matches of the pools as their teams stand, before all others."""
        division = self.division
        old = set(itertools.chain(*division.pool_matches.values()))
        others = {name: m for name, m in division.matches.items() if name not in old}
        division.matches, division.pool_matches = {}, {}
        for name, teams in division.pools.items():
            self.expect(f"pool {name} " + " ".join(f'"{t}"' for t in teams))
            names = division.pool_matches[name] = []
            order = self.core.orders[len(teams)]
            if self.second_leg:
                order = order + [(b, a, worker) for a, b, worker in order]
            for n, (a, b, worker) in enumerate(order, 1):
                self.expect(f'works {name}{n} "{teams[worker - 1] if worker else "nobody"}"')
                match = Match(f"{name}{n}", (("team", teams[a - 1]), ("team", teams[b - 1])))
                division.matches[match.name] = match
                names.append(match.name)
        division.matches |= others

    def move(self):
        """A team goes to another pool, or two change places; brackets that follow are made anew."""
        pools = self.division.pools
        if len(pools) < 2:
            return
        here, there = self.rng.sample(list(pools), 2)
        team = self.rng.choice(pools[here])
        if self.rng.random() < 0.6:
            other = self.rng.choice(pools[there])
            self.fact(f'move-team "{team}" to {there} with "{other}"')
            pools[here][pools[here].index(team)] = other
            pools[there][pools[there].index(other)] = team
        elif len(pools[here]) > MOST_PLACES and len(pools[there]) < 8:
            self.fact(f'move-team "{team}" to {there}')
            pools[here].remove(team)
            pools[there].append(team)
        else:
            return
        self.expect("fine")
        self.fill_pools()

    def bracket(self, prefix, entrants, clause, best):
        """`entrants`: sides, best seed first."""
        kind = self.rng.choice(list(KINDS))
        word, options = KINDS[kind]
        self.fact(f"bracket U {word} prefix {prefix}{clause}{options} best-place {best}")
        self.expect("fine")
        graph = self.core.graphs[kind, len(entrants)]
        names = [prefix + m[4][1:] for m in graph["matches"]]

        def side(source):
            return entrants[source[1] - 1] if source[0] == "team" else (source[0], names[source[1]])

        for (a, b, _, only, *_), name in zip(graph["matches"], names):
            before = None if only is None else names[only]
            self.division.matches[name] = Match(name, (side(a), side(b)), before)
        self.division.places += [(f + best - 1, l + best - 1, side(s)) for f, l, s in graph["places"]]

    def crossed(self, prefix, first, last, best):
        pools = list(self.division.pools)
        entrants = [("place", pools[p], place)
                    for p, place in self.core.crossings[len(pools), first, last]]
        if len(entrants) < 2:
            return
        self.bracket(prefix, entrants, f" from-place {first} to-place {last}", best)

    def some_side(self):
        """A team, a place, or what comes of a match."""
        division, kind = self.division, self.rng.random()
        if kind < 0.15:
            return "team", self.rng.choice(self.teams)
        if kind < 0.3 and division.pools:
            pool = self.rng.choice(list(division.pools))
            return "place", pool, self.rng.randint(1, len(division.pools[pool]))
        return self.rng.choice(["winner", "loser"]), self.rng.choice(list(division.matches))

    def by_hand(self, name):
        """A match of any two different sources, among them the better and the worse of two."""
        sides = []
        while len(sides) < 2:
            side = self.some_side()
            if self.rng.random() < 0.3:
                side = (self.rng.choice(["better", "worse"]), side, self.some_side())
            if side not in sides:
                sides.append(side)
        self.fact(f"match {name} in U first {said(sides[0])} second {said(sides[1])}")
        self.expect("fine")
        self.division.matches[name] = Match(name, tuple(sides))

    def structure(self):
        self.drawn()
        for n in range(self.rng.choice([0, 0, 1, 3])):
            self.by_hand(f"Z{n}")

    def drawn(self):
        if self.rng.random() < 0.2:
            return self.bracket("M", [("team", t) for t in self.by_seed], "", 1)
        smallest = self.draw()
        last = self.rng.randint(1, min(3, smallest))
        self.crossed("M", 1, last, 1)
        if last < min(MOST_PLACES, smallest) and self.rng.random() < 0.6:
            self.crossed("S", last + 1, min(MOST_PLACES, smallest), last * len(self.division.pools) + 1)
        for _ in range(self.rng.choice([0, 0, 1, 2])):
            self.move()
        return None
