"""Bows, edges, shortening and web compression of a welded member from given seam forces, for bows.toml.

Run by hand with numpy 2.4.6 (Python 3):  python bows.py > bows.toml
Written apart from the crate, and in another way: no centroids, but the two-by-two stiffness of the joined plates about the
outer web edge (the line y = 0), solved for the strain there and its gradient.

Plane sections, elastic. x runs along the member, y from the outer web edge toward the inner flange, z to the near side. A weld
pulls along its seam with a given force; the parts joined when it cools take it up. Strains of all steps are carried on y = 0, so
they add up whatever parts each step had. A flange that joins later starts its own line then: it fits the web edge as it is.
Sideways it is clamped straight and let go (old and new parts share the earlier curvature by their stiffness), or follows.
The inner flange rises with slope s: along x it stretches by cos^2 of what x does over ds = dx/cos, and pulls with cos.
A web whose mean compression exceeds pi^2 E/(12 (1 - nu^2)) (t/d)^2 k, k half-way between 4 (hinged) and 6.97 (clamped), works
with sqrt(critical/compression) of its depth only, half at either edge; the compression in that is that of the working web,
so width and stress are iterated.
"""
import numpy as np

E = 206_000.0
CELLS = 8            # forces are given for eighths of the length
FINE = 16            # intervals of an eighth, each with two Gauss points
GAUSS = np.array([0.5 - np.sqrt(3) / 6, 0.5 + np.sqrt(3) / 6])
K_MEAN = (4.0 + 6.97) / 2


def piecewise(points, x):
    return np.interp(x, [p[0] for p in points], [p[1] for p in points])


def plate(pieces, x):
    """Sizes of the piece that holds x; a piece is [end, size, ...]."""
    for piece in pieces:
        if x <= piece[0]:
            return piece[1:]
    return pieces[-1][1:]


def stiffness(member, x, parts, without=0.0):
    """E·∫(1, y, y²)dA of the joined parts, and E·∫z²dA; `without` mm of the web's middle carry nothing."""
    d, s = member["d"](x), member["slope"](x)
    cos = 1 / np.hypot(1, s)
    total, sideways = np.zeros((2, 2)), 0.0

    def add(area, y, height, width):
        nonlocal total, sideways
        total = total + E * area * np.array([[1, y], [y, y * y + height * height / 12]])
        sideways += E * area * width * width / 12

    if "web" in parts:
        t = plate(member["web_mm"], x)[0]
        add(t * d, d / 2, d, t)
        if without:
            gone = t * without
            total = total - E * gone * np.array([[1, d / 2], [d / 2, d * d / 4 + without * without / 12]])
    if "outer" in parts:
        b, t = plate(member["outer_mm"], x)
        add(b * t, -t / 2, t, b)
    if "inner" in parts:
        b, t = plate(member["inner_mm"], x)
        add(b * t * cos ** 3, d + t / cos / 2, t / cos, b)
    return total, sideways


def steps(member):
    """Parts joined in each order, with the passes of that order."""
    for number in sorted({p["order"] for p in member["pass"]}):
        first = member.get("first_joined")
        parts = {"web", first} if first and number == 1 else {"web", "outer", "inner"}
        yield parts, [p for p in member["pass"] if p["order"] == number]


def pull(member, p, x):
    """Force of a pass at x: that of the eighth, or nothing between stitches."""
    force = p["force_n"][min(int(x / member["length_mm"] * CELLS), CELLS - 1)]
    stitch = member.get("stitch_mm")
    return force if not stitch or x % sum(stitch) < stitch[0] else 0.0


def loads(member, passes, x):
    d, s = member["d"](x), member["slope"](x)
    push, moment = np.zeros(2), 0.0
    for p in passes:
        y, cos = (0.0, 1.0) if p["seam"] == "outer" else (d, 1 / np.hypot(1, s))
        force = pull(member, p, x) * cos
        push -= force * np.array([1, y])
        moment -= force * member["arm_mm"] * (1 if p["side"] == "near" else -1)
    return push, moment


def at(member, x):
    """(strain at y = 0, dε/dy, dε/dz, strains since each flange joined, mean web strain while flat)."""
    plane, sideways, since = np.zeros(2), 0.0, {}
    before = None
    d = member["d"](x)
    for parts, passes in steps(member):
        whole, lateral = stiffness(member, x, parts)
        if before is not None and parts != before[0] and not member.get("follows", False):
            sideways *= before[1] / lateral
        before = (parts, lateral)
        for flange in ("outer", "inner"):
            if flange in parts and flange not in since:
                since[flange] = plane.copy()
        push, moment = loads(member, passes, x)
        plane = plane + np.linalg.solve(whole, push)
        sideways += moment / lateral
    flat = plane[0] + plane[1] * d / 2
    t = plate(member["web_mm"], x)[0]
    critical = K_MEAN * np.pi ** 2 * E / (12 * (1 - 0.3 ** 2)) * (t / d) ** 2
    if -E * flat > critical:
        assert "first_joined" not in member, "ripples are for members joined at once"
        push = sum(loads(member, passes, x)[0] for _, passes in steps(member))
        works = 1.0
        for _ in range(200):
            whole, _ = stiffness(member, x, {"web", "outer", "inner"}, (1 - works) * d)
            plane = np.linalg.solve(whole, push)
            works = np.sqrt(critical / (-E * (plane[0] + plane[1] * d / 2)))
    lines = {f: plane - since[f] for f in since}
    return plane, sideways, lines, flat


