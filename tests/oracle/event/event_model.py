"""A division in plain Python: pools, brackets, results, and what they settle.

Acts are tuples; `apply` answers as an event script would: "fine", or the word of the finding. Sides are
("team", name), ("winner", match), ("loser", match), ("place", pool, place), and ("better", side, side) or
("worse", side, side) by seed.
"""

from dataclasses import dataclass, field

from chain_model import Ranking
from pool_model import Pool, Result

POINTS, DECIDING, LEAD = 25, 15, 2


@dataclass
class Match:
    name: str
    sides: tuple
    only_if_second_won: str | None = None


@dataclass
class Division:
    """What does not change once everything is drawn."""
    chain: object
    sets: int                                      # best of
    struck: bool                                   # results of a team that leaves
    cuts: list
    pools: dict = field(default_factory=dict)      # name: teams
    pool_matches: dict = field(default_factory=dict)   # name: matches in their order
    matches: dict = field(default_factory=dict)    # name: Match, pools before brackets
    by_seed: list = field(default_factory=list)    # all teams
    places: list = field(default_factory=list)     # (first, last, side)


@dataclass
class Played:
    teams: tuple
    how: str                                       # as pool_model.Result
    scores: list

    def first_won(self):
        """None when nobody did."""
        if self.how in ("first", "second", "both"):
            return {"first": False, "second": True}.get(self.how)
        return sum(a > b for a, b in self.scores) > len(self.scores) / 2


def points_of(division, number):
    return DECIDING if number == division.sets else POINTS


def legal(division, scores):
    """Whether a match can have ended so."""
    won = [0, 0]
    for number, (a, b) in enumerate(scores, 1):
        high, low, points = max(a, b), min(a, b), points_of(division, number)
        if max(won) > division.sets // 2:
            return False
        if not (high == points and low <= points - LEAD or high > points and low == high - LEAD):
            return False
        won[a < b] += 1
    return max(won) > division.sets // 2


def completed(division, scores, first_lost):
    """The loser keeps points and sets, the other is given what is missing."""
    done = [list(s) for s in scores]
    loser = 0 if first_lost else 1
    if done:
        number, (a, b) = len(done), done[-1]
        high, low, points = max(a, b), min(a, b), points_of(division, number)
        over = high == points and low <= points - LEAD or high > points and low == high - LEAD
        if not over:
            done[-1][1 - loser] = max(points, done[-1][loser] + LEAD)
    while max(sum(s[i] > s[1 - i] for s in done) for i in (0, 1)) <= division.sets // 2:
        done.append([0, 0])
        done[-1][1 - loser] = points_of(division, len(done))
    return [tuple(s) for s in done]


