"""Conduction and thermo-elasticity of a welded tee with constant properties by scikit-fem, for section_elements.toml.

Run once with scikit-fem 12.0.2, numpy 2.4.6, scipy 1.17.1 (Python 3):  python section_elements.py [mesh size in mm]
Prints rows of the sheet; sizes 1 and 0.5 show how far they are converged.

Tee: flange 200 x 12 (top face at up = 0), web 8 x 150 on it, two fillets of leg 6; all one body. mm, s, J, MPa, K.
Conduction: rho c 4.5e-3 J/(mm3 K), 40e-3 W/(mm K), no losses; rise at the start 1000 exp(-3 r2/9^2) about (6, 2).
Elasticity: E 210000, Poisson 0.3, 1.2e-5 /K; rise 200 exp(-3 r2/20^2) about (6, 2); generalised plane strain, no force and no
moments; web's far upper corner fixed, its near upper corner fixed upward.
Quadratic triangles of one size; time by the trapezoidal rule.
"""
import sys

import numpy as np
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementTriP2, ElementVector, LinearForm, MeshTri, asm
from skfem.helpers import dot, grad, sym_grad, ddot, trace

H = float(sys.argv[1]) if len(sys.argv) > 1 else 0.5
PLACES = [(6.0, 0.0), (6.0, -6.0), (6.0, -12.0), (-20.0, -6.0), (30.0, -6.0), (0.0, 20.0), (-10.0, 0.0)]
TIMES = [1.0, 5.0, 20.0]


def tee(h):
    n = round(1 / h)
    corners, cells = {}, []

    def node(i, j):
        return corners.setdefault((i, j), len(corners))

    def square(i, j):
        a, b, c, d = node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)
        # The cut runs as the face of the fillet on that side does.
        cells.extend([(a, b, d), (b, c, d)] if i >= 0 else [(a, b, c), (a, c, d)])

    for j in range(-12 * n, 0):
        for i in range(-100 * n, 100 * n):
            square(i, j)
    for j in range(0, 150 * n):
        for i in range(-4 * n, 4 * n):
            square(i, j)
    leg = 6 * n
    for j in range(leg):
        for i in range(leg - j - 1):
            square(4 * n + i, j)
            square(-4 * n - 1 - i, j)
        i = leg - j - 1
        near = (4 * n + i, j)
        cells.append((node(*near), node(near[0] + 1, j), node(near[0], j + 1)))
        far = (-4 * n - i, j)
        cells.append((node(*far), node(far[0], j + 1), node(far[0] - 1, j)))
    points = np.array(list(corners), dtype=float).T * h
    return MeshTri(points, np.array(cells).T)


def row(quantity, given, value, unit, tolerance):
    part = "conduction" if quantity == "rise" else "elasticity"
    print(f'    {{ quantity = "{quantity}", given = {given}, expected = {value:.6g}, unit = "{unit}", '
          f'source = "{part}", trust = "library", tolerance = "{tolerance}" }},')


def conduction(mesh):
    basis = Basis(mesh, ElementTriP2())
    capacity = asm(BilinearForm(lambda u, v, w: 4.5e-3 * u * v), basis)
    flow = asm(BilinearForm(lambda u, v, w: 40e-3 * dot(grad(u), grad(v))), basis)
    x = basis.doflocs
    rise = 1000 * np.exp(-3 * ((x[0] - 6) ** 2 + (x[1] - 2) ** 2) / 81)
    probe = basis.probes(np.array(PLACES).T)
    dt = 0.02
    left, right = splu((capacity + dt / 2 * flow).tocsc()), capacity - dt / 2 * flow
    now = 0.0
    for time in TIMES:
        while now < time - dt / 2:
            rise = left.solve(right @ rise)
            now += dt
        for (across, up), value in zip(PLACES, probe @ rise):
            row("rise", f"{{ across_mm = {across}, up_mm = {up}, time_s = {time} }}", value, "K", "rise")


def elasticity(mesh):
    young, nu, alpha = 210000.0, 0.3, 1.2e-5
    mu, lam = young / 2 / (1 + nu), young * nu / (1 + nu) / (1 - 2 * nu)
    basis = Basis(mesh, ElementVector(ElementTriP2()))
    rise = lambda x: 200 * np.exp(-3 * ((x[0] - 6) ** 2 + (x[1] - 2) ** 2) / 400)
    beta = (3 * lam + 2 * mu) * alpha
    stiff = asm(BilinearForm(
        lambda u, v, w: lam * trace(sym_grad(u)) * trace(sym_grad(v)) + 2 * mu * ddot(sym_grad(u), sym_grad(v))), basis)
    heat = asm(LinearForm(lambda v, w: beta * rise(w.x) * trace(sym_grad(v))), basis)
    modes = [lambda x: 1.0 + 0 * x[0], lambda x: x[0], lambda x: x[1]]
    border = np.array([asm(LinearForm(lambda v, w, m=m: lam * m(w.x) * trace(sym_grad(v))), basis) for m in modes]).T
    one = Basis(mesh, ElementTriP2())
    integral = lambda f: float(np.sum(asm(LinearForm(lambda v, w: f(w.x) * v), one)))
    core = np.array([[integral(lambda x, a=a, b=b: (lam + 2 * mu) * a(x) * b(x)) for b in modes] for a in modes])
    load = np.array([integral(lambda x, a=a: beta * rise(x) * a(x)) for a in modes])
    locs = basis.doflocs
    at = lambda y, z: np.nonzero((abs(locs[0] - y) < 1e-9) & (abs(locs[1] - z) < 1e-9))[0]
    held = np.concatenate([at(-4, 150), at(4, 150)[1:]])
    free = np.setdiff1d(np.arange(basis.N), held)
    # Three dense rows: by their Schur complement.
    factor = splu(stiff[free][:, free].tocsc())
    response = factor.solve(border[free])
    alone = factor.solve(heat[free])
    plane = np.linalg.solve(core - border[free].T @ response, load - border[free].T @ alone)
    moved = np.zeros(basis.N)
    moved[free] = alone - response @ plane
    row("strain", "{}", plane[0], "1", "plane")
    row("curvature", "{ axis = 0 }", plane[1], "1/mm", "plane")
    row("curvature", "{ axis = 1 }", plane[2], "1/mm", "plane")
    for y, z in [(100.0, 0.0), (-100.0, 0.0), (0.0, -12.0)]:
        for axis in (0, 1):
            row("moved", f"{{ across_mm = {y}, up_mm = {z}, axis = {axis} }}", moved[at(y, z)[axis]], "mm", "moved")
    # Stress along, projected onto continuous linear functions of the quadratic basis.
    mass = asm(BilinearForm(lambda u, v, w: u * v), one)
    field = basis.interpolate(moved)
    along = lambda x: plane[0] + plane[1] * x[0] + plane[2] * x[1]
    side = asm(LinearForm(
        lambda v, w: (lam * (trace(sym_grad(w["u"])) + along(w.x)) + 2 * mu * along(w.x) - beta * rise(w.x)) * v),
        one, u=field)
    stress = splu(mass.tocsc()).solve(side)
    # Not at the toe, the last place: a sharp corner, where stress has no limit.
    for (across, up), value in zip(PLACES[:-1], one.probes(np.array(PLACES[:-1]).T) @ stress):
        row("stress", f"{{ across_mm = {across}, up_mm = {up} }}", value, "MPa", "stress")


if __name__ == "__main__":
    tees = tee(H)
    conduction(tees)
    elasticity(tees)
