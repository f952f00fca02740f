"""Every shell script passes shellcheck; deploy/.shellcheckrc says what is left out and why."""
import shutil
import subprocess
import sys

import tree


def scripts():
    for path in tree.files("", ".sh"):
        with path.open("rb") as file:
            first = file.readline(80)
        if path.suffix == ".sh" or first.startswith(b"#!") and b"sh" in first and b"python" not in first:
            yield path


def main():
    program = shutil.which("shellcheck")
    if not program:
        sys.exit("shellcheck is needed: apt-get install --no-install-recommends shellcheck")
    rules = tree.ROOT / "deploy" / ".shellcheckrc"
    left_out = next(line.split("=", 1)[1] for line in rules.read_text().splitlines() if line.startswith("disable="))
    call = [program, "--external-sources", "--source-path=SCRIPTDIR", f"--exclude={left_out}", "--format=gcc"]
    return subprocess.run([*call, *map(str, scripts())], cwd=tree.ROOT).returncode


sys.exit(main())
