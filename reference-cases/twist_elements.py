"""Turn of a tapered I-member by pulls beside the web or by bowed flange strips, as a solid by scikit-fem, for twist_elements.toml.

Run once with scikit-fem 12.0.2, numpy 2.4.6, scipy 1.17.1 (Python 3):  python twist_elements.py
Prints the turn relative to the start end, mesh after mesh, so that one sees how far it is converged; `python twist_elements.py 1` takes the
coarsest mesh alone.

Member 6000 long, web 6 thick, flanges 180 x 8 (outer) and 180 x 12 (inner), E 206000, Poisson 0.3. A pull of 100 kN along each
flange, spread over 20 mm of its width beside the web (z from 3 to 23, or from -3 to -23), all along it: a tension that is there
before, which the member answers by bending and turning. Strips: each flange was bowed sideways by 1 mm a metre, the outer one to the
far side, the inner one to the near side, and was clamped straight: -E*kappa*z along it, kappa = 8e-3/L, let go. A plate of 3 mm between the
flanges at each end keeps the section there in shape and hardly hinders its warping. Nothing holds the member but six values
against moving as a whole.
Turn: that of the line from the middle of the outer to the middle of the inner flange.
Bricks of 27 nodes: 12 along the member; 24; 24 with more across; 36 with those. mm, N, MPa, rad.
"""
import sys

import numpy as np
from scipy.linalg import cho_factor, cho_solve
from skfem import Basis, BilinearForm, ElementHex2, ElementVector, LinearForm, MeshHex, asm
from skfem.helpers import ddot, eye, sym_grad, trace

E, NU = 206e3, 0.3
L, WEB, OUTER, INNER = 6000.0, 6.0, (180.0, 8.0), (180.0, 12.0)
PULL, BAND, PLATE, BOW = 100e3, 20.0, 3.0, 8e-3 / L


def columns(width, fine):
    half = np.concatenate([np.linspace(WEB / 2, WEB / 2 + BAND, fine + 1), np.linspace(WEB / 2 + BAND, width / 2, fine + 2)[1:]])
    return np.concatenate([-half[::-1], half])


def solid(depth, n, fine):
    """Corner nodes and bricks of web and flanges; depth(x) is the clear web depth."""
    index, cells, points = {}, [], []

    def node(key, place):
        if key not in index:
            index[key] = len(points)
            points.append(place)
        return index[key]

    xs = np.linspace(0.0, L, n + 1)
    up = 2 + 2 * fine
    zo, zi = columns(OUTER[0], fine), columns(INNER[0], fine)

    def brick(corner):
        # the reference brick's corners in the order of the library
        order = [(0, 0, 0), (0, 0, 1), (0, 1, 0), (1, 0, 0), (0, 1, 1), (1, 0, 1), (1, 1, 0), (1, 1, 1)]
        cells.append([corner(*c) for c in order])

    def flange(zs, y_of, name, web_row, thickness):
        def corner(i, j, k):
            x, z = xs[i], zs[k]
            y = y_of(x, j)
            on_web = abs(abs(z) - WEB / 2) < 1e-9 and j == web_row
            key = ("web", i, 0 if name == "outer" else up, z > 0) if on_web else (name, i, j, k)
            return node(key, (x, y, z))
        for i in range(n):
            for k in range(len(zs) - 1):
                brick(lambda a, b, c: corner(i + a, b, k + c))

    flange(zo, lambda x, j: -OUTER[1] * (1 - j), "outer", 1, OUTER[1])
    flange(zi, lambda x, j: depth(x) + INNER[1] * j, "inner", 0, INNER[1])
    for i in range(n):
        for j in range(up):
            def corner(a, b, c):
                x, z = xs[i + a], (-WEB / 2, WEB / 2)[c]
                return node(("web", i + a, j + b, z > 0), (x, depth(x) * (j + b) / up, z))
            brick(corner)
    for i, way in ((0, -1.0), (n, 1.0)):
        def face(j, k):
            y, z = depth(xs[i]) * j / up, zo[k]
            if abs(abs(z) - WEB / 2) < 1e-9:
                return node(("web", i, j, z > 0), (xs[i], y, z))
            name, row = ("outer", 1) if j == 0 else ("inner", 0) if j == up else ("plate", j)
            return node((name, i, row, k), (xs[i], y, z))

        def back(j, k):
            return node(("back", i, j, k), (xs[i] + way * PLATE, depth(xs[i]) * j / up, zo[k]))
        for j in range(up):
            for k in range(len(zo) - 1):
                brick(lambda a, b, c: (back if (a == 1) == (way > 0) else face)(j + b, k + c))
    return MeshHex(np.array(points).T, np.array(cells).T)


