"""Which scores a set can end with: every set is played point by point under formats made up at random,
and the core must take exactly the scores at which one ended.

    scores.py --replay courthand-replay --formats 40 --seed 1

A set begins at the start score of both; it is won at its points with the lead, or at the cap whatever
the lead. Each score up to a few above the last that is possible is typed as the result of a match of
one set, first as it is and then turned round. Written as event scripts. Exit status 1 on a difference.
"""

import argparse
import pathlib
import random
import subprocess
import sys
import tempfile

BEYOND = 3                         # points above the highest score looked at
MOST_RALLIES = 24                  # beyond the points of the set, where no cap ends it


def random_format(rng):
    points = rng.choice([11, 15, 21, 25])
    lead = rng.choice([1, 2, 2, 2, 3])
    cap = rng.choice([0, 0, points, points + 1, points + 2, points + 5])
    return {"points": points, "lead": lead, "cap": cap, "start": rng.choice([0, 0, 0, 4])}


def final_scores(f):
    """Every score at which a set can end, found by playing on from every score at which it has not."""
    def over(high, low):
        return high >= f["points"] and high - low >= f["lead"] or f["cap"] and high >= f["cap"]

    ended, begun = set(), {(f["start"], f["start"])}
    reached = set(begun)
    while begun:
        a, b = begun.pop()
        for after in ((a + 1, b), (a, b + 1)):
            if after in reached or max(after) > f["points"] + MOST_RALLIES:
                continue
            reached.add(after)
            if over(max(after), min(after)):
                ended.add(after)
            else:
                begun.add(after)
    return ended


def script(f):
    """The event, and how many scores it tries."""
    last = max(f["cap"], f["points"] + BEYOND) + BEYOND
    clauses = f"points {f['points']} deciding {f['points']} lead {f['lead']} start {f['start']}"
    if f["cap"]:
        clauses += f" cap {f['cap']} deciding-cap {f['cap']}"
    lines = ["# memory: made up at random",
             'tournament "Cup" from 2026-11-28 to 2026-11-29 zone Europe/London',
             f"division U profile international-2021 chain us-event-sheet format best-of 1 {clauses}",
             'team "A" in U', 'team "B" in U', "bracket U single prefix M"]
    possible = final_scores(f)
    tried = 0
    for high in range(f["points"] - BEYOND, last + 1):
        for low in range(max(0, f["start"] - 1), high + 1):
            for a, b in ((high, low), (low, high)):
                tried += 1
                lines.append(f"result M1 paper {a}-{b}")
                if (a, b) in possible:
                    lines += ["expect fine", "reopen M1"]
                else:
                    lines.append("expect finding score-impossible")
    return "\n".join(lines) + "\n", tried


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--replay", required=True)
    options.add_argument("--formats", type=int, default=40)
    options.add_argument("--seed", type=int, default=1)
    options = options.parse_args()
    rng = random.Random(f"{options.seed} scores")
    checked = 0
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder, "scores.event")
        for _ in range(options.formats):
            f = random_format(rng)
            text, tried = script(f)
            file.write_text(text, encoding="utf-8")
            played = subprocess.run([options.replay, file], capture_output=True, text=True, check=False)
            if played.returncode != 0:
                print(f"{f}, seed {options.seed}: status {played.returncode}\n" +
                      "\n".join(played.stderr.splitlines()[:10]))
                return 1
            checked += tried
    print(f"{options.formats} formats: {checked} scores agree")
    return 0


if __name__ == "__main__":
    sys.exit(main())
