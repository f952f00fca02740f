"""A pool in plain Python: its results, the sums of a team, and how it is written for event_probe."""

from dataclasses import dataclass, field
from fractions import Fraction


@dataclass
class Result:
    """`how`: points, sets or winner, as much as is known; or first, second or both, who did not play.

    `scores` of points and of a forfeit, `sets` of sets, `first_won` of winner.
    """
    first: int
    second: int
    order: int
    how: str
    scores: list = field(default_factory=list)
    sets: tuple = (0, 0)
    first_won: bool = False

    def set_counts(self):
        if self.how == "sets":
            return self.sets
        won = sum(a > b for a, b in self.scores)
        return won, len(self.scores) - won

    def winner(self):
        if self.how == "first":
            return self.second
        if self.how == "second":
            return self.first
        if self.how == "both":
            return None
        if self.how == "winner":
            return self.first if self.first_won else self.second
        a, b = self.set_counts()
        return self.first if a > b else self.second if b > a else None

    def lost_by(self, team):
        return self.how == "both" or self.winner() not in (None, team)

    def forfeited_by(self, team):
        return self.how == "both" or team == {"first": self.first, "second": self.second}.get(self.how)

    def turned(self):
        """The same match with the teams named the other way round."""
        how = {"first": "second", "second": "first"}.get(self.how, self.how)
        return Result(self.second, self.first, self.order, how, [s[::-1] for s in self.scores],
                      self.sets[::-1], not self.first_won)

    def renamed(self, to):
        return Result(to[self.first], to[self.second], self.order, self.how, self.scores, self.sets,
                      self.first_won)

    def written(self):
        head = f"M {self.first} {self.second} {self.order} {self.how}"
        if self.how == "winner":
            return f"{head} {1 if self.first_won else 2}"
        if self.how == "sets":
            return f"{head} {self.sets[0]} {self.sets[1]}"
        return " ".join([head] + [f"{a}-{b}" for a, b in self.scores])


@dataclass
class Sums:
    played: int = 0
    won: int = 0
    lost: int = 0
    worth: int = 0
    sets: int = 0
    sets_lost: int = 0
    points: int = 0
    points_lost: int = 0
    sets_known: bool = True
    points_known: bool = True

    def listed(self):
        return [self.played, self.won, self.lost, self.worth, self.sets, self.sets_lost,
                self.points, self.points_lost]


@dataclass
class Pool:
    teams: int
    results: list
    cuts: list = field(default_factory=list)
    withdrawn: dict = field(default_factory=dict)   # team: "struck" or "kept"
    decisions: list = field(default_factory=list)   # teams, best first; the last on the same stands

    def ranked(self):
        return [t for t in range(self.teams) if t not in self.withdrawn]

    def counted(self):
        struck = {t for t, how in self.withdrawn.items() if how == "struck"}
        return [r for r in self.results if not struck & {r.first, r.second}]

    def renamed(self, to, rng):
        """The same pool, its teams numbered anew and its results in another order."""
        results = [(r.turned() if rng.random() < 0.5 else r).renamed(to) for r in self.results]
        rng.shuffle(results)
        return Pool(self.teams, results, self.cuts, {to[t]: how for t, how in self.withdrawn.items()},
                    [[to[t] for t in d] for d in self.decisions])

    def written(self, chain, more=()):
        lines = [f"POOL {chain} {self.teams} " + " ".join(map(str, self.cuts))]
        lines += [r.written() for r in self.results]
        lines += [f"W {t} {how}" for t, how in self.withdrawn.items()]
        lines += ["D " + " ".join(map(str, d)) for d in self.decisions]
        return "\n".join([*lines, *more, "END\n"])


def sums(results, team, among, worth, forfeit):
    """What a team has over the matches between teams of `among`; `worth`: points of (won, lost)."""
    s = Sums()
    for r in results:
        if team not in (r.first, r.second) or not {r.first, r.second} <= among:
            continue
        s.played += 1
        s.won += r.winner() == team
        s.lost += r.lost_by(team)
        if r.forfeited_by(team):
            s.worth += forfeit
        if r.how == "winner":
            s.sets_known = s.points_known = False
            continue
        mine = r.set_counts()[:: 1 if team == r.first else -1]
        s.sets += mine[0]
        s.sets_lost += mine[1]
        if not r.forfeited_by(team):
            s.worth += worth.get(mine, 0)
        if r.how == "sets":
            s.points_known = False
        for score in r.scores:
            own = score[:: 1 if team == r.first else -1]
            s.points += own[0]
            s.points_lost += own[1]
    return s



def quotient(won, lost):
    """Comparable: something won and nothing lost is above any number, nothing of nothing is none."""
    if lost == 0:
        return (1, Fraction(0)) if won > 0 else (0, Fraction(0))
    return (0, Fraction(won, lost))


def share(won, lost):
    return (0, Fraction(won, won + lost) if won + lost else Fraction(0))
