"""The rule profiles: the TOML files of shared-core/profiles as flat dictionaries."""

import functools
import pathlib
import tomllib

FOLDER = pathlib.Path(__file__).resolve().parents[2] / "shared-core" / "profiles"


def ids():
    return sorted(path.stem for path in FOLDER.glob("*.toml"))


@functools.cache
def load(profile_id):
    """Values by key, such as "libero.per-set"; where they come from is left out. An edition holds
    what differs from the one it inherits from."""
    with open(FOLDER / f"{profile_id}.toml", "rb") as file:
        tree = tomllib.load(file)
    values = dict(load(tree["inherits"])) if "inherits" in tree else {}
    values["id"] = tree["id"]
    for key, entry in tree.items():
        if isinstance(entry, dict) and "value" in entry:
            values[key] = entry["value"]
        elif isinstance(entry, dict):
            for name, inner in entry.items():
                values[f"{key}.{name}"] = inner["value"]
    return values
