"""One handwriting: each row is a form that we do not write and the one that we do."""
import re
import sys

import tree

ROWS = (
    (r"\bstd::lock_guard\b", "std::scoped_lock lock{mutex_}"),
    (r"\bstd::(scoped_lock|unique_lock|shared_lock)(<[^>]*>)? \w+\(", "braces: std::scoped_lock lock{mutex_}"),
    (r"\bstd::(mutex|shared_mutex) \w*lock_?;", "name it mutex_, or by what it guards: inbox_mutex_"),
    (r"(?<!NOT )\bNULL\b", "nullptr"),
    (r"\btypedef\b", "using"),
    (r"\busing namespace std;", "std:: where it is used"),
)
STRING = re.compile(r'"(\\.|[^"\\])*"')


def findings_in(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        code = STRING.sub('""', line).split("//", 1)[0]
        for pattern, instead in ROWS:
            if re.search(pattern, code):
                yield f"{tree.shown(path)}:{number}: {line.strip()}  -> {instead}"


def main():
    return tree.end([found for path in tree.sources() for found in findings_in(path)], "the form we write stands behind the arrow")


sys.exit(main())
