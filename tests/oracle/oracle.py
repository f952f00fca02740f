"""The second model of the rules: slow, plain, and written from the rule books, not from the core.

It keeps lists of what happened (the match, the present set, the faults) and works out every answer
by reading these lists from their beginning. Nothing is counted along the way.

    oracle.py FILE...      JSON lines: for each entry the verdicts it raised, opened, cleared or had
                           ruled, the verdicts that stand, score, service and both sixes
"""

import functools
import json
import sys

import profiles
import script

FRONT_ROW = (1, 2, 3)        # positions II, III, IV, counted from 0
MOST_STANDING = 12           # more verdicts than that are reported once and not kept

# What a fault is, by its reason. An act is wrong in itself and may be put right until the service;
# a condition merely is so and is looked at when the service comes; a request is refused at once; a
# notice is something a person must be told or asked, and is gone after the next rally.
ACTS = {
    "libero-no-completed-rally", "libero-wrong-returner", "libero-front-row",
    "libero-two-on-court", "libero-not-designated", "libero-before-check", "libero-before-switch",
    "libero-in-substitution", "libero-unable", "libero-during-replay", "libero-for-disqualified",
    "libero-not-starting", "redesignated-player-returns", "redesignated-player-other-role",
    "player-barred", "sub-wrong-pair", "sub-reentry-used", "sub-wrong-position",
    "sub-not-on-roster", "exceptional-not-allowed",
}
SHEET = {"lineup-duplicate", "lineup-not-on-roster", "lineup-libero-as-starter",
         "designation-changed", "designation-mixed", "libero-limit", "captain-is-libero"}
CONDITIONS = {"captain-missing", "team-short", "sub-required", "libero-box-unconfirmed",
              "lineup-missing", "player-unregistered", "switch-due"}
AT_THE_HIT = {"positional-fault"}          # of one service hit, and called by a referee
OF_THE_SERVICE = {"wrong-server", "libero-may-not-serve", "libero-second-serving-position"}
PERSONAL = {"libero-front-row", "player-barred", "player-unregistered",
            "redesignated-player-returns"}
REQUESTS = {"timeout-limit", "sub-limit", "sub-second-request", "sub-no-completed-rally",
            "sub-after-rejection", "improper-request", "sub-before-set"}


def other(team):
    return "B" if team == "A" else "A"


@functools.cache
def reachable(high, low, points, lead, cap):
    """Whether a set comes to this score when it is played point by point and stops once it is won."""
    if (high, low) == (0, 0):
        return True
    for before in ((high - 1, low), (high, low - 1)):
        more, less = max(before), min(before)
        won = more >= points and more - less >= lead or cap and more >= cap
        if less >= 0 and not won and reachable(more, less, points, lead, cap):
            return True
    return False


class Place:
    """One place of the serving order: who is entitled to it, who is off for a libero, who stands
    there; and who has stood there in this set."""

    def __init__(self, starter):
        self.starter = self.regular = self.on = starter
        self.off = None

    def copy(self):
        twin = Place(self.starter)
        twin.regular, twin.on, twin.off = self.regular, self.on, self.off
        return twin

    def same(self, twin):
        return (self.regular, self.on, self.off) == (twin.regular, twin.on, twin.off)


class Look:
    """The present set as its list of happenings tells it, read from the beginning. A look is never
    changed: reading on makes another one."""

    def __init__(self, happenings, profile):
        self.p = profile
        self.stage = "before-set"
        self.score = {"A": 0, "B": 0}
        self.serving = "A"
        self.turns = {"A": 0, "B": 0}
        self.places = {"A": None, "B": None}
        self.boxes = {"A": None, "B": None}
        self.liberos = {"A": [], "B": []}
        self.checked = {"A": False, "B": False}
        self.captain = {"A": None, "B": None}       # of the set's start
        self.game_captain = {"A": None, "B": None}  # on court now
        self.subs = {"A": [], "B": []}              # (in, out, place of a pair, place)
        self.sub_count = {"A": 0, "B": 0}
        self.let_in = {"A": [], "B": []}            # overruled: they have come in all the same
        self.request = {"A": False, "B": False}
        self.rejected = {"A": False, "B": False}
        self.time_outs = {"A": 0, "B": 0}
        self.gap = {"A": None, "B": None}           # completed rallies at the last replacement
        self.free = {"A": None, "B": None}          # an acting libero became unable
        self.injured = {"A": None, "B": None}
        self.pending = []
        self.serving_place = {"A": None, "B": None}
        self.completed = 0
        self.replaying = False
        self.switched = False
        self.hits = 0
        self.read(happenings)

    def read_on(self, happenings):
        """The look after these happenings too."""
        later = Look.__new__(Look)
        later.__dict__ = {name: dict(value) if name not in ("p", "pending") and
                          isinstance(value, dict) else value
                          for name, value in self.__dict__.items()}
        later.read(happenings)
        return later

    def read(self, happenings):
        for h in happenings:
            getattr(self, "_" + h[0])(*h[1:])
            if h[0] == "again" and self.p["libero.replay-completes-rally"]:
                self.completed += 1
            if h[0] == "again" and self.p["substitution.after-replay"]:
                self._end_of_interruption()

    # each happening, and what it makes of the set

    def _begin(self, first, start):
        self.serving = first
        self.score = {"A": start, "B": start}

    def _sheet(self, team, order, boxes, liberos, captain, known):
        self.places[team] = [Place(n) for n in order]
        self.boxes[team], self.liberos[team] = list(boxes), list(liberos)
        self.captain[team] = captain
        self.subs[team], self.let_in[team] = [], []
        self.gap[team] = None
        self.request[team] = False
        if captain in order and (captain not in known or self.p["libero.game-captain"]):
            self.game_captain[team] = captain
        else:
            self.game_captain[team] = None

    def _boxes(self, team, boxes, liberos):
        self.boxes[team], self.liberos[team] = list(boxes), list(liberos)

    def _liberos(self, team, liberos):
        self.liberos[team] = list(liberos)

    def _check(self, team):
        self.checked[team] = True

    def _uncheck(self):
        self.checked = {"A": False, "B": False}

    def _stage(self, stage):
        self.stage = stage

    def _hit(self, team, player, faulty, whose_turn):
        self.stage = "in-play"
        self.request = {"A": False, "B": False}
        self.hits += 1
        self.replaying = False
        self.free = {"A": None, "B": None}
        self.injured = {"A": None, "B": None}

    def _libero_serves(self, team, place):
        self.serving_place[team] = place

    def _won(self, team):
        self.free = {"A": None, "B": None}    # free only where the rally is not completed
        self.stage = "dead-ball"
        self._point(team, "rally")

    def _again(self):
        self.stage = "dead-ball"
        self.replaying = True
        self.request = {"A": False, "B": False}
        self.hits -= 1

    def _point(self, team, why):
        self.score[team] += 1
        if why != "ruling":
            self.completed += 1
        if self.serving != team:
            self.serving = team
            self.turns[team] += 1
        if self.stage == "whistled":
            self.stage = "dead-ball"
        if why != "ruling":
            self.replaying = False
        if why != "ruling":
            self._end_of_interruption()

    def _end_of_interruption(self):
        self.request = {"A": False, "B": False}
        self.rejected = {"A": False, "B": False}

    def _cancel(self, team, points):
        self.score[team] -= points

    def _score(self, a, b):
        self.score = {"A": a, "B": b}

    def _turn_back(self, team):
        self.turns[team] -= 1
        self.serving = other(team)

    def _place(self, team, i, on, regular, off):
        was = [p.on for p in self.places[team]]
        self._place_again(team, i, on, regular, off)
        self._who_is_captain(team, was)

    def _place_again(self, team, i, on, regular, off):
        place = self.places[team][i].copy()
        place.on, place.regular, place.off = on, regular, off
        self.places[team] = self.places[team][:i] + [place] + self.places[team][i + 1:]

    def _clean(self, team):
        pass

    def _entitled(self, team, i, player):
        place = self.places[team][i]
        self._place_again(team, i, place.on, player, place.off)

    def _who_is_captain(self, team, was):
        """The captain of the start is captain whenever he is back, a stand-in until he leaves."""
        now = [p.on for p in self.places[team]]
        libero = self.captain[team] in self.liberos[team] and not self.p["libero.game-captain"]
        if self.captain[team] in now and not libero:
            self.game_captain[team] = self.captain[team]
        elif self.game_captain[team] not in now:
            self.game_captain[team] = None

    def _captain_looked_up(self, team):
        self._who_is_captain(team, [])

    def _named(self, team, player):
        self.game_captain[team] = player

    def _replacement(self, team, entry):
        self.gap[team] = self.completed

    def _gap(self, team, value):
        self.gap[team] = value

    def _sub(self, team, new, old, place, makes_pair, _):
        self.subs[team] = self.subs[team] + [(new, old, place if makes_pair else None, place)]
        self.sub_count[team] += 1

    def _subs(self, team, subs, count):
        self.subs[team] = list(subs)
        self.sub_count[team] = count

    def _let_in(self, team, player, step):
        players = list(self.let_in[team])
        if step > 0:
            players.append(player)
        elif player in players:
            players.remove(player)
        self.let_in[team] = players

    def _sub_count(self, team, count):
        self.sub_count[team] = count

    def _request(self, team):
        self.request[team] = True

    def _asked_anew(self):
        self.request = {"A": False, "B": False}

    def _rejected(self, team):
        self.rejected[team] = True

    def _time_outs(self, team, step):
        self.time_outs[team] += step

    def _unable(self, team, libero):
        self.free[team] = libero

    def _injured(self, team, player):
        self.injured[team] = player

    def _stopped(self, winner):
        self.stage = "dead-ball"
        self.completed += 1
        self.request = {"A": False, "B": False}
        self.rejected = {"A": False, "B": False}
        self.free = {"A": None, "B": None}

    def _pending(self, team):
        self.pending = self.pending + [team]

    def _pending_done(self):
        self.pending = []

    def _switch(self):
        self.switched = True

    # questions

    def position(self, team, place):
        return (place - self.turns[team]) % 6

    def six(self, team):
        if self.places[team] is None:
            return [None] * 6
        return [self.places[team][(p + self.turns[team]) % 6].on for p in range(6)]

    def place_of(self, team, player):
        for i, place in enumerate(self.places[team] or []):
            if place.on == player and player is not None:
                return i
        return None


