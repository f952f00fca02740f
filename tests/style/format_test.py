"""Every C++ file is laid out as .clang-format says. Another major version lays out otherwise, so 14 is asked for."""
import re
import shutil
import subprocess
import sys

import tree

VERSION = "14"
AT_ONCE = 50  # files handed to one call


def formatter():
    for name in (f"clang-format-{VERSION}", "clang-format"):
        found = shutil.which(name)
        if not found:
            continue
        told = subprocess.run([found, "--version"], capture_output=True, text=True, check=True).stdout
        if re.search(rf"version {VERSION}\.", told):
            return found
    sys.exit(f"clang-format {VERSION} is needed: apt-get install --no-install-recommends clang-format-{VERSION}")


def off_format(program, paths):
    told = subprocess.run([program, "--dry-run", "--style=file", *map(str, paths)], capture_output=True, text=True)
    return set(re.findall(r"^(.*?):\d+:\d+: warning: code should be clang-formatted", told.stderr, re.M))


def main():
    program = formatter()
    paths = list(tree.sources())
    found = set()
    for begin in range(0, len(paths), AT_ONCE):
        found |= off_format(program, paths[begin:begin + AT_ONCE])
    return tree.end(sorted(found), f"{program} -i FILE lays a file out")


sys.exit(main())
