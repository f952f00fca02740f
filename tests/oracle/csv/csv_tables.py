"""The reader of comma-separated files against Python's own module, on random tables in every dialect that office programs
write, and on random texts that both of them accept."""
import argparse
import csv
import io
import random
import subprocess
import sys

LETTERS = ["a", "b", "7", " ", '"', ",", ";", "\t", "\n", "\r", "\r\n", "é", "=", "'"]


def text(draw, most):
    return "".join(draw.choice(LETTERS) for _ in range(draw.randrange(most + 1)))


def read_all(program, files):
    """What the program makes of each file: a list of rows, or the line of its error."""
    stdin = b"".join(b"%d\n" % len(file) + file for file in files)
    out = subprocess.run([program], input=stdin, stdout=subprocess.PIPE, check=True).stdout.decode("ascii")
    found, rows, error = [], [], None
    for line in out.splitlines():
        if line == "=":
            found.append(error if error is not None else rows)
            rows, error = [], None
        elif line.startswith("!"):
            error = int(line[2:])
        else:
            rows.append([bytes.fromhex(cell[1:]).decode("utf-8") for cell in line.split(" ")[1:]])
    return found


def without_blank(rows):
    return [row for row in rows if any(row)]


def written(draw, table):
    """The table as some program writes it. The first row has titles, by which the separator is told."""
    delimiter = draw.choice(",;\t")
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=delimiter, lineterminator=draw.choice(["\n", "\r\n", "\r"]), quoting=csv.QUOTE_ALL)
    writer.writerows(table)
    mark = draw.choice(["", "\ufeff"])
    return (mark + out.getvalue()).encode("utf-8")


def tables(draw, count):
    for _ in range(count):
        columns = draw.randrange(2, 7)
        rows = [[f"title{n}" for n in range(columns)]]
        rows += [[text(draw, 6) for _ in range(columns)] for _ in range(draw.randrange(6))]
        yield rows


def accepted_by_python(content):
    """Rows of a text as RFC 4180 has it, or nothing when Python's strict reader refuses it."""
    try:
        return [[cell for cell in row] for row in csv.reader(io.StringIO(content, newline=""), strict=True)]
    except csv.Error:
        return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--count", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=20261128)
    options = parser.parse_args()
    draw = random.Random(options.seed)
    wrong = 0

    expected = list(tables(draw, options.count))
    files = [written(draw, table) for table in expected]
    for table, file, found in zip(expected, files, read_all(options.program, files)):
        if found != without_blank(table):
            wrong += 1
            print(f"table {table!r} as {file!r}: read as {found!r}")

    # Plain texts with commas. Blanks around a cell without quotes are no part of it here, and so texts have none; a
    # quotation mark inside such a cell is an error here, and Python takes it as it stands.
    compared = 0
    texts = ["x,y\n" + "".join(draw.choice(["a", "b", ",", '"', '""', "\n", "\r\n", '","', '"\n"']) for _ in range(draw.randrange(24)))
             for _ in range(options.count)]
    for content, found in zip(texts, read_all(options.program, [content.encode() for content in texts])):
        rows = accepted_by_python(content)
        if isinstance(found, int):
            continue
        if rows is None:
            wrong += 1
            print(f"{content!r}: accepted as {found!r}, Python refuses it")
        elif found != without_blank(rows):
            wrong += 1
            print(f"{content!r}: read as {found!r}, by Python as {rows!r}")
        else:
            compared += 1
    print(f"{options.count} tables, {compared} texts that both accept, {wrong} differences")
    if compared < options.count // 10:
        print("too few texts were accepted for the comparison to mean anything")
        return 1
    return 1 if wrong else 0


sys.exit(main())
