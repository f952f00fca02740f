"""Checks every order of play of 2 to 16 teams on one to nine courts, with its work duties.

    orders.py --probe event_probe

Every pair meets once; nobody is in two places at once; there are as few slots as there can be; every
match is worked that idle teams can work, the others are noted; duties differ by one at most, and on
one court are balanced as well as any assignment can (NetworkX: minimum cost flow). The orders that
were printed come out as printed. In a double round robin every pair meets twice, once on either
side, the legs apart, and who works a match works its second leg.
"""

import argparse
import sys

try:
    import networkx
except ImportError:
    sys.exit("this check needs NetworkX: install python3-networkx (deploy/packages/test.txt)")

from probe import ask

# first-second (worker) on one court. Three and four teams: a published template of a tournament day;
# five: an order of our own in which nobody plays twice running.
PRINTED = {
    3: [(1, 3, 2), (2, 3, 1), (1, 2, 3)],
    4: [(1, 3, 2), (2, 4, 1), (1, 4, 3), (2, 3, 1), (3, 4, 2), (1, 2, 4)],
    5: [(1, 4, 2), (2, 3, 1), (1, 5, 2), (2, 4, 1), (3, 5, 4), (1, 2, 3), (3, 4, 5), (2, 5, 4), (1, 3, 5),
        (4, 5, 3)],
}
# The rounds of six teams (circle method); on one court they are played one after the other.
ROUNDS_OF_SIX = [{(1, 6), (2, 5), (3, 4)}, {(1, 5), (4, 6), (2, 3)}, {(1, 4), (3, 5), (2, 6)},
                 {(1, 3), (2, 4), (5, 6)}, {(1, 2), (3, 6), (4, 5)}]
# Duties of the printed order of four: the top seeds work more.
PRINTED_DUTIES_OF_FOUR = [2, 2, 1, 1]


def slots_of(order):
    slots = [[] for _ in range(order["slots"])]
    for slot, court, first, second, worker in order["fixtures"]:
        slots[slot].append((court, first, second, worker))
    return slots


def check_pairs(order):
    n = order["teams"]
    pairs = sorted(tuple(sorted(f[2:4])) for f in order["fixtures"])
    assert pairs == [(a, b) for a in range(1, n + 1) for b in range(a + 1, n + 1)], f"pairs {pairs}"
    at_once = min(order["courts"], n // 2)
    assert order["slots"] == -(-len(pairs) // at_once), f"{order['slots']} slots"


def check_slots(order):
    elsewhere = 0
    for number, slot in enumerate(slots_of(order)):
        busy = [t for _, first, second, worker in slot for t in (first, second, worker) if t]
        assert len(set(busy)) == len(busy), f"slot {number}: somebody is in two places, {slot}"
        assert len({court for court, *_ in slot}) == len(slot) <= order["courts"], f"slot {number}: {slot}"
        idle = order["teams"] - 2 * len(slot)
        unworked = sum(worker == 0 for *_, worker in slot)
        assert unworked == max(0, len(slot) - idle), f"slot {number}: {unworked} need others"
        elsewhere += unworked
    assert order["from_elsewhere"] == elsewhere, f"{elsewhere} need workers from elsewhere"
    assert order["noted"] == (elsewhere > 0), "the note"


def duties_of(order):
    return [sum(f[4] == t for f in order["fixtures"]) for t in range(1, order["teams"] + 1)]


def least_squares(order):
    """The smallest sum of squares of duties with which the same matches can be worked: a flow from
    teams to the slots in which they are idle; a team's n-th duty costs 2n-1."""
    flow = networkx.DiGraph()
    for number, slot in enumerate(slots_of(order)):
        worked = sum(worker > 0 for *_, worker in slot)
        if not worked:
            continue
        flow.add_edge(("slot", number), "end", capacity=worked, weight=0)
        playing = {t for _, first, second, _ in slot for t in (first, second)}
        for team in set(range(1, order["teams"] + 1)) - playing:
            flow.add_edge(("team", team), ("slot", number), capacity=1, weight=0)
    most = max(duties_of(order))
    for team in range(1, order["teams"] + 1):
        for duty in range(1, most + 1):
            flow.add_edge("start", ("duty", team, duty), capacity=1, weight=2 * duty - 1)
            flow.add_edge(("duty", team, duty), ("team", team), capacity=1, weight=0)
    worked = sum(f[4] > 0 for f in order["fixtures"])
    flow.add_node("start", demand=-worked)
    flow.add_node("end", demand=worked)
    return networkx.cost_of_flow(flow, networkx.min_cost_flow(flow))


def check_duties(order):
    duties = duties_of(order)
    assert max(duties) - min(duties) <= 1, f"duties {duties}"
    if max(duties):
        squares = sum(d * d for d in duties)
        assert squares == least_squares(order), f"duties {duties} can be levelled further"


def check_rest(order):
    """On one court, from five teams on, nobody plays twice running."""
    if order["courts"] > 1 or order["teams"] < 5:
        return
    playing = [set(f[2:4]) for f in order["fixtures"]]
    for before, after in zip(playing, playing[1:]):
        assert not before & after, f"{before & after} play twice running"


def check_printed(order):
    if order["courts"] > 1:
        return
    told = [tuple(f[2:]) for f in order["fixtures"]]
    assert told == PRINTED.get(order["teams"], told), f"printed otherwise: {told}"
    if order["teams"] == 4:
        assert duties_of(order) == PRINTED_DUTIES_OF_FOUR
    if order["teams"] == 6:
        rounds = [{tuple(sorted(f[:2])) for f in told[i:i + 3]} for i in range(0, 15, 3)]
        assert rounds == ROUNDS_OF_SIX, f"rounds {rounds}"


def check_second_leg(order):
    """By pairs alone, without a look at how the second leg is made of the first."""
    twice, n = order["twice"], order["teams"]
    meetings = {}
    for slot, _, first, second, worker in sorted(twice["fixtures"]):
        meetings.setdefault(frozenset((first, second)), []).append((slot, first, second, worker))
    assert len(meetings) == n * (n - 1) // 2, f"{len(meetings)} pairs meet"
    ends = set()
    for pair, met in meetings.items():
        assert len(met) == 2, f"{set(pair)} meet {len(met)} times"
        (slot, first, second, worker), (later, *sides, works) = met
        assert sides == [second, first], f"{set(pair)} meet twice on the same sides"
        assert works == worker, f"{set(pair)}: {worker} works the first leg, {works} the second"
        ends.add((slot, later))
    assert max(s for s, _ in ends) < min(later for _, later in ends), "the legs overlap"
    assert len({later - slot for slot, later in ends}) == 1, "some pairs meet again sooner than others"
    assert twice["slots"] == 2 * order["slots"] == 1 + max(later for _, later in ends), "slots"
    assert twice["from_elsewhere"] == 2 * order["from_elsewhere"], "workers from elsewhere"
    check_slots({**order, **twice, "noted": order["noted"]})


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--probe", required=True)
    options = options.parse_args()
    orders = ask(options.probe, "orders")
    assert len(orders) == 15 * 9, f"{len(orders)} orders"
    for order in orders:
        try:
            for check in (check_pairs, check_slots, check_duties, check_rest, check_printed,
                          check_second_leg):
                check(order)
        except AssertionError as wrong:
            print(f"{order['teams']} teams on {order['courts']} courts: {wrong}")
            return 1
    print(f"{len(orders)} orders of play agree")
    return 0


if __name__ == "__main__":
    sys.exit(main())