class Fault:
    """A verdict and its life so far."""

    def __init__(self, reason, team, phase, entry, number, players=(), place=None, before=None):
        self.reason, self.team, self.phase, self.entry = reason, team, phase, entry
        self.set, self.players, self.place = number, tuple(players), place
        self.before = before             # places, substitutions and gap before the act
        self.repeat = False              # the team did the same before in the match
        self.first_place = None          # of a request: the place of its first pair
        self.of_sheet = False            # written on the line-up sheet
        self.reaches_back = False        # it was there in finished sets


class Model:
    def __init__(self, profile):
        self.p = profile
        self.facts = []        # (entry, fact), all of them
        self.match = []        # happenings that outlive a set
        self.set = []          # happenings of the present set
        self.set_number = 0
        self.past = {}         # the happenings of the sets before, by number
        self.settled = []      # faults whose points have been taken back
        self.given = set()     # rallies at fault for which the rival was given a point
        self.faults = []       # every fault that stands, oldest first
        self.format = None
        self._seen = None

    # ---- reading the lists -----------------------------------------------------------------

    def now(self):
        if self._seen is None or self._seen[0] > len(self.set):
            self._seen = (len(self.set), Look(self.set, self.p))
        elif self._seen[0] < len(self.set):
            self._seen = (len(self.set), self._seen[1].read_on(self.set[self._seen[0]:]))
        return self._seen[1]

    def stage(self):
        if self.winner():
            return "match-over"
        if self.set_number == 0:
            return "before-match"
        return self.now().stage

    def playing(self):
        return (self.stage() in ("before-set", "dead-ball", "whistled", "in-play")
                and not self.interrupted())

    def roster(self, team):
        listed = []
        for h in self.match:
            if h[0] == "team" and h[1] == team:
                listed = h[2]
        return listed

    def team_captain(self, team):
        captain = None
        for h in self.match:
            if h[0] == "team" and h[1] == team:
                captain = h[3]
        return captain

    def results(self):
        return [h for h in self.match if h[0] == "result"]

    def sets_won(self, team):
        return sum(1 for h in self.results() if h[4] == team)

    def winner(self):
        for h in self.match:
            if h[0] == "winner":
                return h[1]
        return None

    def count(self, what, team, scope="match"):
        return sum(1 for h in self.match if h[0] == what and h[2] == team
                   and (scope == "match" or h[1] == self.sanction_set()))

    def delays(self, team):
        return self.count("delay", team, self.p["delay.scope"])

    def sanctions(self, team, person):
        return [h[4] for h in self.match if h[0] == "sanction" and h[2] == team and h[3] == person
                and (self.p["misconduct.scope"] == "match" or h[1] == self.sanction_set())]

    def interrupted(self):
        """Nobody plays until play is resumed."""
        state = False
        for h in self.match:
            if h[0] in ("interrupted", "resumed"):
                state = h[0] == "interrupted"
        return state

    def barred(self, team, player):
        """Expelled for this set, disqualified, or gone by exceptional substitution."""
        for h in self.match:
            if h[0] == "sanction" and h[2] == team and h[3] == player:
                if h[4] == "disqualification":
                    return True
                if h[4] == "expulsion" and h[1] == self.set_number:
                    return True
            if h[0] == "gone" and h[2] == team and h[3] == player:
                return True
        return False

    def in_scope(self, h):
        return self.p["redesignation.replaced-libero-out"] == "match" or h[1] == self.set_number

    def unable(self, team, player):
        """As declared; a sheet that names the liberos anew says that he can play."""
        return any(h[0] == "unable" and h[2] == team and h[3] == player and (
            h[1] == self.set_number or self.in_scope(h) and self.fixed_for_the_match(team))
                   and (h[4] != "declared" or self.p["redesignation.declaration-is-enough"])
                   for h in self.match)

    def replaced(self, team, player):
        """Another one was re-designated in his place."""
        state = False
        for h in self.match:
            if h[0] == "replaced" and h[2] == team and h[3] == player and self.in_scope(h):
                state = True
            if h[0] == "new-libero" and h[2] == team and h[3] == player:
                state = False
        return state

    def redesignated(self, team, player):
        return any(h[0] == "new-libero" and h[2] == team and h[3] == player
                   and self.in_scope(h)
                   for h in self.match)

    def match_liberos(self, team):
        """The liberos of the match: of the first sheet, with the re-designations since."""
        named = []
        for h in self.match:
            if h[0] == "designated" and h[2] == team:
                named = list(h[3])
            if h[0] == "new-libero" and h[2] == team:
                named = list(h[4])
        return named

    def first_sheet(self, team):
        """How many liberos the sheet of the first set named; None before it is in."""
        named = None
        for h in self.match:
            if h[0] == "designated" and h[2] == team:
                named = len(h[3])
        return named

    def fixed_for_the_match(self, team):
        scope = self.p["libero.designation"]
        if self.set_number == 1 or scope == "set":
            return False
        return scope == "match" or self.first_sheet(team) == 2

    # ---- points, and the rallies at fault -----------------------------------------------------

    def rallies(self, number=None):
        """The services of this set: (serving team, server, faults at the hit, winner or None).
        Winner is "again" for a rally that was replayed, None while the ball is in play."""
        found = []
        happenings = self.set if number in (None, self.set_number) else self.past[number]
        for at, h in enumerate(happenings):
            if h[0] == "hit":
                found.append([h[1], h[2], h[3], None, False, h[4], at])
            elif h[0] == "won" and found and found[-1][3] is None:
                found[-1][3] = h[1]
            elif h[0] == "again" and found and found[-1][3] is None:
                found[-1][3] = "again"
            elif h[0] == "stopped" and found and found[-1][3] is None:
                found[-1][3:5] = [h[1], True]
        return found

    def at_fault(self, fault):
        return [r for r in self.rallies(fault.set) if fault in r[2]]

    def cancelled_points(self, fault):
        """How many points of the team at fault are taken back."""
        points = 0
        for serving, _, faults, winner, stopped, _, _ in self.rallies(fault.set):
            if self.p["fault.cancels"] == "present-term-of-service" and serving != fault.team:
                points = 0
            if any(f in faults and f.team == fault.team for f in self.settled):
                continue                  # those points are gone already
            if fault in faults and winner == fault.team and not stopped:
                points += 1
        return points

    def played_with(self, fault):
        return any(r[3] in ("A", "B", None) for r in self.at_fault(fault))

    # ---- verdicts and remedies ----------------------------------------------------------------

    def delay_remedy(self, team):
        if self.delays(team) + 1 >= self.p["delay.point-from"]:
            return ("delay-penalty", team, 0)
        return ("delay-warning", team, 0)

    def improper_remedy(self, team):
        if self.p["improper-request.first-is-free"] and self.count("improper", team) == 0:
            return ("record-only", team, 0)
        return self.delay_remedy(team)

    def remedy(self, f):
        """(action, team it addresses, points cancelled) as of now."""
        if f.reason in OF_THE_SERVICE | AT_THE_HIT:
            return ("point-and-service", other(f.team), self.cancelled_points(f))
        if f.reason == "sub-limit" and self.played_with(f):
            return ("point-and-service", other(f.team), self.cancelled_points(f))
        if f.reason in REQUESTS:
            return self.improper_remedy(f.team)
        if f.reason == "libero-late-replacement":
            return self.delay_remedy(f.team) if f.repeat else ("inform", f.team, 0)
        if f.reason.startswith("redesignation-"):
            return ("refuse", f.team, 0)
        if f.reason == "recovery-not-open":
            return ("refuse", f.team, 0)
        if f.reason == "lineup-missing":
            return self.delay_remedy(f.team)
        if f.reason == "team-short":
            return ("incomplete", f.team, 0)
        if f.reason == "sub-required":
            return ("correct", f.team, 0)
        if f.reason in ("switch-due", "score-impossible"):
            return ("correct", f.team, 0)
        if f.reason in ("designation-changed", "designation-mixed", "libero-limit",
                        "captain-is-libero", "lineup-libero-as-starter"):
            return ("correct", f.team, 0)
        if f.reason in ACTS or f.reason in SHEET or f.reason == "player-unregistered":
            if self.played_with(f) or (f.phase == "open" and self.opens(f.reason) == "whistle"
                                       and self.now().stage == "whistled"):
                return ("point-and-service", other(f.team), self.cancelled_points(f))
            if f.reason in PERSONAL | SHEET | {"redesignated-player-other-role"}:
                return ("correct", f.team, 0)
            return self.delay_remedy(f.team)
        return ("ask", f.team, 0)

    def verdict(self, f, phase=None):
        action, team, cancel = self.remedy(f)
        return {"phase": phase or f.phase, "reason": f.reason, "team": f.team, "action": action,
                "to": team, "cancel": cancel}

    def keep(self, f):
        if len(self.faults) < MOST_STANDING:
            self.faults.append(f)

    def standing_of(self, reason, team):
        return [f for f in self.faults if f.reason == reason and f.team == team]

    # ---- one entry --------------------------------------------------------------------------

    def take(self, entry, fact):
        """Takes one more fact; the answer is what it raised, and what stands after it."""
        self.act(entry, fact)
        return self.answer()

    def act(self, entry, fact):
        self.facts.append((entry, fact))
        self.entry = entry
        self.raised, self.cleared = [], []
        getattr(self, "on_" + fact[0].replace("-", "_"), self.on_nothing)(*fact[1:])
        if self.set and self.stage() not in ("set-over", "match-over"):
            if not self.switch_due():
                for f in [f for f in self.faults if f.reason == "switch-due"]:
                    self.clear(f)
            for team in "AB":
                self.settle_conditions(team)
        elif self.set:
            # The last point brought service and rotation: who was in the front row is not any more.
            self.settle_conditions(self.now().serving, but=CONDITIONS | SHEET | ACTS - PERSONAL)

    def answer(self):
        look = self.now() if self.set else None
        out = {"raised": [said if isinstance(said, dict) else self.verdict(f, said)
                          for f, said in self.raised + self.cleared],
               "standing": [self.verdict(f) for f in self.faults],
               "stage": self.stage(), "set": self.set_number,
               "sets": {t: self.sets_won(t) for t in "AB"}}
        for t in "AB":
            out[t] = {"six": look.six(t) if look else [None] * 6,
                      "captain": look.game_captain[t] if look else None}
        out["score"] = dict(look.score) if look else {"A": 0, "B": 0}
        out["serving"] = look.serving if look else "A"
        out["server"] = out[out["serving"]]["six"][0]
        return out

    def add(self, reason, team, phase, **more):
        f = Fault(reason, team, phase, self.entry, self.set_number, **more)
        f.mark = len(self.set)
        f.completed = self.now().completed if self.set else 0
        self.keep(f)
        self.raised.append((f, phase))
        if (reason in ACTS or reason == "sub-limit") and self.set and self.now().stage == "in-play":
            self.present_rally().append(f)   # it is at fault too
        return f

    def present_rally(self):
        """The faults of the rally that is being played."""
        return [h for h in self.set if h[0] == "hit"][-1][3]

    def ask(self, reason, team, **more):
        return self.add(reason, team, "open", **more)

    def act_phase(self, reason):
        """Whether an illegal act is only armed, or counts already."""
        stage, opens = self.now().stage, self.opens(reason)
        if stage == "in-play" or opens == "at-once":
            return "open"
        if stage == "whistled" and opens == "whistle":
            return "open"
        return "armed"

    def opens(self, reason):
        """The moment from which an illegal act counts under this profile."""
        if reason == "libero-front-row":
            return self.p["libero.front-row-opens"]
        if reason.startswith("libero-"):
            return self.p["libero.illegal-replacement-opens"]
        return "service-contact"

    def out_of_sequence(self, team=None):
        """Of the team that the fact names; of the serving team where it names none."""
        self.ask("out-of-sequence", team or (self.now().serving if self.set else "A"))

    def on_nothing(self, *_):
        pass

    # before the match

    def on_format(self, value):
        self.format = value

    def on_team(self, team, listed, captain):
        self.match.append(("team", team, listed, captain))
        for f in self.standing_of("roster-too-long", team):
            self.clear(f)
        if len(listed) > self.p["roster.most-listed"]:
            self.ask("roster-too-long", team)

    def on_toss(self, serves, left):
        self.match.append(("toss", self.set_number, serves, left))

    def deciding(self, number):
        return "sets" not in self.format and number == self.format["best-of"]

    def points_needed(self):
        return self.format["deciding" if self.deciding(self.set_number) else "points"]

    def on_set(self, number):
        played = len(self.results())
        stage = self.stage()
        if stage not in ("before-match", "set-over") or number != played + 1 or self.interrupted():
            self.out_of_sequence("A")
            return
        for f in list(self.faults):
            if f.reason == "player-unregistered" and (self.at_fault(f) or f.reaches_back):
                f.set, f.mark = number, 0        # it reaches back into finished sets
                f.reaches_back, f.place = True, None
            else:
                self.clear(f)                    # the result of the finished set stands
        tosses = [h for h in self.match if h[0] == "toss"]
        first = tosses[-1][2] if tosses else "A"
        if number > 1 and not (self.deciding(number) and tosses[-1][1] == number - 1):
            firsts = [h[2] for h in self.match if h[0] == "first"]
            first = other(firsts[-1])
        pending = [h[1] for h in self.match if h[0] == "waiting"]
        self.match = [h for h in self.match if h[0] != "waiting"]
        self.past[self.set_number] = self.set
        self.set_number = number
        self.match.append(("first", number, first))
        self.set = [("begin", first, self.format["start"])]
        self._seen = None
        for team in self.in_order(pending):
            self.penalty_point(team)

    # line-ups

    def named_liberos(self, team, boxes):
        return [b for b in boxes if b not in ("?", None)]

    def set_liberos(self, team, boxes):
        named = self.named_liberos(team, boxes)
        if self.fixed_for_the_match(team):
            return self.match_liberos(team)
        return [n for n in dict.fromkeys(named) if not self.replaced(team, n)]

    def on_lineup(self, team, order, boxes, captain):
        stage = self.stage()
        look = self.now() if self.set else None
        late = stage == "whistled" and look.places[team] is None
        if stage != "before-set" and not late:
            if self.set:
                self.ask("lineup-changed", team)
            else:
                self.out_of_sequence(team)
            return
        changed = look.checked[team]
        of_sheet = SHEET | ACTS
        for f in [f for f in self.faults if f.team == team and f.set == self.set_number
                  and f.phase == "armed" and f.reason in of_sheet]:
            self.clear(f)
        named = self.named_liberos(team, boxes)
        if self.set_number == 1:
            self.match.append(("designated", 1, team, list(dict.fromkeys(named))))
        whose = captain if captain is not None else self.team_captain(team)
        before_naming = self.match_liberos(team)
        liberos = self.set_liberos(team, boxes)
        self.set.append(("sheet", team, order, boxes, liberos, whose, liberos))
        if changed:
            self.ask("lineup-changed", team)
        raised = len(self.raised)
        self.judge_sheet(team, order, named, captain, whose, before_naming)
        for f, _ in self.raised[raised:]:
            f.of_sheet = bool(f.players) and (f.players[0] not in order or f.players[0] in named)
        self.settle_conditions(team)

    def judge_sheet(self, team, order, named, captain, whose, match_liberos):
        listed = self.roster(team)
        worn = [n for n in order if n is not None]
        liberos = self.set_liberos(team, self.now().boxes[team])
        for n in sorted(set(n for n in worn if worn.count(n) > 1)):
            self.add("lineup-duplicate", team, "armed", players=(n,))
        for n in list(dict.fromkeys(worn + named)):
            if n not in listed:
                f = self.add("lineup-not-on-roster", team, "armed", players=(n,))
                f.starter = n in worn
        for n in dict.fromkeys(named):
            if self.barred(team, n):
                self.add("player-barred", team, "armed", players=(n,))
            elif self.replaced(team, n):
                self.add("redesignated-player-returns", team, "armed", players=(n,))
        for n in dict.fromkeys(worn):
            if n in liberos and not self.barred(team, n):
                if self.redesignated(team, n):
                    self.add("redesignated-player-other-role", team, "armed", players=(n,))
                else:
                    self.add("lineup-libero-as-starter", team, "armed", players=(n,))
            elif self.replaced(team, n) and not self.barred(team, n):
                self.add("redesignated-player-returns", team, "armed", players=(n,))
            if self.barred(team, n):
                self.add("player-barred", team, "armed", players=(n,))
        if len(named) > self.p["libero.per-set"]:
            self.add("libero-limit", team, "armed")
        if self.fixed_for_the_match(team):
            for n in dict.fromkeys(named):
                if n not in match_liberos and not self.replaced(team, n):
                    self.add("designation-changed", team, "armed", players=(n,))
        elif self.p["libero.designation"] == "match-or-set" and self.set_number > 1:
            if len(named) > 1:
                self.add("designation-mixed", team, "armed")
        role = "team" if whose == self.team_captain(team) else "game"
        if whose in liberos and not self.p[f"libero.{role}-captain"]:
            self.add("captain-is-libero", team, "armed", players=(whose,))

    def on_box(self, team, i, value):
        look = self.now() if self.set else None
        if look is None or look.places[team] is None:
            self.out_of_sequence(team)
            return
        boxes = list(look.boxes[team])
        boxes[i] = value
        named = self.named_liberos(team, boxes)
        if self.set_number == 1:
            self.match.append(("designated", 1, team, named))
        before_naming = self.match_liberos(team)
        self.set.append(("boxes", team, boxes, self.set_liberos(team, boxes)))
        for f in [f for f in self.faults if f.team == team and f.phase == "armed"
                  and f.reason in SHEET and f.set == self.set_number]:
            self.clear(f)
        look = self.now()
        order = [p.starter for p in look.places[team]]
        self.judge_sheet(team, order, named, None, look.captain[team], before_naming)
        self.settle_conditions(team)

    def on_checked(self, team):
        if not self.set or self.now().places[team] is None:
            self.out_of_sequence(team)
            return
        self.set.append(("check", team))

    # ---- the service ------------------------------------------------------------------------

    def conditions(self, team):
        """What merely is so and must not be so at the service: (reason, players, place)."""
        look = self.now()
        if look.places[team] is None:
            return [("lineup-missing", (), None)]
        found = []
        for position in range(6):
            i = (position + look.turns[team]) % 6
            place = look.places[team][i]
            if place.on is None:
                continue
            if self.barred(team, place.on):
                found.append(("player-barred", (place.on,), i))
            elif place.on not in self.roster(team):
                found.append(("player-unregistered", (place.on,), i))
            if look.position(team, i) in FRONT_ROW and (
                    place.on in look.liberos[team] or place.off is not None):
                found.append(("libero-front-row", (place.on,), i))
            if self.replaced(team, place.on) and not self.barred(team, place.on):
                found.append(("redesignated-player-returns", (place.on,), i))
        if any(p.on is None for p in look.places[team]):
            if self.p["team.six-must-play"]:
                found.append(("team-short", (), None))
            elif self.bench(team):
                found.append(("sub-required", (), None))
            elif self.p["team.six-must-start"] and (
                    self.match_begins() or self.standing_of("team-short", team)):
                found.append(("team-short", (), None))
        if look.game_captain[team] is None:
            found.append(("captain-missing", (), None))
        if (self.p["libero.box-needs-confirmation"] and not self.fixed_for_the_match(team)
                and "?" in look.boxes[team]):
            found.append(("libero-box-unconfirmed", (), None))
        return found

    def match_begins(self):
        """No rally of the match has been decided."""
        return self.set_number == 1 and all(r[3] in (None, "again") for r in self.rallies())

    def switch_due(self):
        look = self.now()
        return (self.deciding(self.set_number) and not look.switched
                and max(look.score.values()) >= self.format["switch"])

    def bench(self, team):
        """Players who could come in for an empty place."""
        look = self.now()
        return [n for n in self.roster(team) if look.place_of(team, n) is None
                and n not in look.liberos[team] and not self.barred(team, n)
                and not any(p.off == n for p in look.places[team])]

    def conditions_at(self, phase):
        for team in "AB":
            for reason, who, place in self.conditions(team):
                if self.standing_of(reason, team):
                    continue
                if reason == "libero-box-unconfirmed" and self.now().hits:
                    continue             # asked about before play, not during it
                before = self.snapshot(team)
                f = self.add(reason, team, phase, players=who, place=place, before=before)
                if reason == "player-unregistered":
                    f.reaches_back = any(self.score_at_first_unregistered(n, team) is not None
                                         for n in range(1, self.set_number))
        if self.switch_due() and not any(f.reason == "switch-due" for f in self.faults):
            self.add("switch-due", self.now().serving, phase)

    def settle_conditions(self, team, but=frozenset()):
        """A condition that is no longer so, before it counted, is cleared."""
        if not self.set:
            return
        found = self.conditions(team)
        for f in [f for f in self.faults if f.team == team and (
                f.phase == "armed" or f.reason == "captain-is-libero"
                or f.reason in CONDITIONS - {"player-unregistered"}
                or f.reason in PERSONAL | {"lineup-not-on-roster"} and not f.reaches_back
                and not self.played_with(f))]:
            if f.reason in but or f.reaches_back:
                continue
            if (f.reason in CONDITIONS and f.set != self.set_number
                    and self.now().places[team] is None):
                continue
            if f.reason in CONDITIONS - {"switch-due", "player-unregistered"}:
                if not any(r == f.reason for r, _, _ in found):
                    self.clear(f)
            elif f.reason == "lineup-duplicate":
                if self.now().six(team).count(f.players[0]) < 2:
                    self.clear(f)
            elif f.reason == "lineup-not-on-roster":
                if f.starter and self.now().place_of(team, f.players[0]) is None:
                    self.clear(f)
            elif f.reason == "captain-is-libero":
                captain = self.now().game_captain[team]
                if captain is not None and captain not in self.now().liberos[team]:
                    self.clear(f)            # another one is captain
            elif f.reason in PERSONAL and not f.of_sheet:
                if not any(r == f.reason and who == f.players[:1] for r, who, _ in found):
                    self.clear(f)

    def clear(self, f):
        self.faults.remove(f)
        self.cleared.append((f, self.verdict(f, "cleared")))

    def on_whistle(self):
        stage = self.stage()
        if stage not in ("before-set", "dead-ball") or self.interrupted():
            self.out_of_sequence()
            return
        for f in self.faults:
            if f.phase == "armed" and f.reason in ACTS and self.opens(f.reason) == "whistle":
                f.phase = "open"
                self.raised.append((f, "open"))
        self.set.append(("stage", "whistled"))
        before = len(self.raised)
        self.conditions_at("armed")
        for f, phase in list(self.raised[before:]):
            if f.reason == "libero-front-row" and self.opens(f.reason) != "service-contact":
                f.phase = "open"
        self.raised[before:] = [(f, f.phase) for f, _ in self.raised[before:]]

    def on_serve(self, team, player):
        stage = self.stage()
        if stage not in ("before-set", "dead-ball", "whistled") or self.interrupted():
            self.out_of_sequence()
            return
        self.hit(team, player)

    def hit(self, team, player):
        look = self.now()
        if player is None:
            team, player = look.serving, look.six(look.serving)[0]
        for f in list(self.faults):
            if f.phase == "armed":
                f.phase = "open"
                self.raised.append((f, "open"))
        opened = [f for f, _ in self.raised]
        self.conditions_at("open")
        self.judge_server(team, player)
        unkept = [f for f, _ in self.raised if f not in self.faults]
        faulty = [f for f in self.faults + unkept if self.still_wrong(f, team, player)]
        self.set.append(("hit", team, player, faulty, look.serving))

    def judge_server(self, team, player):
        look = self.now()
        right = look.six(look.serving)[0]
        if team != look.serving or player != right:
            same = [f for f in self.standing_of("wrong-server", team)
                    if f.players[0] == player]
            if not same:
                self.add("wrong-server", team, "open", players=(player, right))
        place = look.place_of(team, player)
        if player is None or place is None:
            return
        stands_in = look.places[team][place].off is not None
        if player not in look.liberos[team] and not stands_in:
            return
        if self.p["libero.serving-positions"] == 0:
            if not self.standing_of("libero-may-not-serve", team):
                self.add("libero-may-not-serve", team, "open", players=(player,), place=place)
        elif look.serving_place[team] is None:
            self.set.append(("libero_serves", team, place))
        elif look.serving_place[team] != place:
            if not self.standing_of("libero-second-serving-position", team):
                self.add("libero-second-serving-position", team, "open", players=(player,),
                         place=place)

    def still_wrong(self, f, serving, server):
        """Whether the fault is there at this service hit."""
        look = self.now()
        if f.set != self.set_number or f.reason in AT_THE_HIT:
            return False
        if f.reason == "wrong-server":
            right = look.six(look.serving)[0]
            return f.team == serving and server == f.players[0] and (
                server != right or serving != look.serving)
        if f.reason == "libero-may-not-serve":
            return f.team == serving and server == f.players[0]
        if f.reason == "libero-second-serving-position":
            return (f.team == serving and server == f.players[0]
                    and look.place_of(f.team, server) != look.serving_place[f.team])
        if f.reason == "libero-front-row":
            i = look.place_of(f.team, f.players[0])
            return i is not None and look.position(f.team, i) in FRONT_ROW
        if f.reason in ("player-unregistered", "player-barred", "redesignated-player-returns"):
            return look.place_of(f.team, f.players[0]) is not None
        if f.reason in SHEET:
            return True
        if f.place is not None and f.players:
            return look.places[f.team][f.place].on == f.players[0]
        return bool(f.players) and look.place_of(f.team, f.players[0]) is not None

    def on_positional_fault(self, team, *players):
        """The first referee calls it; before a service was written down, of the expected one."""
        if not self.playing():
            self.out_of_sequence(team)
            return
        if self.stage() != "in-play":
            self.hit(None, None)
            self.raised = [(f, self.verdict(f)) for f, _ in self.raised]
        serving = self.now().serving
        if team == serving and not self.p["fault.serving-team-in-order"]:
            if not any(f.players[:1] == players[:1]
                       for f in self.standing_of("positional-fault-of-servers", team)):
                self.ask("positional-fault-of-servers", team, players=players)
            return
        if any(f.reason in OF_THE_SERVICE and f.team != team and f in self.faults
               for f in self.present_rally()):
            return                       # the server was at fault first
        if any(f.reason == "positional-fault" and f.team == team and f.players[:1] == players[:1]
               for f in self.present_rally()):
            return                       # the same call
        f = self.add("positional-fault", team, "open", players=players)
        self.present_rally().append(f)

    def end_calls(self, winner):
        """The rally is decided against the team that was called, or played again."""
        for f in [f for f in self.faults if f.reason in AT_THE_HIT
                  and f in self.present_rally() and winner != f.team]:
            self.clear(f)

    # ---- rallies ----------------------------------------------------------------------------

    def on_rally(self, team):
        stage = self.stage()
        if not self.playing():
            self.out_of_sequence(team)
            return
        if stage != "in-play":
            self.hit(None, None)
            self.raised = [(f, said if isinstance(said, dict) else self.verdict(f))
                           for f, said in self.raised]                  # as of the service
        self.drop_notices()
        self.end_calls(team)
        self.set.append(("won", team))
        waiting = self.in_order(self.now().pending)
        self.set.append(("pending_done",))
        self.end_set_if_over()
        for penalised in waiting:
            self.penalty_point(penalised)

    def drop_notices(self):
        """What a person was told or asked is behind us once a rally has been played."""
        self.faults = [f for f in self.faults
                       if self.remedy(f)[0] not in ("ask", "inform") or f.reason in CONDITIONS
                       or f.reason in OF_THE_SERVICE]

    def on_replay(self):
        if self.stage() != "in-play":
            self.out_of_sequence()
            return
        self.rally_again()

    def rally_again(self):
        self.end_calls(None)
        self.set.append(("again",))
        for team in "AB":
            self.settle_conditions(team)
        waiting = self.in_order(self.now().pending)
        self.set.append(("pending_done",))
        for penalised in waiting:
            self.penalty_point(penalised)

    def in_order(self, teams):
        """Penalties of both teams: the serving team's come first."""
        serving = self.now().serving
        return [t for t in teams if t == serving] + [t for t in teams if t != serving]

    def penalty_point(self, team):
        """A penalty of this team: point and service to its opponent."""
        if self.stage() in ("set-over", "match-over"):
            self.match.append(("waiting", team))
        elif self.stage() == "in-play":
            self.set.append(("pending", team))
        else:
            self.set.append(("point", other(team), "penalty"))
            self.end_set_if_over()

    def end_set_if_over(self):
        look = self.now()
        if self.stage() in ("set-over", "match-over"):
            return
        high, low = max(look.score.values()), min(look.score.values())
        cap = self.format["deciding-cap" if self.deciding(self.set_number) else "cap"]
        over = high >= self.points_needed() and high - low >= self.format["lead"]
        if over or (cap and high >= cap):
            self.end_set("A" if look.score["A"] > look.score["B"] else "B")

    def end_set(self, winner):
        look = self.now()
        self.match.append(("result", self.set_number, look.score["A"], look.score["B"], winner))
        self.set.append(("stage", "set-over"))
        for f in [f for f in self.faults if f.phase == "armed" or f.reason == "switch-due"]:
            self.clear(f)                # its service will not come
        self.decide_match()

    def decide_match(self):
        self.match = [h for h in self.match if h[0] != "winner"]
        if "sets" in self.format:
            if len(self.results()) == self.format["sets"]:
                lead = self.sets_won("A") - self.sets_won("B")
                self.match.append(("winner", "A" if lead > 0 else "B"))
            return
        for team in "AB":
            if self.sets_won(team) > self.format["best-of"] // 2:
                self.match.append(("winner", team))

    # ---- libero replacements ------------------------------------------------------------------

    def snapshot(self, team):
        look = self.now()
        return ([p.copy() for p in look.places[team]] if look.places[team] else None,
                list(look.subs[team]), look.gap[team], look.sub_count[team])

    def acting(self, team):
        """(place, libero) of every libero who now stands in for somebody."""
        look = self.now()
        return [(i, p.on) for i, p in enumerate(look.places[team]) if p.off is not None]

    def on_libero(self, team, new, old):
        if not self.playing():
            if self.interrupted():
                self.out_of_sequence(team)
            else:
                self.ask("libero-out-of-place", team, players=(new, old))
            return
        look = self.now()
        if look.places[team] is None:
            self.ask("libero-out-of-place", team, players=(new, old))
            return
        i = look.place_of(team, old)
        if i is not None and self.put_back(team, new, old, i):
            return                           # taken back, or the right man comes in time
        i = self.place_leaving(team, new, old)
        to_serve = self.moves_to_serve(team, new, i)
        if i is None or new == old or (look.place_of(team, new) is not None and not to_serve):
            self.ask("libero-out-of-place", team, players=(new, old))
            return
        before = self.snapshot(team)
        place = look.places[team][i]
        leaving = place.off is not None or old in look.liberos[team]
        reasons = (self.against_leaving(team, new, old, i) if leaving
                   else self.against_entry(team, new, old, i))
        if look.stage in ("whistled", "in-play"):
            self.late(team, new, old, i, before)
        for reason in reasons:
            self.add(reason, team, self.act_phase(reason), players=(new, old), place=i,
                     before=before)
        if leaving and new == place.off and (place.on is None or new not in look.liberos[team]):
            self.set.append(("place", team, i, new, place.regular, None))
        elif leaving and (new in look.liberos[team] or self.replaced(team, new)):
            off = place.off if place.off is not None else old     # nobody loses his place by it
            self.set.append(("place", team, i, new, place.regular, off))
        elif leaving:                    # somebody who is not entitled to it
            self.set.append(("place", team, i, new, place.regular, None))
        else:
            self.set.append(("place", team, i, new, place.regular, old))
        if to_serve:
            for j, was in enumerate(look.places[team]):
                if was.on == new and j != i:     # his place is empty until his man is back
                    self.set.append(("place", team, j, None, was.regular, was.off))
        self.set.append(("replacement", team, self.entry))
        self.settle_conditions(team)

    def place_leaving(self, team, new, old):
        look = self.now()
        places = [i for i, p in enumerate(look.places[team]) if p.on == old]
        for i, p in enumerate(look.places[team]):
            if p.on is None and p.off == new and look.place_of(team, new) is None:
                return i                     # the place that a libero has left to go and serve
        return places[0] if places else None

    def moves_to_serve(self, team, new, i):
        """The acting libero goes straight to position I as the next server."""
        look = self.now()
        return (i is not None and self.p["libero.serve-exception"] and new in look.liberos[team]
                and look.serving == team and look.position(team, i) == 0
                and look.place_of(team, new) not in (None, i))

    def goes_to_serve(self, team, new, i):
        look = self.now()
        return (self.p["libero.serve-exception"] and new in look.liberos[team]
                and look.serving == team and look.position(team, i) == 0
                and look.serving_place[team] in (None, i))

    def put_back(self, team, new, old, i):
        """The team takes back an act that was not legal, before it counted."""
        look = self.now()
        wrong = [f for f in self.faults if f.team == team and f.phase == "armed" and f.place == i
                 and f.reason in ACTS and f.before and len(f.players) == 2
                 and f.before[0][i].on is not None]
        wrong = [f for f in wrong if look.place_of(team, f.before[0][i].on) is None
                 and look.place_of(team, new) is None]          # nobody stands in two places
        undone = [f for f in wrong if f.players == (old, new)]
        righted = [f for f in wrong if f.reason == "libero-wrong-returner" and f.players[0] == old
                   and f.before[0][i].off == new]
        if undone:
            places, _, gap, _ = undone[0].before
            self.set.append(("place", team, i, places[i].on, places[i].regular, places[i].off))
            self.set.append(("gap", team, gap))
        elif righted:
            place = righted[0].before[0][i]
            self.set.append(("place", team, i, new, place.regular, None))
        else:
            return False
        for f in undone or righted:
            self.clear(f)
        self.settle_conditions(team)
        return True

    def late(self, team, new, old, i, before):
        """After the whistle: the first time the captain is told, the next time it is a delay."""
        repeat = (self.p["libero.late-replacement"] == "delay-at-once"
                  or self.count("late", team) > 0 or self.now().stage == "in-play")
        if self.now().stage == "whistled":
            self.match.append(("late", self.set_number, team))
        f = Fault("libero-late-replacement", team, "open", self.entry, self.set_number,
                  (new, old), i, before)
        f.repeat = repeat
        f.first = self.now().stage == "whistled" and self.count("late", team) == 1
        f.mark = len(self.set)
        f.completed = self.now().completed
        self.keep(f)
        self.raised.append((f, "open"))

    def no_rally_between(self, team):
        look = self.now()
        return look.gap[team] is not None and look.gap[team] == look.completed

    def against_leaving(self, team, new, old, i):
        look, reasons = self.now(), self.against_any(team)
        place = look.places[team][i]
        entitled = new == place.off
        if look.free[team] == old and "libero-during-replay" in reasons:
            reasons.remove("libero-during-replay")       # he cannot stay
        if new in look.liberos[team] and self.not_the_starting_libero(team, new):
            reasons.append("libero-not-starting")
        if not entitled:
            if new in look.liberos[team] or self.replaced(team, new):
                reasons += self.against_libero(team, new)
            else:
                reasons.append("libero-wrong-returner")
                if self.barred(team, new):
                    reasons.append("player-barred")
        elif new in look.liberos[team]:
            reasons += self.against_libero(team, new)
        elif self.barred(team, new):
            reasons.append("player-barred")
        elif self.replaced(team, new):
            reasons.append("redesignated-player-returns")
        moved = place.on is None
        libero = new in look.liberos[team] or self.replaced(team, new) and not entitled
        if libero and look.position(team, i) in FRONT_ROW:
            reasons.append("libero-front-row")
        if libero and any(
                j != i and p.on not in (None, new)
                and (p.on in look.liberos[team] or p.off is not None)
                for j, p in enumerate(look.places[team])):
            reasons.append("libero-two-on-court")
        if (self.no_rally_between(team) and look.free[team] != old and not moved
                and not self.goes_to_serve(team, new, i)):
            reasons.append("libero-no-completed-rally")
        return reasons

    def against_libero(self, team, new):
        """Why this player may not act as libero now."""
        look = self.now()
        was_libero = self.replaced(team, new)
        if new not in look.liberos[team] and not was_libero:
            return ["libero-not-designated"]
        if self.barred(team, new):
            return ["player-barred"]
        if was_libero:
            return ["redesignated-player-returns"]
        if self.unable(team, new):
            return ["libero-unable"]
        return []

    def against_any(self, team):
        """Why no replacement at all is open to the team now."""
        look, reasons = self.now(), []
        if not look.checked[team]:
            reasons.append("libero-before-check")
        if self.switch_due() and not self.p["libero.replacement-while-switch-due"]:
            reasons.append("libero-before-switch")
        if look.replaying and not self.p["libero.replacement-during-replay"]:
            reasons.append("libero-during-replay")
        return reasons

    def not_the_starting_libero(self, team, new):
        """Where the first box names the libero who comes on first in the match."""
        look = self.now()
        return (self.p["libero.starting-libero"] and new in look.liberos[team]
                and look.gap[team] is None and self.set_number == 1
                and not (self.redesignated(team, new)    # he takes over the box
                         and self.replaced(team, look.boxes[team][0]))
                and look.boxes[team][0] not in ("?", None, new))

    def against_entry(self, team, new, old, i):
        look = self.now()
        reasons = self.against_libero(team, new) + self.against_any(team)
        if self.not_the_starting_libero(team, new):
            reasons.append("libero-not-starting")
        libero = new in look.liberos[team] or self.replaced(team, new)
        if libero and self.barred(team, old):
            reasons.append("libero-for-disqualified")
        if libero and look.position(team, i) in FRONT_ROW:
            reasons.append("libero-front-row")
        if libero and any(p.on != new and j != i and (
                p.on in look.liberos[team] or p.off is not None and p.on is not None)
                          for j, p in enumerate(look.places[team])):
            reasons.append("libero-two-on-court")
        if self.no_rally_between(team) and not self.goes_to_serve(team, new, i):
            reasons.append("libero-no-completed-rally")
        return reasons

    # ---- substitutions ------------------------------------------------------------------------

    def on_sub(self, team, pairs):
        stage = self.stage()
        if not self.playing():
            self.out_of_sequence(team)
            return
        look = self.now()
        if look.places[team] is None:
            self.ask("sub-before-set", team, players=pairs[0])
            for pair in pairs:
                self.ask("sub-player-not-on-court", team, players=pair)
            return
        # What is put right in time is no request, and comes before what is asked for.
        pairs = [pair for pair in pairs if not self.sub_taken_back(team, *pair)]
        if not pairs:
            return
        look, before = self.now(), self.snapshot(team)
        forced = all(self.forced(team, old) for _, old in pairs)
        against = None
        if stage in ("whistled", "in-play"):
            against = "improper-request"
        elif look.request[team] and not forced:
            against = "sub-second-request"
        elif look.replaying and not self.p["substitution.after-replay"] and not forced:
            against = "sub-no-completed-rally"
        elif look.rejected[team] and self.p["substitution.rejection-bars-requests"] and not forced:
            against = "sub-after-rejection"
        if against:
            f = self.ask(against, team, players=pairs[0], before=before)
        if not forced:
            self.set.append(("request", team))
        done = [(new, old) for new, old in pairs if self.one_pair(team, new, old)]
        if against:
            f.pairs = done
            f.first_place = look.place_of(team, pairs[0][1])
        self.settle_conditions(team)

    def sub_taken_back(self, team, new, old):
        """The team takes back a substitution that was not legal, before it counted."""
        look = self.now()
        i = look.place_of(team, old)
        if look.place_of(team, new) is not None:
            return False
        wrong = [f for f in self.faults if f.team == team and f.phase == "armed" and f.place == i
                 and (f.reason in ACTS or f.reason == "sub-limit") and f.before and f.players == (old, new)
                 and f.entry != self.entry
                 and (f.reason != "player-barred" or new not in look.liberos[team])]
        wrong += [f for f in self.faults if wrong and f.team == team and f.phase == "armed"
                  and f.entry == wrong[0].entry and f.place == i and f not in wrong]
        if not wrong:
            return False
        places = wrong[0].before[0]
        self.set.append(("place", team, i, places[i].on, places[i].regular, places[i].off))
        if not self.of_replacement(wrong[0]):
            subs = list(look.subs[team])
            subs.remove([s for s in subs if s[:2] == (old, new)][-1])
            self.set.append(("subs", team, subs, look.sub_count[team] - 1))
        for f in wrong:
            self.clear(f)
        self.settle_conditions(team)
        return True

    def of_replacement(self, f):
        return not any(h[0] == "sub" and h[6] == f.entry for h in self.set)

    def forced(self, team, player):
        return self.barred(team, player) or self.now().injured[team] == player

    def one_pair(self, team, new, old):
        """Judges and carries out one pair; False when nobody went in."""
        look = self.now()
        i = look.place_of(team, old)
        if i is None:
            self.ask("sub-player-not-on-court", team, players=(new, old))
            return False
        if look.place_of(team, new) is not None:
            self.ask("sub-player-on-court", team, players=(new, old), place=i)
            return False
        before = self.snapshot(team)
        reason = self.against_pair(team, new, old, i)
        if reason:
            self.add(reason, team, self.act_phase(reason), players=(new, old), place=i,
                     before=before)
        entitled = look.places[team][i].regular if reason else new
        self.set.append(("place", team, i, new, entitled, None))
        self.set.append(("sub", team, new, old, i, not reason, self.entry))
        return True

    def against_pair(self, team, new, old, i):
        look = self.now()
        place = look.places[team][i]
        if old in look.liberos[team] or place.off is not None:
            return "libero-in-substitution"
        if new not in self.roster(team):
            return "sub-not-on-roster"
        if self.replaced(team, new):
            return "redesignated-player-returns"
        if new in look.liberos[team]:
            return "libero-in-substitution"
        if self.barred(team, new):
            return "player-barred"
        if any(j != i and p.off == new for j, p in enumerate(look.places[team])):
            return "sub-wrong-pair"
        if look.sub_count[team] >= self.p["substitution.limit"]:
            return "sub-limit"
        return self.against_scheme(team, new, old, i)

    def against_scheme(self, team, new, old, i):
        look = self.now()
        places = look.places[team]
        starters = [p.starter for p in places]
        if self.p["substitution.scheme"] == "position":
            bound = {p.starter: j for j, p in enumerate(places)}
            for entered, _, j, _ in look.subs[team]:
                if j is not None:
                    bound.setdefault(entered, j)
            return "sub-wrong-position" if bound.get(new, i) != i else None
        used = [(a, b, j) for a, b, j, _ in look.subs[team]]
        if any(a == new and j is not None for a, _, j in used) or (
                new in look.let_in[team] and new not in starters):
            return "sub-reentry-used"
        if old == starters[i]:
            if new in starters or any(a == new and j != i for a, b, j in used):
                return "sub-wrong-pair"
            if any(j == i for _, _, j in used):
                return "sub-reentry-used"
            if any(a == new for a, _, _ in used):
                return "sub-reentry-used"
            return None
        if new != starters[i] or not any(
                (a, b) == (old, new) and j == i for a, b, j in used):
            return "sub-wrong-pair"
        return "sub-reentry-used" if any(a == new for a, _, j in used) else None

    def on_exceptional(self, team, new, old, cause):
        if not self.playing():
            self.out_of_sequence(team)
            return
        look = self.now()
        i = look.place_of(team, old)
        if i is None:
            self.ask("sub-player-not-on-court", team, players=(new, old))
            return
        if look.place_of(team, new) is not None:
            self.ask("sub-player-on-court", team, players=(new, old))
            return
        before, already = self.snapshot(team), len(self.raised)
        sanction = cause in ("expulsion", "disqualification")
        if self.regular_possible(team, old, i):
            self.ask("exceptional-not-needed", team, players=(new, old))
        elif (look.places[team][i].off is not None or old in look.liberos[team]
              or new in look.liberos[team] and not self.p["substitution.exceptional-by-libero"]):
            self.illegal("libero-in-substitution", team, new, old, i, before)
        elif (any(p.off == new for p in look.places[team]) or self.barred(team, new)
              or (sanction and not self.p["substitution.exceptional-after-sanction"])):
            self.illegal("exceptional-not-allowed", team, new, old, i, before)
        legal = len(self.raised) == already
        entitled = new if legal else look.places[team][i].regular
        self.set.append(("place", team, i, new, entitled, None))
        self.match.append(("gone", self.set_number, team, old, self.entry))
        self.settle_conditions(team)

    def illegal(self, reason, team, new, old, i, before):
        self.add(reason, team, self.act_phase(reason), players=(new, old), place=i, before=before)

    def regular_possible(self, team, old, i):
        return any(self.against_pair(team, n, old, i) is None for n in self.roster(team)
                   if self.now().place_of(team, n) is None)

    # ---- other acts ---------------------------------------------------------------------------

    def on_timeout(self, team):
        stage = self.stage()
        if not self.playing():
            self.out_of_sequence(team)
            return
        look = self.now()
        before = self.snapshot(team)
        reason = None
        if stage in ("whistled", "in-play"):
            reason = "improper-request"
        elif look.time_outs[team] >= self.p["time-out.limit"]:
            reason = "timeout-limit"
        elif look.rejected[team] and self.p["substitution.rejection-bars-requests"]:
            reason = "sub-after-rejection"
        if reason:
            f = self.ask(reason, team, before=before)
            f.time_out = True
        elif self.p["substitution.second-request-after-time-out"]:
            self.set.append(("asked_anew",))
        self.set.append(("time_outs", team, 1))

    def on_improper(self, team):
        free = self.p["improper-request.first-is-free"] and self.count("improper", team) == 0
        if not free:
            self.ask("improper-request", team)
        self.match.append(("improper", self.set_number, team))

    def on_captain(self, team, player):
        if not self.set or self.now().places[team] is None:
            self.ask("captain-not-on-court", team, players=(player,))
            return
        look = self.now()
        if look.place_of(team, player) is None:
            self.ask("captain-not-on-court", team, players=(player,))
            return
        if player in look.liberos[team] and not self.p["libero.game-captain"]:
            self.add("captain-is-libero", team, "armed", players=(player,))
        self.set.append(("named", team, player))
        self.settle_conditions(team)

    def on_unable(self, team, libero, cause):
        look = self.now() if self.set else None
        liberos = look.liberos[team] if look else []
        if libero not in liberos or self.replaced(team, libero):
            self.ask("libero-out-of-place", team, players=(libero,))
            return
        self.match.append(("unable", self.set_number, team, libero, cause))
        waits = cause == "declared" and self.p["redesignation.declared-on-court"] == "after-rally"
        if any(who == libero for _, who in self.acting(team)) and not waits:
            self.set.append(("unable", team, libero))

    def why_unable(self, team, libero):
        """The causes for which this libero cannot play."""
        causes = [h[4] for h in self.match if h[0] == "unable" and h[2] == team and h[3] == libero
                  and self.in_scope(h)]
        for h in self.match:
            if h[0] == "sanction" and h[2] == team and h[3] == libero:
                if h[4] == "disqualification" or (h[4] == "expulsion" and h[1] == self.set_number):
                    causes.append(h[4])
        return causes

    def may_be_replaced(self, team, libero):
        """Where a declaration is enough, the re-designation itself declares him unable."""
        if self.p["redesignation.declaration-is-enough"] and not self.why_unable(team, libero):
            return True
        causes = self.why_unable(team, libero)
        if "disqualification" in causes:         # whatever else is the matter with him
            return self.disqualified_may_be_replaced(team, libero)
        for cause in causes:
            if cause == "expulsion":
                return True
            if cause != "declared" or self.p["redesignation.declaration-is-enough"]:
                return True
        return False

    def disqualified_may_be_replaced(self, team, libero):
        """Everywhere, nowhere, or where the team has no other libero."""
        allowed = self.p["redesignation.of-disqualified"]
        return allowed == "yes" or allowed == "sole-libero" and (
            all(n == libero for n in self.now().liberos[team]))

    def on_redesignate(self, team, new, old):
        look = self.now() if self.set else None
        if look is None or look.places[team] is None:
            self.out_of_sequence(team)
            return
        liberos = look.liberos[team]
        already = len(self.raised)
        others = [n for n in liberos if n != old and not self.unable(team, n)
                  and not self.barred(team, n)]
        if old not in liberos or not self.may_be_replaced(team, old) or (
                others and not self.p["redesignation.beside-active-libero"]):
            self.ask("redesignation-not-open", team, players=(new, old))
        if any(p.off == new for p in look.places[team]):
            self.ask("redesignation-of-replaced-player", team, players=(new, old))
        elif look.place_of(team, new) is not None:
            self.ask("redesignation-of-player-on-court", team, players=(new, old))
        elif new not in self.roster(team) or self.barred(team, new) or new in liberos or (
                self.replaced(team, new)):
            self.ask("redesignation-of-barred-player", team, players=(new, old))
        if new == self.team_captain(team) and not self.p["redesignation.captain"]:
            self.add("captain-is-libero", team, "armed", players=(new,))
        for f, _ in self.raised[already:]:
            f.redesignation = (self.entry, liberos)
        if old not in liberos:
            return
        stay = others
        for n in liberos:
            if n not in stay and n != new:
                self.match.append(("replaced", self.set_number, team, n, self.entry))
        self.match.append(("new-libero", self.set_number, team, new, stay + [new], self.entry))
        self.set.append(("liberos", team, stay + [new]))
        waits = self.p["redesignation.declared-on-court"] == "after-rally"
        if any(libero == old for _, libero in self.acting(team)) and not waits:
            self.set.append(("unable", team, old))

    def on_misconduct(self, team, person, level):
        scale = ["warning", "penalty", "expulsion", "disqualification"]
        if level == "warning":
            if self.count("warned", team, self.p["misconduct.scope"]) or (
                    person is not None and self.sanctions(team, person)):
                self.ask("misconduct-scale", team, players=(person,))
            self.match.append(("warned", self.sanction_set(), team))
            return
        if person is not None:
            before = [scale.index(s) for s in self.sanctions(team, person)]
            if before and scale.index(level) <= max(before):
                self.ask("misconduct-scale", team, players=(person,))
        self.match.append(("sanction", self.sanction_set(), team, person, level))
        if level != "penalty" and self.set and any(
                who == person for _, who in self.acting(team)) and person is not None:
            self.set.append(("unable", team, person))
        if level == "penalty" or self.p["misconduct.disqualification-brings-point"]:
            self.penalty_point(team)

    def sanction_set(self):
        """A sanction between two sets counts in the following one."""
        return self.set_number + (self.stage() in ("set-over", "match-over"))

    def on_delay(self, team, level):
        due = ("penalty" if self.delays(team) + 1 >= self.p["delay.point-from"] else "warning")
        if level != due:
            self.ask("delay-scale", team)
        self.match.append(("delay", self.sanction_set(), team))
        if level == "penalty":
            self.penalty_point(team)

    def on_injury(self, team, player):
        if self.set:
            self.set.append(("injured", team, player))

    def on_recovery(self, team, player):
        if not self.set or self.now().places[team] is None:
            return
        i = self.now().place_of(team, player)
        used = any(h[0] == "recovery" and h[2] == team and h[3] == player for h in self.match)
        if used or (i is not None and self.regular_possible(team, player, i)):
            self.ask("recovery-not-open", team, players=(player,))
        self.match.append(("recovery", self.set_number, team, player))

    def on_switch(self):
        look = self.now() if self.set else None
        if look is None or not self.switch_due():
            self.ask("switch-not-due", look.serving if look else "A")
            return
        self.set.append(("switch",))
        if self.p["libero.recheck-after-switch"]:
            self.set.append(("uncheck",))
        for f in [f for f in self.faults if f.reason == "switch-due"]:
            self.clear(f)

    def on_incomplete(self, team, scope):
        """The opponent gets the points it needs, and the sets if it is for the match."""
        if self.stage() == "match-over":
            self.out_of_sequence(team)
            return
        if self.set and self.now().stage != "set-over":
            self.give_set(team)
        if scope == "match":
            while not self.winner():
                self.set_number = len(self.results()) + 1
                self.set = [("begin", other(team), self.format["start"])]
                self._seen = None
                self.give_set(team)

    def give_set(self, team):
        rival = other(team)
        needed = max(self.points_needed(), self.now().score[team] + self.format["lead"])
        score = dict(self.now().score)
        score[rival] = needed
        self.set.append(("score", score["A"], score["B"]))
        self.end_set(rival)

    def on_default(self, team):
        if self.stage() == "match-over":
            self.out_of_sequence(team)
            return
        self.match = [h for h in self.match if h[0] != "result"]
        while not self.winner():
            self.set_number = len(self.results()) + 1
            self.set = [("begin", other(team), 0)]
            self._seen = None
            self.give_set(team)

    def on_interrupted(self):
        stage = self.stage()
        if stage in ("before-match", "match-over") or self.interrupted():
            self.out_of_sequence()
            return
        self.match.append(("interrupted",))
        if stage == "in-play":
            self.rally_again()           # the rally that was being played does not count
        elif stage == "whistled":
            self.set.append(("stage", "dead-ball"))

    def on_resumed(self, how):
        if not self.interrupted():
            self.out_of_sequence()
            return
        self.match.append(("resumed",))
        if how == "other-court" and self.stage() not in ("set-over", "match-over"):
            self.play_set_anew()
        elif how == "over-four-hours":
            self.play_match_anew()

    def play_set_anew(self):
        """The set is cancelled; its starting line-ups stand, and so do sanctions."""
        for f in list(self.faults):
            if f.reason != "player-unregistered" or not (self.at_fault(f) or f.reaches_back):
                self.clear(f)                # he may still be on court: then it stands
        look = self.now()
        sheets = {h[1]: h for h in self.set if h[0] == "sheet"}
        self.given = {g for g in self.given if g[0] != self.set_number}
        self.set = self.set[:1] + [
            ("sheet", team, h[2], look.boxes[team], look.liberos[team], h[5], h[6])
            for team, h in sheets.items()]
        self._seen = None

    def play_match_anew(self):
        for f in list(self.faults):
            self.clear(f)
        self.match = [h for h in self.match if h[0] == "team"]
        self.set, self.past, self.settled, self.set_number = [], {}, [], 0
        self.given = set()
        self._seen = None

    def on_score_fix(self, a, b):
        if self.stage() in ("before-match", "match-over"):
            self.out_of_sequence("A")
            return
        cap = self.format["deciding-cap" if self.deciding(self.set_number) else "cap"]
        if not reachable(max(a, b), min(a, b), self.points_needed(), self.format["lead"], cap):
            self.ask("score-impossible", "A")
        self.set.append(("score", a, b))
        self.end_set_if_over()

    # ---- rulings ------------------------------------------------------------------------------

    def on_ruling(self, decision, reason, team, *more):
        found = self.standing_of(reason, team)
        unknown = len(more) > 0
        if not found or unknown and reason not in OF_THE_SERVICE:
            self.ask("out-of-sequence", team)
            return
        f = found[0]
        verdict = self.verdict(f, "accepted" if decision == "accept" else "overruled")
        self.raised.append((f, verdict))
        self.faults.remove(f)
        if unknown:
            verdict["cancel"] = 0        # the record cannot show since when
        if decision == "overrule":
            if f.reason == "player-unregistered":
                self.set.append(("clean", f.team))
            self.entitle(f)
        if decision == "accept":
            ended = self.stage() == "match-over"
            if f.reason == "player-unregistered":
                self.reach_back(f.team)
                for happenings in self.past.values():
                    happenings.append(("clean", f.team))
            given = verdict["action"] == "point-and-service" and self.point_is_due(f)
            self.end_the_others(f, verdict["action"], given)
            if ended or self.stage() != "match-over":      # not where the finished sets decide it
                self.apply(f, verdict, unknown)
            self.end_of_request(f)
            if verdict["action"] == "point-and-service" and not unknown:
                self.settled.append(f)
            if self.now().places[f.team] and not f.of_sheet and (
                    f.reason == "libero-front-row"
                    or f.reason in PERSONAL and verdict["action"] == "point-and-service"):
                self.set.append(("captain_looked_up", f.team))
            if self.stage() not in ("set-over", "match-over"):
                self.settle_conditions(f.team)
            if verdict["action"] == "point-and-service" and not self.standing_of(
                    "player-unregistered", f.team):
                self.set.append(("clean", f.team))    # what was won with him is gone

    def entitle(self, f):
        """An act that a referee lets stand is as good as a legal one: the place is his now."""
        if f.reason not in ACTS | {"sub-limit"} or f.place is None or f.set != self.set_number:
            return
        if any(g.place == f.place and g.team == f.team and g.entry >= f.entry
               and self.questioned(g) for g in self.faults):
            return                       # that on the same act, or on a later one there, stands
        place = self.now().places[f.team][f.place]
        if len(f.players) == 2 and place.on == f.players[0] and place.off is None:
            self.set.append(("entitled", f.team, f.place, place.on))
            if not self.of_replacement(f):
                self.set.append(("let_in", f.team, place.on, 1))

    @staticmethod
    def questioned(g):
        """Whether the act may still have to be undone by this verdict: one on where a player stands
        undoes none."""
        of_act = g.reason not in PERSONAL or len(g.players) == 2
        return g.reason in ACTS | {"sub-limit"} and of_act or (
            g.reason == "libero-late-replacement" and g.repeat)

    def apply(self, f, verdict, unknown):
        action = verdict["action"]
        if action == "record-only":
            self.match.append(("improper", self.set_number, f.team))
            self.take_back(f)
        elif action in ("delay-warning", "delay-penalty"):
            self.match.append(("delay", self.set_number, f.team))
            self.take_back(f)
            asked = f.reason.startswith("sub-") or f.reason in REQUESTS | {"libero-in-substitution"}
            if asked and f.completed == self.now().completed:    # no rally has been completed since
                self.set.append(("rejected", f.team))
            if action == "delay-penalty":
                self.penalty_point(f.team)
        elif action == "refuse" and f.reason.startswith("redesignation-"):
            entry, liberos = f.redesignation      # as if it had never been announced
            self.match = [h for h in self.match if not (
                h[0] in ("replaced", "new-libero") and h[-1] == entry)]
            self.set.append(("liberos", f.team, liberos))
        elif action == "correct":
            self.take_back(f)
        elif action == "point-and-service":
            self.point_and_service(f, verdict["cancel"], unknown)
        elif action == "incomplete":
            self.on_incomplete(f.team, "set")

    def end_the_others(self, f, action, given):
        """One act, one consequence: the other verdicts of the act that was taken back end with it,
        and those whose rallies have just been settled by the point."""
        mine = [i for i, r in enumerate(self.rallies(f.set))
                if (f in r[2] or r[3] is None) and r[3] != "again"]
        for g in [g for g in self.faults if g.team == f.team and g.set == f.set]:
            its = [i for i, r in enumerate(self.rallies(g.set)) if g in r[2] and r[3] != "again"]
            stays = (action == "correct" and f.reason in CONDITIONS
                     or "captain-is-libero" in (f.reason, g.reason))
            same_act = (g.entry == f.entry and f.before is not None
                        and action not in ("ask", "inform") and not stays
                        and not self.too_late_to_refuse(f)
                        and g.reason not in OF_THE_SERVICE | AT_THE_HIT      # done, not undone
                        and not self.nobody_to_send_off(f, action)
                        and f.players
                        and (g.players == f.players
                             and (g.place is not None and f.place in (None, g.place)
                                  or self.remedy(g)[0] != "ask")
                             or f.first_place is not None and g.place == f.first_place
                             or f.place is not None and g.first_place == f.place
                             or f.place is not None and g.place == f.place))
            settled = (action == "point-and-service" and its
                       and self.remedy(g)[0] == "point-and-service"
                       and set(its) <= set(mine)
                       and (given or not self.point_is_due(g)))
            if same_act or settled:
                self.faults.remove(g)
                self.cleared.append((g, self.verdict(g, "cleared")))

    def end_of_request(self, f):
        """Of a request that was refused no pair is left to speak of, where it was put back."""
        if not hasattr(f, "pairs") or self.too_late_to_refuse(f) or not self.now().places[f.team]:
            return
        places = {self.standing_at(f, old) for _, old in f.pairs} - {None}
        for g in [g for g in self.faults if g.team == f.team and g.entry == f.entry
                  and g.place in places and len(g.players) == 2
                  and self.now().places[f.team][g.place].on != g.players[0]]:
            self.clear(g)

    def nobody_to_send_off(self, f, action):
        """A person may not be on court, and there is no one to whom the place belongs."""
        if action != "correct" or len(f.players) != 1 or f.reason not in (
                "player-barred", "redesignated-player-returns"):
            return False
        look = self.now()
        i = look.place_of(f.team, f.players[0])
        return i is None or look.places[f.team][i].off is None

    def too_late_to_refuse(self, f):
        """The request was not refused in time: it has been played with."""
        return f.reason in REQUESTS - {"sub-limit"} and self.hit_since(f)

    def hit_since(self, f):
        """A service has been hit since the fault, and its rally counts."""
        return f.set != self.set_number or any(
            r[6] >= f.mark and r[3] != "again" for r in self.rallies())

    def take_back(self, f):
        if self.too_late_to_refuse(f):
            return
        if getattr(f, "time_out", False):
            self.set.append(("time_outs", f.team, -1))
            return
        if self.now().places[f.team] is None or not f.players:
            return
        if f.reason in PERSONAL and len(f.players) == 1 and (
                f.reason != "player-unregistered" or self.hit_since(f)):
            self.send_back_libero(f)
            return
        if f.reason in CONDITIONS or f.before is None or f.before[0] is None:
            return
        self.take_with(f)
        undone, out, away = [], [], 0
        pairs, before = list(reversed(self.pairs_of(f))), None
        while pairs != before:           # one that is put back may free the man of another
            before, pairs = pairs, []
            for new, old in before:
                there = self.man_there(f, old)
                how = self.put_back_places(f, new, old)
                if how == "stays":
                    pairs.append((new, old))
                    continue
                away += 1
                if how == "undone":
                    undone.append((new, old))
                    out.append((there, self.standing_at(f, old)))
        for new, old in reversed(pairs):         # who came in for somebody of the same request
            if any(old == entered for entered, _ in undone):
                undone.append((new, old))
                away += 1
        self.set.append(("captain_looked_up", f.team))
        self.settle_conditions(f.team, but={"player-unregistered"})
        self.match = [h for h in self.match if h[0] != "gone" or h[4] != f.entry]
        if away and self.now().gap[f.team] == f.completed and not hasattr(f, "pairs"):
            self.set.append(("gap", f.team, f.before[2]))    # none since but of the same dead ball
        if not self.of_replacement(f) or any((s[0], s[3]) in out for s in self.now().subs[f.team]):
            kept, since = [], list(self.now().subs[f.team])
            let_in = self.now().let_in[f.team]
            for s in f.before[1]:
                if s in since:
                    since.remove(s)
                    kept.append(s)
            for s in since:
                if s[:2] in undone:
                    undone.remove(s[:2])
                elif (s[0], s[3]) not in out:
                    kept.append(s)
                elif f.reason in REQUESTS and (s[2] is not None or s[0] in let_in):
                    self.set.append(("let_in", f.team, s[0], -1))    # he is put out with it
                    away += 1
            if self.of_replacement(f):
                away = 0
            self.set.append(("subs", f.team, kept, self.now().sub_count[f.team] - away))

    def take_with(self, f):
        """What was done since in the places of a refused request was never done either."""
        if f.reason not in REQUESTS or f.reason == "sub-limit" and self.played_with(f):
            return
        mine = {self.standing_at(f, old) for _, old in self.pairs_of(f)}
        stays = {None}
        while stays:                     # whose man stands in a place that is not put back
            mine -= stays
            stays = {i for i in mine if self.now().place_of(
                f.team, f.before[0][i].on) not in mine | {None}}
        since = [h for h in self.set
                 if h[0] == "sub" and h[1] == f.team and h[6] > f.entry and h[4] in mine]
        for _, team, new, old, place, _, entry in reversed(since):
            subs = list(self.now().subs[team])
            made = [s for s in subs if s[:2] == (new, old)]
            if not made:                 # taken back by itself
                continue
            subs.remove(made[-1])
            self.set.append(("subs", team, subs, self.now().sub_count[team] - 1))
            self.set.append(("place_again", team, place, old, old, None))
            for g in self.faults:
                if g.entry == entry and (new, old) in getattr(g, "pairs", []):
                    g.pairs.remove((new, old))

    @staticmethod
    def standing_at(f, player):
        """The place where he stood before the act, or None."""
        return next((i for i, was in enumerate(f.before[0]) if was.on == player), None)

    def send_back_libero(self, f):
        """The man of this place returns, if a libero may not stay there."""
        look, i = self.now(), f.place
        out = f.reason in ("player-barred", "redesignated-player-returns")
        if out and look.place_of(f.team, f.players[0]) is not None:
            i = look.place_of(f.team, f.players[0])
        if i is None:
            return
        place = look.places[f.team][i]
        if out and place.on == f.players[0] or look.position(f.team, i) in FRONT_ROW:
            if place.off is not None and look.place_of(f.team, place.off) is None:
                self.set.append(("place", f.team, i, place.off, place.regular, None))

    def man_there(self, f, old):
        """Who stands now where this one stood before the act."""
        for was, now in zip(f.before[0], self.now().places[f.team]):
            if was.on == old:
                return now.on
        return None

    def pairs_of(self, f):
        return f.pairs if hasattr(f, "pairs") else [f.players]

    def put_back_places(self, f, new, old):
        """The place of this pair becomes what it was before: "undone", it is so "already", or what
        was made of it since "stays"."""
        look, how = self.now(), "stays"
        for i, was in enumerate(f.before[0]):
            if i != f.place if f.place is not None else was.on != old:
                continue
            on, regular, off = was.on, was.regular, was.off
            now = look.places[f.team][i]
            if now.regular != regular and (f.reason not in REQUESTS
                                           or f.reason == "sub-limit" and self.played_with(f)):
                continue                # a substitution made since then stands
            free = {self.standing_at(f, b) for _, b in self.pairs_of(f)} if (
                f.reason in REQUESTS) else set()     # they are all put back together
            elsewhere = [p.on for j, p in enumerate(look.places[f.team])
                         if j != i and j not in free]
            elsewhere = [p for p in elsewhere if p is not None]
            returns = {f.before[0][j].on for j in free - {i, None}}
            if off is not None and off not in elsewhere and off not in returns and (
                    look.position(f.team, i) in FRONT_ROW or on in elsewhere):
                on, off = off, None     # a libero is not put back into the front row
            if (now.on, now.regular, now.off) == (on, regular, off):
                how = "already"
                continue
            if on in elsewhere:
                continue                # he stands somewhere else now
            self.set.append(("place_again", f.team, i, on, regular, off))
            how = "undone"
        return how

    def reach_back(self, team):
        """Points and sets won in finished sets since somebody who is not listed first played."""
        for n in range(1, self.set_number):
            before = self.score_at_first_unregistered(n, team)
            if before is None:
                continue
            _, _, a, b, winner = next(h for h in self.results() if h[1] == n)
            score = {"A": a, "B": b, team: before}
            rival = other(team)
            if winner == team:
                needed = self.format["deciding" if self.deciding(n) else "points"]
                score[rival] = max(score[rival], needed, before + self.format["lead"])
                winner = rival
            self.match = [("result", n, score["A"], score["B"], winner)
                          if h[0] == "result" and h[1] == n else h for h in self.match]
        self.decide_match()

    def score_at_first_unregistered(self, n, team):
        """In a finished set: the team's points before it first played with somebody who is not
        listed and who was not ruled on in that set; None: never."""
        clean = max((at for at, h in enumerate(self.past.get(n, ())) if h == ("clean", team)),
                    default=0)
        for at, h in enumerate(self.past.get(n, ())):
            if at >= clean and h[0] == "hit" and any(
                    f.reason == "player-unregistered" and f.team == team for f in h[3]):
                if self.p["fault.unregistered-finished-set"] == "keeps-none":
                    return self.format["start"]
                return Look(self.past[n][:at], self.p).score[team]
        return None

    def point_and_service(self, f, cancel, unknown):
        if f.set != self.set_number:
            return                       # the result of a set that is over stands
        look = self.now()
        rival = other(f.team)
        won_already = look.stage == "set-over" and any(
            h[1] == self.set_number and h[4] == rival for h in self.results())
        if look.stage == "set-over":     # the set goes on
            self.match = [h for h in self.match if h[0] != "winner" and (
                h[0] != "result" or h[1] != self.set_number)]
        rallies = self.rallies()
        last = rallies[-1] if rallies and f in rallies[-1][2] else None
        played = [r for r in rallies if f in r[2] and r[3] != "again"]
        if look.stage in ("in-play", "whistled"):
            self.set.append(("stopped", rival))      # the rally that was authorised is over
        else:
            self.set.append(("stage", "dead-ball"))
        if cancel:
            self.set.append(("cancel", f.team, cancel))
        if cancel and last and last[3] == f.team and last[5] == rival and (
                look.serving == f.team and not unknown):
            self.set.append(("turn_back", f.team))
        self.take_back(f)
        self.settle_conditions(f.team)
        if self.point_is_due(f, played):
            if played:
                self.given.add((f.set, played[-1][6]))
            if not won_already:          # such a set has no further point to give
                self.set.append(("point", rival, "ruling"))
        self.end_set_if_over()

    def point_is_due(self, f, played=None):
        """Not when the rival has had the point of this fault in the rally that it won, or was
        given for another fault of that rally."""
        if played is None:
            played = [r for r in self.rallies(f.set) if f in r[2] and r[3] != "again"]
        return not played or not self.rally_is_the_point(f, played[-1])

    def rally_is_the_point(self, f, rally):
        """The rival has had the point of this fault in the rally it won, or was given."""
        won_or_given = rally[3] == other(f.team)
        given = rally[4] or (f.set, rally[6]) in self.given
        return won_or_given and (given or f.reason in OF_THE_SERVICE | AT_THE_HIT or
                                 self.p["fault.lost-rally-is-the-point"] == "of-any-fault")


def answers(profile, records):
    """For each record the answer after it. A correction is answered as the record it makes."""
    model, found = Model(profile), []
    corrected = False
    for n in range(1, len(records) + 1):
        _, kind, _, fact = records[n - 1]
        if kind == "fact" and not corrected:
            found.append(model.take(n, fact))
            continue
        corrected = True
        model, own = Model(profile), None
        for entry, fact in script.effective(records[:n]):
            answer = model.take(entry, fact)
            if entry == n:
                own = answer
        answer = model.answer()
        answer["raised"] = own["raised"] if own else []
        found.append(answer)
    return found


def main():
    for path in sys.argv[1:]:
        with open(path, encoding="utf-8") as file:
            profile, records = script.read(file.read(), profiles.load)
        for n, answer in enumerate(answers(profile, records), 1):
            print(json.dumps({"entry": n, "line": records[n - 1][0], **answer}))


if __name__ == "__main__":
    main()
