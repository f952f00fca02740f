"""Habits of the house that no compiler sees.

    style.py ROOT [CHECK...]        all checks, or those named

A check takes the tree as {path: text} and yields what it finds: (path, line, what is wrong, cure).
A check in a file of its own joins by its name in `checks`. Exit status 1 when one finds something.
"""

import pathlib
import sys

import reasons

checks = {
    "reasons": reasons.check,
}

FOLDERS = ("client", "deploy", "proto", "server", "shared-core", "tests")
ENDINGS = (".cpp", ".h")


def tree(root):
    """The sources below the folders of the project."""
    found = {}
    for folder in FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            if path.suffix in ENDINGS and path.is_file():
                found[path.relative_to(root).as_posix()] = path.read_text(encoding="utf-8")
    return found


def main(root, *names):
    sources = tree(pathlib.Path(root))
    if not sources:
        raise SystemExit(f"no sources below {root}: give the folder of the project")
    findings = [f for name in names or checks for f in checks[name](sources)]
    for path, line, what, cure in findings:
        print(f"{path}:{line}: {what}; {cure}")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
