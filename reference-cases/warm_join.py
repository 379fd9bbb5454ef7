"""Fits the law of a flange that joins a warm T (shrinkage/warm_join.rs) to Ts solved by the strip model: warm_join.csv, which
`WELDBOW_WARM_TEES=90 WELDBOW_WARM_ROWS=reference-cases/warm_join.csv cargo test --test laws warm_join` writes. Needs NumPy and SciPy.

    python3 reference-cases/warm_join.py
"""
import csv
from math import pi
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

E, ALPHA, RHO_C, LAMBDA = 206e3, 12e-6, 7.85e-6 * 510, 0.050

with open(Path(__file__).with_name("warm_join.csv")) as file:
    rows = [{key: float(value) for key, value in row.items()} for row in csv.DictReader(file)]
c = {key: np.array([row[key] for row in rows]) for key in rows[0]}
web, depth, heat, t = c["web"], c["depth"], c["heat"], c["wait"]
width, flange = c["first_width"], c["first"]


def section(plates):
    area = sum(a for a, _, _ in plates)
    middle = sum(a * y for a, y, _ in plates) / area
    return middle, sum(own + a * (y - middle) ** 2 for a, y, own in plates)


tee = [(web * depth, depth / 2, web * depth**3 / 12), (width * flange, depth + flange / 2, width * flange**3 / 12)]
other = (c["second_width"] * c["second"], -c["second"] / 2, c["second_width"] * c["second"] ** 3 / 12)
TEE, WHOLE = section(tee), section([*tee, other])
bend = lambda s, pull, y: -pull * (y - s[0]) / (E * s[1])
of_weld = np.maximum(abs(bend(TEE, c["force"], depth)), abs(bend(WHOLE, c["force"], depth)))


def law(x):
    h, taken, soft, soft_k = x[0] * 1e-6, x[1], x[2], x[3]
    square = pi * LAMBDA / RHO_C * t
    part = lambda plate: square * 2 * h * taken / LAMBDA / plate
    reach = lambda plate: np.sqrt(square / (part(plate) + 1))
    along_flange, along_web = np.minimum(reach(flange), width / 2), np.minimum(reach(web), depth)
    p = part(web)
    middle = np.minimum(reach(web) * (p / (p + 1) * (1 - 2 / pi) + 2 / pi), depth / 2)
    in_flange, in_web = 2 * flange * along_flange, web * along_web
    lost = t * 2 * h / RHO_C * (2 * along_flange + along_web) / (in_flange + in_web)
    soft_s = (heat / ((2 * flange + web) * RHO_C * soft_k)) ** 2 * RHO_C / (4 * pi * LAMBDA)
    pull = E * ALPHA / RHO_C * heat * np.exp(-lost) * (1 - soft * np.exp(-t / soft_s))
    up = (in_web * middle - in_flange * flange / 2) / (in_flange + in_web)
    return (bend(WHOLE, pull, depth - up) - bend(TEE, pull, depth - up) - c["bend"]) / of_weld


def rms(x, which):
    return np.sqrt(np.mean(law(x)[which] ** 2))


LATER = t >= 30
# the first seconds, in which no flange joins, count a tenth
fit = least_squares(lambda x: law(x) * np.where(LATER, 1.0, 0.1), [28, 0.5, 0.6, 175], loss="soft_l1", f_scale=0.05)
for name, x in [("fitted", fit.x), ("as it stands", [28, 0.5, 0.6, 175])]:
    print(f"{name}: h {x[0]:.1f} W/m2K, k {x[1]:.2f}, m {x[2]:.2f}, {x[3]:.0f} K: rms {rms(x, ~LATER):.3f} in the first seconds, {rms(x, LATER):.3f} later")
    for after in sorted(set(t)):
        off = law(x)[t == after]
        print(f"  {after:5.0f} s: mean {np.mean(off):+.3f}, 95 % {np.quantile(abs(off), 0.95):.3f}")
