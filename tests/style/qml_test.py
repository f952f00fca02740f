"""Every QML file passes qmllint.

qml_test.py BUILD: the build folder. The copies there are read, each beside the qmldir of its module, which says what is a
singleton; qmllint knows the types of C++ from the same place.
"""
import pathlib
import re
import shutil
import subprocess
import sys

import tree


def linter():
    for place in ("/usr/lib/qt6/bin", None):
        found = shutil.which("qmllint", path=place)
        if found:
            return found
    sys.exit("qmllint is needed: apt-get install --no-install-recommends qt6-declarative-dev-tools")


def main(build):
    modules = pathlib.Path(build) / "qml"
    sources = {(path.name, path.read_bytes()): path for path in tree.files(".qml")}
    # A copy of what was moved or taken away stays in the build folder and is nobody's any more.
    built = {(path.name, path.read_bytes()): path for path in modules.rglob("*.qml")}
    missing = sorted(tree.shown(sources[one]) for one in sources.keys() - built.keys())
    if missing:
        sys.exit(f"{modules} holds no copy of {', '.join(missing)}: build the screens first")
    current = sorted(built[one] for one in sources.keys() & built.keys())
    told = subprocess.run([linter(), "-I", str(modules), *map(str, current)], capture_output=True, text=True)
    lines = (told.stdout + told.stderr).splitlines()
    return tree.end([line for line in lines if re.match(r"(Warning|Error): ", line)], "qmllint names the file and line")


sys.exit(main(sys.argv[1]))
