"""Every QML file passes qmllint against the modules as they are built.

qml_test.py BUILD: the build folder. What qmllint of Qt 6.4 cannot know stands in UNKNOWABLE with its reason.
"""
import pathlib
import re
import shutil
import subprocess
import sys

import tree

UNKNOWABLE = ()


def linter():
    for place in ("/usr/lib/qt6/bin", None):
        found = shutil.which("qmllint", path=place)
        if found:
            return found
    sys.exit("qmllint is needed: apt-get install --no-install-recommends qt6-declarative-dev-tools")


def main(build):
    paths = [path for path in tree.files(".qml") if not tree.shown(path).startswith("tests/")]
    told = subprocess.run([linter(), "-I", str(pathlib.Path(build) / "qml"), *map(str, paths)],
                          capture_output=True, text=True)
    lines = (told.stdout + told.stderr).splitlines()
    found = [line for line in lines if re.match(r"(Warning|Error|Info): ", line)
             and not any(re.search(each, line) for each in UNKNOWABLE)]
    return tree.end(found, "qmllint names the file and line")


sys.exit(main(sys.argv[1]))
