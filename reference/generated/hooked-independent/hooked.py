#!/usr/bin/env python3
"""Independent eigenvalues of an aircraft hooked at one point to a compliant boom (see derivation.md).

Two ways that share nothing but the input numbers:
  Way 1  hand-derived M, C, K, longitudinal and lateral apart; coordinates: c.g. displacement and rotation in H.
  Way 2  nonlinear 13-state residual in tip position, Euler angles, body rates; boom force as complex-step
         gradient of its potential; own trim by root finding; linearised by 4th-order central differences.
Run: python3 hooked.py (writes values.json beside it, prints the tables). SI, radians; H: x forward, y right, z down.
"""
import json
import os
import sys
import numpy as np
import scipy
from scipy.optimize import brentq, linear_sum_assignment, root

# ----------------------------------------------------------------- inputs (from longshore.pair.yaml)
G0, P0, T0, LAPSE, RAIR = 9.80665, 101325.0, 288.15, 0.0065, 8314.32 / 28.9644
PAIR = dict(
    S=8.2, b=7.40, c=1.20, CD0=0.026, e=0.80, altitude=3000.0, zeta_s=0.015, L=5.600,
    probe=(2.100, 0.0, 1.850), ref=(4.300, 0.0, 1.000), kr=6e6, ky=0.6e6,
    CL=dict(zero=0.18, alpha=5.0, q=6.0, adot=1.8, de=0.40),
    Cm=dict(zero=0.02, alpha=-0.65, q=-12.0, adot=-3.5, de=-1.05),
    CY=dict(beta=-0.66, p=-0.03, r=0.25), Cl=dict(beta=-0.022, p=-0.50, r=0.14),
    Cn=dict(beta=0.085, p=-0.04, r=-0.20))
MASS = dict(
    full=dict(m=2600.0, cg=(4.300, 0.0, 1.000), Ixx=2050.0, Iyy=5700.0, Izz=7000.0, Ixz=250.0),
    **{'return': dict(m=1950.0, cg=(4.272, 0.0, 1.009), Ixx=1680.0, Iyy=5280.0, Izz=6260.0, Ixz=240.0)},
    empty=dict(m=1900.0, cg=(4.270, 0.0, 1.010), Ixx=1650.0, Iyy=5250.0, Izz=6200.0, Ixz=240.0))
REV = {'Rev A': dict(kb=60e3, ka=60e3, csn=2.0e3, mt=120.0, eas=95.0),
       'Rev B': dict(kb=90e3, ka=20e3, csn=3.5e3, mt=135.0, eas=105.0)}


def case(rev, mass, share=0.0, eas=None, gamma=52.0, **override):
    """Plain numbers of one case; `override` replaces any of them (limits, variants)."""
    d = {**PAIR, **MASS[mass], **REV[rev]}
    d['eas'], tk = d['eas'] if eas is None else eas, T0 - LAPSE * d['altitude']
    d['rho'] = P0 * (tk / T0) ** (G0 / (RAIR * LAPSE)) / (RAIR * tk)
    d['V'] = d['eas'] * np.sqrt(P0 / (RAIR * T0) / d['rho'])
    d['share'], d['Gam'], d['kInd'] = share, np.radians(gamma), 1 / (np.pi * d['b'] ** 2 / d['S'] * d['e'])
    for k in ('probe', 'ref'):  # station -> body arm from c.g.
        d[k + 'Arm'] = np.array([-(d[k][0] - d['cg'][0]), d[k][1], -(d[k][2] - d['cg'][2])])
    # free: no boom, body-fixed thrust along the trim flight path through the c.g.
    # inertiaTrimAxes (way 1): inertia read as given about stability axes instead of body axes
    d['free'], d['inertiaTrimAxes'] = False, False
    d.update(override)
    return d


# ================================================================= way 1: analytic
GEO = dict(probe=1.0, tension=1.0, shear=1.0, refArm=1.0, aeroMoment=1.0)


