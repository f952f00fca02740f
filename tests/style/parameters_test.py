"""Each parameter of a profile is read by whom the table of parameters names, or by nobody if that is a person.

A row of `rules/parameter_table.cpp` says who acts on its parameter: `by_judge(…put<&Rules::time_outs>)`. What the core
acts on is read in the core, what a screen, the desk or the plan acts on is read somewhere in the program; what is left to
a referee or to the event is read nowhere. `tests/cases/parameter_test.cpp` plays every case with other values besides.
"""
import re
import sys

import tree

TABLE = "shared-core/rules/parameter_table.cpp"
# They write every field by its name, or declare it.
WRITERS = (TABLE, "shared-core/include/courthand/rules/profile.h", "shared-core/include/courthand/match/format.h")

ROW = re.compile(r'(?:by_(\w+)\()?(?:number|truth|word)\("([\w.-]+)".*?put(?:_format)?<&(?:Rules|MatchFormat)::(\w+)>')

CORE = ("shared-core/",)
PROGRAM = ("shared-core/", "server/", "client/", "proto/")
READ_IN = {"judge": CORE, "history": CORE, "plan": PROGRAM, "table": PROGRAM, "desk": ("server/", "client/")}
PERSONS = ("event", "referee")


def rows(table):
    """(who acts, key, field) of each row."""
    text = "\n".join(line.split("//")[0] for line in table.splitlines())
    begin = text.index("constexpr std::array table{")
    return ROW.findall(text[begin:text.index("};", begin)])


def check(sources):
    """Findings in `sources`, {path: text}: where, what is wrong, and the cure."""
    code = {path: "\n".join(line.split("//")[0] for line in text.splitlines())
            for path, text in sources.items() if path.startswith(PROGRAM) and path not in WRITERS}
    found = rows(sources[TABLE])
    if len(found) != sources[TABLE].count("put<&Rules::") + sources[TABLE].count("put_format<&MatchFormat::"):
        yield TABLE, "a row that this check cannot read", "write it as its neighbours are written"
    for actor, key, field in found:
        if actor not in READ_IN and actor not in PERSONS:
            yield TABLE, f"{key}: nobody is named who acts on it", "say by_judge, by_table … or by_referee"
            continue
        read = re.compile(rf"(?:\.|->|\bRules::|\bMatchFormat::){field}\b")
        readers = [path for path, text in code.items() if read.search(text)]
        if actor in PERSONS and readers:
            yield TABLE, f"{key} is left to a person ({actor}), and {readers[0]} reads it", "name who acts on it"
        if actor in READ_IN and not any(path.startswith(READ_IN[actor]) for path in readers):
            yield (TABLE, f"{key} is read by nobody where {actor} acts",
                   "read it, or name the person who acts on it: by_referee, by_event")


def finds():
    """The check sees what it is for."""
    table = '''constexpr std::array table{
    by_judge(number("read", 0, 9, put<&Rules::read>), {R::x}),
    by_judge(number("unread", 0, 9, put<&Rules::unread>)),
    by_table(truth("elsewhere", put_format<&MatchFormat::elsewhere>)),
    by_referee(word("persons", {"a", "b"}, put<&Rules::persons>)),
    by_event(number("not-persons", 0, 9, put<&Rules::not_persons>)),
    number("nobodys", 0, 9, put<&Rules::nobodys>),
};'''
    told = [what.split()[0].rstrip(":") for _, what, _ in check({
        TABLE: table,
        "shared-core/rules/a.cpp": "if (rules.read > 0) return; // rules.unread",
        "server/a.cpp": "return rules.not_persons + rules.unread;",
        "client/a.cpp": "return format.elsewhere + persons;"})]
    return told == ["unread", "not-persons", "nobodys"]


def main():
    if not finds():
        sys.exit("parameters_test.py does not find what it is for")
    sources = {tree.shown(path): path.read_text(encoding="utf-8") for path in tree.sources()}
    return tree.end([f"{path}: {what}; {cure}" for path, what, cure in check(sources)],
                    "DEVELOPERS.md, How to add a rule")


if __name__ == "__main__":
    sys.exit(main())
