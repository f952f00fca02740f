"""The files of the project that the checks of style read: our own sources, nothing built or fetched."""
import pathlib

ROOT = pathlib.Path(__file__).resolve().parents[2]
AREAS = ("proto", "server", "client", "shared-core", "deploy", "tests", ".ci")


def files(*suffixes):
    """Sorted paths below the areas with one of these suffixes; '' is a file without one."""
    for area in AREAS:
        for path in sorted((ROOT / area).rglob("*")):
            if path.is_file() and path.suffix in suffixes:
                yield path


def sources():
    return files(".h", ".cpp")


def shown(path):
    return path.relative_to(ROOT).as_posix()


def end(findings, cure):
    """Prints what was found with its cure and gives the exit code of the check."""
    for finding in findings:
        print(finding)
    if findings:
        print(f"{len(findings)} found. {cure}")
    return 1 if findings else 0
