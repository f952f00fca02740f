"""What an exported event with knock-out brackets came to, from its results alone: the order of each pool by
chain_model.py, who plays in which bracket, and the final places by who lost where.

    played_cup.py --chain shared-core/standings/chains/international-2017.toml FOLDER

FOLDER is what `courthand-server export` wrote. Exit status 1 when its standings or final places are others.
"""

import argparse
import csv
import pathlib
import sys

from chain_model import Chain, Ranking
from pool_model import Pool, Result


class Export:
    def __init__(self, folder):
        self.teams = self.rows(folder, "teams")
        self.standings = self.rows(folder, "standings")
        self.places = {r["team"]: (int(r["first place"]), int(r["last place"])) for r in self.rows(folder, "places")}
        self.matches = self.rows(folder, "matches")
        self.results = {r["match"]: r for r in self.rows(folder, "results") if r["counts"] == "yes"}

    @staticmethod
    def rows(folder, name):
        with open(folder / f"{name}.csv", encoding="utf-8-sig", newline="") as file:
            return list(csv.DictReader(file))

    def scores(self, match):
        cells = [self.results[match][f"set {n}"] for n in range(1, 6)]
        return [tuple(map(int, cell.split("-"))) for cell in cells if cell]

    def ends(self, match):
        """Winner and loser."""
        row = self.results[match]
        won = sum(a > b for a, b in self.scores(match))
        sides = row["first"], row["second"]
        return sides if 2 * won > len(self.scores(match)) else sides[::-1]


def pool_faults(export, chain, name):
    """And the teams of the pool by place, where the chain gives it; a lot is the record's own."""
    teams = [t["team"] for t in export.teams if t["pool"] == name]
    matches = [m["match"] for m in export.matches if m["pool"] == name]
    results = [Result(teams.index(export.results[m]["first"]), teams.index(export.results[m]["second"]), order, "points",
                      export.scores(m)) for order, m in enumerate(matches)]
    said = {int(r["place"]): r["team"] for r in export.standings if r["pool"] == name}
    for place in Ranking(chain, Pool(len(teams), results)).places:
        numbers = range(place.number, place.number + len(place.teams))
        if {teams[t] for t in place.teams} != {said.get(n) for n in numbers}:
            yield f"pool {name}, place {place.number}: {[teams[t] for t in place.teams]}, not {said}"
    if sorted(said) != list(range(1, len(teams) + 1)):
        yield f"pool {name} has the places {sorted(said)}"


def bracket_places(export, prefix, best):
    """By team: who wins the final is best; the others by how late they lost."""
    rows = [m for m in export.matches if not m["pool"] and m["match"].startswith(prefix)]
    last = max(int(m["round"]) for m in rows if m["stage"] != "third-place")
    played = {m["match"]: export.ends(m["match"]) for m in rows}
    final, = [m["match"] for m in rows if m["stage"] != "third-place" and int(m["round"]) == last]
    ahead = list(played[final])
    for m in rows:
        if m["stage"] == "third-place":
            ahead += played[m["match"]]
    places = {team: (best + n, best + n) for n, team in enumerate(ahead)}
    for number in range(last - 1, 0, -1):
        losers = [played[m["match"]][1] for m in rows if m["stage"] != "third-place" and int(m["round"]) == number]
        losers = [team for team in losers if team not in places]
        first = best + len(places)
        places |= {team: (first, first + len(losers) - 1) for team in losers}
    return places


def faults(export, chain, brackets):
    if len(export.results) != len(export.matches):
        yield f"{len(export.results)} results of {len(export.matches)} matches"
        return
    for name in sorted({t["pool"] for t in export.teams}):
        yield from pool_faults(export, chain, name)
    placed = {}
    for prefix, best, pool_places in brackets:
        places = bracket_places(export, prefix, best)
        wanted = {r["team"] for r in export.standings if int(r["place"]) in pool_places}
        if set(places) != wanted:
            yield f"in bracket {prefix} are others than the places {pool_places} of the pools: {set(places) ^ wanted}"
        placed |= places
    for team in sorted(set(placed) | set(export.places)):
        if placed.get(team) != export.places.get(team):
            yield f"{team}: {placed.get(team)}, not {export.places.get(team)}"


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--chain", type=pathlib.Path, required=True)
    arguments.add_argument("folder", type=pathlib.Path)
    said = arguments.parse_args()
    # The brackets of the Harbour Cup: prefix, best place, the places of the pools that go there.
    brackets = [("M", 1, (1, 2)), ("S", 13, (3, 4))]
    found = list(faults(Export(said.folder), Chain(said.chain.read_text()), brackets))
    for fault in found:
        print(fault)
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