def integrate(member):
    length = member["length_mm"]
    depth = member["depth_mm"]
    member["d"] = lambda x: piecewise(depth, x)
    slopes = [(b[0], (b[1] - a[1]) / (b[0] - a[0])) for a, b in zip(depth, depth[1:])]
    member["slope"] = lambda x: next((s for end, s in slopes if x <= end), slopes[-1][1])
    breaks = {0.0, length, *(length * k / CELLS for k in range(CELLS + 1)), *(p[0] for p in depth)}
    for row in ("web_mm", "outer_mm", "inner_mm"):
        breaks |= {piece[0] for piece in member[row]}
    stitch = member.get("stitch_mm")
    if stitch:
        count = round(length / sum(stitch))
        breaks |= {k * sum(stitch) + off for k in range(count) for off in (0.0, stitch[0])}
    breaks = sorted(breaks)
    fine = 2 if stitch else FINE
    short = {"shortening": 0.0, "outer_edge": 0.0, "inner_edge": 0.0, "outer_flange": 0.0, "inner_flange": 0.0}
    xs, bows, web = [0.0], {"camber": [[0.0, 0.0]], "sweep": [[0.0, 0.0]]}, np.zeros(CELLS)
    for start, end in zip(breaks, breaks[1:]):
        h = (end - start) / fine
        for k in range(fine):
            bends = {"camber": [], "sweep": []}
            for g in GAUSS:
                x = start + (k + g) * h
                plane, sideways, lines, flat = at(member, x)
                d, cos = member["d"](x), 1 / np.hypot(1, member["slope"](x))
                whole, _ = stiffness(member, x, {"web", "outer", "inner"})
                middle = whole[0, 1] / whole[0, 0]
                short["shortening"] -= h / 2 * (plane[0] + plane[1] * middle)
                short["outer_edge"] -= h / 2 * plane[0]
                short["inner_edge"] -= h / 2 * (plane[0] + plane[1] * d)
                short["outer_flange"] -= h / 2 * lines["outer"][0]
                short["inner_flange"] -= h / 2 * (lines["inner"][0] + lines["inner"][1] * d) * cos
                web[min(int(x / length * CELLS), CELLS - 1)] -= E * flat * h / 2 / (length / CELLS)
                bends["camber"].append(-plane[1])
                bends["sweep"].append(-sideways)
            for name, (a, b) in bends.items():
                offset, slope = bows[name][-1]
                # weights of the two Gauss points for the offset at the end of the interval
                near, far = 1 - GAUSS
                bows[name].append([offset + slope * h + h * h / 2 * (near * a + far * b), slope + h / 2 * (a + b)])
            xs.append(start + (k + 1) * h)
    xs = np.array(xs)
    out = {f"{name}_mm": value for name, value in short.items()}
    for name, both in bows.items():
        offset = np.array([b[0] for b in both])
        offset -= xs / length * offset[-1]
        top = int(np.clip(np.argmax(abs(offset)), 1, len(xs) - 2))
        a, b, c = np.polyfit(xs[top - 1:top + 2] - xs[top], offset[top - 1:top + 2], 2)
        out[f"{name}_mm"] = c - b * b / (4 * a) if a else c
        out[f"{name}_mid_mm"] = np.interp(length / 2, xs, offset)
    out["web_mpa"] = [float(w) for w in web]
    return out


def one(seam, side, order, *forces):
    force = [float(f) for f in forces]
    return {"seam": seam, "side": side, "order": order, "force_n": force * (CELLS if len(force) == 1 else 1)}


LEVEL = {"length_mm": 12000.0, "depth_mm": [[0.0, 600.0], [12000.0, 600.0]], "web_mm": [[12000.0, 6.0]],
         "outer_mm": [[12000.0, 200.0, 10.0]], "inner_mm": [[12000.0, 200.0, 10.0]], "arm_mm": 2.66}
RAFTER = {"length_mm": 9000.0, "depth_mm": [[0.0, 400.0], [6000.0, 760.0], [9000.0, 760.0]],
          "web_mm": [[9000.0, 5.0]], "outer_mm": [[9000.0, 180.0, 8.0]],
          "inner_mm": [[5000.0, 180.0, 10.0], [9000.0, 180.0, 14.0]], "arm_mm": 2.5}
STEEP = {"length_mm": 10000.0, "depth_mm": [[0.0, 300.0], [10000.0, 900.0]], "web_mm": [[10000.0, 8.0]],
         "outer_mm": [[10000.0, 160.0, 12.0]], "inner_mm": [[10000.0, 240.0, 10.0]], "arm_mm": 3.2}
