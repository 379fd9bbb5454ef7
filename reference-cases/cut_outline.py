"""Reads the drawings of `weldbow cut` with a general-purpose DXF library and writes what it finds to cut_outline.toml.

    python -m venv venv && venv/bin/pip install ezdxf==1.4.3
    venv/bin/python reference-cases/cut_outline.py target/debug/weldbow

For each job: what every layer holds (entities, extents, enclosed area), and how far the outline of the web lies from the ordinates
that the same command writes. The ordinates themselves are checked by going straight between those that are needed and comparing
with one every 20 mm.
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
JOBS = ["haunch", "rafter", "us_frame"]
LAYERS = ["WEB", "WEB_PLATES", "SPLICES", "BEVELS", "FLANGES", "BENDS"]


def run(program, job, folder, stations):
    dxf, table = folder / f"{job}.dxf", folder / f"{job}-{stations.split()[0]}.csv"
    subprocess.run(
        [program, "cut", ROOT / "studies/jobs" / f"{job}.toml", "--dxf", dxf, "--ordinates", table,
         "--stations", stations, "--force"],
        check=True, stdout=subprocess.DEVNULL,
    )
    with open(table, newline="") as file:
        rows = list(csv.DictReader(file))
    unit = "in" if "outer_edge_in" in rows[0] else "mm"
    keys = [f"{name}_{unit}" for name in ("along_web", "outer_edge", "inner_edge")]
    return dxf, unit, [(int(r["plate"]), *(float(r[k]) for k in keys)) for r in rows]


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


def main(program):
    out = ['title = "Drawings of `weldbow cut`, read with ezdxf %s"' % ezdxf.__version__, "",
           "# By cut_outline.py. Lengths in the unit of the drawing.",
           'tolerance.count = { absolute = 0.0, reason = "a number of entities" }',
           'tolerance.written = { absolute = 0.002, reason = "coordinates are written to 0.001 mm or 0.0001 in" }',
           'tolerance.area = { absolute = 0.0, relative = 1e-6, reason = "coordinates are written to 0.001 mm or 0.0001 in" }',
           "", "case = ["]

    def case(quantity, given, expected, unit, tolerance):
        given = ", ".join(f'{k} = "{v}"' for k, v in given.items())
        out.append(f'    {{ quantity = "{quantity}", given = {{ {given} }}, expected = {expected}, unit = "{unit}", '
                   f'source = "cut_outline.py", trust = "library", tolerance = "{tolerance}" }},')

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for job in JOBS:
            _, unit, fine = run(program, job, folder, "20 mm")
            dxf, unit, needed = run(program, job, folder, "needed")
            drawing = ezdxf.readfile(dxf)
            audit = drawing.audit()
            print(f"{job}: {len(audit.errors)} errors, {len(audit.fixes)} fixes, {drawing.dxfversion}")
            assert not audit.errors and not audit.fixes
            space = drawing.modelspace()
            for layer in LAYERS:
                found = [e for e in space if e.dxf.layer == layer]
                given = {"job": job, "layer": layer}
                case("entities", given, float(len(found)), "1", "count")
                if not found:
                    continue
                every = [p for e in found for p in points(e)]
                for quantity, value in [("least x", min(p.x for p in every)), ("most x", max(p.x for p in every)),
                                        ("least y", min(p.y for p in every)), ("most y", max(p.y for p in every))]:
                    case(quantity, given, round(value, 5), unit, "written")
                if found[0].dxftype() == "POLYLINE":
                    case("area", given, round(sum(abs(area(points(e))) for e in found), 3), f"{unit}²", "area")
            outline = points([e for e in space if e.dxf.layer == "WEB"][0])
            there = outline[: len(needed)], outline[: len(needed) - 1 : -1]
            gap = max(
                max(abs(p.x - x), abs(p.y - y))
                for side, column in zip(there, (2, 3))
                for p, (x, y) in zip(side, [(row[1], row[column]) for row in needed])
            )
            scale = 25.4 if unit == "in" else 1.0
            off = 0.0
            for plate, along, outer, inner in fine:
                between = straight(needed, plate, along)
                if between:
                    off = max(off, abs(between[0] - outer), abs(between[1] - inner))
            print(f"{job}: outline and ordinates {gap * scale:.4f} mm apart, straight between {len(needed)} stations errs by "
                  f"{off * scale:.3f} mm of {len(fine)}")
            assert gap * scale < 0.02 and off * scale < 0.1
    out.append("]")
    (ROOT / "reference-cases/cut_outline.toml").write_text("\n".join(out) + "\n")


main(sys.argv[1])
