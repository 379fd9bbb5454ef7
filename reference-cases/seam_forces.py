"""The laws of force, lateral arm and second side of src/engine/shrinkage (tendon, narrow, second_side, lateral_arm) fitted to seams of random
members by the strip model (seam_forces.csv beside this file) and to held joints by the section solver (seam_forces_held.csv).

Run with numpy and scipy (Python 3):  python seam_forces.py          the fits, their residuals by class of sequence, and a fit to four fifths
                                                                     of the members tried on the other fifth, in turn
                                      python seam_forces.py star     a star of plates with constant properties and insulated edges
N, mm, J, s, MPa. The table is written by  WELDBOW_LEVELS=900 WELDBOW_LEVELS_ROWS=rows cargo test --test laws levels  (its columns 1-10, and forces
and sideways moments of both orders by the strip model, without members of which a T is welded first); the held joints by
weldbow study studies/referee/1-force.toml. All arrays are members by seams, outer and inner.
"""
import csv
import pathlib
import sys
from math import log, sqrt

import numpy as np
from scipy.optimize import least_squares

E, ALPHA, RHO_C, LAMBDA, FACE = 206e3, 12e-6, 4.5e-3, 0.040, 35e-6
YIELDS = ([235, 275, 355, 460, 690], [1.055, 1.042, 1.0, 0.918, 0.721])
CLASSES = ("OneSideTogether", "OneSideInTurn", "TwoSidesInTurn", "AtOnce")
NOW = {"flange": 207.0, "web": 235.0, "thick": 0.365, "step": 3.72, "web_step": 4.65, "warm": 78.5, "loss": 1.77, "through": 3.53,
       "half": 1.53, "more": 4.35, "at": 1.83, "width": 0.333, "stretch": 0.84, "cold": 0.863}
# most that a narrow flange pulls more, how much longer it keeps its heat by p², the lag that counts where nothing stretches, and the stretch
# from which all of it counts once more: by scans, with the others fitted anew each time; STIFF as a held joint has it, most turned round at 2 t_w
MOST, KEPT, STIFF, SOONER = 1.07, 4.0, 0.5, 0.25
# heat of a leg over its square by the usual rule, J/mm per mm2: 500·(leg/25.4)² kJ/in, of which nine tenths enter
LEG_SQUARED = 0.9 * 500 * 1000 / 25.4**3
HERE = pathlib.Path(__file__).parent


class Members:
    """The table, and how each section gives."""

    def __init__(self, path):
        rows = list(csv.DictReader(path.read_text().splitlines()))
        outer, inner = rows[0::2], rows[1::2]
        number = lambda text: 1e9 if text == "cold" else float(text)
        pair = lambda key: np.array([[number(a[key]), number(b[key])] for a, b in zip(outer, inner)])
        self.kind = np.array([r["class"] for r in outer])
        self.width, self.flange, self.web, self.depth = pair("width"), pair("flange"), pair("web"), pair("depth")
        self.heat, self.strength, self.wait = pair("heat"), pair("yield"), pair("wait")
        self.first, self.total = pair("strip_first"), pair("strip_first") + pair("strip_second")
        self.moment, self.moments = pair("moment_first"), pair("moment_first") + pair("moment_second")
        flanges = self.width * self.flange
        at = np.stack([-self.flange[:, 0] / 2, self.depth[:, 1] + self.flange[:, 1] / 2], 1)
        web, middle = self.depth[:, 0] * self.web[:, 0], self.depth[:, 0] / 2
        area = flanges.sum(1) + web
        centre = ((flanges * at).sum(1) + web * middle) / area
        inertia = (flanges * (self.flange**2 / 12 + (at - centre[:, None]) ** 2)).sum(1)
        inertia += web * (self.depth[:, 0] ** 2 / 12 + (middle - centre) ** 2)
        self.lever = np.stack([-centre, self.depth[:, 0] - centre], 1)
        self.own = 1 / area[:, None] + self.lever**2 / inertia[:, None]
        self.other = 1 / area[:, None] + self.lever * other(self.lever) / inertia[:, None]
        self.over_yield = self.heat * self.own / (self.strength / 355)
        self.largest = np.abs(np.stack([self.first, self.total - self.first]) * self.lever).max(axis=(0, 2))

    def of(self, kind):
        return (self.kind == kind)[:, None]


def other(pairs):
    return pairs[:, ::-1]


def reach(heat, flange, web, strength):
    return 0.48394 * ALPHA * heat / (RHO_C * (2 * flange + web) * strength / E)


def faces(flange):
    return RHO_C * flange / (2 * FACE)