def trim1(d):
    """Closed-form lift and drag balance, alpha by brentq on the pitch balance (eqs 1-2)."""
    q, W = 0.5 * d['rho'] * d['V'] ** 2, d['m'] * G0
    CL = (1 - d['share']) * W / (q * d['S'])
    CD = d['CD0'] + d['kInd'] * CL ** 2
    Lift, D = q * d['S'] * CL, q * d['S'] * CD
    f = (D, -d['share'] * W)
    turn = lambda arm, a: (arm[0] * np.cos(a) + arm[2] * np.sin(a), -arm[0] * np.sin(a) + arm[2] * np.cos(a))

    def parts(a):
        de = (CL - d['CL']['zero'] - d['CL']['alpha'] * a) / d['CL']['de']
        Cm = d['Cm']['zero'] + d['Cm']['alpha'] * a + d['Cm']['de'] * de
        X, Z = (0.0, 0.0) if d['free'] else turn(d['probeArm'], a)
        Xr, Zr = turn(d['refArm'], a)
        moment = q * d['S'] * d['c'] * Cm + Zr * (-D) + Xr * Lift + Z * f[0] - X * f[1]
        return moment, de, Cm, X, Z, Xr, Zr
    a = brentq(lambda a: parts(a)[0], -0.6, 0.9, xtol=1e-15)
    _, de, Cm, X, Z, Xr, Zr = parts(a)
    return dict(alpha=a, de=de, CL=CL, CD=CD, Lift=Lift, D=D, f=f, Cm=Cm, X=X, Z=Z, Xr=Xr, Zr=Zr, q=q)


def boom1(d, t):
    """Static tension N, tangential force T and the dashpots of way 1 (eqs 3, 4, 6)."""
    er = np.array([-np.cos(d['Gam']), np.sin(d['Gam'])])
    eg = np.array([np.sin(d['Gam']), np.cos(d['Gam'])])
    N, T = -np.dot(t['f'], er), np.dot(t['f'], eg)
    app = lambda n: 1 / (1 / d['m'] + (t['Z'] * n[0] - t['X'] * n[1]) ** 2 / d['Iyy'])
    (ixx, izz, ixz), X, Z = inertia1(d, t['alpha']), t['X'], t['Z']
    lat = 1 / (1 / d['m'] + (ixx * X ** 2 + izz * Z ** 2 - 2 * ixz * X * Z) / (ixx * izz - ixz ** 2))
    meff = [d['mt'] + app(er), d['mt'] + lat, d['mt'] + app(eg)]
    damp = [2 * d['zeta_s'] * np.sqrt(k * m) for k, m in zip((d['kr'], d['ky'], d['kb']), meff)]
    return er, eg, N, T, damp, meff


def inertia1(d, a):
    """Ixx, Izz, Ixz about H axes (body turned nose-up by a)."""
    c, s = (1.0, 0.0) if d['inertiaTrimAxes'] else (np.cos(a), np.sin(a))
    return (d['Ixx'] * c * c + d['Izz'] * s * s - 2 * d['Ixz'] * s * c,
            d['Ixx'] * s * s + d['Izz'] * c * c + 2 * d['Ixz'] * s * c,
            (d['Ixx'] - d['Izz']) * s * c + d['Ixz'] * (c * c - s * s))


