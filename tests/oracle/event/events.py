"""Whole divisions at random: drawn, played, corrected and taken back, each act with what must come of
it by event_model.py, written as an event script and played by the core.

    events.py --probe event_probe --replay courthand-replay --chains shared-core/standings/chains
              --events 60 --seed 1 [--save FOLDER]

Expected after each act: that it takes effect, or the finding; before a result is reopened or a fact
taken back, the matches that change and the facts that fail; now and then and at the end: every place
of every pool with the step that gave it, every side of every match, which results count, and the
final places. Exit status 1 when one does not hold; the script is kept in FOLDER.
"""

import argparse
import os
import pathlib
import random
import subprocess
import sys
import tempfile

from chain_model import Chain
from event_model import DECIDING, POINTS, State, points_of
from event_writer import Core, Writer

MOST_ACTS = 500
LOOK_EVERY = 15
MOST_LISTED = 20                   # matches or facts in one line of an expectation


def scores(rng, division):
    """A match at random; few different scores, so that teams are often level."""
    to_win = division.sets // 2 + 1
    first = rng.random() < 0.5
    winners = [first] * (to_win - 1) + [not first] * rng.randrange(to_win)
    rng.shuffle(winners)
    sets = []
    for number, won in enumerate([*winners, first], 1):
        points = points_of(division, number)
        score = rng.choice([(points, points - 2), (points, points - 5), (points, points - 5), (points + 2, points)])
        sets.append(score if won else score[::-1])
    return sets


def impossible(rng, division):
    """A score with one mistake: hardly ever a legal one, and then it is taken as such."""
    sets = scores(rng, division)
    n = rng.randrange(len(sets))
    a, b = sets[n]
    mistake = rng.randrange(4)
    if mistake == 0:
        sets[n] = (a + 1, b) if a > b else (a, b + 1)
    elif mistake == 1:
        sets[n] = (b, a)
    elif mistake == 2:
        sets.pop()
    elif len(sets) < 5:
        sets.append((DECIDING, 3))
    return sets or [(POINTS, POINTS - 1)]


