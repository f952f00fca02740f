"""Files: how long, how named, and the order of what they include.

A file that outgrows its limit holds more than one concept. Generated tables and the few that are one concept and long
all the same stand in LONGER with their reason.
"""
import re
import sys

import tree

MOST_LINES = {".cpp": 500, ".h": 300, ".qml": 250, ".py": 420}
# A test may be a long table.
MOST_LINES_OF_A_TEST = 650
LONGER = {
    "tests/oracle/oracle.py": "the second model is one reading of the rule books, told in one go",
}
# Written before there was a limit and still to be split: with so many lines they may shrink and not grow.
STILL_TO_SPLIT = {
}
SNAKE = re.compile(r"[a-z][a-z0-9_]*\.(h|cpp|py)")
PASCAL = re.compile(r"[A-Z][A-Za-z0-9]*\.qml")


def length(path, lines):
    most = MOST_LINES[path.suffix]
    if tree.shown(path).startswith("tests/") and path.suffix in (".cpp", ".h"):
        most = MOST_LINES_OF_A_TEST
    most = STILL_TO_SPLIT.get(tree.shown(path), most)
    if len(lines) > most and tree.shown(path) not in LONGER:
        yield f"{tree.shown(path)}: {len(lines)} lines, at most {most}: split it by concept"


def name(path):
    pattern = PASCAL if path.suffix == ".qml" else SNAKE
    if not pattern.fullmatch(path.name):
        yield f"{tree.shown(path)}: name it in {'PascalCase' if path.suffix == '.qml' else 'snake_case'}"


def guard(path, lines):
    if path.suffix == ".h" and sum(line.strip() == "#pragma once" for line in lines) != 1:
        yield f"{tree.shown(path)}: a header says `#pragma once` once"


def kind_of_include(line):
    return "<" if line.startswith("#include <") else '"'


def includes(path, lines):
    """A block of includes is sorted by clang-format; here: a source's own header comes first, and no block mixes <> with ""."""
    own = f"/{path.stem}.h\""
    blocks, block = [], []
    for line in lines:
        if line.startswith("#include"):
            block.append(line)
        elif block:
            blocks.append(block)
            block = []
    first = blocks[0][0] if blocks else ""
    if path.suffix == ".cpp" and path.with_suffix(".h").exists() and own not in first and f'"{path.stem}.h"' not in first:
        yield f"{tree.shown(path)}: its own header is the first include"
    for each in blocks:
        if len({kind_of_include(line) for line in each}) > 1:
            yield f"{tree.shown(path)}: a block mixes <> and \"\": {each[0]}"


def main():
    findings = []
    for path in tree.files(*MOST_LINES):
        lines = path.read_text(encoding="utf-8").splitlines()
        findings += length(path, lines)
        findings += name(path)
        findings += guard(path, lines)
        if path.suffix in (".h", ".cpp"):
            findings += includes(path, lines)
    return tree.end(findings, "DEVELOPERS.md, Habits")


sys.exit(main())
