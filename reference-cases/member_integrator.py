"""Camber, sweep, shortening of edges and web compression of welded I-members, integrated apart from the crate: plain sums over
many slices and fibres, strains of every stage kept as a plane in y, a rippled web as fibres that stop working. The force of a
pass is worked out here again from the closed form of the crate's guide (all orders cold). Prints member_integrator.toml.

    python3 reference-cases/member_integrator.py > reference-cases/member_integrator.toml
"""
from math import exp, log, log2, pi, sqrt

E, FY = 206_000.0, 355.0
SLICES = 2400
FIBRES = 1500


def thick(heat, plate, step):
    return 1 - 0.365 / (1 + (heat / plate**2 / step) ** 4)


def lone(heat, plates, stretch):
    """Force of a heat (J/mm) on plates (width, flange, web) that stretch by Σ Q_j (1/A + e e_j/I) for it (J/mm3)."""
    b, t, tw = plates
    share = 2 * t / (2 * t + tw)

    def free(q_heat, x):
        held = (207 * share * thick(q_heat, t, 3.72) + 235 * (1 - share) * thick(q_heat, tw, 4.65)) * q_heat
        loss = 1.77 / (1 + q_heat / t**2 / 3.53)
        return held / (1 + q_heat * share / t**2 / 78.5) / (1 + loss * max(x, 0))

    p = 0.48394 * 12e-6 * heat / (4.5e-3 * (2 * t + tw) * FY / E) / (b / 2)
    part = min(1.0, 1.83 / p)
    more = 4.35 * exp(-0.5 * (log(min(p / 1.83, 1.0)) / 0.333) ** 2)
    more = share * min(more * exp(-((b / 2) ** 2 * 4.5e-3 / (2 * 0.040)) / (4.5e-3 * t / (2 * 35e-6))), 1.07)
    x = part * max(stretch, 0)
    narrow = 1 + more * exp(-0.84 * 12e-6 / (4.5e-3 * FY / E) * x)
    return max(free(heat, stretch), free(part * heat, x) * narrow), share


class Member:
    def __init__(self, length, depth, web, outer, inner, passes, tee_first=False):
        self.length, self.depth, self.web, self.outer, self.inner = length, depth, web, outer, inner
        self.passes, self.tee_first = passes, tee_first

    def at(self, x):
        for (x0, d0), (x1, d1) in zip(self.depth, self.depth[1:]):
            if x <= x1:
                return d0 + (x - x0) * (d1 - d0) / (x1 - x0), (d1 - d0) / (x1 - x0)
        raise ValueError(x)

    def plates(self, x, d, cos, parts):
        """(area along x, y, own height, lateral inertia) of what is joined."""
        plate = lambda rows: next((b, t) for end, b, t in rows if x <= end)
        (bo, to), (bi, ti) = plate(self.outer), plate(self.inner)
        c3 = cos**3
        out = []
        if "w" in parts:
            out.append((self.web * d, d / 2, d, d * self.web**3 / 12))
        if "o" in parts:
            out.append((bo * to, -to / 2, to, to * bo**3 / 12))
        if "i" in parts:
            out.append((bi * ti * c3, d + ti / cos / 2, ti / cos, ti * c3 * bi**3 / 12))
        return out, (bo, to), (bi, ti)


def section(plates):
    a = sum(p[0] for p in plates)
    c = sum(p[0] * p[1] for p in plates) / a
    i = sum(p[0] * ((p[1] - c) ** 2 + p[2] ** 2 / 12) for p in plates)
    return a, c, i, sum(p[3] for p in plates)


