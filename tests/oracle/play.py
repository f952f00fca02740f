"""Random match scripts that mix legal acts with illegal ones, about one in five.

    play.py --profile international-2025 --seed 7      prints one script

The same profile and seed give the same script. The model follows the script while it is written, so
that the acts are likely ones; that it may judge them wrongly does no harm here.
"""

import argparse
import random

import oracle
import profiles
import script

ROSTER = {"A": list(range(1, 7)) + [11, 12, 13, 14, 21, 22],
          "B": list(range(31, 41)) + [41, 42]}
LIBEROS = {"A": [21, 22], "B": [41, 42]}
ILLEGAL = 0.2


class Writer:
    """Writes a script line by line; the model takes each line at once."""

    def __init__(self, profile_id, rng, wild=False):
        self.p = profiles.load(profile_id)
        self.rng = rng
        self.wild = wild
        self.model = oracle.Model(self.p)
        self.lines = [f"profile {profile_id}"]
        self.entries = 0
        self.answers = []        # of the model, one for each entry

    def say(self, line):
        self.lines.append(line)
        self.entries += 1
        fact = script.fact_of(script.words(line), self.p)
        self.answers.append(self.model.take(self.entries, fact))

    def odd(self, chance):
        return self.rng.random() < chance

    # before the set

    def open_match(self):
        rng = self.rng
        points = rng.choice([5, 8, 8, 12, 25])
        if self.odd(0.25):
            points, switch = rng.choice([10, 15]), rng.choice([5, 8])
            self.say(f"format best-of 1 deciding {points} switch {switch}")
        elif self.odd(0.1):
            self.say(f"format sets 2 points {points}")
        elif self.odd(0.1):
            self.say(f"format best-of 3 points {points} cap {points + 1} deciding 8 switch 4")
        else:
            self.say(f"format best-of 3 points {points} deciding {rng.choice([8, 15])} switch 4")
        for team in "AB":
            first = ROSTER[team][0]
            listed = ROSTER[team]
            captain = rng.choice(listed[:6] if self.odd(0.9) else listed)
            runs = f"{first}-{first + 5} " + " ".join(map(str, listed[6:]))
            self.say(f"team {team} players {runs} captain {captain}")
        self.say(f"toss serve {rng.choice('AB')} left {rng.choice('AB')}")

    def liberos_for(self, team, number):
        rng, two = self.rng, self.p["libero.per-set"] == 2
        named = {0: [None, None], 1: [LIBEROS[team][0], None], 2: list(LIBEROS[team])}
        boxes = named[rng.choice([0, 1, 2, 2] if two else [0, 1, 1])]
        if number > 1 and (self.odd(0.75) or not self.wild):
            known = self.model.match_liberos(team)
            boxes = (known + [None, None])[:2]
        if self.odd(0.05):
            boxes = [rng.choice(ROSTER[team][6:] + [None]), rng.choice(LIBEROS[team])]
        if boxes[0] is None:
            boxes.reverse()
        if boxes[0] == boxes[1]:
            boxes[1] = None
        words = ["none" if b is None else str(b) for b in boxes]
        if self.odd(0.06) and number == 1:
            words[1] = "?"
        return " ".join(words)

    def sheets(self, number):
        rng = self.rng
        for team in "AB":
            pool = ROSTER[team][:6] if self.odd(0.6) else rng.sample(ROSTER[team][:10], 6)
            order = rng.sample(pool, 6)
            if self.odd(0.04):
                order[rng.randrange(6)] = rng.choice(
                    [n for n in ROSTER[team] + [77] if n not in order])
            mark = ""
            if self.odd(0.15):
                mark = f" captain {rng.choice(order)}"
            line = f"lineup {team} " + " ".join(map(str, order))
            self.say(f"{line} liberos {self.liberos_for(team, number)}{mark}")
            if self.odd(0.04):
                self.say(f"lineup {team} " + " ".join(map(str, rng.sample(ROSTER[team][:6], 6)))
                         + f" liberos {self.liberos_for(team, number)}")
            if number == 1 and self.model.now().liberos[team] and self.odd(0.05):
                self.say(f"box {team} 2 {rng.choice(['none', str(LIBEROS[team][1])])}")
            if self.odd(0.95):
                self.say(f"checked {team}")
                if self.odd(0.02):
                    self.say(line + f" liberos {self.liberos_for(team, number)}")

    # in the dead ball

    def legal_replacements(self, team):
        m, look, found = self.model, self.model.now(), []
        for i, place in enumerate(look.places[team]):
            front = look.position(team, i) in oracle.FRONT_ROW
            if place.off is not None:
                found.append((place.off, place.on, 8 if front else 1))
                for libero in look.liberos[team]:
                    if libero != place.on and not front:
                        found.append((libero, place.on, 1))
            elif not front and not m.acting(team):
                for libero in look.liberos[team]:
                    found.append((libero, place.on, 2))
            elif look.position(team, i) == 0 and self.p["libero.serve-exception"]:
                for libero in look.liberos[team]:
                    found.append((libero, place.on, 1))
        return [(a, b, w) for a, b, w in found if None not in (a, b) and a != b]

    def replacement(self, team):
        rng, look = self.rng, self.model.now()
        if look.places[team] is None:
            return
        if self.odd(ILLEGAL):
            new = rng.choice(LIBEROS[team] * 12 + (
                ROSTER[team] + [77]))
            old = rng.choice([n for n in look.six(team) if n is not None] + [11])
            if new == old:
                return
            self.say(f"libero {team} {new} for {old}")
            if self.odd(0.3):
                self.say(f"libero {team} {old} for {new}")
            return
        moves = self.legal_replacements(team)
        if moves:
            new, old, _ = rng.choices(moves, [w for _, _, w in moves])[0]
            self.say(f"libero {team} {new} for {old}")

    def must_leave(self, team):
        """A libero in the front row goes out, mostly."""
        look = self.model.now()
        for i, place in enumerate(look.places[team] or []):
            if place.off is not None and place.on is not None and (
                    look.position(team, i) in oracle.FRONT_ROW):
                if self.odd(0.93):
                    self.say(f"libero {team} {place.off} for {place.on}")
                    return

    def substitution(self, team):
        rng, m, look = self.rng, self.model, self.model.now()
        if look.places[team] is None:
            return
        pairs = []
        six = [n for n in look.six(team) if n is not None]
        bench = [n for n in ROSTER[team] if n not in six]
        for _ in range(rng.choice([1, 1, 1, 2, 3])):
            if self.odd(ILLEGAL):
                pairs.append((rng.choice(ROSTER[team] + [77]), rng.choice(six + bench[:1])))
                continue
            legal = [(n, o) for o in six for n in bench if not m.against_pair(
                team, n, o, look.place_of(team, o))
                and n not in [a for a, _ in pairs] and o not in [b for _, b in pairs]]
            if legal:
                pairs.append(rng.choice(legal))
        if pairs:
            self.say(f"sub {team} " + " ".join(f"{n} for {o}" for n, o in pairs))

    def captain(self, team):
        look = self.model.now()
        if look.places[team] is None:
            return
        six = [n for n in look.six(team) if n is not None]
        if look.game_captain[team] is None and self.odd(0.9) and six:
            field = [n for n in six if n not in look.liberos[team]] or six
            self.say(f"captain {team} {self.rng.choice(six if self.odd(0.1) else field)}")
        elif self.odd(0.01):
            self.say(f"captain {team} {self.rng.choice(ROSTER[team])}")

    def redesignation(self, team):
        rng, look = self.rng, self.model.now()
        if look.places[team] is None:
            return
        liberos = look.liberos[team]
        if not liberos:
            return
        if self.odd(0.8):
            for libero in rng.sample(liberos, rng.randint(1, len(liberos))):
                cause = rng.choice(["injury", "illness", "declared"])
                self.say(f"unable {team} {libero} {cause}")
        if self.odd(0.6):
            bench = [n for n in ROSTER[team] if n not in look.six(team)]
            off = [p.off for p in look.places[team]]
            able = [n for n in bench if n not in off and n not in liberos
                    and not self.model.replaced(team, n)]
            new = rng.choice(ROSTER[team] if self.odd(ILLEGAL) else able or bench)
            old = rng.choice([n for n in liberos if n != new] or [ROSTER[team][-1]])
            self.say(f"redesignate {team} {new} for {old}")
            if self.odd(0.4):
                self.say(f"libero {team} {new} for {old}")

    def sanction(self, team):
        rng = self.rng
        if self.odd(0.4):
            due = "penalty" if self.model.delays(team) else "warning"
            level = rng.choice(["warning", "penalty"]) if self.odd(ILLEGAL) else due
            self.say(f"delay {team} {level}")
            return
        person = rng.choice(ROSTER[team] + ["bench"])
        levels = ["warning", "penalty", "expulsion", "disqualification"]
        level = rng.choices(levels, [3, 3, 1, 1])[0]
        self.say(f"misconduct {team} {person} {level}")

    def forced(self, team):
        """A player who may not stay is substituted, mostly."""
        m, look = self.model, self.model.now()
        for i, place in enumerate(look.places[team] or []):
            if place.on is None or not m.barred(team, place.on) or not self.odd(0.9):
                continue
            if place.off is not None:
                self.say(f"libero {team} {place.off} for {place.on}")
                return
            bench = [n for n in ROSTER[team] if look.place_of(team, n) is None]
            legal = [n for n in bench if not m.against_pair(team, n, place.on, i)]
            if legal:
                self.say(f"sub {team} {self.rng.choice(legal)} for {place.on}")
            else:
                self.say(f"exceptional {team} {self.rng.choice(bench)} for {place.on} expulsion")
            return

    def rulings(self, chance):
        """A referee rules on one verdict of a team; where it is accepted, the others of that team
        are settled by it."""
        for f in list(self.model.faults):
            if f not in self.model.faults or not self.odd(chance):
                continue
            if f.set != self.model.set_number or f.reason.startswith(
                    "redesignation") or f.reason == "team-short":
                self.say(f"ruling overrule {f.reason} {f.team}")
                continue
            decision = "accept" if self.odd(0.6) else "overrule"
            unknown = (decision == "accept" and f.reason in oracle.OF_THE_SERVICE
                       and self.odd(0.25))
            self.say(f"ruling {decision} {f.reason} {f.team}"
                     + (" moment-unknown" if unknown else ""))
            if self.over():
                return
            if decision == "accept":
                for g in list(self.model.faults):
                    if g in self.model.faults:
                        self.say(f"ruling overrule {g.reason} {g.team}")
                return

    def dead_ball(self):
        rng = self.rng
        for team in rng.sample("AB", 2):
            if self.over():
                return
            self.must_leave(team)
            self.forced(team)
            if self.odd(0.3):
                self.replacement(team)
            if self.odd(0.09):
                self.substitution(team)
            if self.odd(0.04):
                self.say(f"timeout {team}")
            if self.odd(0.01):
                self.say(f"improper {team}")
            if self.odd(0.02 if self.wild else 0):
                self.redesignation(team)
            if self.odd(0.03):
                self.sanction(team)
            if not self.over():
                self.captain(team)
        if not self.over() and len(self.model.faults) > (6 if self.wild else 3):
            self.rulings(0.8)
        elif not self.over():
            self.rulings(0.12 if self.wild else 0.3)

    def over(self):
        return self.model.stage() in ("set-over", "match-over")

    # the rally

    def call(self, team):
        """The first referee calls somebody who stood out of position."""
        six = [n for n in self.model.now().six(team) if n is not None]
        whom = self.rng.sample(six, min(len(six), self.rng.choice([0, 1, 2])))
        return " ".join(["positional-fault", team, *map(str, whom)])

    def interruption(self):
        """From outside; most matches go on where they were."""
        self.say("interrupted")
        if self.odd(0.3):
            self.sanction(self.rng.choice("AB"))
        how = self.rng.choices(["same-court", "other-court", "over-four-hours"], [6, 3, 1])[0]
        self.say(f"resumed {how}")
        stage = self.model.stage()
        if stage == "before-set":
            for team in "AB":
                if self.odd(0.9):
                    self.say(f"checked {team}")
        elif stage == "before-match":
            self.say(f"toss serve {self.rng.choice('AB')} left {self.rng.choice('AB')}")
            self.say("set 1")
            self.sheets(1)

    def rally(self):
        rng, m = self.rng, self.model
        if m.switch_due() and self.odd(0.85):
            self.say("switch")
        elif self.odd(0.004):
            self.say("switch")
        if self.odd(0.35):
            self.say("whistle")
            if self.odd(0.08):
                self.replacement(rng.choice("AB"))
            if self.odd(0.03):
                self.say(f"timeout {rng.choice('AB')}")
            if self.odd(0.02):
                self.sanction(rng.choice("AB"))
            if self.odd(0.02):
                self.substitution(rng.choice("AB"))
            if self.odd(0.05):
                self.rulings(0.3)
            if self.over():
                return
        if self.odd(0.9):
            look = m.now()
            if self.odd(0.03):
                team = look.serving if self.odd(0.9) else oracle.other(look.serving)
                six = [n for n in look.six(team) if n is not None] or ROSTER[team]
                self.say(f"serve {team} {rng.choice(six)}")
            else:
                self.say("serve")
            if m.stage() == "in-play":
                if self.odd(0.02):
                    self.sanction(rng.choice("AB"))
                if self.odd(0.02):
                    self.replacement(rng.choice("AB"))
                if self.odd(0.01):
                    self.say(f"timeout {rng.choice('AB')}")
                if self.odd(0.02):
                    self.substitution(rng.choice("AB"))
                if self.odd(0.02):
                    self.say(self.call(rng.choice("AB")))
                if self.odd(0.003):
                    self.interruption()
                    if m.stage() != "in-play":
                        return
                if self.odd(0.06) and m.faults:
                    self.rulings(0.4)
                    if self.over() or m.stage() != "in-play":
                        return
        if self.odd(0.03) and m.stage() == "in-play":
            self.say("replay")
            return
        if self.odd(0.003):
            self.say(self.call(rng.choice("AB")))    # without a service written down
        self.say(f"rally {rng.choice('AB')}")

    def play_set(self, number):
        self.say(f"set {number}")
        if self.over():
            return
        self.sheets(number)
        while not self.over() and self.entries < 400:
            self.dead_ball()
            if not self.over() and self.odd(0.002):
                self.interruption()
            if not self.over():
                self.rally()

    def play(self):
        self.open_match()
        wanted = self.rng.choice([1, 1, 1, 2, 3])
        number = 1
        while number <= wanted and self.model.stage() != "match-over" and self.entries < 300:
            self.play_set(number)
            number += 1
            if self.model.stage() == "set-over" and self.odd(0.1):
                self.sanction(self.rng.choice("AB"))
        return "\n".join(self.lines) + "\n"


def played(profile_id, seed, wild=False):
    """A script, and what the model answered to each of its entries."""
    writer = Writer(profile_id, random.Random(f"{profile_id} {seed}"), wild)
    return writer.play(), writer.answers


def script_for(profile_id, seed, wild=False):
    return played(profile_id, seed, wild)[0]


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--profile", default="international-2025")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    print(script_for(args.profile, args.seed), end="")


if __name__ == "__main__":
    main()
