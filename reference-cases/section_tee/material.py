"""Carbon steel after EN 1993-1-2: conductivity, heat capacity, elongation, and how modulus and yield fall.

mm, N, MPa, s, °C, J; tables by whole degrees. Enthalpy is added up, so that latent heat is taken and given back whole."""
import numpy as np

TMAX = 9000
RHO = 7850e-9            # kg/mm3
T_SOL, T_LIQ, L_FUS = 1440.0, 1500.0, 270e3     # degC, degC, J/kg

def c_en(T):
    T = np.asarray(T, float)
    c = np.full_like(T, 650.0)
    m = T < 600;                 c[m] = 425 + 0.773*T[m] - 1.69e-3*T[m]**2 + 2.22e-6*T[m]**3
    m = (T >= 600) & (T < 735);  c[m] = 666 + 13002/(738 - T[m])
    m = (T >= 735) & (T < 900);  c[m] = 545 + 17820/(T[m] - 731)
    return c

def k_en(T):
    T = np.asarray(T, float)
    return np.where(T < 800, 54 - 3.33e-2*T, 27.3)

def eth_en(T):
    T = np.asarray(T, float)
    e = np.where(T < 750, 1.2e-5*T + 0.4e-8*T**2 - 2.416e-4,
        np.where(T < 860, 1.1e-2, 2e-5*T - 6.2e-3))
    return np.where(T > T_SOL, 2e-5*T_SOL - 6.2e-3, e)   # no more expansion once molten

KT = [20, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100, 1200]
KE = [1, 1, .9, .8, .7, .6, .31, .13, .09, .0675, .045, .0225, .01]
KY = [1, 1, 1, 1, 1, .78, .47, .23, .11, .06, .04, .02, .01]

class Mat:
    def __init__(s, fy=355.0, E=210e3, nu=0.3, H=1000.0, T_ann=1000.0, const=None, kliq=60.0,
                 ky=None, eth_scale=1.0):
        Tg = np.arange(0, TMAX + 1.0)
        fine = np.arange(0, TMAX + 0.05, 0.1)
        if const is None:
            cf = c_en(fine)
            cf = cf + L_FUS/(T_LIQ - T_SOL)*((fine >= T_SOL) & (fine < T_LIQ))
            k = k_en(Tg); m = Tg > T_SOL
            k[m] = 27.3 + (kliq - 27.3)*np.clip((Tg[m] - T_SOL)/(T_LIQ - T_SOL), 0, 1)
            eth = eth_en(Tg) - eth_en(20.0)
        else:                                    # constant properties (verification)
            cf = np.full_like(fine, const['c']); k = np.full_like(Tg, const['k'])
            eth = const.get('alpha', 12e-6)*(Tg - 20.0)
        Hf = np.concatenate([[0], np.cumsum(0.5*(cf[1:] + cf[:-1])*0.1)])*RHO
        s.H = Hf[::10].copy()                    # J/mm3
        s.c = np.diff(s.H)                       # J/mm3K, piecewise constant, consistent with H
        s.k = k*1e-3                             # W/mmK
        s.eth = eth*eth_scale
        if const is None or not const.get('mech_const', False):
            s.E = E*np.interp(Tg, KT, KE); s.sy = fy*np.interp(Tg, KT, KY if ky is None else ky)
        else:
            s.E = np.full_like(Tg, E); s.sy = np.full_like(Tg, fy)
        s.Hh = H*s.sy/fy
        s.nu, s.T_ann, s.fy, s.E0 = nu, T_ann, fy, E
    def look(s, tab, T):
        i = np.clip(T.astype(int), 0, TMAX - 1); f = T - i
        return tab[i]*(1 - f) + tab[i + 1]*f