def lone(p, plates, strength, heat, stretch):
    """Force of one heat on plates (width, flange, web); `stretch` of the section, J/mm3."""
    width, flange, web = plates
    by, share = strength / 355, 2 * flange / (2 * flange + web)

    def free(q, x):
        thick = lambda plate, step: 1 - p["thick"] / (1 + (q / plate**2 / (step * by)) ** 4)
        held = p["flange"] * share * thick(flange, p["step"]) + p["web"] * (1 - share) * thick(web, p["web_step"])
        held = held * np.interp(strength, *YIELDS) * q / (1 + q * share / flange**2 / p["warm"] / np.sqrt(by))
        return held / (1 + p["loss"] / np.sqrt(by) / (1 + q / flange**2 / (p["through"] * by)) * x)

    x, half = np.maximum(stretch, 0), width / 2
    over = reach(heat, flange, web, strength) / half
    part = np.minimum(1, p["at"] / over)
    more = p["more"] * np.exp(-0.5 * (np.log(np.minimum(over / p["at"], 1)) / p["width"]) ** 2)
    more = np.minimum(more * np.exp(-(half**2) * RHO_C / (2 * LAMBDA) / faces(flange)), MOST) * share
    narrow = 1 + more * np.exp(-p["stretch"] * ALPHA * E / (RHO_C * strength) * part * x)
    return np.maximum(free(heat, x), free(part * heat, part * x) * narrow)


def times(m):
    """How long each joint keeps its heat, s."""
    r = reach(m.heat, m.flange, m.web, m.strength)
    along = 0.8 * r**2 * RHO_C / LAMBDA * (1 + KEPT * (2 * r / m.width) ** 2)
    return 1 / (1 / along + 1 / faces(m.flange))


def felt(m):
    return m.wait / times(m) * (STIFF + (m.over_yield / SOONER) ** 2)


def model(p, m):
    """Force of each seam after its first and after its last order."""
    turns, at_once, together = m.of("TwoSidesInTurn"), m.of("AtOnce"), m.of("OneSideTogether")
    wait = np.where(at_once | together, 0, m.wait)
    still = lambda lag: 1 / (1 + (lag / p["half"]) ** 1.5)
    force = lambda heat, own, beside: lone(p, (m.width, m.flange, m.web), m.strength, heat,
                                           own * m.own + beside * m.other * m.web / m.flange)
    q, t = m.heat, times(m)
    later, earlier = q * still(wait / t), q * still(wait / 600)
    before = other(force(q, q, np.where(turns, q, 0) + later))
    stress = -before * other(m.other) * (1 - other(still(wait / t))) / m.strength
    prior = 1 - np.log2(1 + np.clip(stress, -0.5, 0.95))
    one, two = force(q, q, q + later), force(q, q, q + earlier) * prior
    alone, once = force(q, q, 2 * q), force(2 * q, 2 * q, 2 * q)
    cold = 1 + 1 / (1 + p["cold"] * (reach(q, m.flange, m.web, m.strength) / m.web) ** 0.75)
    k = cold + (np.maximum(once / alone, 1) - cold) * still(felt(m))
    last = np.maximum(one, two) + (k - 1) * np.minimum(one, two)
    one_side = np.where([[True, False]], force(q, q, later), force(q, q, earlier) * prior)
    last = np.where(at_once, once, np.where(together, force(q, q, q), np.where(turns, last, one_side)))
    return np.where(turns, one, last), last


def force_off(p, m):
    first, last = model(p, m)
    return np.log(first / m.first)[m.kind == "TwoSidesInTurn"], np.log(last / m.total), last


def camber_off(m, last):
    """Camber by formula less that of the strip model, over the largest that one pass makes."""
    return ((last - m.total) * m.lever).sum(1) / m.largest


def held_off(p, joints):
    plates = [np.full(len(joints["flange"]), v) for v in (400.0, 8.0)]
    strength = np.full(len(joints["flange"]), 355.0)
    force = lone(p, (plates[0], joints["flange"], plates[1]), strength, joints["heat"], 0 * strength)
    return np.log(force / joints["heat"] / joints["force_per_heat"])


def fitted(m, joints, among):
    """Forces of seams; held joints fourteen times, as they are few and show what a free seam cannot; cambers of members twice."""
    scale = np.array(list(NOW.values()))

    def miss(x):
        p = dict(zip(NOW, x * scale))
        first, whole, last = force_off(p, m)
        in_turn = among[m.kind == "TwoSidesInTurn"]
        return np.concatenate([first[in_turn].ravel(), whole[among].ravel(), 14 * held_off(p, joints), 2 * camber_off(m, last)[among]])

    return dict(zip(NOW, least_squares(miss, np.ones(len(scale)), loss="soft_l1", f_scale=0.08, diff_step=1e-3).x * scale))


