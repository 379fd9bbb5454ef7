"""Turn of a tapered I-member by a pull beside the web, as a solid by scikit-fem, for twist_elements.toml.

Run once with scikit-fem 12.0.2, numpy 2.4.6, scipy 1.17.1 (Python 3):  python twist_elements.py
Prints the turn relative to the start end, three meshes a case, so that one sees how far it is converged.

Member 6000 long, web 6 thick, flanges 180 x 8 (outer) and 180 x 12 (inner), E 206000, Poisson 0.3. A pull of 100 kN along each
flange, spread over 20 mm of its width beside the web (z from 3 to 23, or from -3 to -23), all along it: a tension that is there
before, which the member answers by bending and turning. A plate of 3 mm between the
flanges at each end keeps the section there in shape and hardly hinders its warping. Nothing holds the member but six values
against moving as a whole.
Turn: that of the line from the middle of the outer to the middle of the inner flange.
Bricks of 27 nodes; 12, 24 and 36 of them along the member, the last two with more across. mm, N, MPa, rad.
"""
import numpy as np
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementHex2, ElementVector, LinearForm, MeshHex, asm
from skfem.helpers import ddot, eye, sym_grad, trace

E, NU = 206e3, 0.3
L, WEB, OUTER, INNER = 6000.0, 6.0, (180.0, 8.0), (180.0, 12.0)
PULL, BAND, PLATE = 100e3, 20.0, 3.0


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


def turn(depth, sides, n, fine):
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
    # equations in order of x: a narrow band
    free = np.setdiff1d(np.arange(basis.N), held)
    free = free[np.argsort(basis.doflocs[0][free], kind="stable")]
    u = np.zeros(basis.N)
    u[free] = splu(stiff[free][:, free].tocsc(), permc_spec="NATURAL", diag_pivot_thresh=0.0).solve(load[free])

    def sideways(x, y):
        return u[sorted(at(x, y, 0.0))[2]]

    def angle(x):
        h = depth(x) + 0.5 * (OUTER[1] + INNER[1])
        return (sideways(x, depth(x) + INNER[1] / 2) - sideways(x, -OUTER[1] / 2)) / h
    return [angle(x) - angle(0.0) for x in (L / 4, L / 2, 3 * L / 4, L)]


if __name__ == "__main__":
    level, taper = (lambda x: 600.0 + 0.0 * x), (lambda x: 300.0 + 600.0 * x / L)
    for name, depth in (("level", level), ("taper", taper)):
        for sides in ((1, -1), (1, 1)):
            for n, fine in ((12, 1), (24, 2), (36, 2)):
                print(name, sides, n, ["%.5e" % a for a in turn(depth, sides, n, fine)], flush=True)
