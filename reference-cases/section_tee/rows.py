"""Rows of section_tee.toml and section_bead.toml.

Run by hand with numpy 2.4.6, scipy 1.17.1, numba 0.63 (Python 3):  python rows.py GROUP ...   (tee, two, flange, web, yield, slit, hold,
bead, bars, other)
A standard case takes about a minute. Prints force per heat of one weld (N per J/mm), where it acts, cup and tilt (mrad) and
narrowing (mm) after each pass; `both` in the sheets is the line of the second pass, or of both laid at once.
"""
import sys

import numpy as np

from bars import run as bars
from material import Mat
from section import Case, bead, tee

STANDARD = dict(n_leg=4, dt_g=1.07, npulse=24)
PLANES = ("free", "hold")


def show(what, case, heat):
    free = case.long == "free"
    for number, r in enumerate(case.out, 1):
        # a free section carries none when it is done: the force that would hold it straight, after its last pass
        if free and number < len(case.out):
            continue
        force = (case.equivalent_force()[0] if free else r["F"]) / heat
        print(f"{what}, pass {number}: force {force:.1f} N per J/mm at across {r['yF']:.2f}, up {r['zF']:.2f} mm; "
              f"cup {1e3 * r['cup']:.2f}, tilt {1e3 * r['tilt']:.2f}, fold {1e3 * r['fold']:.2f} mrad, "
              f"narrowing {r['S']:.4f} mm", flush=True)


def fillets(what, heat, sides="RL", **given):
    show(what, tee(heat, sides=sides, **(STANDARD | given)), heat)


def fillet(case, side, heat):
    leg, web = case.p["leg"], case.p["tw"]
    return [(side * (web / 2 + leg / 3), leg / 3, 1.5 * leg * np.sqrt(heat / 1000), 1.0)]


def released(what, case, heat):
    if case.long == "held":
        case.setfix(False, False, smooth=True)
    r = case.result()
    print(f"{what}: force {case.equivalent_force()[0] / heat:.1f} N per J/mm, cup {1e3 * r['cup']:.2f}, "
          f"tilt {1e3 * r['tilt']:.2f} mrad", flush=True)


def other():
    """A second pass before it is cold, a warm section, yield at the proportional limit."""
    heat = 1200.0
    for warm in (600.0, 300.0, 150.0, 80.0):
        case = Case(long="free", **STANDARD)
        case.weld(heat, fillet(case, 1, heat), (2,), cool_to=warm, final=False)
        wait = case.t_end
        case.weld(heat, fillet(case, -1, heat), (3,))
        released(f"free, second pass after {wait:.0f} s", case, heat)
    for warm in (20.0, 150.0):
        case = Case(long="free", **STANDARD)
        case.ht.T[:] = case.ht.Ta = warm
        case.setfix(False, False)
        case.me.advance(case.Tgp())
        case.weld(heat, fillet(case, 1, heat), (2,), cool_to=warm + 6, final=False)
        case.ht.T[:] = 20.0
        case.me.advance(case.Tgp())
        released(f"free, whole section at {warm:g} °C before", case, heat)
    limit = [1, 1, 0.807, 0.613, 0.42, 0.36, 0.18, 0.075, 0.05, 0.0375, 0.025, 0.0125, 0.01]
    fillets("proportional limit", heat, mat=Mat(ky=limit))


def run(group):
    for plane in PLANES:
        if group == "tee":
            for heat in (600.0, 900.0, 1200.0, 1600.0):
                fillets(f"tee {plane}, Q {heat:g}", heat, "R", inplane=plane)
        if group == "two":
            for heat in (600.0, 900.0, 1200.0, 1600.0):
                for sides in ("RL", "B"):
                    fillets(f"both sides {sides} {plane}, Q {heat:g}", heat, sides, inplane=plane)
        if group == "flange":
            for tf in (6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0):
                fillets(f"flange {tf:g} {plane}", 1000.0, tf=tf, inplane=plane)
        if group == "web":
            for tw in (4.0, 5.0, 6.0, 8.0, 10.0):
                fillets(f"web {tw:g} {plane}", 1000.0, tw=tw, inplane=plane)
        if group == "yield":
            for fy in (235.0, 275.0, 355.0, 460.0, 690.0):
                fillets(f"yield {fy:g} {plane}", 1200.0, inplane=plane, fy=fy)
            fillets(f"free lengthwise {plane}", 1200.0, inplane=plane, long="free")
        if group == "slit":
            fillets(f"slit {plane}", 1200.0, inplane=plane, contact="slit")
        if group == "bead":
            for tf, heat in ((12.0, 200.0), (12.0, 500.0), (12.0, 1000.0), (20.0, 500.0), (20.0, 1000.0), (6.0, 500.0)):
                show(f"bead on {tf:g} {plane}, Q {heat:g}", bead(heat, tf=tf, inplane=plane, **STANDARD), heat)
    if group == "hold":
        for release in (1000.0, 700.0, 300.0, 100.0):
            fillets(f"held until {release:g}", 1200.0, inplane="hold", T_rel=release)
    if group == "other":
        other()
    if group == "bars":
        for heat in (600.0, 900.0, 1200.0, 1600.0):
            bars(heat, "RL")
        bars(600.0, "R", both=True)
        bars(1200.0, "R", both=True)
        bars(1200.0, "RL", free=True)
        for tf in (6.0, 8.0, 16.0, 20.0, 25.0, 32.0):
            bars(1000.0, "RL", tf=tf)
        for tw in (4.0, 10.0):
            bars(1000.0, "RL", tw=tw)
        for fy in (235.0, 460.0, 690.0):
            bars(1200.0, "RL", fy=fy)


if __name__ == "__main__":
    for name in sys.argv[1:]:
        run(name)
