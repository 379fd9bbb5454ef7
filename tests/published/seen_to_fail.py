"""Whether every expected value of the sheets in `reference-cases` is held by a test: moves all of a sheet beyond their tolerance at once, runs the
tests of published values, and counts the rows that complain; then, once more, all of those quantities that a test did not come to, as it ended with an
earlier one; then, one by one, what is left. The sheets are put back.

    cargo test --test published --no-run        then
    python3 tests/published/seen_to_fail.py target/debug/deps/published-… [SHEET …]
"""
import pathlib
import re
import subprocess
import sys

ROW = re.compile(r"quantity = \"(?P<quantity>(?:[^\"\\]|\\.)*)\".*?expected = (?P<value>-?[0-9][0-9.e+_-]*).*?tolerance = \"(?P<tolerance>\w+)\"", re.S)
HERE = pathlib.Path(__file__).resolve().parent
SHEETS = HERE.parents[1] / "reference-cases"


def allowed(text, name, value):
    rule = re.search(rf"tolerance\.{name} = \{{(.*?)\}}", text, re.S) or re.search(rf"\[tolerance\.{name}\](.*?)(?:\n\[|\Z)", text, re.S)
    part = lambda key: float((re.search(rf"{key} = ([0-9.e+_-]+)", rule[1]) or [0, "0"])[1].replace("_", ""))
    return part("absolute") + part("relative") * abs(value)


def moved(text, rows, which):
    out, end = [], 0
    for at, row in enumerate(rows):
        if at in which:
            value = float(row["value"].replace("_", ""))
            # three times what is allowed: the program may lie at the other end of it
            by = 3 * allowed(text, row["tolerance"], value) or 1e-6 + 1e-9 * abs(value)
            out += [text[end : row.start("value")], repr(value + by)]
            end = row.end("value")
    return "".join(out) + text[end:]


def modules(sheet):
    return [f"{file.stem}::" for file in HERE.glob("*.rs") if re.search(rf"\"{sheet}\b", file.read_text())]


def complaints(program, sheet):
    ran = subprocess.run([program, "--test-threads", "2", *modules(sheet)], capture_output=True, text=True)
    return ran.returncode, re.findall(r"^(.*?): got .*?, expected ", ran.stdout, re.M)


def main(program, names):
    blind = 0
    for path in sorted(SHEETS.glob("*.toml")):
        text = path.read_text()
        rows = list(ROW.finditer(text))
        if not rows or (names and path.stem not in names):
            continue
        left, rounds = set(range(len(rows))), 0
        try:
            while left:
                path.write_text(moved(text, rows, left))
                said = complaints(program, path.stem)[1]
                rounds += 1
                # a quantity is checked as a whole: either all of its rows complain, or it was not come to, or some are silent
                heard = {q for q in set(said) if said.count(q) == sum(rows[at]["quantity"] == q for at in left)}
                if not heard:
                    break
                left = {at for at in left if rows[at]["quantity"] not in heard}
            silent = []
            for at in sorted(left):
                path.write_text(moved(text, rows, {at}))
                if complaints(program, path.stem)[0] == 0:
                    silent.append(f"{rows[at]['quantity']} = {rows[at]['value']}")
        finally:
            path.write_text(text)
        blind += len(silent)
        print(f"{path.name}: {len(rows)} rows, {len(rows) - len(left)} complain in {rounds} rounds, {len(left)} looked at one by one, "
              f"{len(silent)} silent", *silent, sep="\n    ", flush=True)
    sys.exit(min(blind, 1))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
