"""One reason is told from another in the table of all reasons, and by the judge that raises it.

Which verdicts rest on a value of a profile stands in the table of all parameters. Everywhere else
the row is asked (`describe(reason).life` …), and reasons go by no shorter name that would hide them
from this check. Tests may name the reason they expect, but neither they nor anybody else may lean on
the order of the enumeration.
"""

import re
import sys

import tree

TABLES = ("shared-core/rules/reason_table.cpp", "shared-core/rules/parameter_table.cpp")
JUDGE = re.compile(r"shared-core/rules/judge_\w+\.cpp")
DECLARED = "shared-core/include/courthand/rules/reason.h"

ALIAS = re.compile(r"\busing\s+(?:\w+\s*=|enum)\s*(?:\w+::)*Reason\s*;")
NAMED = re.compile(r"\bReason::(\w+)")
COMPARED = re.compile(r"(?:[=!]=\s*|\bcase\s+)(?:\w+::)*Reason::(\w+)|\bReason::(\w+)\s*[=!]=")
ORDERED = re.compile(r"[^<>-](?:<=?|>=?)\s*(?:\w+::)*Reason::\w|\bReason::\w+\s*(?:<=?|>=?)[^<>]")


def code_lines(text):
    """Numbered lines without their comments."""
    for number, line in enumerate(text.splitlines(), 1):
        yield number, line.split("//")[0]


def names(pattern, line):
    return ["".join(filter(None, m)) if isinstance(m, tuple) else m for m in pattern.findall(line)]


def of_judge(path, text):
    """A judge compares only with what it raises: what it also names without comparing."""
    lines = list(code_lines(text))
    raised = set()
    for _, line in lines:
        raised.update(names(NAMED, COMPARED.sub("", line)))
    for number, line in lines:
        for reason in names(COMPARED, line):
            if reason not in raised:
                yield (path, number, f"compares with {reason}, which is raised elsewhere",
                       "ask the row of the reason for what you need to know")


def check(sources):
    """Findings in `sources`, {path: text}: where, what is wrong, and the cure."""
    for path, text in sources.items():
        if path == DECLARED:
            continue
        for number, line in code_lines(text):
            if ORDERED.search(line):
                yield path, number, "leans on the order of reasons", "add a column to the table"
            if path not in TABLES and ALIAS.search(line):
                yield path, number, "gives Reason another name", "write Reason::"
        if JUDGE.fullmatch(path):
            yield from of_judge(path, text)
        elif path not in TABLES and not path.startswith("tests/"):
            for number, line in code_lines(text):
                for reason in names(NAMED, line):
                    yield (path, number, f"names {reason}",
                           "ask the row of the reason for what you need to know")


def main():
    sources = {tree.shown(path): path.read_text(encoding="utf-8") for path in tree.sources()}
    return tree.end([f"{path}:{line}: {what}; {cure}" for path, line, what, cure in check(sources)],
                    "DEVELOPERS.md, How to add a reason")


if __name__ == "__main__":
    sys.exit(main())
