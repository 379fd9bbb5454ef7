"""The posterior of records of one family without a sampler: its sums have no more than four unknowns at a time, which are laid
out on grids. Beside shop_record.py, whose long tails it settles.

    python -m venv v && v/bin/pip install numpy && v/bin/python reference-cases/shop_record_exact.py

prints the lines `exact` of the records of one family in shop_record.toml.
"""
import os
import tomllib
import numpy as np

FORCE, ARM = (np.sqrt(np.log1p(cov ** 2)) for cov in (0.15, 0.20))
METRES = 9.0
MEDIAN = {"camber": 0.15, "sweep": 0.2, "shortening": 0.05}
BOWS = ("camber", "sweep")


def likelihood(rows, kind, means):
    """Of the mean of all readings of a kind, its scatter from piece to piece taken out."""
    value = np.array([d["value"] for d in rows])
    known = rows[0]["sd"] ** 2 + rows[0]["welding"] ** 2
    likely = np.zeros_like(means)
    for z in np.linspace(-5.0, 4.0, 181):
        sd = np.sqrt(known + (MEDIAN[kind] * np.exp(0.8 * z) * METRES) ** 2)
        t = (value[None] - means[:, None]) / sd
        law = np.logaddexp(np.log(0.95) - t ** 2 / 2, np.log(0.05 / 5) - (t / 5) ** 2 / 2) - np.log(sd)
        likely += np.exp(law.sum(1) - 0.5 * z * z)
    return likely


def of_logs(data, kind, logs, apart):
    """How likely readings of a kind are, for each log of what multiplies them (columns) and each score of how far families lie
    apart (rows): what the family adds to a bow is normal, given that distance."""
    rows = [d for d in data if d["kind"] == kind]
    if not rows:
        return np.ones((len(apart), len(logs)))
    answer = rows[0]["nominal"] * np.exp(logs)
    if kind not in BOWS:
        return np.tile(likelihood(rows, kind, answer), (len(apart), 1))
    means = np.linspace(-60.0, 40.0, 4001)
    likely = likelihood(rows, kind, means)
    out = np.zeros((len(apart), len(logs)))
    for row, z in zip(out, apart):
        add = np.hypot(np.hypot(0.1 * np.exp(0.8 * z) * METRES, rows[0]["seams"]), 0.1 * METRES)
        row[:] = np.exp(-0.5 * ((means[None] - answer[:, None]) / add) ** 2) @ likely / add
    return out


def exact(data):
    """Means and deviations of force, arm, their product, and of the scores z13, z14 of how far families lie apart in camber and sweep."""
    scores = np.linspace(-6.0, 6.0, 481)
    apart = np.linspace(-5.5, 5.5, 221)
    normal = np.exp(-0.5 * apart ** 2)
    force = FORCE * scores
    both = np.linspace(-6.0, 6.0, 961) * np.hypot(FORCE, ARM)
    camber = of_logs(data, "camber", force, apart) * normal[:, None]
    sweep = of_logs(data, "sweep", both, apart) * normal[:, None]
    alone = of_logs(data, "shortening", force, apart)[0] * np.exp(-0.5 * scores ** 2)
    # arm = both - force: joint weight of (force, both)
    arm = both[None] - force[:, None]
    joint = alone[:, None] * np.exp(-0.5 * (arm / ARM) ** 2)

    def moments(weight, value):
        weight = weight / weight.sum()
        mean = (weight * value).sum()
        return mean, np.sqrt((weight * (value - mean) ** 2).sum())

    whole = joint * camber.sum(0)[:, None] * sweep.sum(0)[None]
    of_camber = (camber * (joint * sweep.sum(0)[None]).sum(1)[None]).sum(1)
    of_sweep = (sweep * (joint * camber.sum(0)[:, None]).sum(0)[None]).sum(1)
    found = {"force": moments(whole.sum(1), np.exp(force)), "arm": moments(whole, np.exp(arm)),
             "moment": moments(whole.sum(0), np.exp(both)), "z14": moments(of_sweep, apart)}
    if any(d["kind"] == "camber" for d in data):
        found["z13"] = moments(of_camber, apart)
    return found


def lines(data):
    """As shop_record.toml has them."""
    return [f'    {{ name = "{k}", mean = {m:.5f}, sd = {s:.5f} }},' for k, (m, s) in exact(data).items()]


if __name__ == "__main__":
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "shop_record.toml"), "rb") as f:
        for record in tomllib.load(f)["record"]:
            if record["families"] == 1:
                print("\n".join([record["name"], *lines(record["reading"])]))