STEPPED = {"length_mm": 8000.0, "depth_mm": [[0.0, 500.0], [8000.0, 500.0]], "web_mm": [[3500.0, 6.0], [8000.0, 8.0]],
           "outer_mm": [[2500.0, 180.0, 8.0], [5500.0, 200.0, 12.0], [8000.0, 200.0, 16.0]],
           "inner_mm": [[4000.0, 220.0, 14.0], [8000.0, 160.0, 10.0]], "arm_mm": 0.0}
DEEP = {"length_mm": 9000.0, "depth_mm": [[0.0, 1200.0], [9000.0, 1200.0]], "web_mm": [[9000.0, 5.0]],
        "outer_mm": [[9000.0, 180.0, 8.0]], "inner_mm": [[9000.0, 220.0, 16.0]], "arm_mm": 2.5}
DEEPENING = {"length_mm": 10000.0, "depth_mm": [[0.0, 900.0], [10000.0, 1150.0]], "web_mm": [[10000.0, 4.0]],
             "outer_mm": [[10000.0, 200.0, 8.0]], "inner_mm": [[10000.0, 200.0, 12.0]], "arm_mm": 2.0}

MEMBERS = [
    LEVEL | {"name": "T first, cold second", "first_joined": "outer",
             "pass": [one("outer", "near", 1, 139_930), one("inner", "near", 2, 137_770)]},
    LEVEL | {"name": "T first, flange follows", "first_joined": "outer", "follows": True,
             "pass": [one("outer", "near", 1, 139_930), one("inner", "near", 2, 137_770)]},
    RAFTER | {"name": "T first, tapered and stepped", "first_joined": "outer",
              "pass": [one("outer", "near", 1, 162e3, 163e3, 164e3, 165e3, 166e3, 167e3, 168e3, 168e3),
                       one("inner", "near", 2, 150e3, 152e3, 154e3, 156e3, 151e3, 152e3, 153e3, 153e3)]},
    STEEP | {"name": "T with the inner flange first, steep", "first_joined": "inner",
             "pass": [one("inner", "near", 1, 120e3, 122e3, 124e3, 126e3, 128e3, 130e3, 131e3, 132e3),
                      one("outer", "near", 2, 110e3, 112e3, 114e3, 116e3, 118e3, 119e3, 120e3, 121e3)]},
    RAFTER | {"name": "tapered and stepped, both seams",
              "pass": [one("outer", "near", 1, 169e3, 170e3, 171e3, 172e3, 172.5e3, 172.8e3, 173e3, 173e3),
                       one("inner", "near", 1, 173e3, 174e3, 175e3, 176e3, 172e3, 171.6e3, 171.8e3, 171.8e3)]},
    STEEP | {"name": "steep taper, inner seam alone",
             "pass": [one("inner", "far", 1, 140e3, 142e3, 144e3, 146e3, 148e3, 149e3, 150e3, 151e3)]},
    STEPPED | {"name": "steps of all plates, outer seam alone",
               "pass": [one("outer", "near", 1, 120e3, 124e3, 128e3, 130e3, 131e3, 133e3, 134e3, 135e3)]},
    RAFTER | {"name": "part length", "pass": [one("outer", "near", 1, 0, 0, 165e3, 166e3, 167e3, 168e3, 168e3, 0)]},
    LEVEL | {"name": "stitched", "stitch_mm": [75.0, 75.0], "pass": [one("outer", "near", 1, 140e3)]},
    DEEP | {"name": "rippled web",
            "pass": [one("outer", "near", 1, 205e3), one("inner", "near", 1, 205e3)]},
    DEEPENING | {"name": "rippled web, tapered",
                 "pass": [one("outer", "near", 1, 160e3), one("inner", "near", 1, 160e3)]},
]


def written(value):
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {written(v)}" for k, v in value.items()) + " }"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list) and len(value) == CELLS and len(set(value)) == 1:
        return f"[{written(value[0])}]"
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    return f"{float(value):.6g}" if float(value) != int(float(value)) else str(float(value))


def main():
    print("# Made by bows.py beside this file (own script): seam forces in, shape of the member out. Signs as in the crate.")
    print("# Lists of eight are for the eighths of the length, a list of one for all of them; pieces of plate are [end, size, ...]; a member with `first_joined`")
    print("# is a tee of web and that flange in order 1. `web_mpa` is the mean compression while the web is flat.")
    print('\ntitle = "bows.py, integration of given seam forces about the outer web edge"\ntrust = "own script"')
    print("relative = 1e-3  # both integrate finely; the engine keeps two Gauss points to an eighth of the length")
    for member in MEMBERS:
        out = integrate(dict(member))
        print("\n[[member]]")
        for key in ("name", "length_mm", "depth_mm", "web_mm", "outer_mm", "inner_mm", "arm_mm", "first_joined",
                    "follows", "stitch_mm"):
            if key in member:
                print(f"{key} = {written(member[key])}")
        print("pass = [")
        for p in member["pass"]:
            print(f"    {written(p)},")
        print("]")
        # no arm, no sweep
        kept = {k: v for k, v in out.items() if member["arm_mm"] or not k.startswith("sweep")}
        print("[member.expected]")
        for key, value in kept.items():
            print(f"{key} = {written(value)}")


if __name__ == "__main__":
    main()
