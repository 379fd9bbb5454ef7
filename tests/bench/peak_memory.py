"""Peak memory and time of every command at the limit it sets itself: python3 tests/bench/peak_memory.py PROGRAM [NAME ...]

Runs in a folder of its own that is removed afterwards; some minutes. The table in studies/cluster/README.md is its output.
"""
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "studies"


def study(name, axes, collect=("camber.max_mm", "sweep.max_mm"), more=""):
    text = f'title = "{name}"\njob = "rafter.toml"\ncollect = [{", ".join(repr(c) for c in collect)}]\n'.replace("'", '"')
    for place, low, high, steps in axes:
        text += f'[[vary]]\nset = "{place}"\nfrom = "{low} mm"\nto = "{high} mm"\nsteps = {steps}\n'
    Path(f"{name}.toml").write_text(text + more)
    return f"{name}.toml"


def many_passes():
    """A job with as many passes as one may have."""
    text = Path("rafter.toml").read_text()
    head = text[: text.index("[[pass]]")]
    count = 64
    each = '[[pass]]\nseam = "outer"\nside = "near"\nleg = "6 mm"\nprocedure = "twin-6"\nfrom = "{:.0f} mm"\nto = "{:.0f} mm"\n'
    step = 9000 / count
    passes = "".join(each.format(i * step, (i + 1) * step) for i in range(count))
    Path("many.toml").write_text(head + passes)
    return "many.toml"


def faults():
    """A job of nearly a megabyte, wrong in every line."""
    Path("faults.toml").write_text(Path("rafter.toml").read_text() + "".join(f"key-{i} = 1\n" for i in range(60_000)))
    return "faults.toml"


def long_list(lines=10_000):
    Path("order.csv").write_text("mark,job,quantity\n" + "".join(f"R{i},rafter.toml,3\n" for i in range(lines)))
    return "order.csv"


def readings(stations=8_000):
    rows = "".join(f"{9 * i / (stations - 1):.6f},{40 * (i / (stations - 1)) * (1 - i / (stations - 1)):.4f}\n" for i in range(stations))
    Path("piece.csv").write_text("# up: inner\n# readings: checked\nx [m], camber [mm]\n" + rows)
    return "piece.csv"


def legs(name, rows):
    return study(name, [("pass.leg", 4, 8, rows // 1000), ("depth.end", 700, 800, 1000)])


def parts(name, rows, n=8):
    """Parts of a study, computed before merge is measured."""
    file = legs(name, rows)
    for i in range(1, n + 1):
        subprocess.run([PROGRAM, "study", file, "--out", name, "--resume", "--shard", f"{i}/{n}"], check=True, stdout=subprocess.DEVNULL,
                       stderr=subprocess.DEVNULL)
    return file


PROGRAM = ""
CASES = {
    "predict": ("64 passes", lambda: ["predict", many_passes()]),
    "check": ("a job of 1 MB, wrong in 60 000 lines", lambda: ["check", faults()]),
    "predict, strip": ("the demo rafter", lambda: ["predict", "rafter.toml", "--level", "strip"]),
    "section": ("the demo rafter, fine", lambda: ["section", "rafter.toml", "--mesh", "16"]),
    "choose": ("the demo rafter", lambda: ["choose", "rafter.toml", "--shop", "shop.toml"]),
    "straighten": ("8 000 stations", lambda: ["straighten", "rafter.toml", "--shop", "shop.toml", "--measured", readings()]),
    "order, list": ("10 000 marks of one job", lambda: ["order", long_list()]),
    "order, pieces": ("540 000 drawn pieces, its limit", lambda: ["order", long_list(1), "--draws", "5400", "--pieces", "100"]),
    "scatter": ("its limit of rows in memory", lambda: ["scatter", "rafter.toml", "--draws", "1000", "--pieces", "700"]),
    "study": ("3 500 000 rows in memory, its limit", lambda: ["study", legs("memory", 3_500_000)]),
    "study --out": ("2 000 000 rows on disk", lambda: ["study", legs("disk", 2_000_000), "--out", "disk"]),
    "study --out --parquet": ("2 000 000 rows that are there", lambda: ["study", legs("disk", 2_000_000), "--out", "disk", "--parquet"]),
    "study verify": ("2 000 000 rows", lambda: ["study", "verify", "disk"]),
    "study merge, small": ("8 parts, 500 000 rows", lambda: ["study", "merge", parts("small", 500_000), "--out", "small"]),
    "study merge": ("8 parts, 2 000 000 rows", lambda: ["study", "merge", parts("large", 2_000_000), "--out", "large"]),
    "page": ("seven jobs", lambda: ["page", *sorted(str(p) for p in (DEMO / "jobs").glob("*.toml")), "--out", "page.html"]),
}


def main():
    global PROGRAM
    PROGRAM = os.path.abspath(sys.argv[1])
    wanted = sys.argv[2:] or list(CASES)
    home = Path(tempfile.mkdtemp(prefix="peak-"))
    os.chdir(home)
    try:
        for name in ("jobs/rafter.toml", "shop/shop.toml"):
            shutil.copy(DEMO / name, home)
        print("| command | input | peak memory, MB | time of cores, s | status |\n|---|---|---|---|---|")
        for name in wanted:
            what, make = CASES[name]
            arguments = make()
            # one child for each, so that its own peak is the answer
            run = subprocess.Popen([PROGRAM, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
            said = run.stderr.read().decode(errors="replace")
            _, status, used = os.wait4(run.pid, 0)
            seconds = used.ru_utime + used.ru_stime
            code = os.waitstatus_to_exitcode(status)
            note = "" if code == 0 else " " + " ".join(said.split())[:90]
            print(f"| `{name}` | {what} | {used.ru_maxrss / 1024:.0f} | {seconds:.1f} | {code}{note} |", flush=True)
    finally:
        shutil.rmtree(home)


if __name__ == "__main__":
    main()
