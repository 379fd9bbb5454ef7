"""The posterior of three invented records by a general-purpose sampler: emcee (PyPI, MIT), which knows nothing of slopes.

    python -m venv v && v/bin/pip install numpy emcee && v/bin/python reference-cases/shop_record.py

writes shop_record.toml beside itself. The model is written down a second time here, from its description in src/record/model.rs
and src/record/prior.rs. Answers of the engine are taken as nominal values that go with the factors, so that no engine is needed. The numbers `exact` of records of one
family come from shop_record_exact.py, without a sampler.
"""
import os
import numpy as np
import emcee
from shop_record_exact import lines as exact

np.seterr(over="ignore")  # far walkers at the start
NAMES = ["force", "heat_from_leg", "arm", "cup", "tilt", "seam_both_sides"]
COV = [0.15, 0.23, 0.20, 0.30, 0.50, 0.06 * np.sqrt(0.5)]
SD = np.sqrt(np.log1p(np.array(COV) ** 2))
KINDS = ["camber", "sweep", "shortening", "cup", "tilt"]
MEDIAN = [0.15, 0.2, 0.05, 0.3, 0.3]
STRAIGHT = {"camber": [1, 0, 0, 0, 0, 0], "sweep": [1, 0, 1, 0, 0, 0], "shortening": [1, 0, 0, 0, 0, 0],
            "cup": [0, 0, 0, 1, 0, 0], "tilt": [0, 0, 0, 0, 1, 0]}
LENGTH = [9.0, 5.4, 10.0]  # m, of the members


def density(data, families, procedures):
    """Log density over rows of unknowns, each standard normal before the data."""
    kind = np.array([KINDS.index(d["kind"]) for d in data])
    member = np.array([d["family"] for d in data])
    way = np.array([d["procedure"] for d in data])
    value = np.array([d["value"] for d in data])
    nominal = np.array([d["nominal"] for d in data])
    known = np.array([d["sd"] ** 2 + d["welding"] ** 2 for d in data])
    seams = np.array([d["seams"] for d in data])
    straight = np.array([STRAIGHT[d["kind"]] for d in data], float)
    length = np.array(LENGTH)[member]
    size = np.where(kind < 3, length, 1.0)
    bow = np.where(kind < 2, kind, 0)
    is_bow = (kind < 2).astype(float)

    def log(z):
        logs = z[:, :6] * SD
        total = logs[:, None, :] * straight[None]
        if procedures > 1:
            first = 15 + 2 * families
            apart = 0.05 * np.exp(0.7 * z[:, first])
            total[:, :, 0] += straight[None, :, 0] * apart[:, None] * z[:, first + 1 + way]
        mean = nominal * np.exp(total.sum(-1))
        apart = 0.1 * np.exp(0.8 * z[:, 13 + bow]) * size
        spread = np.hypot(apart, seams)
        own = z[:, 15 + 2 * member + bow]
        mean = mean + is_bow * (0.1 * size * z[:, 6 + bow] + spread * own)
        scatter = np.array(MEDIAN)[kind] * np.exp(0.8 * z[:, 8 + kind]) * size
        sd = np.sqrt(known + scatter ** 2)
        t = (value - mean) / sd
        law = np.logaddexp(np.log(0.95) - t ** 2 / 2, np.log(0.05 / 5) - (t / 5) ** 2 / 2) - np.log(sd)
        found = law.sum(-1) - 0.5 * (z ** 2).sum(-1)
        return np.where(np.isfinite(found), found, -np.inf)

    return log, 15 + 2 * families + (procedures + 1 if procedures > 1 else 0)