def long1(d, t, geo=GEO, cdTotal=False):
    """Longitudinal M, C, K (cg x, cg z, pitch) without the series path, and J, e_Gamma (eqs 5, 7-12).
    cdTotal: the polar takes the whole lift coefficient, rate terms included, instead of the steady one."""
    V, S, c, q, X, Z, Xr, Zr = d['V'], d['S'], d['c'], t['q'], t['X'], t['Z'], t['Xr'], t['Zr']
    bu, bw, th = np.array([1, 0, Zr]), np.array([0, 1, -Xr]), np.array([0, 0, 1.0])

    def rows(k, h=c / (2 * V)):  # perturbed coefficient as rows on x, xdot, xddot
        return np.array([k['alpha'] * th, k['alpha'] * bw / V + h * (k['q'] + k['adot']) * th, h * k['adot'] * bw / V])
    cl, cm = rows(d['CL']), rows(d['Cm'])
    cd = 2 * t['CL'] * d['kInd'] * rows(d['CL'], c / (2 * V) if cdTotal else 0.0)  # eq 8
    vel = np.array([0, 1.0, 0])[:, None]  # selects the rows on xdot
    fx = q * S * (-cd - vel * 2 * t['CD'] * bu / V) + vel * t['Lift'] * bw / V
    fz = q * S * (-cl - vel * 2 * t['CL'] * bu / V) - vel * t['D'] * bw / V
    my = q * S * c * (cm + vel * 2 * t['Cm'] * bu / V) + Zr * fx - Xr * fz
    my[0] += geo['refArm'] * (Xr * t['D'] + Zr * t['Lift']) * th
    A = [np.array([fx[i], fz[i], my[i]]) for i in range(3)]
    er, eg, N, T, (cr, _, _), _ = boom1(d, t)
    J = np.array([[1, 0, Z], [0, 1, -X]])
    H = d['kr'] * np.outer(er, er)
    K3 = np.zeros((3, 3))
    if d['free']:
        K3[1, 2] = t['D']  # body-fixed thrust turns with the body
    else:
        H += geo['tension'] * N / d['L'] * np.outer(eg, eg) \
            + geo['shear'] * T / d['L'] * (np.outer(er, eg) + np.outer(eg, er))
        K3[2, 2] = geo['probe'] * (t['f'][0] * X + t['f'][1] * Z)
    M = np.diag([d['m'], d['m'], d['Iyy']]) + d['mt'] * J.T @ J - A[2]
    C = cr * J.T @ np.outer(er, er) @ J - A[1]
    K = J.T @ H @ J + K3 - A[0]
    return M, C, K, J, eg


def eig_long1(d, geo=GEO, **kw):
    """With the series path as seventh state (eq. 13)."""
    t = trim1(d)
    M, C, K, J, eg = long1(d, t, geo, **kw)
    cb, g = boom1(d, t)[4][2], J.T @ eg
    den = d['csn'] + cb
    A = np.zeros((7, 7))
    A[:3, 3:6] = np.eye(3)
    A[6, :3], A[6, 3:6], A[6, 6] = d['kb'] * g / den, cb * g / den, -(d['kb'] + d['ka']) / den
    path = np.concatenate([d['kb'] * g, cb * g, [-d['kb']]]) - cb * A[6]
    F = -np.outer(g, path)
    F[:, :3] -= K
    F[:, 3:6] -= C
    A[3:6] = np.linalg.solve(M, F)
    return np.linalg.eigvals(A)


def lat1(d, t, geo=GEO, side='wind'):
    """Lateral M, C, K (cg y, rotation about H x, rotation about H z) (eqs 14-18)."""
    V, S, b, q, X, Z, Xr, Zr = d['V'], d['S'], d['b'], t['q'], t['X'], t['Z'], t['Xr'], t['Zr']
    bv, rx, rz, My = np.array([1, -Zr, Xr]), np.array([0, 1.0, 0]), np.array([0, 0, 1.0]), q * S * d['c'] * t['Cm']
    rows = lambda k: np.array([-k['beta'] * rz, k['beta'] * bv / V + b / (2 * V) * (k['p'] * rx + k['r'] * rz)])
    fy = q * S * rows(d['CY'])
    fy[0] += t['Lift'] * rx
    if side == 'wind':
        fy[1] -= t['D'] * bv / V
    else:  # CY taken as the whole force along body y; drag then lies along stability x
        fy[0] -= t['D'] * rz
    mx, mz = q * S * b * rows(d['Cl']) - Zr * fy, q * S * b * rows(d['Cn']) + Xr * fy
    mx[0] -= geo['aeroMoment'] * My * rz
    mz[0] += geo['aeroMoment'] * My * rx
    eta = Xr * rz - Zr * rx
    mx[0] -= geo['refArm'] * t['Lift'] * eta
    mz[0] += geo['refArm'] * t['D'] * eta
    ixx, izz, ixz = inertia1(d, t['alpha'])
    _, _, N, _, (_, cy, _), _ = boom1(d, t)
    J, K3 = np.array([1, -Z, X]), np.zeros((3, 3))
    if d['free']:
        K3[0, 2] = -t['D']
    else:
        K3[1:] = geo['probe'] * np.outer([-t['f'][1], t['f'][0]], X * rz - Z * rx)
        K3 += geo['tension'] * N / d['L'] * np.outer(J, J)
    M = np.array([[d['m'], 0, 0], [0, ixx, -ixz], [0, -ixz, izz]]) + d['mt'] * np.outer(J, J)
    C = cy * np.outer(J, J) - np.array([fy[1], mx[1], mz[1]])
    K = d['ky'] * np.outer(J, J) + K3 - np.array([fy[0], mx[0], mz[0]])
    return M, C, K, J


