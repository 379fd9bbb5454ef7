"""Reads drawings of `weldbow cut` with a general-purpose DXF library and writes what it finds to cut_outline.toml.

    python -m venv venv && venv/bin/pip install ezdxf==1.4.3
    venv/bin/python reference-cases/cut_outline.py target/debug/weldbow

The sheet holds what every layer of one drawing has (entities, extents, enclosed area); its member is so that nothing in it rests on a
prediction, and its web is worked out by hand here, too. For the demo jobs the script says how far the outline of the web lies from the
ordinates that the same command writes, and how far going straight between the needed ones is from one every 20 mm.
"""

import csv
import subprocess
import sys
import tempfile
from bisect import bisect_left
from pathlib import Path

import ezdxf
from ezdxf.math import Vec2, area

ROOT = Path(__file__).resolve().parent.parent
JOB = ROOT / "reference-cases/cut_outline_job.toml"
DEMOS = ["haunch", "rafter", "us_frame", "column", "stall_rafter"]
LAYERS = ["WEB", "WEB_PLATES", "SPLICES", "BEVELS", "FLANGES", "BENDS"]


def run(program, job, folder, stations, units):
    dxf, table = folder / f"{job.stem}-{units}.dxf", folder / f"{job.stem}-{units}-{stations.split()[0]}.csv"
    subprocess.run(
        [program, "cut", job, "--dxf", dxf, "--ordinates", table, "--stations", stations, "--units", units, "--force"],
        check=True, stdout=subprocess.DEVNULL,
    )
    with open(table, newline="") as file:
        rows = list(csv.DictReader(file))
    unit = "in" if units == "us" else "mm"
    keys = [f"{name}_{unit}" for name in ("along_web", "outer_edge", "inner_edge")]
    return dxf, [(int(r["plate"]), *(float(r[k]) for k in keys)) for r in rows]


def points(entity):
    if entity.dxftype() == "LINE":
        return [Vec2(entity.dxf.start), Vec2(entity.dxf.end)]
    return [Vec2(v.dxf.location) for v in entity.vertices]


def straight(table, plate, along):
    own = [row for row in table if row[0] == plate]
    at = bisect_left([row[1] for row in own], along)
    if at == 0 or at == len(own):
        return None
    (_, x0, o0, i0), (_, x1, o1, i1) = own[at - 1], own[at]
    part = (along - x0) / (x1 - x0)
    return o0 + part * (o1 - o0), i0 + part * (i1 - i0)


def by_hand(x):
    """Edges of the member's web at x mm: the wanted parabola, and the depth beyond it."""
    part = x / 9000.0
    outer = 40.0 * 4.0 * part * (1.0 - part)
    return outer, outer + 400.0 + 360.0 * min(x / 6000.0, 1.0)


def checked(program, job, folder, units):
    """The drawing, read; how far it is from the ordinates, and these from each other."""
    _, fine = run(program, job, folder, "20 mm", units)
    dxf, needed = run(program, job, folder, "needed", units)
    drawing = ezdxf.readfile(dxf)
    audit = drawing.audit()
    assert not audit.errors and not audit.fixes and drawing.dxfversion == "AC1009"
    space = drawing.modelspace()
    outline = points([e for e in space if e.dxf.layer == "WEB"][0])
    there = outline[: len(needed)], outline[: len(needed) - 1 : -1]
    gap = max(
        max(abs(p.x - x), abs(p.y - y))
        for side, column in zip(there, (2, 3))
        for p, (x, y) in zip(side, [(row[1], row[column]) for row in needed])
    )
    scale = 25.4 if units == "us" else 1.0
    off = 0.0
    for plate, along, outer, inner in fine:
        between = straight(needed, plate, along)
        if between:
            off = max(off, abs(between[0] - outer), abs(between[1] - inner))
    print(f"{job.stem}, {units}: no errors, no fixes; outline and ordinates {gap * scale:.4f} mm apart; straight between "
          f"{len(needed)} stations errs by {off * scale:.3f} mm at {len(fine)} places")
    assert gap * scale < 0.02 and off * scale < 0.1
    return space, needed


def main(program):
    out = ['title = "Drawing of `weldbow cut`, read with ezdxf %s"' % ezdxf.__version__, "",
           "# By cut_outline.py from cut_outline_job.toml. Lengths in the unit of the drawing.",
           'tolerance.count = { absolute = 0.0, reason = "a number of entities" }',
           'tolerance.written = { absolute = 0.002, reason = "coordinates are written to 0.001 mm or 0.0001 in" }',
           'tolerance.area = { absolute = 0.0, relative = 2e-6, reason = "coordinates are written to 0.001 mm or 0.0001 in" }',
           'tolerance.weld = { absolute = 0.003, reason = "the one weld moves less than 0.001 mm; written to 0.001 mm" }',
           "", "case = ["]

    def case(quantity, given, expected, unit, tolerance, trust="library", source="cut_outline.py"):
        given = ", ".join(f"{k} = {v!r}" if not isinstance(v, str) else f'{k} = "{v}"' for k, v in given.items())
        out.append(f'    {{ quantity = "{quantity}", given = {{ {given} }}, expected = {expected}, unit = "{unit}", '
                   f'source = "{source}", trust = "{trust}", tolerance = "{tolerance}" }},')

    # a splice draws in 1.9e-3 mm2/(J/mm) of its heat over the thinner plate, to which the other is tapered down: half of it, less half of the gap, goes to either plate
    at_splice = 0.5 * (1.9e-3 * 1000.0 / 6.0 - 1.0)
    lengths = [4000.0 + at_splice, 5000.0 + at_splice]
    corners = [(0.0, 0.0), (lengths[0], 4000.0 + at_splice), (lengths[0] + 1.0, 4000.0 - at_splice),
               (lengths[0] + 1.0 + at_splice + 2000.0, 6000.0), (sum(lengths) + 1.0, 9000.0)]
    for along, x in corners:
        for name, value in zip(("outer edge", "inner edge"), by_hand(x)):
            case(name, {"along_mm": round(along, 5)}, round(value, 4), "mm", "weld", "derived", "parabola and depth, by hand")

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for units, unit in (("si", "mm"), ("us", "in")):
            space, _ = checked(program, JOB, folder, units)
            for layer in LAYERS:
                found = [e for e in space if e.dxf.layer == layer]
                given = {"units": units, "layer": layer}
                case("entities", given, float(len(found)), "1", "count")
                every = [p for e in found for p in points(e)]
                for quantity, value in [("least x", min(p.x for p in every)), ("most x", max(p.x for p in every)),
                                        ("least y", min(p.y for p in every)), ("most y", max(p.y for p in every))]:
                    case(quantity, given, round(value, 5), unit, "written")
                if found[0].dxftype() == "POLYLINE":
                    case("area", given, round(sum(abs(area(points(e))) for e in found), 3), f"{unit}²", "area")
        for demo in DEMOS:
            checked(program, ROOT / "studies/jobs" / f"{demo}.toml", folder, "us" if demo.startswith("us") else "si")
    out.append("]")
    (ROOT / "reference-cases/cut_outline.toml").write_text("\n".join(out) + "\n")


main(sys.argv[1])