def ripple(member, x, d, plates, plane):
    """The plane once the middle of the web no longer works, by fibres."""
    critical = 0.5 * (4 + 6.97) * pi**2 * E / (12 * (1 - 0.09)) * (member.web / d) ** 2
    flat = -E * (plane[0] + plane[1] * d / 2)
    if flat <= critical:
        return plane
    others = [p for p in plates if p[2] != d]
    dy = d / FIBRES

    def without(share):
        low, high = d / 2 * share, d - d / 2 * share
        # fibres that work, in part at the border; and what the others carried
        stay, gone = [], []
        for k in range(FIBRES):
            y0, y1 = k * dy, (k + 1) * dy
            cut = max(0.0, min(y1, high) - max(y0, low))
            if cut > 0:
                gone.append((member.web * cut, (max(y0, low) + min(y1, high)) / 2))
            if dy - cut > 1e-12:
                y = (y0 + y1) / 2 if cut == 0 else ((y0 + low) / 2 if y0 < low else (y1 + high) / 2)
                stay.append((member.web * (dy - cut), y, dy - cut, 0.0))
        a, c, i, _ = section(others + stay)
        carried = [(area * (plane[0] + plane[1] * y), y) for area, y in gone]
        n = sum(f for f, _ in carried)
        g = sum(f * (y - c) for f, y in carried) / i
        return plane[0] + n / a - g * c, plane[1] + g

    low, high = 1e-3, 1.0
    for _ in range(60):
        share = (low + high) / 2
        e0, g = without(share)
        low, high = (low, share) if share**2 * -E * (e0 + g * d / 2) > critical else (share, high)
    return without((low + high) / 2)


def slice_at(member, x):
    """Plane (ε at y = 0, dε/dy), dε/dz, centroid, strain of the inner flange since it joined, flat compression."""
    d, slope = member.at(x)
    cos = 1 / sqrt(1 + slope**2)
    orders = sorted({p["order"] for p in member.passes})
    plane, lateral, begun, left = [0.0, 0.0], 0.0, 0.0, {}
    before = None
    for order in orders:
        parts = "wo" if member.tee_first and order == 1 else "woi"
        plates, to, ti = member.plates(x, d, cos, parts)
        a, c, i, iy = section(plates)
        if before and before != parts:
            begun = plane[0] + plane[1] * d
            lateral *= section(member.plates(x, d, cos, before)[0])[3] / iy
        before = parts
        here = [p for p in member.passes if p["order"] == order and p["from"] <= x <= p["to"]]
        place = lambda p: (0.0, 1.0, *to) if p["seam"] == "o" else (d, cos, *ti)
        pulls = []
        for p in here:
            y, along, b, t = place(p)
            stretch = sum(
                r["heat"] * r["fraction"] * place(r)[1] * (1 / a + (y - c) * (place(r)[0] - c) / i)
                * (1 if r["seam"] == p["seam"] else member.web / t)
                for r in here
            )
            force, share = lone(p["heat"], (b, t, member.web), stretch)
            stress = sum(s * ((1 - share) + share * (p["seam"] in seen)) for s, seen in left.get(p["seam"], []))
            force *= p["fraction"] * (1 - log2(1 + stress / FY))
            pulls.append((p, force, y, along))
        for p, force, y, along in pulls:
            n = -force * along / E
            g = n * (y - c) / i
            plane[1] += g
            plane[0] += n / a - g * c
            of_web = 0.33 + 0.67 / (1 + (p["heat"] / member.web**2 / (3.2 * FY / 355)) ** 2)
            lateral += n * (of_web * member.web / 2 + 0.93 * p["leg"] / 3) / iy
            other = "i" if p["seam"] == "o" else "o"
            at = d if other == "i" else 0.0
            left.setdefault(other, []).append((E * (n / a + (y - c) * (at - c) * n / i), parts))
    flat = -E * (plane[0] + plane[1] * d / 2)
    e0, g = ripple(member, x, d, plates, plane)
    return (e0, g), lateral, c, cos * (e0 + g * d - begun), flat, d


