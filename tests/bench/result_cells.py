"""What the measuring programs wrote, and the cells of the table that are made of it.

Reads PART-ROUND.json as Google Benchmark writes it. A figure is the median of the rounds, with the lowest and highest
in brackets; what is measured once, and long, stands alone. What has no result is said to be not measured, with the
reason.
"""

import glob
import json
import os
import re
import statistics

NOT_MEASURED = "not measured"
# Measured once, and only when asked for.
LONG_PARTS = ("venue", "backlog", "restart")


class Results:
    """Every value of every benchmark, by name, one for each round."""

    def __init__(self, folder):
        self.values = {}
        self.errors = {}
        self.begun = {os.path.basename(path).rsplit("-", 1)[0]
                      for path in glob.glob(os.path.join(folder, "*-*.log"))}
        for path in sorted(glob.glob(os.path.join(folder, "*-*.json"))):
            try:
                with open(path, encoding="utf-8") as file:
                    runs = json.load(file)["benchmarks"]
            except ValueError:
                continue  # cut short: the program failed, and its rows say so
            for run in runs:
                self._take(run)

    def _take(self, run):
        name = re.sub(r"/(iterations|min_time|manual_time).*$", "", run["name"])
        if run.get("error_occurred"):
            self.errors[name] = run.get("error_message", "failed")
            return
        # Pure computing is timed by the processor time of its thread, everything else by the clock.
        if "time_unit" in run:
            scale = {"ns": 1e-3, "us": 1.0, "ms": 1e3, "s": 1e6}[run["time_unit"]]
            run = dict(run, cpu_us=run["cpu_time"] * scale)
        self.values.setdefault(name, []).append(run)

    def of(self, name, key):
        if name in self.errors:
            return []
        return [run[key] for run in self.values.get(name, []) if key in run]

    def one(self, name, key):
        """The only value of what is measured once; nothing when it was not."""
        values = self.of(name, key)
        return values[0] if values else None

    def missing(self, name):
        """Why there is no figure, for its cell."""
        part = name.split("/", maxsplit=1)[0]
        if part in LONG_PARTS and part not in self.begun:
            return f"{NOT_MEASURED}: only with --long"
        why = self.errors.get(name, f"bench_{part} did not run to its end")
        return f"{NOT_MEASURED}: {why}"


def number(value):
    if value >= 1000:
        return f"{value:,.0f}"
    if value >= 100:
        return f"{value:.0f}"
    return f"{value:.1f}" if value >= 10 else f"{value:.2f}"


def figure(results, name, key, unit, scale=1.0):
    """'12.3 us [11.9 to 13.0]'."""
    values = [value * scale for value in results.of(name, key)]
    if not values:
        return results.missing(name)
    middle = number(statistics.median(values))
    return f"{middle} {unit} [{number(min(values))} to {number(max(values))}]"


def ratio(bare, ours, more_is_better=False):
    if not bare or not ours:
        return ""
    of_bare, of_ours = statistics.median(bare), statistics.median(ours)
    value = of_bare / of_ours if more_is_better else of_ours / of_bare
    return f"{value:.1f}" if value >= 10 else f"{value:.2f}"


def latency_cell(results, name):
    slow = results.of(name, "p99_us")
    text = figure(results, name, "p50_us", "µs")
    return f"{text}; p99 {number(statistics.median(slow))} µs" if slow else text


def once_cell(results, name, text):
    """`text` filled with the values of a measurement that is made once."""
    values = results.values.get(name)
    return text.format(**values[0]) if values else results.missing(name)
