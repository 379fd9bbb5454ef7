"""The same heat, but every integration point is a bar along the weld by itself: the rows with mesh "fibres".

Held: no strain. Free: strain and two curvatures from no force and no moments at every step."""
import sys, time, numpy as np
from section import *
class Fib:
    def __init__(s, c): s.c = c; n = c.M['w'].shape; s.ep = np.zeros(n); s.al = np.zeros(n); s.ref = np.zeros(n); s.on = np.repeat((c.M['reg'] < 2)[:, None], 4, 1) & (c.M['w'] > 0); s.e0ref = np.zeros(n); s.g = np.zeros(3)
    def field(s, g): x = s.c.M['xg']; return g[0] + g[1]*x[..., 0]/100 + g[2]*x[..., 1]/100
    def sig(s, e, T):
        m = s.c.mat; E, H, sy, th = (m.look(t, T) for t in (m.E, m.Hh, m.sy, m.eth)); st = E*(e - s.e0ref - (th - s.ref) - s.ep)
        f = abs(st) - sy - H*s.al; d = np.where(f > 0, f/(E + H), 0); sg = np.sign(st); return (st - E*d*sg)*s.on, s.ep + d*sg, s.al + d, np.where(f > 0, E*H/(E + H), E)*s.on
    def step(s, T, free):
        g = s.g.copy(); w = s.c.M['w']*s.on; x = s.c.M['xg']; P = np.stack([np.ones_like(T), x[..., 0]/100, x[..., 1]/100])
        if free:
            for i in range(60):
                sg, ep, al, Et = s.sig(s.field(g), T); R = (P*(w*sg)).sum((1, 2))
                if np.abs(R).max() < 1.0: break
                g = g - np.linalg.solve(np.einsum('aij,bij->ab', P, P*(w*Et)), R)*(1.0 if i < 12 else 0.5)
        s.g = g; s.s, s.ep, s.al, _ = s.sig(s.field(g), T); s.al[T > s.c.mat.T_ann] = 0
def run(Q, sides, free=False, both=False, dt_g=1.07, npulse=24, cool=25., **geo):
    t0 = time.time(); c = Case(dt_g=dt_g, npulse=npulse, **geo); fb = Fib(c); reg = c.M['reg']; z = c.p['leg']; a = 1.5*z*np.sqrt(Q/1000.); F = []
    for ch in sides:
        fil = (2, 3) if both else ((2,) if ch == 'R' else (3,)); sg = 1 if ch == 'R' else -1
        src = [(s_*(c.p['tw']/2 + z/3), z/3, a, .5) for s_ in (1, -1)] if both else [(sg*(c.p['tw']/2 + z/3), z/3, a, 1.)]
        c.ht.set_active(c.ht.act | np.isin(reg, fil)); W = c.weights(src); dt = 2.0/npulse; n = 0; t = 0; pend = np.repeat(np.isin(reg, fil)[:, None], 4, 1) & ~fb.on & (c.M['w'] > 0); Qt = Q*(2 if both else 1)
        while True:
            on = n < npulse; c.ht.step(dt, W*Qt/2.0 if on else W*0); t += dt; n += 1; T = c.Tgp(); fb.step(T, free)
            if not on and pend.any():
                k = pend & (T < T_SOL); fb.ref[k] = c.mat.look(c.mat.eth, T)[k]; fb.e0ref[k] = fb.field(fb.g)[k]; fb.on |= k; pend &= ~k
            if not on: dt *= dt_g
            if c.ht.T[c.ht.on].max() < cool: break
        c.ht.T[:] = 20.; fb.step(c.Tgp(), free); w = c.M['w']
        if free:
            c.me.state[:] = np.where(fb.on.any(1), 1, 0); c.me.u[-3:] = fb.g; F.append(c.equivalent_force()[0]/Q)
        else: F.append((w*fb.s).sum()/Q); yz = ((w*fb.s*c.M['xg'][..., 0]).sum()/(w*fb.s).sum(), (w*fb.s*c.M['xg'][..., 1]).sum()/(w*fb.s).sum())
    print('bars %-6s %s Q %.0f tf %g tw %g fy %g: F/Q %s  %s time %.1f' % ('B' if both else sides, 'free' if free else 'held', Q, c.p['tf'], c.p['tw'], c.mat.fy, np.round(F, 1), '' if free else 'y %.2f z %.2f' % yz, time.time() - t0), flush=True)
