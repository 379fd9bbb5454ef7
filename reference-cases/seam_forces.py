"""The force law of src/engine/shrinkage (tendon, narrow, second_side) fitted to seams of random members by the strip model
(seam_forces.csv beside this file) and to held joints by the section solver.

Run with numpy and scipy (Python 3):  python seam_forces.py          the fit, its residuals by class of sequence
                                      python seam_forces.py star     a star of plates with constant properties and insulated edges
N, mm, J, s, MPa. The table is written by  WELDBOW_LEVELS=300 WELDBOW_LEVELS_ROWS=rows cargo test --test laws levels  (its columns 1-10 and the
strip model's forces of both orders); the held joints by  weldbow study studies/referee/1-force.toml.
"""
import csv
import pathlib
import sys
from math import exp, log, log2, sqrt

import numpy as np
from scipy.optimize import least_squares

E, ALPHA, RHO_C, LAMBDA, FACE, MOST = 206e3, 12e-6, 4.5e-3, 0.040, 35e-6, 0.80
YIELDS = ([235, 275, 355, 460, 690], [1.055, 1.042, 1.0, 0.918, 0.721])
NAMES = ["flange", "web", "thick", "step", "web_step", "warm", "loss", "hump", "hump_at", "hump_width", "half",
         "more", "at", "width", "stretch"]
NOW = [195.0, 239.0, 0.353, 3.18, 4.20, 104.0, 0.222, 4.54, 1.85, 0.912, 1.61, 5.77, 1.84, 0.274, 0.77]
# held joints on an 8 mm web by the section solver: flange mm, J/mm, N per J/mm
HELD = "seam_forces_held.csv"


def rows():
    here = pathlib.Path(__file__).parent
    table = [dict(r) for r in csv.DictReader((here / "seam_forces.csv").read_text().splitlines())]
    for r in table:
        for k in r:
            r[k] = r[k] if k in ("class", "seam") else float(r[k])
    pairs = {}
    for r in table:
        pairs.setdefault(r["member"], {})[r["seam"]] = r
    for pair in pairs.values():
        outer, inner = pair["outer"], pair["inner"]
        d, tw = outer["depth"], outer["web"]
        parts = [(outer["width"] * outer["flange"], -outer["flange"] / 2, outer["flange"]),
                 (inner["width"] * inner["flange"], d + inner["flange"] / 2, inner["flange"]), (d * tw, d / 2, d)]
        area = sum(p[0] for p in parts)
        centre = sum(p[0] * p[1] for p in parts) / area
        inertia = sum(p[0] * (p[2] ** 2 / 12 + (p[1] - centre) ** 2) for p in parts)
        at = {"outer": -centre, "inner": d - centre}
        for name, r in pair.items():
            other = "inner" if name == "outer" else "outer"
            r["other"], r["lever"] = pair[other], at[name]
            r["give"] = [1 / area + at[name] ** 2 / inertia, 1 / area + at[name] * at[other] / inertia]
    return table, pairs


def reach(r, heat):
    return 0.48394 * ALPHA * heat / (RHO_C * (2 * r["flange"] + r["web"]) * r["yield"] / E)


def faces(r):
    return RHO_C * r["flange"] / (2 * FACE)


def warm_time(r, heat):
    along = 0.8 * reach(r, heat) ** 2 * RHO_C / LAMBDA
    return 1 / (1 / along + 1 / faces(r))


