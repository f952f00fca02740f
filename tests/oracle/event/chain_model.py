"""Follows a rule chain through a pool: reads the chain's file, and has its own arithmetic.

The words of a chain are those of shared-core/include/courthand/standings/chain.h. Written from them,
not from the program: a group of level teams goes down the list, the first step that tells them apart
divides it, and each part starts again or goes on.
"""

import tomllib
from dataclasses import dataclass, field
from fractions import Fraction

from pool_model import quotient, share, sums

NEEDS_POINTS = {"point-quotient", "point-percentage", "point-difference", "points-against"}
NEEDS_SETS = {"match-points", "set-quotient", "set-percentage", "set-difference"}
LESS_IS_BETTER = {"points-against", "lost-to-all-others"}


class Chain:
    def __init__(self, text):
        read = tomllib.loads(text)
        self.id = read["id"]
        self.steps = read["step"]
        self.restarts = read["after-split"]["value"] == "restart"
        self.first_tied = read["mutual-among"]["value"] == "first-tied"
        self.last_resort = read["last-resort"]["value"]
        worth = {k: v["value"] for k, v in read.get("match-points", {}).items()}
        self.forfeit = worth.pop("forfeit", 0)
        self.worth = {(int(k[0]), int(k[2])): v for k, v in worth.items()}


@dataclass
class Place:
    number: int
    teams: list
    because: list                 # (step, teams compared, their values)
    decision: int | None = None
    open: str | None = None       # why a decision is needed
    decider: str = "lot"


@dataclass
class Walk:
    """A group of level teams on its way."""
    teams: list
    number: int = 1
    step: int = 0
    because: list = field(default_factory=list)
    tied_at_first: frozenset | None = None


class Ranking:
    def __init__(self, chain, pool, trace=True):
        self.chain, self.pool, self.trace = chain, pool, trace
        self.results = pool.counted()
        self.places = []
        self._sums = {}
        if pool.ranked():
            self._go(Walk(pool.ranked()))

    # --- values ---------------------------------------------------------------------------------

    def sums(self, team, among=None):
        key = team, among
        if key not in self._sums:
            self._sums[key] = sums(self.results, team, among or set(range(self.pool.teams)),
                                   self.chain.worth, self.chain.forfeit)
        return self._sums[key]

    def _swept(self, team, others, won):
        """Every match against each of the others won (or lost), and at least one against each."""
        met = set()
        for r in self.results:
            other = r.second if r.first == team else r.first if r.second == team else None
            if other not in others:
                continue
            met.add(other)
            if (r.winner() != team) if won else not r.lost_by(team):
                return False
        return met == others

    def _last_winner(self, two):
        played = [r for r in self.results if {r.first, r.second} == set(two)]
        return max(played, key=lambda r: r.order).winner() if played else None

    def _value(self, criterion, team, walk, among):
        if criterion == "last-match":
            return (0, Fraction(self._last_winner(walk.teams) == team))
        if criterion in ("beat-all-others", "lost-to-all-others"):
            others = set(walk.teams) - {team}
            return (0, Fraction(self._swept(team, others, criterion == "beat-all-others")))
        s = self.sums(team, among)
        return {
            "matches-won": lambda: (0, Fraction(s.won)),
            "match-points": lambda: (0, Fraction(s.worth)),
            "set-quotient": lambda: quotient(s.sets, s.sets_lost),
            "set-percentage": lambda: share(s.sets, s.sets_lost),
            "set-difference": lambda: (0, Fraction(s.sets - s.sets_lost)),
            "point-quotient": lambda: quotient(s.points, s.points_lost),
            "point-percentage": lambda: share(s.points, s.points_lost),
            "point-difference": lambda: (0, Fraction(s.points - s.points_lost)),
            "points-against": lambda: (0, Fraction(s.points_lost)),
        }[criterion]()

    def _values(self, step, walk, among):
        """By team; nothing when a score that the step needs is not known."""
        criterion = step["criterion"]
        for team in walk.teams:
            s = self.sums(team, among)
            if (criterion in NEEDS_POINTS and not s.points_known) or \
                    (criterion in NEEDS_SETS and not s.sets_known):
                return None
        return {t: self._value(criterion, t, walk, among) for t in walk.teams}

    # --- the walk -------------------------------------------------------------------------------

    def _meant(self, step, walk):
        tied = step.get("tied", "any")
        return tied == "any" or (tied == "two") == (len(walk.teams) == 2)

    def _among(self, step, walk):
        if step["matches"] == "all":
            return None
        walk.tied_at_first = walk.tied_at_first or frozenset(walk.teams)
        return walk.tied_at_first if self.chain.first_tied else frozenset(walk.teams)

    def _note(self, walk, index, values):
        """A step over all matches that has been taken says the same again: it is not told twice."""
        told = {i for i, _, _ in walk.because}
        if self.trace and not (self.chain.steps[index]["matches"] == "all" and index in told):
            walk.because.append((index, tuple(walk.teams), tuple(values[t] for t in walk.teams)))

    def _go(self, walk):
        if len(walk.teams) == 1:
            self.places.append(Place(walk.number, walk.teams, walk.because))
            return
        for index in range(walk.step, len(self.chain.steps)):
            step = self.chain.steps[index]
            if not self._meant(step, walk):
                continue
            last = walk.number + len(walk.teams) - 1
            if step.get("play-off-if-cut") and any(walk.number <= c < last for c in self.pool.cuts):
                return self._end(walk, "place-matters")
            among = self._among(step, walk)
            values = self._values(step, walk, among)
            if values is None:
                return self._end(walk, "scores-missing")
            self._note(walk, index, values)
            if len(set(values.values())) > 1:
                return self._divide(walk, index, values)
        return self._end(walk, "chain-ended")

    def _divide(self, walk, index, values):
        less = self.chain.steps[index]["criterion"] in LESS_IS_BETTER
        number = walk.number
        for value in sorted(set(values.values()), reverse=not less):
            part = Walk([t for t in walk.teams if values[t] == value], number, 0, list(walk.because))
            if not self.chain.restarts:
                part.step, part.tied_at_first = index + 1, walk.tied_at_first
            number += len(part.teams)
            self._go(part)

    def _end(self, walk, why):
        for i in reversed(range(len(self.pool.decisions))):
            order = self.pool.decisions[i]
            if set(order) == set(walk.teams):
                for n, team in enumerate(order):
                    self.places.append(Place(walk.number + n, [team], walk.because, i))
                return
        decider = "play-off" if why == "place-matters" else self.chain.last_resort
        self.places.append(Place(walk.number, walk.teams, walk.because, None, why, decider))
