"""Draw sheets of every bracket, filled in as a person does it: positions instead of a tree.

The entrant of position p meets that of position n+1-p; who wins stands in the better of the two
positions in the next round. An empty position is a bye: its opponent stands there without a match.
A side is ("team", seed), ("winner", match) or ("loser", match), matches by their number in the sheet.
"""

from dataclasses import dataclass, field

STAGES = {"main": 1, "losers": 2, "consolation": 3, "placement": 4, "third_place": 5, "final": 6}


def size_of(entrants):
    size = 1
    while size < entrants:
        size *= 2
    return size


def top_to_bottom(size):
    """The positions of a sheet from its top: beside each one the position that it meets."""
    order = [1]
    while len(order) < size:
        order = [p for seed in order for p in (seed, 2 * len(order) + 1 - seed)]
    return order


@dataclass
class Sheet:
    matches: list = field(default_factory=list)    # [side, side, stage, only if the second won]
    places: list = field(default_factory=list)     # (first, last, side)

    def meet(self, a, b, stage):
        """(winner, loser); against nobody there is no match."""
        if a is None or b is None:
            return a or b, None
        self.matches.append([a, b, stage, None])
        m = len(self.matches) - 1
        return ("winner", m), ("loser", m)

    def round(self, positions, stage):
        """Winners and losers of a round, both by the better position of their match."""
        half = len(positions) // 2
        met = [self.meet(positions[i], positions[-1 - i], stage) for i in range(half)]
        return [w for w, _ in met], [l for _, l in met]

    def knock_out(self, entrants, stage):
        """The winner, and the losers of every round."""
        positions = entrants + [None] * (size_of(len(entrants)) - len(entrants))
        out = []
        while len(positions) > 1:
            positions, losers = self.round(positions, stage)
            out.append(losers)
        return positions[0], out

    def place(self, sides):
        """The next places, shared by all of them."""
        sides = [s for s in sides if s]
        first = len(self.places) + 1
        self.places += [(first, first + len(sides) - 1, s) for s in sides]

    def name_final(self, winner):
        self.matches[winner[1]][2] = "final"


def single(entrants, third=False):
    sheet = Sheet()
    winner, out = sheet.knock_out(entrants, "main")
    sheet.name_final(winner)
    sheet.place([winner])
    for n, losers in enumerate(reversed(out)):
        if third and n == 1 and None not in losers:
            for side in sheet.meet(*losers, "third_place"):
                sheet.place([side])
        else:
            sheet.place(losers)
    return sheet


def in_turn(losers, main_round):
    """How the beaten of a round of the main part come to that of the losers: those of the second
    round from the bottom of the sheet, those of the third its second half first, and so on."""
    half = len(losers) // 2
    return losers[::-1] if main_round % 2 == 0 else losers[half:] + losers[:half]


def double(entrants, second=False):
    sheet = Sheet()
    positions = entrants + [None] * (size_of(len(entrants)) - len(entrants))

    def listed(by_position):
        return [by_position[p - 1] for p in top_to_bottom(len(by_position))]

    def neighbours(listed_sides):
        met = [sheet.meet(*listed_sides[i:i + 2], "losers") for i in range(0, len(listed_sides), 2)]
        out.append([l for _, l in met])
        return [w for w, _ in met]

    out = []
    positions, losers = sheet.round(positions, "main")
    beaten = listed(losers)                        # once, from the top of the sheet
    main_round = 1
    while len(positions) > 1:
        main_round += 1
        beaten = neighbours(beaten)
        positions, losers = sheet.round(positions, "main")
        fresh = in_turn(listed(losers), main_round)
        beaten = neighbours([side for two in zip(beaten, fresh) for side in two])
    winner, loser = sheet.meet(positions[0], beaten[0], "final")
    if second and loser:
        first_final = len(sheet.matches) - 1
        winner, loser = sheet.meet(winner, loser, "final")
        sheet.matches[-1][3] = first_final
    sheet.place([winner])
    sheet.place([loser])
    for losers in reversed(out):
        sheet.place(losers)
    return sheet


def placement(entrants):
    """The beaten stand below the winners in the order in which they were expected to lose."""
    sheet = Sheet()

    def play(group, stage):
        if len(group) == 1:
            sheet.place(group)
            return group[0]
        winners, losers = sheet.round(group + [None] * (size_of(len(group)) - len(group)), stage)
        best = play(winners, stage)
        play([l for l in reversed(losers) if l], "placement")
        return best

    sheet.name_final(play(entrants, "main"))
    return sheet


def consolation(entrants):
    """Who lost at once plays on: the beaten of the first round, and those of the second whose match
    was with one who had a bye."""
    sheet = Sheet()
    winner, out = sheet.knock_out(entrants, "main")
    sheet.name_final(winner)
    first = [l for l in reversed(out[0]) if l] if len(out) > 1 else []
    second = []
    if len(out) > 2:
        # Both sides of such a match are winners of a match where no bye was.
        second = [l for l in out[1] if any(kind == "team" for kind, _ in sheet.matches[l[1]][:2])]

    def may_repeat(order):
        """Pairs of the first round of the consolation who may have met in the main part."""
        size = size_of(len(order))
        pairs = [(order[p], order[size - 1 - p]) for p in range(size // 2) if size - 1 - p < len(order)]
        return sum(a in second and b not in second and ("winner", b[1]) in sheet.matches[a[1]][:2]
                   for a, b in pairs)

    turns = [second + first[n:] + first[:n] for n in range(max(1, len(first)))]
    beaten = min(turns, key=may_repeat)
    sheet.place([winner])
    for losers in reversed(out):
        sheet.place([l for l in losers if l not in beaten])
    if len(beaten) == 1:
        sheet.place(beaten)
    elif beaten:
        again, out = sheet.knock_out(beaten, "consolation")
        sheet.place([again])
        for losers in reversed(out):
            sheet.place(losers)
    return sheet


def sheet_of(kind, entrants):
    return {
        "single": lambda: single(entrants),
        "single-third": lambda: single(entrants, third=True),
        "double": lambda: double(entrants),
        "double-second": lambda: double(entrants, second=True),
        "placement": lambda: placement(entrants),
        "consolation": lambda: consolation(entrants),
    }[kind]()


class Names:
    """The same number for the same match, whatever it is called where it comes from."""

    def __init__(self):
        self._numbers = {}

    def of(self, matches, places):
        """The matches and places of a bracket as sets that can be compared; `matches` in an order in
        which each comes after those that it waits for."""
        numbers = []

        def side(source):
            kind, of = source[0], source[1]
            return (kind, of) if kind == "team" else (kind, numbers[of])

        for a, b, stage, only in matches:
            key = (frozenset((side(a), side(b))), stage, None if only is None else numbers[only])
            numbers.append(self._numbers.setdefault(key, len(self._numbers)))
        return sorted(numbers), sorted((first, last, side(s)) for first, last, s in places)
