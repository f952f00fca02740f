"""The distributions of the forecast from other sources: sums of the negative binomial law and exact fractions (SymPy),
laws of SciPy, and Bayes' theorem by numerical integration.

    distributions.py --probe forecast_probe
"""

import argparse
import json
import math
import subprocess
import sys

try:
    import numpy
    import sympy
    from scipy import integrate, signal, stats
except ImportError as missing:
    sys.exit(f"this check needs {missing.name}: install python3-scipy and python3-sympy (deploy/packages/test.txt)")

ODDS = (sympy.Rational(1, 2), sympy.Rational(13, 25), sympy.Rational(11, 20), sympy.Rational(3, 5))


class Probe:
    def __init__(self, program):
        self.program = program
        self.asked = 0

    def ask(self, *lines):
        done = subprocess.run([self.program], input="\n".join(lines) + "\n", capture_output=True, text=True, check=True)
        self.asked += len(lines)
        return [json.loads(line) for line in done.stdout.splitlines()]


def near(told, expected, most, what):
    if not abs(told - float(expected)) <= most:
        sys.exit(f"{what}: the core says {told}, the model {float(expected)}")


def won_by(p, target, rallies):
    """The chance that the side with chance p wins a set to `target`, ahead by two, after just so many rallies. Before both
    have all but one point: the last rally is won, and of the others target - 1. After it: pairs of rallies that change
    nothing, and one that both are won."""
    q = 1 - p
    if rallies < target:
        return sympy.Integer(0)
    lost = rallies - target
    if lost <= target - 2:
        return sympy.binomial(rallies - 1, target - 1) * p**target * q**lost
    pairs, odd = divmod(rallies - 2 * (target - 1), 2)
    if odd or pairs < 1:
        return sympy.Integer(0)
    return sympy.binomial(2 * target - 2, target - 1) * (p * q) ** (target - 1) * (2 * p * q) ** (pairs - 1) * p**2


def sets_by_closed_form(probe):
    for target in (25, 15, 21):
        for p in ODDS:
            told = probe.ask(f"set {target} 2 0 0 0 A {float(p)} {float(p)}")[0]
            for side, chance in (("A", p), ("B", 1 - p)):
                for rallies, value in enumerate(told[side][:90]):
                    near(value, won_by(chance, target, rallies), 1e-12, f"set to {target}, p {p}, {side} in {rallies}")
            q = 1 - p
            level = sympy.binomial(2 * target - 2, target - 1) * (p * q) ** (target - 1)
            wins = sum(won_by(p, target, n) for n in range(target, 2 * target - 1)) + level * p**2 / (p**2 + q**2)
            mean = sum(n * (won_by(p, target, n) + won_by(q, target, n)) for n in range(target, 2 * target - 1))
            mean += level * (2 * target - 2 + 2 / (p**2 + q**2))
            near(sum(told["A"]), wins, 1e-11, f"W({p}, {target})")
            lengths = [a + b for a, b in zip(told["A"], told["B"])]
            near(sum(n * x for n, x in enumerate(lengths)), mean, 1e-9, f"E({p}, {target})")
            # The same through SciPy: lost rallies before the target-th win are negative binomial.
            early = stats.nbinom(target, float(p)).cdf(target - 2)
            near(sum(told["A"][: 2 * target - 1]), early, 1e-11, f"early wins at {p}, {target}")


def sets_by_recursion(probe):
    """Any format with exact fractions: from the end of the set back to where it stands, as far as rallies are worth it."""
    formats = ((25, 2, 27), (25, 2, 25), (21, 2, 23), (7, 3, 12), (5, 1, 0))
    for points, lead, cap in formats:
        for serving, receiving in ((sympy.Rational(2, 5), sympy.Rational(3, 5)), (sympy.Rational(21, 50), sympy.Rational(31, 50))):
            for a, b, server in ((0, 0, "A"), (3, 4, "B"), (4, 4, "A")):
                known = {}

                def over(x, y):
                    return (cap and x >= cap and x > y) or (x >= points and x - y >= lead)

                def win(x, y, serves):
                    if over(x, y):
                        return sympy.Integer(1)
                    if over(y, x):
                        return sympy.Integer(0)
                    if (x, y, serves) not in known:
                        p = serving if serves == "A" else receiving
                        known[x, y, serves] = p * win(x + 1, y, "A") + (1 - p) * win(x, y + 1, "B")
                    return known[x, y, serves]

                if over(a, b) or over(b, a):
                    continue
                told = probe.ask(f"set {points} {lead} {cap} {a} {b} {server} {float(serving)} {float(receiving)}")[0]
                near(sum(told["A"]), win(a, b, server), 1e-11, f"set {points} {lead} {cap} from {a}-{b}")


