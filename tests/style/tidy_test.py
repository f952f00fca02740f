"""clang-tidy over what is plain C++, with few checks: those that found something here, or whose finding is a fault.

tidy_test.py BUILD: the build folder with its compile_commands.json. Files that include gRPC, Qt or libpqxx take half a
minute each and are left out; the compilers' own warnings watch over them. What was found clean is remembered in BUILD/tidy
by all that clang-tidy reads of ours, so that only what has changed since is read again.
"""
import concurrent.futures
import functools
import hashlib
import json
import os
import pathlib
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
INCLUDED = re.compile(rb'^#include "([^"]+)"', re.M)


def plain(path):
    return path.startswith(tuple(f"{area}/" for area in AREAS))


def compiled(build):
    """The commands of the plain files, by path."""
    commands = json.loads((build / "compile_commands.json").read_text())
    by_path = {os.path.relpath(command["file"], tree.ROOT): command["command"] for command in commands}
    return {path: command for path, command in sorted(by_path.items()) if plain(path)}


@functools.cache
def read(path):
    """The text of a file and what it includes of ours, or None where there is no such file."""
    try:
        text = path.read_bytes()
    except OSError:
        return None
    return text, tuple(name.decode() for name in INCLUDED.findall(text))


def all_read(path, folders):
    """The file and all that it includes with quotes, wherever among the folders that is."""
    seen, waiting = {}, [path]
    while waiting:
        at = waiting.pop()
        if at in seen or not (told := read(at)):
            continue
        seen[at], names = told
        waiting += [pathlib.Path(os.path.normpath(folder / name)) for name in names for folder in (at.parent, *folders)]
    return seen


def fingerprint(version, path, command):
    """The same as long as clang-tidy would read and be asked the same."""
    folders = [pathlib.Path(name) for name in re.findall(r"-I(\S+)", command)]
    told = hashlib.sha256("\n".join((version, *CHECKS, command)).encode())
    for at, text in sorted(all_read(tree.ROOT / path, folders).items()):
        told.update(f"\n{at}\n".encode() + text)
    return told.hexdigest()


class Check:
    def __init__(self, program, build):
        self.program, self.build = program, build
        self.version = subprocess.run([program, "--version"], capture_output=True, text=True, check=True).stdout
        self.clean = build / "tidy"
        self.clean.mkdir(exist_ok=True)

    def findings_in(self, path, command):
        remembered = self.clean / fingerprint(self.version, path, command)
        if remembered.exists():
            return []
        told = subprocess.run([self.program, "-p", str(self.build), "--quiet", f"--checks={','.join(CHECKS)}", path],
                              cwd=tree.ROOT, capture_output=True, text=True)
        found = [line for line in told.stdout.splitlines() if re.search(r": (warning|error): ", line)]
        if not found and told.returncode != 0:
            return [f"{path}: {told.stderr.strip()}"]
        if not found:
            remembered.touch()
        return found


def main(build):
    program = shutil.which("clang-tidy-14") or shutil.which("clang-tidy")
    if not program:
        sys.exit("clang-tidy is needed: apt-get install --no-install-recommends clang-tidy-14")
    commands = compiled(build)
    if not commands:
        sys.exit(f"{build}/compile_commands.json names no file of {', '.join(AREAS)}")
    check = Check(program, build)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        found = {line for lines in pool.map(check.findings_in, *zip(*commands.items())) for line in lines}
    return tree.end(sorted(found), "the name in brackets is the check; tests/style/tidy_test.py lists them")


sys.exit(main(pathlib.Path(sys.argv[1]).resolve()))