def eig2(M, C, K):
    n = len(M)
    return np.linalg.eigvals(np.block([[np.zeros((n, n)), np.eye(n)], [-np.linalg.solve(M, np.hstack([K, C]))]]))


def eig_lat1(d, geo=GEO, side='wind'):
    return eig2(*lat1(d, trim1(d), geo, side)[:3])


def eig_pinned1(d):
    """Ball joint fixed in H: c.g. motion follows the rotation (eq. 19)."""
    t = trim1(d)
    M, C, K, J, _ = long1(d, t)
    P = np.array([[-J[0, 2]], [-J[1, 2]], [1]])
    *lat, Jl = lat1(d, t)
    Q = np.array([[-Jl[1], -Jl[2]], [1, 0], [0, 1]])
    return eig2(*(P.T @ A @ P for A in (M, C, K))), eig2(*(Q.T @ A @ Q for A in lat))


# ================================================================= way 2: nonlinear residual
def polar(P):
    """Boom length, out-of-plane angle, in-plane angle below horizontal; analytic in complex P."""
    ell = np.sqrt(P[0] * P[0] + P[1] * P[1] + P[2] * P[2])
    return np.array([ell, np.arcsin(P[1] / ell), np.arctan(P[2] / -P[0])])


def cstep(fun, x, h=1e-30):
    return np.array([np.imag(fun(x + 1j * h * e)) / h for e in np.eye(len(x))]).T


def rot(e):
    (cf, ct, cp), (sf, st, sp) = np.cos(e), np.sin(e)
    return np.array([[cp, -sp, 0], [sp, cp, 0], [0, 0, 1]]) @ np.array([[ct, 0, st], [0, 1, 0], [-st, 0, ct]]) \
        @ np.array([[1, 0, 0], [0, cf, -sf], [0, sf, cf]])