def lone(p, r, heat, stretching):
    """Force of one heat; `stretching` at this and at the other seam, J/mm."""
    strength = r["yield"] / 355
    share = 2 * r["flange"] / (2 * r["flange"] + r["web"])
    stretch = max(stretching[0] * r["give"][0] + stretching[1] * r["give"][1], 0.0)

    def free(q, x):
        thick = lambda plate, step: 1 - p["thick"] / (1 + (q / plate**2 / (step * strength)) ** 4)
        held = p["flange"] * share * thick(r["flange"], p["step"]) + p["web"] * (1 - share) * thick(r["web"], p["web_step"])
        held *= float(np.interp(r["yield"], *YIELDS)) * q / (1 + q * share / r["flange"] ** 2 / p["warm"] / sqrt(strength))
        hump = exp(-0.5 * (log(q / r["flange"] ** 2 / (p["hump_at"] * strength)) / p["hump_width"]) ** 2)
        return held / (1 + p["loss"] * (1 + p["hump"] * hump) * x)

    half = r["width"] / 2
    over = reach(r, heat) / half
    part = min(1.0, p["at"] / over)
    more = p["more"] * exp(-0.5 * (log(min(over / p["at"], 1.0)) / p["width"]) ** 2)
    more = min(more * exp(-half**2 * RHO_C / (2 * LAMBDA) / faces(r)), MOST)
    x = part * stretch
    narrow = 1 + more * exp(-p["stretch"] * ALPHA * E / (RHO_C * r["yield"]) * x)
    return max(free(heat, stretch), free(part * heat, x) * narrow)


def model(p, r):
    """Force after each order."""
    heat, wait, kind = r["heat"], r["wait"], r["class"]
    still = lambda s, time: 1 / (1 + (s / time / p["half"]) ** 1.25)
    if kind == "AtOnce":
        return [lone(p, r, 2 * heat, [2 * heat, 2 * heat])] * 2
    if kind == "OneSideTogether":
        return [lone(p, r, heat, [heat, heat])] * 2
    time, time_there = warm_time(r, heat), warm_time(r["other"], heat)
    later, earlier = heat * still(wait, time), heat * still(wait, 600.0)
    before = lone(p, r["other"], heat, [heat, (heat if kind == "TwoSidesInTurn" else 0.0) + heat * still(wait, time_there)])
    stress = -before * r["other"]["give"][1] * (1 - still(wait, time_there)) / r["yield"]
    prior = 1 - log2(1 + min(max(stress, -0.5), 0.95))
    if kind == "OneSideInTurn":
        first = r["seam"] == "outer"
        return [lone(p, r, heat, [heat, later]) if first else lone(p, r, heat, [heat, earlier]) * prior] * 2
    one = lone(p, r, heat, [heat, heat + later])
    two = lone(p, r, heat, [heat, heat + earlier]) * prior
    alone, once = lone(p, r, heat, [heat, 2 * heat]), lone(p, r, 2 * heat, [2 * heat, 2 * heat])
    cold = 1 + 1 / (1 + 1.05 * (reach(r, heat) / r["web"]) ** 0.7)
    k = cold + (max(once / alone, 1.0) - cold) * still(wait, time)
    return [one, max(one, two) + (k - 1) * min(one, two)]


def off(p, r):
    first, last = model(p, r)
    if r["class"] == "TwoSidesInTurn":
        return [log(first / r["strip_first"]), log(last / (r["strip_first"] + r["strip_second"]))]
    if r["class"] == "OneSideInTurn" and r["seam"] == "outer":
        return [log(first / r["strip_first"])]
    return [log(last / (r["strip_first"] + r["strip_second"]))]


def held_off(p, joints):
    out = []
    for j in joints:
        r = {"width": 400.0, "flange": j["flange"], "web": 8.0, "yield": 355.0, "give": [0.0, 0.0]}
        out.append(log(lone(p, r, j["heat"], [0.0, 0.0]) / j["heat"] / j["force_per_heat"]))
    return out


def camber_off(p, pair):
    """Camber by formula less that of the strip model, over the largest that one pass makes."""
    miss = sum((model(p, r)[1] - r["strip_first"] - r["strip_second"]) * r["lever"] for r in pair.values())
    return miss / max(abs(v * r["lever"]) for r in pair.values() for v in (r["strip_first"], r["strip_second"]))


