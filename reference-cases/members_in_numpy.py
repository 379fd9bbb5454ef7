"""The speed to beat: what a user would write instead of a study. The member model vectorised over cases in NumPy: two passes, one side, a taper with a
kink, 8 smooth steps, 2 Gauss points each, lone force with its step from thick to thin and its loss in a free section, bows by double integration;
fewer effects than the engine has, and no reading, checking or writing. Prints microseconds a case on one core.

Run with numpy (Python 3):  python members_in_numpy.py [CASES]; `cargo bench --bench study` runs it beside the rows of a study.
"""
import sys
import time

import numpy as np

E = 206000.0
GAUSS = (0.5 - 0.2886751, 0.5 + 0.2886751)
WIDTH, HEAT, LEG = 180.0, 1000.0, 6.0


def force(thickness, web, area, inertia, at, both):
    """Force of one pass in a free section, N; `at` is the arm of its seam, `both` those of the seams that are hot."""
    share = 2 * thickness / (2 * thickness + web)
    q = HEAT * share / thickness**2
    held = 204 * (1 - 0.365 * share / (1 + (q / 2.54) ** 4.77)) / (1 + q / 134) * HEAT
    loss = 0.245 * (1 + 3.2 * np.exp(-0.5 * (np.log(q / 1.77) / 0.73) ** 2))
    stretch = HEAT * (2 / area + at * sum(both) / inertia)
    return held / (1 + loss * np.maximum(stretch, 0))


def members(length, outer, web):
    """Camber and sweep from the tangent at the start, and shortening, of many members at once."""
    inner = [10.0, 14.0]
    offset, slope, shortening = [0.0, 0.0], [0.0, 0.0], 0.0
    edges = np.concatenate([np.linspace(0, 2 / 3, 6), np.linspace(2 / 3, 1, 4)[1:]])
    for start, end in zip(edges, edges[1:]):
        step = (end - start) * length
        curvature = [[0.0, 0.0], [0.0, 0.0]]
        for point, place in enumerate(GAUSS):
            x = start + (end - start) * place
            depth, flange = 400 + 360 * min(x * 1.5, 1.0), inner[int(x >= 5 / 9)]
            slant = np.where(x < 2 / 3, 360 / (length * 2 / 3), 0.0)
            cosine = 1 / np.sqrt(1 + slant**2)
            parts = [(WIDTH * outer, -outer / 2, outer), (depth * web, depth / 2, depth),
                     (WIDTH * flange * cosine**3, depth + flange / 2, flange)]
            area = sum(a for a, _, _ in parts)
            centre = sum(a * y for a, y, _ in parts) / area
            inertia = sum(a * ((y - centre) ** 2 + t**2 / 12) for a, y, t in parts)
            sideways = (outer * WIDTH**3 + depth * web**3 + flange * WIDTH**3) / 12
            both = [-centre, depth - centre]
            for thickness, at in zip((outer, flange), both):
                pull = force(thickness, web, area, inertia, at, both)
                curvature[0][point] = curvature[0][point] + pull * at / (E * inertia)
                curvature[1][point] = curvature[1][point] + pull * 0.57 * (web / 2 + LEG / 3) / (E * sideways)
                shortening = shortening + 0.5 * step * pull / (E * area)
        for bow, (first, second) in enumerate(curvature):
            offset[bow] = offset[bow] + slope[bow] * step + step**2 * (first * (1 - GAUSS[0]) + second * (1 - GAUSS[1])) / 2
            slope[bow] = slope[bow] + step * (first + second) / 2
    return offset, shortening


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300_000
    rng = np.random.default_rng(0)
    drawn = rng.uniform(8000, 10000, count), rng.uniform(8, 14, count), rng.uniform(5, 8, count)
    members(*drawn)
    start = time.process_time()
    _, shortening = members(*drawn)
    took = time.process_time() - start
    print(f"NumPy {np.__version__}: {took / count * 1e6:.2f} µs a case on one core, {count} cases, shortening {shortening.mean():.2f} mm")