class State:
    def __init__(self, division):
        self.division = division
        self.results, self.withdrawn = {}, []
        self.decisions = {name: [] for name in division.pools}
        self.acts = []                             # [act, whether it counts]
        self._settled = {}

    # --- what follows ---------------------------------------------------------------------------

    def team(self, side):
        """Who stands there; None while it is open."""
        if side not in self._settled:
            self._settled[side] = self._team(side)
        return self._settled[side]

    def _team(self, side):
        if side[0] == "team":
            return side[1]
        if side[0] == "place":
            return self._placed(side[1], side[2])
        if side[0] in ("better", "worse"):
            two = self.team(side[1]), self.team(side[2])
            rank = self.division.by_seed.index
            return None if None in two else (min if side[0] == "better" else max)(two, key=rank)
        winner = self._winner(side[1])
        if winner is None:
            return None
        first, second = self.division.matches[side[1]].sides
        return self.team(first if winner == (side[0] == "winner") else second)

    def sides(self, match):
        return tuple(self.team(s) for s in self.division.matches[match].sides)

    def counts(self, match):
        result = self.results.get(match)
        if result is None or self.sides(match) != result.teams:
            return False
        before = self.division.matches[match].only_if_second_won
        return before is None or self._winner(before) is False

    def _winner(self, match):
        """Whether the first side won; None when it is not known."""
        before = self.division.matches[match].only_if_second_won
        if before is not None and self._winner(before) is not False:
            return self._winner(before)
        return self.results[match].first_won() if self.counts(match) else None

    def ranking(self, name):
        teams = self.division.pools[name]
        results = []
        for order, match in enumerate(self.division.pool_matches[name]):
            if self.counts(match):
                played = self.results[match]
                results.append(Result(*map(teams.index, played.teams), order, played.how, played.scores))
        how = "struck" if self.division.struck else "kept"
        gone = {teams.index(t): how for t in self.withdrawn if t in teams}
        decisions = [[teams.index(t) for t in order] for order, _ in self.decisions[name]]
        return Ranking(self.division.chain, Pool(len(teams), results, self.division.cuts, gone, decisions))

    def waits(self, name):
        """Matches of a pool that are still to come."""
        return [m for m in self.division.pool_matches[name]
                if not self.counts(m) and not set(self.sides(m)) & set(self.withdrawn)]

    def _placed(self, name, number):
        if self.waits(name):
            return None
        return next((self.division.pools[name][p.teams[0]] for p in self.ranking(name).places
                     if p.number == number and len(p.teams) == 1), None)

    def changed_by_reopening(self, match):
        """Matches that have other sides then, or another result that counts, in their order."""
        def seen():
            self._settled = {}
            return {m: (self.sides(m), m in self.results, self.counts(m)) for m in self.division.matches}

        before = seen()
        result = self.results.pop(match)
        after = seen()
        self.results[match] = result
        self._settled = {}
        return [m for m in self.division.matches if before[m] != after[m]]

    # --- acts -----------------------------------------------------------------------------------

    def apply(self, act):
        self.acts.append([act, True])
        if act[0] == "take-back":
            return self._take_back(act[1])
        answer = getattr(self, "_" + act[0])(*act[1:])
        self._settled = {}
        return answer

    def _take_back(self, number):
        """Everything anew without that act."""
        self.acts[number][1] = False
        kept = self.acts
        self.__init__(self.division)
        self._again(kept)
        self.acts = kept
        return "fine"

    def _again(self, acts, without=None):
        """The acts that count, but for one; which of them have no effect, by number."""
        failed = set()
        for n, (act, counts) in enumerate(acts):
            if counts and n != without and act[0] != "take-back":
                if getattr(self, "_" + act[0])(*act[1:]) != "fine":
                    failed.add(n)
                self._settled = {}
        return failed

    def hang_on(self, number):
        """Acts that would have no effect any more if that one were taken back."""
        before = State(self.division)._again(self.acts)
        return sorted(State(self.division)._again(self.acts, number) - before)

    def _refused(self, match):
        if match in self.results:
            return "result-there"
        if None in self.sides(match):
            return "sides-unknown"
        if len(set(self.sides(match))) == 1:
            return "sides-impossible"
        before = self.division.matches[match].only_if_second_won
        return "not-played" if before is not None and self._winner(before) is not False else None

    def _result(self, match, scores):
        why = self._refused(match)
        if why or not legal(self.division, scores):
            return why or "score-impossible"
        self.results[match] = Played(self.sides(match), "points", scores)
        return "fine"

    def _award(self, match, how, team, stood):
        """`team`: who lost; None when both did."""
        why = self._refused(match)
        if why:
            return why
        if how == "double-default":
            self.results[match] = Played(self.sides(match), "both", [])
            return "fine"
        if team not in self.sides(match):
            return "not-a-side"
        loser = self.sides(match).index(team)
        scores = completed(self.division, stood, loser == 0)
        if not legal(self.division, scores):
            return "score-impossible"
        ending = "points" if how == "team-short" else ("first", "second")[loser]
        self.results[match] = Played(self.sides(match), ending, scores)
        return "fine"

    def _reopen(self, match):
        return "fine" if self.results.pop(match, None) else "result-missing"

    def _withdrawn(self, team):
        if team in self.withdrawn:
            return "withdrawn"
        self.withdrawn.append(team)
        return "fine"

    def _decision(self, pool, order, by):
        self.decisions[pool].append((order, by))
        return "fine"
