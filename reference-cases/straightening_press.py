"""Press bending of a uniform I-section, elastic then perfectly plastic, for the `own script` rows of straightening_press.toml.

Run by hand with numpy 2.4.6 (Python 3):  python straightening_press.py
Prints each quantity of the sheet with what it depends on; the sheet keeps the figures it needs.

Section A: flanges 200 x 10, web 600 x 6; E 200 GPa, yield 345 MPa. Simple supports, one ram midway or two at thirds, small
deflections, no weight, no crushing, no buckling; what stays after an elastic release.
Without weld stress the stress of each plate is integrated in closed form over its elastic and plastic layers. With M = P x/2 and
virtual work the stroke is (2/P^2) * integral over curvature of (Mm^2 - M^2), free of the singular hinge.
With weld stress (30 mm of each flange and 25 mm at either end of the web at yield, the rest of each plate in balance), or about
the weak axis: fibres, neutral axis by bisection, moment table straight between curvatures.
"""
import numpy as np

E, YIELD, SPAN = 200_000.0, 345.0, 10_000.0
STRONG = [(200.0, -310.0, -300.0), (6.0, -300.0, 300.0), (200.0, 300.0, 310.0)]
WEAK = [(20.0, -100.0, -3.0), (620.0, -3.0, 3.0), (20.0, 3.0, 100.0)]
NODES, WEIGHTS = np.polynomial.legendre.leggauss(8)


def inertia(plates):
    return sum(b * (high ** 3 - low ** 3) / 3 for b, low, high in plates)


def plastic_modulus(plates):
    return sum(b * abs(high * abs(high) - low * abs(low)) / 2 for b, low, high in plates)


def moment(plates, curvature, fy):
    """Exact moment of a section symmetric about y = 0."""
    reach = fy / (E * np.asarray(curvature))

    def part(y):
        """Integral of stress times y from 0 to y >= 0, per width."""
        elastic = np.minimum(y, reach)
        return E * curvature * elastic ** 3 / 3 + fy * (y * y - elastic * elastic) / 2

    total = 0.0
    for b, low, high in plates:
        for y, sign in ((high, 1.0), (low, -1.0)):
            total = total + sign * np.sign(y) * b * part(abs(y))
    return total


def panels(f, low, high, count=256):
    """Integral over panels that grow in proportion."""
    edges = low * (high / low) ** (np.arange(count + 1) / count)
    half, middle = np.diff(edges)[:, None] / 2, ((edges[1:] + edges[:-1]) / 2)[:, None]
    return float(np.sum(half * WEIGHTS * f(middle + half * NODES)))


class Push:
    """A push by its largest curvature."""

    def __init__(self, plates=STRONG, span=SPAN, fy=YIELD, rams=1):
        self.plates, self.span, self.fy, self.rams = plates, span, fy, rams
        self.depth = max(high for _, _, high in plates)
        self.first = fy / (E * self.depth)
        self.i = inertia(plates)

    def of(self, curvature):
        """(load of one ram, stroke midway, set)."""
        most, i, span = float(moment(self.plates, curvature, self.fy)), self.i, self.span
        first = min(self.first, curvature)
        area = most * most * first - (E * i) ** 2 * first ** 3 / 3
        if curvature > self.first:
            area += panels(lambda k: most * most - moment(self.plates, k, self.fy) ** 2, self.first, curvature)
        if self.rams == 1:
            load = 4 * most / span
            stroke, elastic = 2 * area / load ** 2, load * span ** 3 / (48 * E * i)
        else:
            a = span / 3
            load = most / a
            # the part up to the ram: integral of k x dx, with M = load x
            stroke = area / (2 * load ** 2) + curvature * (span ** 2 / 8 - a * a / 2)
            elastic = load * a / (24 * E * i) * (3 * span ** 2 - 4 * a * a)
        return load, stroke, stroke - elastic

    def where(self, which, target):
        """Curvature at which load, stroke or set is the target."""
        low, high = self.first * 1e-6, self.first * 3000
        for _ in range(200):
            middle = np.sqrt(low * high)
            low, high = (middle, high) if self.of(middle)[which] < target else (low, middle)
        return np.sqrt(low * high)


def fibres(axis, weld):
    """(area, y, weld stress) of each fibre."""
    flange, web = -YIELD * 30 / 170, -YIELD * 50 / 550
    rows = []

    def strips(width, low, high, stress, count):
        step = (high - low) / count
        rows.extend((width * step, low + (at + 0.5) * step, stress if weld else 0.0) for at in range(count))

    if axis == "strong":
        for low in (-310.0, 300.0):
            strips(30, low, low + 10, YIELD, 10)
            strips(170, low, low + 10, flange, 10)
        for low, high, stress in ((-300, -275, YIELD), (-275, 275, web), (275, 300, YIELD)):
            strips(6, low, high, stress, max(4, int(60 * (high - low) / 600)))
    else:
        for low, high, stress in ((-100, -15, flange), (-15, 15, YIELD), (15, 100, flange)):
            strips(20, low, high, stress, 40 if high - low > 50 else 20)
        strips(600, -3, 3, 0.0, 6)
    return np.array(rows).T


