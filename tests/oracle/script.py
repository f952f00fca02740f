"""Reads match scripts (shared-core/SCRIPT.md) into plain tuples, and resolves their corrections.

An entry is (line number, fact); a fact is a tuple whose first word is the verb of the script:
("libero", "A", 21, 5), ("rally", "B"), ("lineup", "A", [1, 2, ...], [21, None], 3) and so on.
Expectations are skipped: this model is compared with the other one, not with them.
"""

TEAMS = ("A", "B")


def words(line):
    """The words of a line without its comment; a text in quotes is one word."""
    found, rest = [], line.strip()
    while rest and not rest.startswith("#"):
        if rest[0] == '"':
            end = 1
            while rest[end] != '"' or rest[end - 1] == "\\":
                end += 1
            found.append(rest[1:end])
            rest = rest[end + 1:].strip()
        else:
            word, _, rest = rest.partition(" ")
            found.append(word)
            rest = rest.strip()
    return found


def number(word):
    return None if word in ("none", "bench") else int(word)


def box(word):
    """A libero box: "?" stays blank, None is a confirmed none."""
    return "?" if word == "?" else number(word)


def players(some_words):
    listed = []
    for word in some_words:
        first, _, last = word.partition("-")
        listed.extend(range(int(first), int(last or first) + 1))
    return listed


def after(some_words, key, default=None):
    return some_words[some_words.index(key) + 1] if key in some_words else default


def read_format(some_words, profile):
    """The format of the match: what the line says, otherwise the values of the profile."""
    value = {"best-of": profile["match.sets"], "points": profile["match.points"],
             "deciding": profile["match.deciding-points"], "lead": profile["match.lead"],
             "cap": profile["match.cap"], "deciding-cap": profile["match.deciding-cap"],
             "start": profile["match.start-score"], "switch": profile["match.switch-at"]}
    for i in range(0, len(some_words) - 1, 2):
        value[some_words[i]] = int(some_words[i + 1])
    return value


def fact_of(w, profile):
    """The fact of one script line, given as words."""
    verb = w[0]
    if verb == "format":
        return ("format", read_format(w[1:], profile))
    if verb == "team":
        listed = []
        if "players" in w:
            end = w.index("captain") if "captain" in w else len(w)
            listed = players(w[w.index("players") + 1:end])
        captain = after(w, "captain")
        return ("team", w[1], listed, number(captain) if captain else None)
    if verb == "toss":
        return ("toss", w[2], w[4])
    if verb == "set":
        return ("set", int(w[1]))
    if verb == "lineup":
        boxes = ["?", "?"]
        if "liberos" in w:
            at = w.index("liberos") + 1
            end = w.index("captain") if "captain" in w else len(w)
            for i, word in enumerate(w[at:end]):
                boxes[i] = box(word)
        captain = after(w, "captain")
        return ("lineup", w[1], [number(x) for x in w[2:8]], boxes,
                number(captain) if captain else None)
    if verb == "box":
        return ("box", w[1], int(w[2]) - 1, box(w[3]))
    if verb == "serve":
        return ("serve", w[1], int(w[2])) if len(w) > 1 else ("serve", None, None)
    if verb == "libero":
        return ("libero", w[1], int(w[2]), int(w[4]))
    if verb == "sub":
        return ("sub", w[1], [(int(w[i]), int(w[i + 2])) for i in range(2, len(w), 3)])
    if verb == "exceptional":
        return ("exceptional", w[1], int(w[2]), int(w[4]), w[5] if len(w) > 5 else "injury")
    if verb == "unable":
        return ("unable", w[1], int(w[2]), w[3] if len(w) > 3 else "declared")
    if verb == "redesignate":
        return ("redesignate", w[1], int(w[2]), int(w[4]))
    if verb == "misconduct":
        return ("misconduct", w[1], number(w[2]), w[3])
    if verb in ("captain", "injury", "recovery"):
        return (verb, w[1], int(w[2]))
    if verb == "positional-fault":
        return (verb, w[1], *map(number, w[2:]))
    if verb == "score-fix":
        return ("score-fix", int(w[1]), int(w[2]))
    return tuple(w)


def read(text, profile_of):
    """(profile, records): records are (line, kind, target, fact), kind one of fact, strike, insert,
    amend. The first record is always the format."""
    profile, records = None, []
    for at, line in enumerate(text.splitlines(), 1):
        w = words(line)
        if not w or w[0] == "expect":
            continue
        if w[0] == "profile":
            profile = profile_of(w[1])
            continue
        if not records and w[0] != "format":
            records.append((at, "fact", None, ("format", read_format([], profile))))
        if w[0] == "play":
            for run in w[1:]:
                for _ in range(int(run[1:] or 1)):
                    records.append((at, "fact", None, ("serve", None, None)))
                    records.append((at, "fact", None, ("rally", run[0])))
        elif w[0] == "strike":
            target = len(records) if w[1] == "last" else int(w[1][1:])
            records.append((at, "strike", target, None))
        elif w[0] in ("insert", "amend"):
            records.append((at, w[0], int(w[1][1:]), fact_of(w[2:], profile)))
        else:
            records.append((at, "fact", None, fact_of(w, profile)))
    return profile, records


def effective(records):
    """The facts that count, in the order in which they count, as (entry number, fact)."""
    count = len(records)
    struck = [False] * (count + 1)
    for entry in range(count, 0, -1):      # a later strike can undo an earlier one
        _, kind, target, _ = records[entry - 1]
        if kind == "strike" and not struck[entry] and 0 < target < entry:
            struck[target] = True
    amended, inserted = {}, {}
    for entry in range(1, count + 1):
        _, kind, target, fact = records[entry - 1]
        if struck[entry] or kind not in ("insert", "amend") or not 0 < target < entry:
            continue
        if kind == "amend":
            amended[target] = (entry, fact)
        else:
            inserted.setdefault(target, []).append(entry)

    facts = []

    def put(entry):
        _, kind, _, fact = records[entry - 1]
        if not struck[entry] and kind in ("fact", "insert"):
            facts.append(amended.get(entry, (entry, fact)))
        for later in inserted.get(entry, []):
            put(later)

    for entry in range(1, count + 1):
        if records[entry - 1][1] == "fact":
            put(entry)
    return facts
