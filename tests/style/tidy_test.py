"""clang-tidy over what is plain C++, with few checks: those that found something here, or whose finding is a fault.

tidy_test.py BUILD: the build folder with its compile_commands.json. Files that include gRPC, Qt or libpqxx take half a
minute each and are left out; the compilers' own warnings watch over them.
"""
import concurrent.futures
import json
import os
import re
import shutil
import subprocess
import sys

import tree

CHECKS = (
    "-*",
    "bugprone-*",
    "-bugprone-easily-swappable-parameters",  # a rule speaks of two jerseys all the time
    "-bugprone-narrowing-conversions",  # -Wconversion says it
    "-bugprone-exception-escape",  # main() of a program may end by one
    "cppcoreguidelines-slicing",
    "cppcoreguidelines-virtual-class-destructor",
    "misc-redundant-expression",
    "misc-unused-parameters",
    "modernize-use-override",
    "performance-*",
    "readability-container-contains",
    "readability-redundant-*",
)
AREAS = ("shared-core", "server/domain", "server/alerts", "client/journal")


def plain(path):
    return path.startswith(tuple(f"{area}/" for area in AREAS))


def compiled(build):
    commands = json.loads((tree.pathlib.Path(build) / "compile_commands.json").read_text())
    paths = {os.path.relpath(command["file"], tree.ROOT) for command in commands}
    return sorted(path for path in paths if plain(path))


def check(program, build, path):
    told = subprocess.run([program, "-p", build, "--quiet", f"--checks={','.join(CHECKS)}", path],
                          cwd=tree.ROOT, capture_output=True, text=True)
    return [line for line in told.stdout.splitlines() if re.search(r": (warning|error): ", line)]


def main(build):
    program = shutil.which("clang-tidy-14") or shutil.which("clang-tidy")
    if not program:
        sys.exit("clang-tidy is needed: apt-get install --no-install-recommends clang-tidy-14")
    paths = compiled(build)
    if not paths:
        sys.exit(f"{build}/compile_commands.json names no file of {', '.join(AREAS)}")
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        found = {line for lines in pool.map(lambda path: check(program, build, path), paths) for line in lines}
    return tree.end(sorted(found), "the name in brackets is the check; tests/style/tidy_test.py lists them")


sys.exit(main(sys.argv[1]))