def residual(d, s, x, y, side='wind', cdTotal=False):
    """Zero at a motion. x: tip position from hinge (3), Euler angles (3), tip velocity in H (3), body rates (3),
    accumulator deflection. y: tip acceleration (3), body angular acceleration (3), accumulator rate. Eqs 20-24."""
    P, Pd, w, acc, R = x[:3], x[6:9], x[9:12], x[12], rot(x[3:6])
    Pdd, wd, accd, arm = y[:3], y[3:6], y[6], s['arm']
    # air motion at the moment reference point
    rel, vt = d['refArm'] - arm, R.T @ (np.array([d['V'], 0, 0]) + Pd)
    v = vt + np.cross(w, rel)
    vd = R.T @ Pdd - np.cross(w, vt) + np.cross(wd, rel)
    Va = np.sqrt(v @ v)
    al, be = np.arctan2(v[2], v[0]), np.arcsin(v[1] / Va)
    ald = (v[0] * vd[2] - v[2] * vd[0]) / (v[0] ** 2 + v[2] ** 2)
    ca, sa, cb, sb = np.cos(al), np.sin(al), np.cos(be), np.sin(be)
    ps, rs = w[0] * ca + w[2] * sa, -w[0] * sa + w[2] * ca
    hc, hb, qS = d['c'] / (2 * Va), d['b'] / (2 * Va), 0.5 * d['rho'] * Va ** 2 * d['S']
    lon = lambda k: k['zero'] + k['alpha'] * al + k['q'] * w[1] * hc + k['adot'] * ald * hc + k['de'] * s['de']
    lat = lambda k: k['beta'] * be + k['p'] * ps * hb + k['r'] * rs * hb
    CL, steady = lon(d['CL']), d['CL']['zero'] + d['CL']['alpha'] * al + d['CL']['de'] * s['de']
    CD = d['CD0'] + d['kInd'] * (CL if cdTotal else steady) ** 2
    xw, yw, zw = np.array([ca * cb, sb, sa * cb]), np.array([-ca * sb, cb, -sa * sb]), np.array([-sa, 0, ca])
    if side == 'body':
        xw, yw = np.array([ca, 0, sa]), np.array([0, 1, 0])
    Fa = qS * (-CD * xw + lat(d['CY']) * yw - CL * zw)
    l, mm, n = qS * d['b'] * lat(d['Cl']), qS * d['c'] * lon(d['Cm']), qS * d['b'] * lat(d['Cn'])
    Ma = np.array([l * ca - n * sa, mm, l * sa + n * ca]) + np.cross(d['refArm'], Fa)
    L = d['L']

    def U(z):  # potential of the boom; below: its dissipation function
        ell, lam, gam = polar(z[:3])
        return 0.5 * d['kr'] * (ell - s['l0']) ** 2 + 0.5 * d['ky'] * (L * lam) ** 2 \
            + 0.5 * d['kb'] * (L * (gam - s['g0']) - z[3]) ** 2 + 0.5 * d['ka'] * z[3] ** 2
    dU = cstep(U, np.append(P, acc))
    stretch = lambda z: np.append(polar(z[:3]) * np.array([1, L, L]) - np.array([0, 0, z[3]]), z[3])  # of each dashpot
    Jp = cstep(stretch, np.append(P, acc))
    dD = Jp.T @ (np.array([*s['dash'], d['csn']]) * (Jp @ np.append(Pd, accd)))
    Ft = -(dU + dD)[:3] - d['mt'] * Pdd  # on the aircraft, H axes
    I = np.array([[d['Ixx'], 0, -d['Ixz']], [0, d['Iyy'], 0], [-d['Ixz'], 0, d['Izz']]])
    acg = R.T @ Pdd - np.cross(wd, arm) - np.cross(w, np.cross(w, arm))
    r1 = d['m'] * acg - Fa - s['thrust'] - R.T @ (Ft + np.array([0, 0, d['m'] * G0]))
    r2 = I @ wd + np.cross(w, I @ w) - Ma - np.cross(arm, R.T @ Ft)
    return np.concatenate([r1, r2, [(dU + dD)[3]]])


def trim2(d, side='wind'):
    Pt = d['L'] * np.array([-np.cos(d['Gam']), 0, np.sin(d['Gam'])])
    er, eg, W = Pt[[0, 2]] / d['L'], np.array([np.sin(d['Gam']), np.cos(d['Gam'])]), d['m'] * G0
    s = dict(dash=np.zeros(3), thrust=np.zeros(3), l0=d['L'], g0=d['Gam'],
             arm=np.zeros(3) if d['free'] else d['probeArm'])

    def unpack(z):
        a, s['de'] = z[0], z[1]
        x = np.zeros(13)
        x[:3], x[4] = Pt, a
        if d['free']:
            s['thrust'] = rot(np.array([0, a, 0])).T @ np.array([z[2] * 1e3, 0, 0])
        else:  # tip force (tow unknown, lift by share) preloads axial spring, bending and accumulator
            fs = np.array([z[2] * 1e3, -d['share'] * W])
            s['l0'] = d['L'] + fs @ er / d['kr']
            x[12] = -(fs @ eg) / d['ka']
            s['g0'] = d['Gam'] - (x[12] - fs @ eg / d['kb']) / d['L']
        return x
    balance = lambda z: residual(d, s, unpack(z), np.zeros(7), side)[[0, 2, 4]] / W
    x = unpack(root(balance, [0.05, 0.0, 2.0], tol=1e-14).x)
    assert np.max(np.abs(residual(d, s, x, np.zeros(7), side))) < 1e-5, 'trim of way 2 failed'
    R, I = rot(x[3:6]), np.array([[d['Ixx'], 0, -d['Ixz']], [0, d['Iyy'], 0], [-d['Ixz'], 0, d['Izz']]])
    dirs = [Pt / d['L'], np.array([0, 1.0, 0]), np.cross([0, 1.0, 0], Pt / d['L'])]
    dash = []
    for nH, k in zip(dirs, (d['kr'], d['ky'], d['kb'])):
        nb = R.T @ nH
        acc = nb / d['m'] + np.cross(np.linalg.solve(I, np.cross(s['arm'], nb)), s['arm'])
        dash.append(2 * d['zeta_s'] * np.sqrt(k * (d['mt'] + 1 / (nb @ acc))))
    s['dash'] = np.array(dash)
    return s, x