def in_slices(stiff, load, slice_of):
    """Solves a system whose unknowns hang together with those of the next slice alone, slice by slice."""
    parts = [np.flatnonzero(slice_of == k) for k in range(slice_of.max() + 1)]
    factors, links, rights = [], [], []
    for k, here in enumerate(parts):
        block, right = stiff[here][:, here].toarray(), load[here]
        if k:
            link = stiff[parts[k - 1]][:, here].toarray()
            back = cho_solve(factors[-1], link)
            block, right = block - link.T @ back, right - back.T @ rights[-1]
            links.append(link)
        factors.append(cho_factor(block))
        rights.append(right)
    u = np.zeros(len(load))
    after = None
    for k in reversed(range(len(parts))):
        right = rights[k] if after is None else rights[k] - links[k] @ after
        after = cho_solve(factors[k], right)
        u[parts[k]] = after
    return u


def turn(depth, sides, n, fine, strips=False):
    mesh = solid(depth, n, fine)
    basis = Basis(mesh, ElementVector(ElementHex2()), intorder=4)
    lam, mu = E * NU / (1 + NU) / (1 - 2 * NU), E / 2 / (1 + NU)
    stiff = asm(BilinearForm(lambda u, v, w: ddot(2 * mu * sym_grad(u) + lam * eye(trace(sym_grad(u)), 3), sym_grad(v))), basis)

    def tension(v, w):
        x, y, z = w.x
        slope = (depth(L) - depth(0.0)) / L
        inside = y > 0.5 * depth(x)
        t = np.where(inside, INNER[1], OUTER[1])
        side = np.where(inside, sides[1], sides[0])
        flange = (y < 0) | (y > depth(x))
        band = flange & (side * z > WEB / 2) & (side * z < WEB / 2 + BAND)
        s = np.where(inside, slope, 0.0)
        c = 1 / np.sqrt(1 + s * s)
        a, b = c, c * s
        if strips:
            sigma = np.where(flange, -E * BOW * side * z, 0.0)
        else:
            # along the flange; its section square to its axis is t*cos thick
            sigma = np.where(band, PULL / (BAND * t * c), 0.0)
        e = sym_grad(v)
        return -sigma * (a * a * e[0][0] + 2 * a * b * e[0][1] + b * b * e[1][1])

    load = asm(LinearForm(tension), basis)

    def at(x, y, z):
        d = basis.doflocs
        return [i for i in np.argsort((d[0] - x) ** 2 + (d[1] - y) ** 2 + (d[2] - z) ** 2)[:3]]

    # against moving as a whole: outer flange middle at both ends, inner at the start
    held = []
    a, b, c = at(0, -OUTER[1] / 2, 0), at(L, -OUTER[1] / 2, 0), at(0, depth(0) + INNER[1] / 2, 0)
    held += sorted(a) + sorted(b)[1:] + sorted(c)[2:]
    free = np.setdiff1d(np.arange(basis.N), held)
    u = np.zeros(basis.N)
    slice_of = np.clip(np.ceil(basis.doflocs[0][free] * n / L - 1e-9).astype(int), 0, n)
    u[free] = in_slices(stiff[free][:, free].tocsr(), load[free], slice_of)

    def sideways(x, y):
        return u[sorted(at(x, y, 0.0))[2]]

    def angle(x):
        h = depth(x) + 0.5 * (OUTER[1] + INNER[1])
        return (sideways(x, depth(x) + INNER[1] / 2) - sideways(x, -OUTER[1] / 2)) / h
    return [angle(x) - angle(0.0) for x in (L / 4, L / 2, 3 * L / 4, L)]


if __name__ == "__main__":
    level, taper = (lambda x: 600.0 + 0.0 * x), (lambda x: 300.0 + 600.0 * x / L)
    meshes = ((12, 1), (24, 1), (24, 2), (36, 2))[: int(sys.argv[1]) if sys.argv[1:] else 4]
    for n, fine in meshes:
        for name, depth in (("level", level), ("taper", taper)):
            for what, sides, strips in (("opposite sides", (1, -1), False), ("one side", (1, 1), False), ("strips", (-1, 1), True)):
                print(name, what, n, fine, ["%.5e" % a for a in turn(depth, sides, n, fine, strips)], flush=True)