def integrate(member):
    """Gauss points in slices that never cross a break."""
    breaks = sorted(
        {0.0, member.length}
        | {x for x, _ in member.depth}
        | {end for end, _, _ in member.outer + member.inner}
        | {v for p in member.passes for v in (p["from"], p["to"])}
    )
    level = len(member.depth) == 2 and member.depth[0][1] == member.depth[1][1]
    kept = {}
    sums = dict.fromkeys(["centroid", "outer edge", "inner edge", "inner flange"], 0.0)
    camber, sweep, x_all = [(0.0, 0.0)], [(0.0, 0.0)], [0.0]
    for a, b in zip(breaks, breaks[1:]):
        n = max(2, round(SLICES / 6 * (b - a) / member.length))
        h = (b - a) / n
        for k in range(n):
            x = a + (k + 0.5) * h
            key = a if level else x
            if key not in kept:
                kept[key] = slice_at(member, x)
            (e0, g), lateral, c, flange, flat, d = kept[key]
            for name, strain in [("centroid", e0 + g * c), ("outer edge", e0), ("inner edge", e0 + g * d), ("inner flange", flange)]:
                sums[name] -= strain * h
            for curve, bend in [(camber, -g), (sweep, -lateral)]:
                v, s = curve[-1]
                curve.append((v + h * s + h * h * bend / 2, s + h * bend))
            x_all.append(x + h / 2)
    largest = lambda curve: max((v - curve[-1][0] * x / member.length for (v, _), x in zip(curve, x_all)), key=abs)
    middle = slice_at(member, member.length / 2 + 1e-6)
    return {"camber": largest(camber), "sweep": largest(sweep), **sums, "web compression": middle[4]}


def near(seam, order, heat, leg, length, along=None, fraction=1.0):
    a, b = along or (0.0, length)
    return {"seam": seam, "order": order, "heat": heat, "leg": leg, "from": a, "to": b, "fraction": fraction}


def both(heat, leg, length, orders=(1, 1)):
    return [near(s, n, heat, leg, length) for s, n in zip("oi", orders)]


MEMBERS = {
    "stepped": Member(9000.0, [(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)], 5.0, [(9000.0, 180.0, 8.0)],
                      [(5000.0, 180.0, 10.0), (9000.0, 180.0, 14.0)], both(1000.0, 5.7, 9000.0)),
    "tapered": Member(8000.0, [(0.0, 350.0), (8000.0, 900.0)], 6.0, [(8000.0, 200.0, 10.0)], [(8000.0, 200.0, 12.0)],
                      both(900.0, 5.4, 8000.0)),
    "stitched and part-length": Member(8000.0, [(0.0, 500.0), (8000.0, 500.0)], 6.0, [(8000.0, 200.0, 10.0)],
                                       [(8000.0, 200.0, 12.0)],
                                       [near("o", 1, 900.0, 5.4, 8000.0, fraction=0.5),
                                        near("i", 2, 900.0, 5.4, 8000.0, (1500.0, 6500.0))]),
    "tee first": Member(10_000.0, [(0.0, 400.0), (10_000.0, 900.0)], 6.0, [(10_000.0, 200.0, 10.0)], [(10_000.0, 200.0, 10.0)],
                        both(804.0, 5.0, 10_000.0, (1, 2)), tee_first=True),
    "rippled": Member(9000.0, [(0.0, 1200.0), (9000.0, 1200.0)], 5.0, [(9000.0, 180.0, 8.0)], [(9000.0, 220.0, 16.0)],
                      both(1200.0, 6.0, 9000.0)),
    "tee first and rippled": Member(9000.0, [(0.0, 1000.0), (9000.0, 1000.0)], 4.0, [(9000.0, 200.0, 8.0)], [(9000.0, 200.0, 12.0)],
                                    both(800.0, 5.0, 9000.0, (1, 2)), tee_first=True),
}

if __name__ == "__main__":
    print('title = "Members integrated apart from the crate (reference-cases/member_integrator.py)"\n')
    print('[tolerance.slices]\nabsolute = 1e-4\nrelative = 1e-3\nreason = "slices and fibres of the script; on tapers substeps of the crate"\n')
    for name, member in MEMBERS.items():
        for quantity, value in integrate(member).items():
            unit = "MPa" if quantity == "web compression" else "mm"
            print(f'[[case]]\nquantity = "{quantity}"\ngiven = {{ member = "{name}" }}\nexpected = {value:.6f}\nunit = "{unit}"')
            print('source = "plain sums over slices and fibres"\ntrust = "own script"\ntolerance = "slices"\n')