def report(p, table, pairs, joints):
    rms = lambda v: 100 * sqrt(np.mean(np.square(v)))
    everything = []
    for kind in ("OneSideTogether", "OneSideInTurn", "TwoSidesInTurn", "AtOnce"):
        force = np.array([v for r in table if r["class"] == kind for v in off(p, r)])
        camber = []
        for pair in pairs.values():
            if pair["outer"]["class"] != kind:
                continue
            camber.append(100 * abs(camber_off(p, pair)))
        everything += camber
        print(f"{kind:16}: force rms {rms(force):.1f} %, 95 % {100 * np.quantile(abs(force), 0.95):.0f}, worst {100 * abs(force).max():.0f}; camber over "
              f"seam camber median {np.median(camber):.1f}, 95 % {np.quantile(camber, 0.95):.0f}, worst {max(camber):.0f}")
    held = held_off(p, joints)
    print(f"all cambers: 95 % {np.quantile(everything, 0.95):.1f}, {sum(c > 12 for c in everything)} of {len(everything)} beyond 12 %; held joints rms "
          f"{rms(held):.1f} %, worst {100 * max(map(abs, held)):.1f}")


def star(chi, n=80):
    """Highest rise over place on a flange half (0 to 1) and the web, Q/(ρc Σt b/2) = 1; chi is t_w/2t_f. Implicit steps in time."""
    from scipy.sparse import diags, lil_matrix
    from scipy.sparse.linalg import splu
    s, w, dx, cells = 1 / (1 + chi), chi / (1 + chi), 1 / n, [n, 4 * n]
    x = np.concatenate([(np.arange(c) + 0.5) * dx for c in cells])
    volume = np.concatenate([np.full(cells[0], dx * s), np.full(cells[1], dx * w)])
    flow = lil_matrix((sum(cells), sum(cells)))

    def link(a, b, g):
        flow[a, a] += g
        flow[b, b] += g
        flow[a, b] -= g
        flow[b, a] -= g

    for i in range(cells[0] - 1):
        link(i, i + 1, s / dx)
    for i in range(cells[0], sum(cells) - 1):
        link(i, i + 1, w / dx)
    link(0, cells[0], 1 / (dx / 2 / s + dx / 2 / w))
    time = (2.5 * dx) ** 2
    rise = np.exp(-x * x / 4 / time) / sqrt(np.pi * time)
    rise /= (rise * volume).sum()
    peak = np.where(x * x / 2 < time, 0.4839 / x, rise)
    step = 0.05 * time
    while time < 60:
        solve = splu((diags(volume) + step * flow.tocsc()).tocsc())
        for _ in range(6):
            rise = solve.solve(volume * rise)
            time += step
            peak = np.maximum(peak, rise)
        step *= 1.15
    return peak, volume


if __name__ == "__main__" and sys.argv[1:] == ["star"]:
    places = [0.3, 0.5, 0.7, 0.8, 0.9, 1.0, 1.2, 1.4, 1.7, 2.0, 3.0]
    print("force over that of a wide flange by reach over half the width", places)
    for chi in (0.05, 0.15, 0.3, 0.5, 1.0):
        peak, volume = star(chi)
        values = [(np.clip(v / 0.4839 * peak - 1, 0, 1) * volume).sum() / (v * log(2)) for v in places]
        print(f"  web over both flange halves {chi}: " + " ".join(f"{v:.2f}" for v in values))
elif __name__ == "__main__":
    table, pairs = rows()
    here = pathlib.Path(__file__).parent
    joints = [{k: float(v) for k, v in r.items()} for r in csv.DictReader((here / HELD).read_text().splitlines())]
    print("as the crate has it")
    report(dict(zip(NAMES, NOW)), table, pairs, joints)

    def miss(x):
        """Forces of seams; held joints nine times, as they are few and cover what a free seam cannot show apart; cambers of members."""
        p = dict(zip(NAMES, x))
        return np.array([v for r in table if r["class"] != "TeeFirst" for v in off(p, r)] + [9 * v for v in held_off(p, joints)]
                        + [1.5 * camber_off(p, pair) for pair in pairs.values() if pair["outer"]["class"] != "TeeFirst"])

    fit = least_squares(miss, NOW, loss="soft_l1", f_scale=0.08, x_scale=np.abs(NOW), diff_step=1e-3, max_nfev=25).x
    print("fitted anew:", ", ".join(f"{n} {v:.3g}" for n, v in zip(NAMES, fit)))
    report(dict(zip(NAMES, fit)), table, pairs, joints)
