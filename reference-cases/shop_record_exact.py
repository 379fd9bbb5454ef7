"""The posterior of a record of sweeps of one family without a sampler: its sums have no more than four unknowns at a time, which are
laid out on grids. Beside shop_record.py, whose long tails it settles.

    python -m venv v && v/bin/pip install numpy && v/bin/python reference-cases/shop_record_exact.py

prints the lines `exact` of the record `sweeps` in shop_record.toml.
"""
import os
import tomllib
import numpy as np

FORCE, ARM = (np.sqrt(np.log1p(cov ** 2)) for cov in (0.15, 0.20))
METRES = 9.0


def exact(data):
    """Means and deviations of force, arm, their product, and of the score z14 of how far families lie apart."""
    value = np.array([d["value"] for d in data])
    known, seams, nominal = data[0]["sd"] ** 2 + data[0]["welding"] ** 2, data[0]["seams"], data[0]["nominal"]
    means = np.linspace(-45.0, 5.0, 2001)
    likely = np.zeros_like(means)
    for z in np.linspace(-5.0, 4.0, 181):  # the scatter from piece to piece
        sd = np.sqrt(known + (0.2 * np.exp(0.8 * z) * METRES) ** 2)
        t = (value[None] - means[:, None]) / sd
        law = np.logaddexp(np.log(0.95) - t ** 2 / 2, np.log(0.05 / 5) - (t / 5) ** 2 / 2) - np.log(sd)
        likely += np.exp(law.sum(1) - 0.5 * z * z)
    both = np.hypot(FORCE, ARM)  # of the log of force times arm
    logs = np.linspace(-6 * both, 6 * both, 1601)
    apart = np.linspace(-5.5, 5.5, 441)
    weight = np.zeros((len(apart), len(logs)))
    for row, z in zip(weight, apart):  # what the family adds is normal, given how far families lie apart
        add = np.hypot(np.hypot(0.1 * np.exp(0.8 * z) * METRES, seams), 0.1 * METRES)
        kernel = np.exp(-0.5 * ((means[None] - nominal * np.exp(logs)[:, None]) / add) ** 2) / add
        row[:] = kernel @ likely * np.exp(-0.5 * z * z - 0.5 * (logs / both) ** 2)
    weight /= weight.sum()
    of_logs, of_apart = weight.sum(0), weight.sum(1)

    def lognormal(share, own):  # of one of both, given their sum
        first = (of_logs * np.exp(share * logs + own / 2)).sum()
        second = (of_logs * np.exp(2 * share * logs + 2 * own)).sum()
        return first, np.sqrt(second - first ** 2)

    own = (FORCE * ARM / both) ** 2
    z14 = (of_apart * apart).sum()
    return {"force": lognormal((FORCE / both) ** 2, own), "arm": lognormal((ARM / both) ** 2, own),
            "moment": lognormal(1.0, 0.0), "z14": (z14, np.sqrt((of_apart * (apart - z14) ** 2).sum()))}


def lines(data):
    """As shop_record.toml has them."""
    return [f'    {{ name = "{k}", mean = {m:.5f}, sd = {s:.5f} }},' for k, (m, s) in exact(data).items()]


if __name__ == "__main__":
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "shop_record.toml"), "rb") as f:
        print("\n".join(lines(tomllib.load(f)["record"][0]["reading"])))