def table(axis, weld):
    """Moment at curvatures, no axial force."""
    area, y, stress = fibres(axis, weld)
    first = YIELD / (E * (310 if axis == "strong" else 100))
    grid = np.concatenate([first * 2 * np.arange(161) / 160, first * 2 * 15 ** (np.arange(1, 161) / 160)])
    moments = []
    for k in grid:
        low, high = -0.01, 0.01
        for _ in range(60):
            middle = (low + high) / 2
            now = np.clip(stress + E * (middle + k * y), -YIELD, YIELD)
            low, high = (low, middle) if np.sum(area * now) > 0 else (middle, high)
        moments.append(np.sum(area * now * y))
    return grid, np.array(moments), first


def pushed(axis, span, weld, which, target):
    """(load, stroke, set, curvature ratio) by fibres, where load or set is the target."""
    grid, moments, first = table(axis, weld)
    i = inertia(STRONG if axis == "strong" else WEAK)

    def state(k):
        most = np.interp(k, grid, moments)
        inside = grid < k
        ks, ms = np.append(grid[inside], k), np.append(moments[inside], most)
        mean = (ms[1:] ** 2 + ms[1:] * ms[:-1] + ms[:-1] ** 2) / 3
        load = 4 * most / span
        stroke = 2 * np.sum((most * most - mean) * np.diff(ks)) / load ** 2
        return load, stroke, stroke - load * span ** 3 / (48 * E * i), k / first

    low, high = first * 1e-3, grid[-1]
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if state(middle)[which] < target else (low, middle)
    return state((low + high) / 2)


def row(what, *values):
    print(f"{what:<44}", "  ".join(f"{value:.6f}" for value in values))


def main():
    one = Push()
    yields, hinge = 4 * YIELD * one.i / one.depth / SPAN, 4 * YIELD * plastic_modulus(STRONG) / SPAN
    for target in (2.0, 5.0, 7.5, 10.0):
        k = one.where(2, target)
        load, stroke, stays = one.of(k)
        row(f"set {target} mm: kN, stroke, springback, mu", load / 1e3, stroke, stroke - stays, k / one.first)
    row("  strain %, plastic zone mm, shear mm", 100 * k * one.depth, SPAN * (1 - yields / load),
        load * SPAN / 4 / (E / 2.6 * 600 * 6))
    two = Push(rams=2)
    k = two.where(2, 10.0)
    load_2, stroke_2, stays_2 = two.of(k)
    row("two rams, set 10 mm: kN, stroke, springback, mu", load_2 / 1e3, stroke_2, stroke_2 - stays_2, k / two.first)
    for mu in (5.0, 10.0, 3000.0):
        row(f"set at mu {mu}", one.of(mu * one.first)[2])
    row("first yield, hinge, kN", yields / 1e3, hinge / 1e3)
    for factor in (0.9, 0.95, 1.05, 1.1):
        other = Push(fy=YIELD * factor)
        far = 3000 * other.first
        if other.of(far)[1] < stroke:  # a hinge: the rest of the stroke stays
            stays = stroke - 4 * other.fy * plastic_modulus(STRONG) / SPAN * SPAN ** 3 / (48 * E * other.i)
        else:
            stays = other.of(other.where(1, stroke))[2]
        row(f"set at the same stroke, yield x {factor}", stays)
    extra = [one.of(one.where(1, stroke + more))[2] for more in (0.0, 1.0, 2.0)]
    row("set by the next mm of stroke, and the next", extra[1] - extra[0], extra[2] - extra[1])
    deflection = yields * SPAN ** 3 / (48 * E * one.i)
    row("load, stroke, set over those at first yield", load / yields, stroke / deflection, 10.0 / deflection)
    row("weld stress: kN, stroke, set, mu", *(lambda r: (r[0] / 1e3, *r[1:]))(pushed("strong", SPAN, True, 2, 10.0)))
    for weld in (False, True):
        r = pushed("weak", 4000.0, weld, 2, 10.0)
        row(f"weak axis over 4 m, weld stress {weld}: kN, stroke, set, mu", r[0] / 1e3, *r[1:])
    for p in (0.6, 0.8, 1.0):
        row(f"weld stress, first loading to {p} Py: set", pushed("strong", SPAN, True, 0, p * yields)[2])


if __name__ == "__main__":
    main()