def eig_full2(d, side='wind', cdTotal=False):
    (s, x0), y0 = trim2(d, side), np.zeros(7)

    def diff(fun, z0, h):
        return np.array([(8 * (fun(z0 + e) - fun(z0 - e)) - (fun(z0 + 2 * e) - fun(z0 - 2 * e))) / (12 * e.max())
                         for e in np.diag(h)]).T

    def kin(x):
        (f, t, _), (p, q, r) = x[3:6], x[9:12]
        u = q * np.sin(f) + r * np.cos(f)
        return np.concatenate([x[6:9], [p + np.tan(t) * u, q * np.cos(f) - r * np.sin(f), u / np.cos(t)]])
    hx = np.array([1e-3] * 6 + [1e-1] * 3 + [1e-3] * 4)
    E = diff(lambda y: residual(d, s, x0, y, side, cdTotal), y0, np.full(7, 1e-1))
    Fx = diff(lambda x: residual(d, s, x, y0, side, cdTotal), x0, hx)
    return np.linalg.eigvals(np.vstack([diff(kin, x0, hx), -np.linalg.solve(E, Fx)]))


# ================================================================= comparison and tables
def gap(a, b):
    """Largest relative difference of two eigenvalue sets after optimal pairing."""
    rel = np.abs(a[:, None] - b[None, :]) / np.maximum(np.abs(a[:, None]), 1e-2)
    return float(rel[linear_sum_assignment(rel)].max())


def out(ev):
    return [[float(f'{v:.12g}') for v in (z.real, z.imag)] for z in sorted(ev, key=lambda z: (abs(z), z.imag))]


def modes(ev):
    return '; '.join(f'{abs(z) / 2 / np.pi:.4f} Hz zeta {-z.real / abs(z):+.4f}' if z.imag > 1e-9
                     else f'real {z.real:+.4f}' for z in sorted(ev, key=abs) if z.imag > -1e-9)


def worst(ev):
    """Oscillatory mode of least damping ratio below 3 Hz: (zeta, Hz)."""
    return min((-z.real / abs(z), abs(z) / 2 / np.pi) for z in ev if 1e-9 < z.imag and abs(z) < 6 * np.pi)


def neutral(rev, mass, side, lo=61.5, hi=180.0):
    """All speeds (m/s EAS) between lo and hi where the least damped lateral oscillation has zeta = 0."""
    f = lambda v: worst(eig_lat1(case(rev, mass, eas=v), side=side))[0]
    vs = np.arange(lo, hi + 0.5, 0.5)
    fs = [f(v) for v in vs]
    return [brentq(f, a, b, xtol=1e-12) for a, b, fa, fb in zip(vs, vs[1:], fs, fs[1:]) if fa * fb < 0]


