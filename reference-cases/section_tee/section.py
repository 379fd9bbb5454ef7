"""Heat and generalised-plane-strain J2 plasticity of a welded section in two dimensions, written apart from the crate.

Quadratic quadrilaterals (triangles along the fillet's face) for displacements, linear ones for temperatures; enthalpy in two
implicit stages of second order; Newton with line search, steps halved where it fails. A fillet is heated while its metal counts
for nothing, and joins free of strain once it is below the solidus. `long`: held or free lengthwise; `inplane`: free, or edges and
web top held until the hottest point is below `T_rel`."""
import time, numpy as np, scipy.sparse as sp
from scipy.sparse.linalg import splu
from numba import njit
from mesh import build, geometry
from material import Mat, RHO, TMAX, T_SOL

SB = 5.67e-14   # W/mm2K4
LREF = 100.0    # scaling of the curvature unknowns (mm)

# ------------------------------------------------------------------ heat
class Heat:
    """Lumped enthalpy, implicit Euler, Newton; bilinear quads / linear triangles."""
    def __init__(s, M, mat, active, hc=25e-6, emis=0.7, Ta=20.0):
        s.M, s.mat, s.hc, s.em, s.Ta = M, mat, hc, emis, Ta
        s.n = len(M['Txy']); s.T = np.full(s.n, Ta); s.set_active(active)
    def set_active(s, act):
        M = s.M; s.act = act.copy(); s.ids = np.where(act)[0]
        c = M['tconn'][s.ids]; s.c = c
        V = np.zeros(s.n); np.add.at(V, c, M['Vn'][s.ids]); s.V = V; s.on = V > 0
        s.Vs = np.where(s.on, V, 1.0)
        # outer edges of the active set
        from collections import Counter
        cnt = Counter()
        for e in s.ids:
            k = M['kind'][e]; q = M['tconn'][e]
            for a in range(k): cnt[tuple(sorted((q[a], q[(a+1) % k])))] += 1
        A = np.zeros(s.n)
        for (a, b), m in cnt.items():
            if m == 1:
                L = np.hypot(*(M['Txy'][a] - M['Txy'][b])); A[a] += L/2; A[b] += L/2
        s.A = A
        r = np.repeat(c, 4, axis=1).ravel(); q = np.tile(c, (1, 4)).ravel()
        dg = np.arange(s.n); key = np.concatenate([r, dg]).astype(np.int64)*s.n + np.concatenate([q, dg])
        u, s.inv = np.unique(key, return_inverse=True); s.ind = (u % s.n).astype(np.int32)
        s.ptr = np.searchsorted(u // s.n, np.arange(s.n + 1)).astype(np.int32); s.nnz = len(u)
    def flows(s, T, qn):
        Te = T[s.c].mean(1); k = s.mat.look(s.mat.k, Te); Ke = s.M['Ke0'][s.ids]*k[:, None, None]
        R = -qn + s.A*(s.hc*(T - s.Ta) + s.em*SB*((T+273.15)**4 - (s.Ta+273.15)**4))
        np.add.at(R, s.c, np.einsum('eij,ej->ei', Ke, T[s.c])); return R, Ke
    def solve(s, T, Href, dte, qn):
        """find T with V*(H(T)-Href)/dte + flows(T) - qn = 0"""
        mt = s.mat
        for it in range(60):
            R, Ke = s.flows(T, qn); R += s.Vs*(mt.look(mt.H, T) - Href)/dte; R[~s.on] = 0
            dg = s.Vs*mt.c[np.clip(T.astype(int), 0, TMAX-1)]/dte + s.A*(s.hc + 4*s.em*SB*(T+273.15)**3)
            data = np.bincount(s.inv, weights=np.concatenate([Ke.ravel(), dg]), minlength=s.nnz)
            K = sp.csc_matrix((data, s.ind, s.ptr), shape=(s.n, s.n))
            dT = splu(K, permc_spec='MMD_AT_PLUS_A', options=dict(SymmetricMode=True)).solve(-R)
            if it > 8: dT *= 0.6
            T = np.clip(T + dT, 0, TMAX - 2)
            if np.abs(dT).max() < 0.01: break
        return T
    scheme = 'trbdf2'
    def step(s, dt, qn):
        """qn: nodal power per unit length (W/mm).  TR-BDF2 (second order, L-stable) or backward Euler"""
        H0 = s.mat.look(s.mat.H, s.T)
        if s.scheme == 'be': s.T = s.solve(s.T.copy(), H0, dt, qn); return
        g = 2 - np.sqrt(2.0); R0, _ = s.flows(s.T, qn)
        T1 = s.solve(s.T.copy(), H0, g*dt/2, qn - R0); H1 = s.mat.look(s.mat.H, T1)
        Href = H1/(g*(2 - g)) - (1 - g)**2/(g*(2 - g))*H0
        s.T = s.solve(T1, Href, (1 - g)/(2 - g)*dt, qn)

# ------------------------------------------------------------------ mechanics kernel
@njit(cache=True, fastmath=True)
def kernel(mconn, dN, w, xg, u, g, Tg, ep, al, eref, thref, state, Et, sYt, Ht, etht, nu, Eg, Ke, fe, sig, epn, aln, tang):
    ne = mconn.shape[0]
    B = np.zeros((4, 19)); D = np.zeros((4, 4)); DB = np.zeros((4, 19)); eps = np.zeros(4); st = np.zeros(4); n = np.zeros(4)
    for e in range(ne):
        for i in range(19):
            fe[e, i] = 0.0
            for j in range(19): Ke[e, i, j] = 0.0
        for q in range(4):
            wq = w[e, q]
            if wq == 0.0: continue
            for i in range(8):
                a = dN[e, q, i, 0]; b = dN[e, q, i, 1]
                B[0, 2*i] = a; B[0, 2*i+1] = 0.0
                B[1, 2*i] = 0.0; B[1, 2*i+1] = b
                B[3, 2*i] = b; B[3, 2*i+1] = a
            B[2, 16] = 1.0; B[2, 17] = xg[e, q, 0]/100.0; B[2, 18] = xg[e, q, 1]/100.0
            e0 = 0.0; e1 = 0.0; e3 = 0.0
            for i in range(8):
                nd = mconn[e, i]; a = dN[e, q, i, 0]; b = dN[e, q, i, 1]
                e0 += a*u[2*nd]; e1 += b*u[2*nd+1]; e3 += b*u[2*nd] + a*u[2*nd+1]
            eps[0] = e0; eps[1] = e1; eps[2] = g[0] + g[1]*B[2, 17] + g[2]*B[2, 18]; eps[3] = e3
            T = Tg[e, q]; k = int(T); f = T - k
            E = Et[k]*(1-f) + Et[k+1]*f; sy = sYt[k]*(1-f) + sYt[k+1]*f; H = Ht[k]*(1-f) + Ht[k+1]*f
            th = etht[k]*(1-f) + etht[k+1]*f
            if state[e] == 0:
                E = Eg
            K = E/(3*(1-2*nu)); G = E/(2*(1+nu))
            if state[e] == 0:
                x0 = eps[0]; x1 = eps[1]; x2 = eps[2]; x3 = eps[3]
            else:
                dth = th - thref[e, q]
                x0 = eps[0] - eref[e, q, 0] - ep[e, q, 0] - dth
                x1 = eps[1] - eref[e, q, 1] - ep[e, q, 1] - dth
                x2 = eps[2] - eref[e, q, 2] - ep[e, q, 2] - dth
                x3 = eps[3] - eref[e, q, 3] - ep[e, q, 3]
            tr = x0 + x1 + x2; p = K*tr
            s0 = 2*G*(x0 - tr/3); s1 = 2*G*(x1 - tr/3); s2 = 2*G*(x2 - tr/3); s3 = G*x3
            nn = np.sqrt(s0*s0 + s1*s1 + s2*s2 + 2*s3*s3); qv = np.sqrt(1.5)*nn
            th1 = 1.0; thb = 0.0; n[0] = 0; n[1] = 0; n[2] = 0; n[3] = 0
            epn[e, q, 0] = ep[e, q, 0]; epn[e, q, 1] = ep[e, q, 1]; epn[e, q, 2] = ep[e, q, 2]; epn[e, q, 3] = ep[e, q, 3]
            aln[e, q] = al[e, q]
            if state[e] == 1:
                fY = qv - (sy + H*al[e, q])
                if fY > 0:
                    dg = fY/(3*G + H); th1 = 1 - 3*G*dg/qv
                    thb = 3*G/(3*G + H) - (1 - th1)
                    n[0] = s0/nn; n[1] = s1/nn; n[2] = s2/nn; n[3] = s3/nn
                    m = dg*np.sqrt(1.5)
                    epn[e, q, 0] += m*n[0]; epn[e, q, 1] += m*n[1]; epn[e, q, 2] += m*n[2]; epn[e, q, 3] += 2*m*n[3]
                    aln[e, q] += dg
                    s0 *= th1; s1 *= th1; s2 *= th1; s3 *= th1
            st[0] = p + s0; st[1] = p + s1; st[2] = p + s2; st[3] = s3
            for i in range(4): sig[e, q, i] = st[i]
            for i in range(19):
                v = 0.0
                for a2 in range(4): v += B[a2, i]*st[a2]
                fe[e, i] += wq*v
            if tang:
                a = 2*G*th1; bb = K - a/3; c = 2*G*thb
                for i in range(3):
                    for j in range(3):
                        D[i, j] = bb - c*n[i]*n[j]
                    D[i, i] += a
                    D[i, 3] = -c*n[i]*n[3]; D[3, i] = D[i, 3]
                D[3, 3] = a/2 - c*n[3]*n[3]
                for i in range(4):
                    for j in range(19):
                        v = 0.0
                        for a2 in range(4): v += D[i, a2]*B[a2, j]
                        DB[i, j] = v*wq
                for i in range(19):
                    for j in range(i, 19):
                        v = 0.0
                        for a2 in range(4): v += B[a2, i]*DB[a2, j]
                        Ke[e, i, j] += v
        if tang:
            for i in range(19):
                for j in range(i): Ke[e, i, j] = Ke[e, j, i]

class Mech:
    def __init__(s, M, mat, Eg=2.0):
        s.M, s.mat, s.Eg = M, mat, Eg
        s.ne = len(M['reg']); s.nn = len(M['Mxy']); s.nd = 2*s.nn + 3
        mc = M['mconn']; ed = np.zeros((s.ne, 19), np.int64)
        ed[:, 0:16:2] = 2*mc; ed[:, 1:16:2] = 2*mc + 1; ed[:, 16:] = 2*s.nn + np.arange(3)
        s.ed = ed; s.mc = np.ascontiguousarray(mc.astype(np.int64))
        s.u = np.zeros(s.nd); z = lambda *k: np.zeros((s.ne, 4) + k)
        s.ep, s.al, s.eref, s.thref, s.sig = z(4), z(), z(4), z(), z(4)
        s.epn, s.aln = z(4), z(); s.Ke = np.zeros((s.ne, 19, 19)); s.fe = np.zeros((s.ne, 19))
        s.state = np.ones(s.ne, np.int64); s.Tg = np.full((s.ne, 4), 20.0)
        s.fext = np.zeros(s.nd); s.maps = {}; s.dN = np.ascontiguousarray(M['dN']); s.w = M['w']; s.xg = np.ascontiguousarray(M['xg'])
        s.pairs = M['pairs']; s.ptied = np.zeros(len(s.pairs), bool); s.pref = np.zeros((len(s.pairs), 2))
        s.trib = []
        if s.pairs:
            y = np.array([p[2] for p in s.pairs]); d = np.diff(np.unique(y)).min(); s.trib = np.full(len(y), 2*d)
        s.stats = dict(it=0, steps=0, worst=0.0, fails=0)
    def fix(s, dofs, key): s.fixed = np.zeros(s.nd, bool); s.fixed[np.asarray(sorted(dofs), int)] = True; s.key = key; s._map()
    def _map(s):
        if s.key in s.maps: s.cur = s.maps[s.key]; return
        free = np.where(~s.fixed)[0]; nf = len(free); loc = np.full(s.nd, -1, np.int64); loc[free] = np.arange(nf)
        r = loc[np.repeat(s.ed, 19, axis=1).ravel()]; c = loc[np.tile(s.ed, (1, 19)).ravel()]
        pr = []; pc = []
        for a, b, _ in s.pairs:
            d = [2*a, 2*a+1, 2*b, 2*b+1]
            for i in d:
                for j in d: pr.append(loc[i]); pc.append(loc[j])
        r = np.concatenate([r, np.array(pr, np.int64)]); c = np.concatenate([c, np.array(pc, np.int64)])
        ok = (r >= 0) & (c >= 0); u, inv = np.unique(r[ok]*nf + c[ok], return_inverse=True)
        ptr = np.searchsorted(u // nf, np.arange(nf + 1)).astype(np.int32)
        s.maps[s.key] = s.cur = dict(free=free, nf=nf, ok=ok, inv=inv, ind=(u % nf).astype(np.int32), ptr=ptr, nnz=len(u))
    def springs(s, u, tang):
        f = np.zeros(s.nd); ks = []
        for i, (a, b, y) in enumerate(s.pairs):
            kn = 5e4*s.trib[i]; gap = u[2*b+1] - u[2*a+1]; sl = u[2*b] - u[2*a]
            if s.ptied[i]: kz, ky = kn, kn; gap -= s.pref[i, 1]; sl -= s.pref[i, 0]
            else: kz, ky = (kn if gap < 0 else 1e-6*kn), 1e-6*kn
            f[2*b+1] += kz*gap; f[2*a+1] -= kz*gap; f[2*b] += ky*sl; f[2*a] -= ky*sl
            if tang:
                k = np.zeros((4, 4)); k[0, 0] = k[2, 2] = ky; k[0, 2] = k[2, 0] = -ky; k[1, 1] = k[3, 3] = kz; k[1, 3] = k[3, 1] = -kz
                ks.append(k.ravel())
        return f, (np.concatenate(ks) if ks else np.zeros(0))
    def resid(s, u, Tg, tang):
        mt = s.mat
        kernel(s.mc, s.dN, s.w, s.xg, u, u[-3:], Tg, s.ep, s.al, s.eref, s.thref, s.state, mt.E, mt.sy, mt.Hh, mt.eth, mt.nu, s.Eg,
               s.Ke, s.fe, s.sig, s.epn, s.aln, tang)
        f = np.bincount(s.ed.ravel(), weights=s.fe.ravel(), minlength=s.nd)
        fs, ks = s.springs(u, tang) if s.pairs else (0.0, np.zeros(0))
        return f + fs, ks
    def newton(s, Tg, fext, tol=2e-4, maxit=25):
        c = s.cur; fr = c['free']; u = s.u.copy()
        f, ks = s.resid(u, Tg, True); R = (f - fext)[fr]; r = np.linalg.norm(R)
        for it in range(maxit):
            vals = np.concatenate([s.Ke.ravel(), ks])[c['ok']]
            K = sp.csc_matrix((np.bincount(c['inv'], weights=vals, minlength=c['nnz']), c['ind'], c['ptr']), shape=(c['nf'], c['nf']))
            du = splu(K, permc_spec='MMD_AT_PLUS_A', diag_pivot_thresh=0.0, options=dict(SymmetricMode=True)).solve(-R)
            a = 1.0; best = None
            for ls in range(5):
                ut = u.copy(); ut[fr] += a*du
                f, ks = s.resid(ut, Tg, True); Rt = (f - fext)[fr]; rt = np.linalg.norm(Rt)
                if best is None or rt < best[1]: best = (a, rt)
                if rt < r*0.999 or ls == 4: break
                a *= 0.5
            if rt > best[1]*1.0001:
                a = best[0]; ut = u.copy(); ut[fr] += a*du; f, ks = s.resid(ut, Tg, True); Rt = (f - fext)[fr]; rt = np.linalg.norm(Rt)
            u, R, r = ut, Rt, rt; s.stats['it'] += 1
            scale = max(np.linalg.norm(s.fe[:, :16]), 50.0)
            if r < tol*scale: return u, f, True, r/scale
        return u, f, r < 2e-2*scale, r/scale
    def advance(s, Tg, fext=None, depth=0):
        fext = s.fext if fext is None else fext
        T0 = s.Tg.copy(); f0 = s.fext.copy()
        u, f, ok, rr = s.newton(Tg, fext)
        if (not ok or rr > 2e-4) and depth < 3:
            s.stats['fails'] += 1
            for a in (0.5, 1.0): s.advance(T0 + a*(Tg - T0), f0 + a*(fext - f0), depth + 1)
            return
        s.u = u; s.f = f; s.ep[:] = s.epn; s.al[:] = s.aln
        s.al[Tg > s.mat.T_ann] = 0.0                       # annealing: erase the hardening memory
        s.Tg = Tg.copy(); s.fext = fext.copy(); s.stats['steps'] += 1; s.stats['worst'] = max(s.stats['worst'], rr)
    def strain(s):
        ue = s.u[s.ed[:, :16]]; e = np.zeros((s.ne, 4, 4)); ux, uz = ue[:, 0::2], ue[:, 1::2]
        e[..., 0] = np.einsum('eqi,ei->eq', s.dN[..., 0], ux); e[..., 1] = np.einsum('eqi,ei->eq', s.dN[..., 1], uz)
        e[..., 3] = np.einsum('eqi,ei->eq', s.dN[..., 1], ux) + np.einsum('eqi,ei->eq', s.dN[..., 0], uz)
        g = s.u[-3:]; e[..., 2] = g[0] + g[1]*s.xg[..., 0]/LREF + g[2]*s.xg[..., 1]/LREF
        return e
    def activate(s, els):
        e = s.strain(); s.eref[els] = e[els]; s.thref[els] = s.mat.look(s.mat.eth, s.Tg[els]); s.ep[els] = 0; s.al[els] = 0; s.state[els] = 1
    def release(s, dofs, key, n=5):
        """free a set of fixed dofs, letting their reactions go in n equal parts"""
        r = s.f - s.fext; old = s.fixed; s.fix(dofs, key); new = old & ~s.fixed
        fe = s.fext.copy(); fe[new] += r[new]; s.fext = fe.copy()
        for i in range(n):
            f2 = fe.copy(); f2[new] = fe[new] - r[new]*(i + 1)/n; s.advance(s.Tg, f2)

# ------------------------------------------------------------------ driver
class Case:
    def __init__(s, long='held', inplane='free', T_rel=500.0, fy=355.0, H=1000.0, mat=None, hc=25e-6, T0=20.0, dt_g=1.15, npulse=12, tsub=1,
                 contact='tied', pen=1.5, act='solidus', **geo):
        t0 = time.time(); s.long, s.inplane, s.T_rel, s.T0 = long, inplane, T_rel, T0
        s.dt_g, s.npulse, s.tsub, s.pen, s.act = dt_g, npulse, tsub, pen, act
        geo.setdefault('slit', contact == 'slit'); s.M = geometry(build(**geo)); s.mat = mat or Mat(fy=fy, H=H)
        s.p = s.M['par']; reg = s.M['reg']; s.me = Mech(s.M, s.mat); s.me.state[reg >= 2] = 0
        s.ht = Heat(s.M, s.mat, reg < 2, hc=hc, Ta=20.0); s.ht.T[:] = T0
        X = s.M['Mxy']; p = s.p; eps = 1e-6
        if p['web']:
            top = np.where(abs(X[:, 1] - p['hw']) < eps)[0]; a = top[np.argmin(X[top, 0])]; b = top[np.argmax(X[top, 0])]
        else:
            top = np.where((abs(X[:, 0]) < eps))[0]; a = top[np.argmin(X[top, 1])]; b = a; 
        s.Tmx = np.full(s.ht.n, T0)
        s.base = {2*a, 2*a+1, 2*b+1} if p['web'] else {2*a, 2*a+1}
        if not p['web']:
            c2 = top[np.argmax(X[top, 1])]; s.base |= {2*c2}
        edge = np.where(abs(abs(X[:, 0]) - p['b']/2) < eps)[0]; hold = set()
        for i in edge: hold |= {2*i+1} if inplane == 'vert' else {2*i, 2*i+1}
        if p['web']:
            for i in top: hold |= {2*i, 2*i+1}
        s.holdset = s.base | hold; nd = s.me.nd; s.gl = {nd-3, nd-2, nd-1}
        if long == 'pstrain_k': s.gl = {nd-2, nd-1}
        s.tm = dict(mesh=time.time() - t0, heat=0.0, mech=0.0); s.hist = []
        for i, (a, b, y) in enumerate(s.me.pairs):
            if abs(y) > p['tw']/2 - pen: s.me.ptied[i] = True        # small tack / root penetration on both sides
    def Tgp(s): return np.clip(np.einsum('eqi,ei->eq', s.M['NT'], s.ht.T[s.M['tconn']]), 0.0, TMAX - 2)
    def setfix(s, hold, lg, smooth=False):
        d = (s.holdset if hold else s.base) | (s.gl if lg else set()); key = (hold, lg)
        if smooth: s.me.release(d, key)
        else: s.me.fix(d, key)
    def weights(s, srcs):
        """nodal heat weights: Gaussian exp(-3 r2/a2) about each source point, normalised to 1 over the solid"""
        M = s.M; W = np.zeros(s.ht.n)
        for (y, z, a, fr) in srcs:
            r2 = (M['xg'][..., 0] - y)**2 + (M['xg'][..., 1] - z)**2; q = np.exp(-3*r2/a**2)*M['w']*s.ht.act[:, None]
            wn = np.zeros(s.ht.n); np.add.at(wn, M['tconn'], np.einsum('eq,eqi->ei', q, M['NT'])); W += fr*wn/wn.sum()
        return W
    def weld(s, Q, srcs, fil=(), t_pass=2.0, cool_to=25.0, tmax=2e4, keep_hold=False, final=True):
        """one pass. Q J/mm net in total; srcs [(y, z, a, share)]; fil: region ids deposited by the pass"""
        me, ht, reg = s.me, s.ht, s.M['reg']; new = np.isin(reg, fil) & (me.state == 0)
        ht.set_active(ht.act | np.isin(reg, fil)); W = s.weights(srcs)
        hold = s.inplane in ('hold', 'vert'); lg = s.long == 'held' or (s.long == 'pstrain_k')
        s.setfix(hold, lg); dt = t_pass/s.npulse; t = 0.0; pend = new.copy(); n = 0; Tm = 0
        if s.act == 'start' and pend.any(): me.activate(np.where(pend)[0]); pend[:] = False
        while True:
            on = n < s.npulse
            a = time.time(); qn = W*Q/t_pass if on else np.zeros(ht.n)
            for k in range(s.tsub): ht.step(dt/s.tsub, qn)
            t += dt; n += 1; Tg = s.Tgp(); b = time.time(); s.tm['heat'] += b - a
            me.advance(Tg); s.tm['mech'] += time.time() - b
            Tm = max(Tm, ht.T[ht.on].max()); s.Tmx = np.where(ht.on, np.maximum(s.Tmx, ht.T), s.Tmx)
            if not on and pend.any():
                act = pend & ((Tg*s.M['w']).sum(1)/s.M['w'].sum(1) < T_SOL)
                if act.any(): me.activate(np.where(act)[0]); pend &= ~act
            tmax_now = ht.T[ht.on].max()
            if s.hist is not None: s.hist.append((t, tmax_now, *s.shape()))
            if hold and not on and tmax_now < s.T_rel and not keep_hold:
                s.setfix(False, lg, smooth=True); hold = False
            if not on: dt *= s.dt_g
            if (not on and tmax_now < cool_to) or t > tmax: break
        s.Tpeak = Tm; s.t_end = t
        if pend.any(): me.activate(np.where(pend)[0])
        if final: ht.T[:] = 20.0; me.advance(s.Tgp())
        if hold: s.setfix(False, lg, smooth=True)
    # ---------------------------------------------------------------- results
    def resultants(s):
        w, sx, x = s.M['w'], s.me.sig[..., 2], s.M['xg']; m = (s.me.state == 1)[:, None]
        F = (w*sx*m).sum(); My = (w*sx*m*x[..., 0]).sum(); Mz = (w*sx*m*x[..., 1]).sum(); return F, My, Mz
    def fused(s, T=1470.0):
        tg = np.einsum('eqi,ei->eq', s.M['NT'], s.Tmx[s.M['tconn']]); w = s.M['w']; r = s.M['reg']
        return [(w[r == k]*(tg[r == k] > T)).sum()/(w[r == k].sum() if k > 1 else 1.0) if (r == k).any() else 0.0 for k in range(4)]
    def section(s):
        w, x = s.M['w']*(s.me.state == 1)[:, None], s.M['xg']; A = w.sum(); y = (w*x[..., 0]).sum()/A; z = (w*x[..., 1]).sum()/A
        return A, y, z, (w*(x[..., 0]-y)**2).sum(), (w*(x[..., 1]-z)**2).sum()
    def shape(s):
        X, u, p = s.M['Mxy'], s.me.u, s.p; uy, uz = u[0:-3:2], u[1:-3:2]
        top = abs(X[:, 1]) < 1e-6; bot = abs(X[:, 1] + p['tf']) < 1e-6; y1 = min(p['tw']/2 + p['leg'] + 1.5*p['tf'], 0.35*p['b']); y2 = 0.45*p['b']
        def sl(sgn):
            v = []
            for m in (top, bot):
                k = m & (X[:, 0]*sgn > y1) & (X[:, 0]*sgn < y2); v.append(np.polyfit(X[k, 0], uz[k], 1)[0])
            return np.mean(v)
        sR, sL = sl(1), sl(-1); wr = 0.0
        if p['web']:
            k = (abs(abs(X[:, 0]) - p['tw']/2) < 1e-6) & (X[:, 1] > 0.5*p['hw']); wr = -np.polyfit(X[k, 1], uy[k], 1)[0]
        pR, pL = sR - wr, -(sL - wr)
        e = lambda sgn: uy[(abs(X[:, 0] - sgn*p['b']/2) < 1e-6)].mean()
        return pR, pL, -(e(1) - e(-1))
    def result(s):
        pR, pL, S = s.shape(); F, My, Mz = s.resultants(); g = s.me.u[-3:]
        return dict(cup=(pR+pL)/2, tilt=(pR-pL)/2, fold=pR+pL, S=S, F=F, yF=My/F if abs(F) > 1 else 0., zF=Mz/F if abs(F) > 1 else 0., e0=g[0], k1=g[1]/LREF, k2=g[2]/LREF)
    def equivalent_force(s):
        """from free strains (e0, ky, kz): elastic force that holds the member back to straight"""
        A, y, z, Iy, Iz = s.section(); E = s.mat.E0; g = s.me.u[-3:]; e0, ky, kz = g[0], g[1]/LREF, g[2]/LREF
        ec = e0 + ky*y + kz*z; F = -E*A*ec; My = -E*Iy*ky; Mz = -E*Iz*kz
        return F, y + My/F, z + Mz/F
    def profiles(s):
        """sigma_x: through-thickness mean along the flange, and along the web"""
        x, w, sx, reg = s.M['xg'], s.M['w'], s.me.sig[..., 2], s.M['reg']; out = []
        for r, ax in ((0, 0), (1, 1)):
            m = (reg == r)[:, None] & (w > 0); c = np.round(x[..., ax][m], 3); ww = w[m]; v = sx[m]; u = np.unique(c)
            out.append(np.array([[k, (v*ww)[c == k].sum()/ww[c == k].sum()] for k in u]))
        return out
    def mid(s):
        """sigma_x interpolated to mid-thickness of the flange"""
        x, w, sx, reg = s.M['xg'], s.M['w'], s.me.sig[..., 2], s.M['reg']; m = (reg == 0)[:, None] & (w > 0)
        c = np.round(x[..., 0][m], 3); z = x[..., 1][m]; v = sx[m]
        return np.array([[k, np.interp(-s.p['tf']/2, np.sort(z[c == k]), v[c == k][np.argsort(z[c == k])])] for k in np.unique(c)])

def tee(Q, sides='R', afac=1.5, seq=True, **kw):
    """fillet case. sides 'R', 'RL' sequential, 'B' both at once. Q per weld."""
    rel = kw.pop('release_between', False); tp = kw.pop('t_pass', 2.0); c = Case(**kw); p = c.p; z = p['leg']; out = []
    a = afac*z*np.sqrt(Q/1000.0); pt = lambda sg, fr: (sg*(p['tw']/2 + z/3), z/3, a, fr)
    t0 = time.time()
    if sides == 'B': c.weld(2*Q, [pt(1, .5), pt(-1, .5)], (2, 3), tp); out.append(c.result())
    else:
        for ch in sides:
            sg = 1 if ch == 'R' else -1; c.weld(Q, [pt(sg, 1.0)], (2,) if sg > 0 else (3,), tp); out.append(c.result())
    c.time = time.time() - t0; c.out = out
    return c

def bead(Q, tf=12., a=None, t_pass=2.0, **kw):
    kw.setdefault('b', 200.); a = a or 9.0*np.sqrt(Q/1000.0)
    c = Case(tf=tf, web=False, fillets=(0, 0), tw=4.0, wfine=kw.pop('wfine', 1.5*tf), **kw); t0 = time.time()
    c.weld(Q, [(0., 0., a, 1.0)], (), t_pass); c.time = time.time() - t0; c.out = [c.result()]
    return c