def report(p, m, joints):
    rms = lambda v: 100 * sqrt(np.mean(np.square(v)))
    _, whole, last = force_off(p, m)
    camber = 100 * np.abs(camber_off(m, last))
    for kind in CLASSES:
        force, miss = np.abs(whole[m.kind == kind]), camber[m.kind == kind]
        print(f"{kind:16}: {len(miss)} members, force rms {rms(force):.1f} %, 95 % {100 * np.quantile(force, 0.95):.0f}, worst "
              f"{100 * force.max():.0f}; camber over seam camber median {np.median(miss):.1f}, 95 % {np.quantile(miss, 0.95):.0f}, worst {miss.max():.0f}")
    held = held_off(p, joints)
    print(f"all cambers: 95 % {np.quantile(camber, 0.95):.1f}, {sum(camber > 12)} of {len(camber)} beyond 12 %; held joints rms "
          f"{rms(held):.1f} %, worst {100 * np.abs(held).max():.1f}")


def apart(m, joints, parts=5):
    """95 % of the cambers of members that the fit has not seen, %, and how many of them are beyond 12 %."""
    group, camber = np.random.default_rng(1).integers(0, parts, len(m.kind)), np.zeros(len(m.kind))
    for k in range(parts):
        _, _, last = force_off(fitted(m, joints, group != k), m)
        camber[group == k] = 100 * np.abs(camber_off(m, last))[group == k]
    return np.quantile(camber, 0.95), sum(camber > 12)


def sideways(m):
    """Arms of first passes, and what a second side leaves of their moment."""
    leg = np.sqrt(m.heat / LEG_SQUARED)
    one_side = np.repeat(m.kind != "AtOnce", 2)
    pull = (np.abs(m.moment) / m.first).ravel()[one_side]
    web, fillet = (m.web / 2).ravel()[one_side], (leg / 3).ravel()[one_side]
    q = (m.heat / m.web**2 / (m.strength / 355)).ravel()[one_side]
    arm = lambda x: (x[0] + (1 - x[0]) / (1 + (q / x[1]) ** 2)) * web + x[2] * fillet
    now = [0.33, 3.2, 0.93]
    found = least_squares(lambda x: np.log(arm(x) / pull), now, loss="soft_l1", f_scale=0.08).x
    for name, x in (("as the crate has it", now), ("fitted anew", found)):
        off = 100 * np.abs(np.log(arm(x) / pull))
        print(f"arm, {name}: {x[0]:.3f} of half the web, {x[1]:.2f} J/mm3, {x[2]:.3f} of the fillet; {len(off)} passes, median "
              f"{np.median(off):.1f} %, 95 % {np.quantile(off, 0.95):.1f}")
    warm = (m.kind == "TwoSidesInTurn") & (m.wait[:, 0] < 1e9)
    u, left = felt(m)[warm].ravel(), (m.moments / m.moment)[warm].ravel()
    curve = lambda x: -2 * x[0] / (u + 1 / u) - 0.045 * (1 - 1 / (1 + u**2))
    found = least_squares(lambda x: curve(x) - left, [0.70], loss="soft_l1", f_scale=0.1).x
    for name, x in (("as the crate has it", [0.70]), ("fitted anew", found)):
        print(f"left after a second side, {name}: {x[0]:.3f} at most; {len(u)} seams, median {np.median(np.abs(curve(x) - left)):.2f}")
    cold = (m.kind == "TwoSidesInTurn") & (m.wait[:, 0] >= 1e9)
    left = (m.moments / m.moment)[cold]
    print(f"left after a second side laid cold: mean {left.mean():.3f}, one in ten below {np.quantile(left, 0.1):.2f} and above {np.quantile(left, 0.9):.2f}; "
          f"{left.size} seams")


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
    members = Members(HERE / "seam_forces.csv")
    held = list(csv.DictReader((HERE / "seam_forces_held.csv").read_text().splitlines()))
    joints = {k: np.array([float(r[k]) for r in held]) for k in held[0]}
    print("as the crate has it")
    report(NOW, members, joints)
    fit = fitted(members, joints, members.kind != "")
    print("fitted anew:", ", ".join(f"{name} {value:.3g}" for name, value in fit.items()))
    report(fit, members, joints)
    print("members that a fit has not seen: 95 % {:.1f}, {} beyond 12 %".format(*apart(members, joints)))
    sideways(members)