def main():
    gaps, v = [], dict(
        note='independent derivation within the project; not a published value; eigenvalues [real, imag] in 1/s',
        versions=dict(python=sys.version.split()[0], numpy=np.__version__, scipy=scipy.__version__),
        inputs=dict(pair=PAIR, mass=MASS, revision=REV, gravity=G0),
        cases=[], sweepRevB=[], geometric=[], sideForce=[], limits={}, ambiguity={})

    def pair(text, lo, la):
        print(f'{text}\n   long: {modes(lo)}\n   lat : {modes(la)}')
        return dict(longitudinal=out(lo), lateral=out(la))

    def both(text, side='wind', **kw):
        d = case(**kw)
        lo, la = eig_long1(d), eig_lat1(d, side=side)
        gaps.append(gap(np.concatenate([lo, la]), eig_full2(d, side)))
        return d, dict(**{k: x for k, x in kw.items()}, side=side, wayGap=gaps[-1], **pair(text, lo, la))
    for rev, mass, share in ((r, m, s) for r in REV for m in MASS for s in (0.0, 0.1, 0.2, 0.4)):
        d, rec = both(f'{rev} {mass} share {share:.0%}', rev=rev, mass=mass, share=share)
        t = trim1(d)
        _, _, N, T, damp, meff = boom1(d, t)
        v['cases'].append(dict(rec, eas=d['eas'], tas=d['V'], density=d['rho'], trim=dict(
            alpha=t['alpha'], elevator=t['de'], CL=t['CL'], CD=t['CD'], Cm=t['Cm'], drag=t['D'],
            tipForceOnAircraftH=[t['f'][0], 0, t['f'][1]], boomTension=N, tangentialForce=T,
            dashpotsAxialLateralTangential=damp, effectiveMass=meff)))
    for eas, mass in ((e, m) for e in range(85, 130, 5) for m in MASS):
        v['sweepRevB'].append(both(f'Rev B {mass} {eas} m/s EAS', rev='Rev B', mass=mass, eas=float(eas))[1])
    for rev, mass, share in ((r, m, s) for r in REV for m in MASS for s in (0.0, 0.4)):
        for off in (None, *GEO, 'all'):
            g = {k: 0.0 if off in (k, 'all') else 1.0 for k in GEO}
            d = case(rev, mass, share)
            rec = pair(f'{rev} {mass} share {share:.0%} geometric term off: {off}', eig_long1(d, g), eig_lat1(d, g))
            v['geometric'].append(dict(rev=rev, mass=mass, share=share, off=off, **rec))
    for rev, mass, side in ((r, m, s) for r in REV for m in MASS for s in ('wind', 'body')):
        d, rec = both(f'{rev} {mass} CY in {side} axes', side, rev=rev, mass=mass)
        rec.update(zeta=worst(eig_lat1(d, side=side))[0], neutralEAS=neutral(rev, mass, side))
        v['sideForce'].append(rec)
        print('   least lateral zeta', rec['zeta'], 'neutral EAS', rec['neutralEAS'])
    for rev in REV:
        d = case(rev, 'full')
        pinned, stiff = eig_pinned1(d), []
        for k in (1e8, 1e9, 1e10):
            dk = case(rev, 'full', kr=k, ky=k, kb=k, ka=k)
            stiff.append(dict(k=k, gap=[gap(p, np.array(sorted(e(dk), key=abs)[:len(p)]))
                                        for p, e in zip(pinned, (eig_long1, eig_lat1))]))
        none = dict(kr=0.0, ky=0.0, kb=0.0, ka=0.0, csn=1.0, mt=0.0)
        tiny = {**none, 'kr': 1e-9, 'ky': 1e-9, 'kb': 1e-9, 'ka': 1e-9, 'csn': 1e-3}
        df, dead, g = case(rev, 'full', **none, free=True), case(rev, 'full', **tiny), {**GEO, 'tension': 0, 'shear': 0}
        big = lambda ev: ev[np.abs(ev) > 5e-3]  # the null modes are a multiple zero: rounding only
        free = eig_long1(df), eig_lat1(df)
        gaps.append(gap(big(np.concatenate(free)), big(eig_full2(df))))
        v['limits'][rev] = dict(
            pinned=pair(rev + ' ball joint fixed', *pinned), stiffApproach=stiff, freeWayGap=gaps[-1],
            free=pair(rev + ' free, body-fixed thrust', *free),
            constantTipForce=pair(rev + ' constant tip force, no springs', eig_long1(dead, g), eig_lat1(dead, g)))
        alt = case(rev, 'full', inertiaTrimAxes=True)
        gaps.append(gap(np.concatenate([eig_long1(d, cdTotal=True), eig_lat1(d)]), eig_full2(d, cdTotal=True)))
        v['ambiguity'][rev] = dict(
            dragFromTotalLift=pair(rev + ' drag with rate terms', eig_long1(d, cdTotal=True), eig_lat1(d)),
            inertiaAboutStabilityAxes=pair(rev + ' inertia read about stability axes', eig_long1(alt), eig_lat1(alt)))
        print('   approach to fixed joint', stiff, 'free way gap', gaps[-1])
    v['largestWayGap'] = max(gaps)
    print('largest relative difference of the two ways:', max(gaps))
    assert max(gaps) < 1e-6
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), 'values.json'), 'w') as fh:
        json.dump(v, fh, indent=1)


if __name__ == '__main__':
    main()