def record(rng, families, procedures, pieces, kinds, odd):
    nominal = {"camber": [1.2, -0.6, 2.1], "sweep": [-22.0, 0.4, 14.0], "shortening": [2.6, 1.4, 2.2],
               "cup": [1.1, 0.9, 1.3], "tilt": [0.9, 0.1, -1.0]}
    welding = {"camber": 0.5, "sweep": 1.0, "shortening": 0.12, "cup": 0.12, "tilt": 0.25}
    seams = {"camber": 0.4, "sweep": 0.5}
    true = np.array([-0.13, 0, 0.15, 0.2, -0.4, 0])
    out = []
    for i in range(pieces):
        family, way = i % families, (i // families) % procedures
        for kind in kinds:
            if kind in ("cup", "tilt", "shortening") and i % 3:
                continue
            grows = LENGTH[family] if kind in ("camber", "sweep", "shortening") else 1.0
            logs = true + np.array([0.08 * way, 0, 0, 0, 0, 0])
            mean = nominal[kind][family] * np.exp(np.dot(logs, STRAIGHT[kind]))
            sd = 0.35 if kind in ("cup", "tilt") else 1.0
            noise = np.hypot(np.hypot(sd, welding[kind]), 0.2 * grows) * rng.standard_normal()
            value = mean + noise + (0.15 * family * grows if kind == "sweep" else 0.0)
            if odd and i == 4 and kind == "sweep":
                value = -value
            out.append(dict(kind=kind, family=family, procedure=way, piece=i, value=round(value, 1), sd=sd,
                            nominal=nominal[kind][family], welding=welding[kind], seams=seams.get(kind, 0.0)))
    return out


def main():
    lines = ["# Whole records, in a shape of their own; tests/published/shop_record.rs reads it. Written by shop_record.py.",
             f'title = "Posterior of three invented records by emcee {emcee.__version__}"', 'trust = "library"', ""]
    sets = [("sweeps", 1, 1, 12, ["sweep"], False), ("families", 3, 2, 30, ["camber", "sweep"], True),
            ("parts", 1, 1, 21, ["camber", "sweep", "shortening", "cup", "tilt"], False)]
    for at, (name, families, procedures, pieces, kinds, odd) in enumerate(sets):
        rng = np.random.default_rng(40 + at)
        data = record(rng, families, procedures, pieces, kinds, odd)
        log, n = density(data, families, procedures)
        walkers = 8 * n  # its snooker moves come out a tenth too narrow on a plain normal law: left out
        sampler = emcee.EnsembleSampler(walkers, n, log, vectorize=True,
                                        moves=emcee.moves.DEMove())
        sampler.random_state = np.random.RandomState(at).get_state()
        # started far out, some walkers hardly move for thousands of steps
        state = sampler.run_mcmc(0.3 * rng.standard_normal((walkers, n)), 6000)
        sampler.reset()
        sampler.run_mcmc(state, 8000)
        time = sampler.get_autocorr_time(quiet=True).max()
        z = sampler.get_chain(flat=True, thin=8)
        worth = walkers * 8000 / time
        print(name, "unknowns", n, "autocorrelation", round(time), "independent draws", round(worth))
        shown = {"force": np.exp(SD[0] * z[:, 0]), "arm": np.exp(SD[2] * z[:, 2]),
                 "moment": np.exp(SD[0] * z[:, 0] + SD[2] * z[:, 2])}
        for k, kind in enumerate(KINDS):
            if kind in kinds:
                shown["scatter-" + kind] = MEDIAN[k] * np.exp(0.8 * z[:, 8 + k])
        for i in range(n):
            shown[f"z{i}"] = z[:, i]
        lines += ["[[record]]", f'name = "{name}"', f"families = {families}", f"procedures = {procedures}",
                  f"independent = {round(worth)}", "reading = ["]
        for d in data:
            lines.append("    { " + ", ".join(f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in d.items()) + " },")
        lines += ["]", "posterior = ["]
        for k, v in shown.items():
            lines.append(f'    {{ name = "{k}", mean = {v.mean():.5f}, sd = {v.std():.5f} }},')
        lines += ["]", "exact = ["] + (exact(data) if families == 1 else []) + ["]", ""]
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "shop_record.toml"), "w") as f:
        f.write("\n".join(lines))


main()
