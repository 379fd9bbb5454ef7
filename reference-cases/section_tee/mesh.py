"""Mesh of flange, web and fillets in eight-node quadrilaterals; the fillet hypotenuse is closed by 6-node triangles.
y across the flange, z up the web, z = 0 on the top face of the flange.  Region ids: 0 flange, 1 web, 2 right fillet, 3 left fillet."""
import numpy as np

def grow(L, h, g, hmax):
    """graded division of a length L starting with size h, growth g, cap hmax"""
    if L <= 1e-9: return np.array([0.0])
    xs = [0.0]; s = h
    while xs[-1] < L:
        xs.append(xs[-1] + s); s = min(s*g, hmax)
    xs = np.array(xs)
    if len(xs) > 2 and (L - xs[-2]) < 0.5*(xs[-1] - xs[-2]): xs = xs[:-1]
    return xs*(L/xs[-1])

def build(b=200., tf=12., tw=8., hw=150., leg=6., n_leg=4, fillets=(1, 1), web=True, wfine=None, g=1.3, hmax=14.,
          slit=False, ntf=None, gz=1.12):
    h = leg/n_leg
    wfine = (1.2*tf if wfine is None else wfine)
    # y lines (right half then mirrored)
    nw = max(2, 2*int(np.ceil(0.5*tw/h - 1e-6)))
    half_w = np.linspace(0, tw/2, nw//2 + 1)
    legl = tw/2 + np.linspace(0, leg, n_leg + 1)[1:]
    y0 = tw/2 + leg
    nf = int(np.ceil(wfine/h)); fine = y0 + h*np.arange(1, nf + 1)
    rest = fine[-1] + grow(b/2 - fine[-1], h*g, g, hmax)[1:]
    yr = np.concatenate([half_w, legl, fine, rest])
    ys = np.concatenate([-yr[:0:-1], yr])
    # z lines in flange (fine at the top)
    if ntf is None:
        n = max(4, int(np.ceil(tf/h))) if tf <= 14 else None
        zf = -np.linspace(0, tf, n + 1) if n else -grow(tf, h, gz, 3*h)
    else: zf = -np.linspace(0, tf, ntf + 1)
    zf = zf[::-1]
    zs = list(zf)
    if web:
        zs += list(np.linspace(0, leg, n_leg + 1)[1:])
        nf2 = int(np.ceil(1.0*leg/h)); f2 = leg + h*np.arange(1, nf2 + 1)
        zs += list(f2)
        zs += list(f2[-1] + grow(hw - f2[-1], h*g, g, hmax)[1:])
    zs = np.array(zs)
    ny, nz = len(ys), len(zs)
    cells = []   # (corner coordinate tuples), region
    eps = 1e-9
    def add(pts, reg): cells.append((pts, reg))
    for i in range(ny - 1):
        for j in range(nz - 1):
            ya, yb, za, zb = ys[i], ys[i+1], zs[j], zs[j+1]
            yc, zc = .5*(ya + yb), .5*(za + zb)
            if zc < 0: add([(ya, za), (yb, za), (yb, zb), (ya, zb)], 0)
            elif web and abs(yc) < tw/2: add([(ya, za), (yb, za), (yb, zb), (ya, zb)], 1)
            elif web and zc < leg:
                r = abs(yc) - tw/2
                if r > leg: continue
                side = 2 if yc > 0 else 3
                if not fillets[0 if side == 2 else 1]: continue
                d = r + zc - leg
                if d < -0.5*h: add([(ya, za), (yb, za), (yb, zb), (ya, zb)], side)
                elif d < 0.5*h:
                    if yc > 0: add([(ya, za), (yb, za), (ya, zb)], side)
                    else: add([(ya, za), (yb, za), (yb, zb)], side)
    # nodes
    tnode = {}; T_xy = []
    def tn(p):
        k = (round(p[0], 6), round(p[1], 6))
        if k not in tnode: tnode[k] = len(T_xy); T_xy.append(p)
        return tnode[k]
    mnode = {}; M_xy = []
    def mn(p, tag):
        k = (round(p[0], 6), round(p[1], 6), tag)
        if k not in mnode: mnode[k] = len(M_xy); M_xy.append(p)
        return mnode[k]
    tconn, mconn, reg, kind = [], [], [], []
    for pts, r in cells:
        n = len(pts); kind.append(n); reg.append(r)
        tc = [tn(p) for p in pts]; tconn.append(tc + [tc[-1]]*(4 - n))
        mids = [(.5*(pts[a][0] + pts[(a+1) % n][0]), .5*(pts[a][1] + pts[(a+1) % n][1])) for a in range(n)]
        def tag(p):   # web-foot nodes strictly inside the web width are doubled when there is a slit
            return 1 if (slit and r == 1 and abs(p[1]) < eps and abs(p[0]) < tw/2 - eps) else 0
        mc = [mn(p, tag(p)) for p in pts] + [mn(p, tag(p)) for p in mids]
        mconn.append(mc + [mc[-1]]*(8 - len(mc)))
    pairs = []
    if slit:
        for (y, z, t), a in mnode.items():
            if t == 1: pairs.append((mnode[(y, z, 0)], a, y))       # flange node, web node
    M = dict(Txy=np.array(T_xy), Mxy=np.array(M_xy), tconn=np.array(tconn), mconn=np.array(mconn),
             reg=np.array(reg), kind=np.array(kind), pairs=pairs, par=dict(b=b, tf=tf, tw=tw, hw=hw, leg=leg, web=web, h=h),
             ys=ys, zs=zs)
    return M

def shape_q8(r, s):
    N = np.array([-(1-r)*(1-s)*(1+r+s)/4, -(1+r)*(1-s)*(1-r+s)/4, -(1+r)*(1+s)*(1-r-s)/4, -(1-r)*(1+s)*(1+r-s)/4,
                  (1-r*r)*(1-s)/2, (1+r)*(1-s*s)/2, (1-r*r)*(1+s)/2, (1-r)*(1-s*s)/2])
    dr = np.array([(1-s)*(2*r+s)/4, (1-s)*(2*r-s)/4, (1+s)*(2*r+s)/4, (1+s)*(2*r-s)/4,
                   -r*(1-s), (1-s*s)/2, -r*(1+s), -(1-s*s)/2])
    ds = np.array([(1-r)*(r+2*s)/4, (1+r)*(2*s-r)/4, (1+r)*(2*s+r)/4, (1-r)*(2*s-r)/4,
                   -(1-r*r)/2, -(1+r)*s, (1-r*r)/2, -(1-r)*s])
    return N, dr, ds

def shape_q4(r, s):
    N = np.array([(1-r)*(1-s), (1+r)*(1-s), (1+r)*(1+s), (1-r)*(1+s)])/4
    dr = np.array([-(1-s), 1-s, 1+s, -(1+s)])/4; ds = np.array([-(1-r), -(1+r), 1+r, 1-r])/4
    return N, dr, ds

def shape_t6(r, s):
    t = 1-r-s
    N = np.array([t*(2*t-1), r*(2*r-1), s*(2*s-1), 4*t*r, 4*r*s, 4*s*t])
    dr = np.array([1-4*t, 4*r-1, 0, 4*(t-r), 4*s, -4*s]); ds = np.array([1-4*t, 0, 4*s-1, -4*r, 4*r, 4*(t-s)])
    return N, dr, ds

def geometry(M):
    """quadrature data for mechanics (dN, w, Ngp corner) and heat (Ke0, nodal volume split)"""
    ne = len(M['reg']); g = 1/np.sqrt(3)
    dN = np.zeros((ne, 4, 8, 2)); w = np.zeros((ne, 4)); NT = np.zeros((ne, 4, 4)); xg = np.zeros((ne, 4, 2))
    Ke0 = np.zeros((ne, 4, 4)); Vn = np.zeros((ne, 4))
    for e in range(ne):
        if M['kind'][e] == 4:
            X = M['Mxy'][M['mconn'][e]]; XT = M['Txy'][M['tconn'][e]]
            for q, (r, s) in enumerate([(-g, -g), (g, -g), (g, g), (-g, g)]):
                N, dr, ds = shape_q8(r, s); J = np.array([dr @ X, ds @ X]); det = np.linalg.det(J)
                dN[e, q] = np.linalg.solve(J, np.array([dr, ds])).T; w[e, q] = det
                n4, d4r, d4s = shape_q4(r, s); NT[e, q] = n4; xg[e, q] = N @ X
                B = np.linalg.solve(J, np.array([d4r, d4s])); Ke0[e] += det*(B.T @ B); Vn[e] += det*n4
        else:
            X = M['Mxy'][M['mconn'][e, :6]]; XT = M['Txy'][M['tconn'][e, :3]]
            for q, (r, s) in enumerate([(1/6, 1/6), (2/3, 1/6), (1/6, 2/3)]):
                N, dr, ds = shape_t6(r, s); J = np.array([dr @ X, ds @ X]); det = np.linalg.det(J)
                dN[e, q, :6] = np.linalg.solve(J, np.array([dr, ds])).T; w[e, q] = det/6
                n3 = np.array([1-r-s, r, s]); NT[e, q, :3] = n3; xg[e, q] = N @ X
                B = np.linalg.solve(np.array([[-1, 1, 0], [-1, 0, 1.]]) @ XT, np.array([[-1, 1, 0], [-1, 0, 1.]]))
                Ke0[e, :3, :3] += det/6*(B.T @ B); Vn[e, :3] += det/6*n3
            NT[e, 3] = NT[e, 0]; xg[e, 3] = xg[e, 0]
    M.update(dN=dN, w=w, NT=NT, xg=xg, Ke0=Ke0, Vn=Vn)
    return M