class Play:
    def __init__(self, writer, rng):
        self.writer, self.rng = writer, rng
        self.division = writer.division
        self.state = State(self.division)
        self.first_fact = writer.facts + 1

    def say(self, line, act):
        self.writer.fact(line)
        answer = self.state.apply(act)
        self.writer.expect("fine" if answer == "fine" else f"finding {answer}")

    def result(self, match, sets):
        self.say(f"result {match} paper " + " ".join(f"{a}-{b}" for a, b in sets), ("result", match, sets))

    def reopen(self, match):
        changed = self.state.changed_by_reopening(match)
        if len(changed) <= MOST_LISTED:
            self.writer.expect(f"reopens {match} " + ",".join(changed))
        self.say(f"reopen {match}", ("reopen", match))

    def award(self, match):
        in_pool = match[0] == "Z" or any(match in names for names in self.division.pool_matches.values())
        how = self.rng.choice(["default", "forfeit", "team-short"] + ["double-default"] * in_pool)
        if how == "double-default":
            return self.say(f"award {match} {how}", ("award", match, how, None, []))
        team = self.rng.choice(self.state.sides(match))
        stood = []
        if how == "team-short":
            # Some sets to their end, and one that was begun.
            stood = scores(self.rng, self.division)[:self.rng.randrange(2)]
            stood.append((self.rng.randint(0, 14), self.rng.randint(0, 14)))
        line = f'award {match} {how} against "{team}"'
        line += " sets " + " ".join(f"{a}-{b}" for a, b in stood) if stood else ""
        return self.say(line, ("award", match, how, team, stood))

    def decide(self):
        """An order for the first pool that needs one."""
        for name in self.division.pools:
            open_places = [] if self.state.waits(name) else \
                [p for p in self.state.ranking(name).places if p.open]
            if not open_places:
                continue
            teams = [self.division.pools[name][t] for p in open_places for t in p.teams]
            self.writer.expect(f"undecided {name} " + " ".join(f'"{t}"' for t in teams))
            place = self.rng.choice(open_places)
            order = [self.division.pools[name][t] for t in self.rng.sample(place.teams, len(place.teams))]
            by = self.rng.choice(["lot", "play-off", "director"])
            self.say(f"decision U pool {name} by {by} teams " + " ".join(f'"{t}"' for t in order),
                     ("decision", name, order, by))
            return True
        return False

    def correct(self):
        """A result reopened, an act taken back, a team that leaves, or a mistake."""
        kind = self.rng.random()
        state = self.state
        standing = [n for n, (act, counts) in enumerate(state.acts) if counts and act[0] != "take-back"]
        matches = list(self.division.matches)
        if kind < 0.35 and state.results:
            self.reopen(self.rng.choice(list(state.results)))
        elif kind < 0.6 and standing:
            number = self.rng.choice(standing)
            later = self.state.hang_on(number)
            if len(later) <= MOST_LISTED:
                numbers = [number, *later]
                self.writer.expect("back " + " ".join(str(self.first_fact + n) for n in numbers))
            self.say(f"take-back {self.first_fact + number}", ("take-back", number))
        elif kind < 0.7 and self.division.pools and len(state.withdrawn) < 2:
            team = self.rng.choice(self.division.pools[self.rng.choice(list(self.division.pools))])
            self.say(f'withdrawn "{team}"', ("withdrawn", team))
        elif kind < 0.85:
            self.result(self.rng.choice(matches), impossible(self.rng, self.division))
        else:
            self.say(f"reopen {matches[0]}", ("reopen", matches[0]))

    def playable(self):
        """Matches that can have a result now; with one that counts no more, they are reopened first."""
        for name, match in self.division.matches.items():
            if self.state.counts(name) or None in self.state.sides(name) or len(set(self.state.sides(name))) < 2:
                continue
            before = match.only_if_second_won
            won = before is None or self.state.team(("winner", before)) == self.state.sides(before)[1]
            if won:
                yield name

    def step(self):
        """False when nothing is left to do."""
        if self.rng.random() < 0.12:
            self.correct()
            return True
        matches = list(self.playable())
        gone = set(self.state.withdrawn)
        matches = [m for m in matches if not gone & set(self.state.sides(m)) or self.rng.random() < 0.05]
        if not matches:
            return self.decide()
        match = self.rng.choice(matches[:6])
        if match in self.state.results:
            self.reopen(match)
        elif self.rng.random() < 0.12:
            self.award(match)
        else:
            self.result(match, scores(self.rng, self.division))
        return True

    def look(self):
        for name in self.division.pools:
            self.look_at_pool(name)
        for name in self.division.matches:
            for word, team in zip(("first", "second"), self.state.sides(name)):
                self.writer.expect(f"side {name} {word} " + (f'"{team}"' if team else "open"))
            if self.state.counts(name):
                sets = "".join(f" {a}-{b}" for a, b in self.state.results[name].scores)
                self.writer.expect(f"result {name}{sets}")
            else:
                self.writer.expect(("doubt " if name in self.state.results else "result ") + name)
        for first, _, side in self.division.places:
            if self.state.team(side):
                self.writer.expect(f'final {first} in U "{self.state.team(side)}"')

    def look_at_pool(self, name):
        ranking = self.state.ranking(name)
        for place in ranking.places:
            if len(place.teams) > 1:
                continue
            steps = [i for i, _, values in place.because if len(set(values)) > 1]
            because = self.division.chain.steps[steps[-1]]["criterion"] if steps else "nothing"
            if place.decision is not None:
                because = self.state.decisions[name][place.decision][1]
            team = self.division.pools[name][place.teams[0]]
            clause = "" if because == "nothing" else f" because {because}"
            self.writer.expect(f'place {place.number} pool {name} "{team}"{clause}')
        if not self.state.waits(name) and not any(p.open for p in ranking.places):
            self.writer.expect(f"decided {name}")

    def run(self):
        acts = 0
        while acts < MOST_ACTS and self.step():
            acts += 1
            if acts % LOOK_EVERY == 0:
                self.look()
        self.look()


def script(core, chain, rng):
    writer = Writer(core, chain, rng)
    writer.structure()
    Play(writer, rng).run()
    return "\n".join(writer.lines) + "\n"


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options.add_argument("--replay", required=True)
    options.add_argument("--chains", required=True, type=pathlib.Path, help="folder of chain files")
    options.add_argument("--events", type=int, default=60)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--save", type=pathlib.Path, help="where the script that differs is kept")
    options = options.parse_args()
    os.nice(10)
    core = Core(options.probe)
    chains = [Chain(f.read_text(encoding="utf-8")) for f in sorted(options.chains.glob("*.toml"))]
    facts = expectations = 0
    with tempfile.TemporaryDirectory() as folder:
        for n in range(options.events):
            rng = random.Random(f"{options.seed} event {n}")
            text = script(core, chains[n % len(chains)], rng)
            file = pathlib.Path(folder, f"{n}.event")
            file.write_text(text, encoding="utf-8")
            played = subprocess.run([options.replay, file], capture_output=True, text=True, check=False)
            if played.returncode != 0:
                told = [line for line in played.stdout.splitlines() if line.startswith("      ")
                        and not line.endswith(": holds")]
                print(f"event {n}, seed {options.seed}: status {played.returncode}\n"
                      f"{played.stderr}" + "\n".join(told[-20:]))
                if options.save:
                    options.save.joinpath(file.name).write_text(text, encoding="utf-8")
                return 1
            lines = text.splitlines()
            expectations += sum(line.startswith("expect ") for line in lines)
            facts += sum(not line.startswith(("expect ", "#")) for line in lines)
    print(f"{options.events} events agree: {facts} facts, {expectations} expectations")
    return 0


if __name__ == "__main__":
    sys.exit(main())