def side_out_tie(probe):
    """24-24 in the side-out model, solved: x = k*(1 when A wins again) + ..., a linear system of the two servers."""
    for k in (sympy.Rational(3, 10), sympy.Rational(2, 5), sympy.Rational(21, 50)):
        level_a, level_b, ahead, behind = sympy.symbols("level_a level_b ahead behind")
        # Equal teams: the server wins a rally with k. `ahead`: A leads by one and serves; `behind`: B does.
        solved = sympy.solve([
            level_a - (k * ahead + (1 - k) * behind), level_b - (k * behind + (1 - k) * ahead),
            ahead - (k + (1 - k) * level_b), behind - (1 - k) * level_a,
        ], [level_a, level_b, ahead, behind])
        told = probe.ask(f"set 25 2 0 24 24 A {float(k)} {float(1 - k)}")[0]
        near(sum(told["A"]), solved[level_a], 1e-11, f"24-24 serving, k {k}")


def matches_by_convolution(probe):
    for p in (0.5, 0.55):
        whole, short = (numpy.array([[float(won_by(x, target, n)) for n in range(140)] for x in (p, 1 - p)])
                        for target in (25, 15))
        for sets in (3, 5):
            told = probe.ask(f"match {sets} 25 15 {p} {p}")[0]
            need = sets // 2 + 1
            expected = {}
            ways = {(0, 0): numpy.array([1.0])}
            for number in range(1, sets + 1):
                of_set = short if number == sets else whole
                after = {}
                for (a, b), lengths in ways.items():
                    for winner in (0, 1):
                        then = (a + 1, b) if winner == 0 else (a, b + 1)
                        longer = signal.fftconvolve(lengths, of_set[winner])
                        into = expected if need in then else after
                        key = (winner, number) if need in then else then
                        before = into.get(key, numpy.zeros(1))
                        sums = numpy.zeros(max(len(before), len(longer)))
                        sums[: len(before)] += before
                        sums[: len(longer)] += longer
                        into[key] = sums
                ways = after
            for (winner, number), lengths in expected.items():
                answer = told[winner * 6 + number]
                for n, value in enumerate(answer):
                    near(value, lengths[n] if n < len(lengths) else 0, 1e-9, f"best of {sets}, p {p}: {winner} {number} {n}")


def pace_by_integration(probe):
    """The posterior of the day's pace and of a match, by integrating prior times likelihood."""
    mean, day, match, rally = 32.0, 3.0, 2.882, 26.3
    played = [(102, 3600.0), (80, 2400.0), (30, 1260.0)]
    told = probe.ask(f"pace {mean} {day} {match} {rally} " + " ".join(f"{n} {s}" for n, s in played))[0]

    def density(x):
        value = stats.norm.pdf(x, mean, day)
        for n, seconds in played:
            value *= stats.norm.pdf(seconds / n, x, math.sqrt(match**2 + rally**2 / n))
        return value

    def moments(law, low, high):
        whole = integrate.quad(law, low, high, epsabs=1e-16, limit=200)[0]
        middle = integrate.quad(lambda x: x * law(x), low, high, epsabs=1e-16, limit=200)[0] / whole
        return middle, integrate.quad(lambda x: (x - middle) ** 2 * law(x), low, high, epsabs=1e-16, limit=200)[0] / whole

    middle, variance = moments(density, 10, 60)
    near(told[0], middle, 1e-6, "pace of the day")
    near(told[1], variance, 1e-6, "its variance")
    n, seconds = played[-1]
    middle, variance = moments(
        lambda x: stats.norm.pdf(x, told[0], match) * stats.norm.pdf(seconds / n, x, rally / math.sqrt(n)), 0, 80)
    near(told[2], middle, 1e-6, "pace of the match")
    near(told[3], variance, 1e-6, "its variance")


def strength_by_beta(probe):
    """The places stand for the Beta law: the same mean and deviation."""
    for p, rallies, a, b in ((0.5, 100, 0, 0), (0.5, 100, 25, 18), (0.55, 60, 50, 44), (0.5, 40, 30, 50)):
        told = probe.ask(f"strength {p} {rallies} {a} {b}")[0]
        law = stats.beta(p * rallies + a, (1 - p) * rallies + b)
        middle = sum(x * w for x, w in told)
        near(middle, law.mean(), 5e-4, f"strength {p} {rallies} {a} {b}")
        near(math.sqrt(sum((x - middle) ** 2 * w for x, w in told)), law.std(), 1e-3, f"deviation {p} {rallies} {a} {b}")


def lateness_by_bayes(probe):
    """Inverse gamma times exponentials, one start still waited for: the posterior mean by integration."""
    late, waited = (2.0, 0.5, 11.0, 3.0), 6.0
    shape, scale = probe.ask(f"lateness 4 5 {len(late)} {sum(late) + waited}")[0]
    prior = stats.invgamma(6, scale=20)

    def law(m):
        return prior.pdf(m) * math.exp(-(sum(late) + waited) / m) / m ** len(late)

    whole = integrate.quad(law, 0.01, 400, limit=400)[0]
    middle = integrate.quad(lambda m: m * law(m), 0.01, 400, limit=400)[0] / whole
    near(scale / (shape - 1), middle, 1e-6, "mean lateness")


def main():
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--probe", required=True)
    probe = Probe(words.parse_args().probe)
    for check in (sets_by_closed_form, sets_by_recursion, side_out_tie, matches_by_convolution, pace_by_integration,
                  strength_by_beta, lateness_by_bayes):
        check(probe)
    print(f"{probe.asked} questions answered alike")


if __name__ == "__main__":
    main()
