"""Margins, responses and closed-loop roots of loops with delay, by numpy and scipy alone.

Independent of Davit: responses by dense complex solves, crossings on a fine grid refined by scipy.optimize.brentq, closed-loop
roots with the delay replaced by scipy's/own Pade of order 8 (numpy roots of polynomials).

    python3 generate.py > values.json
"""
import json
from math import factorial

import numpy as np
from scipy.optimize import brentq

rng = np.random.default_rng(20261125)


def pade(n, tau):
    p = np.array([factorial(2 * n - k) / (factorial(k) * factorial(n - k)) * tau**k for k in range(n + 1)])
    return p * (-1.0) ** np.arange(n + 1), p


def loop(num, den, tau):
    num, den = np.array(num, float), np.array(den, float)

    def at(s):
        return np.polyval(num, s) / np.polyval(den, s) * np.exp(-tau * s)

    return at


def margins(at, lo, hi):
    w = np.geomspace(lo, hi, 400001)
    L = at(1j * w)
    gain, phase = [], []
    size = np.log(np.abs(L))
    for i in np.nonzero(np.diff(np.sign(size)))[0]:
        x = brentq(lambda v: np.log(abs(at(1j * v))), w[i], w[i + 1], xtol=1e-14, rtol=1e-14)
        lag = (np.angle(at(1j * x)) + np.pi) % (2 * np.pi)
        gain.append([x, lag - 2 * np.pi if lag > np.pi else lag, lag / x])
    for i in np.nonzero(np.diff(np.sign(L.imag)))[0]:
        if L[i].real > 0 and L[i + 1].real > 0:
            continue
        x = brentq(lambda v: at(1j * v).imag, w[i], w[i + 1], xtol=1e-14, rtol=1e-14)
        if at(1j * x).real < 0:
            phase.append([x, -1 / at(1j * x).real])
    return gain, phase


def unstable_roots(num, den, tau):
    n, d = pade(8, tau)
    poly = np.polyadd(np.polymul(den, d[::-1]), np.polymul(num, n[::-1]))
    return int(np.sum(np.roots(poly).real > 1e-7))


LOOPS = {
    # rising order of s is last; num and den in falling powers
    "attitude": ([3.0, 4.5], [1, 2.2, 4.0, 0], 0.12),
    "light resonance": ([4.0, 0.2, 90.0], [1, 6.3, 102.0, 30.0, 4.0], 0.05),
    "unstable plant": ([6.0, 9.0], [1, 1.5, -2.0], 0.08),
    "delay too long": ([6.0, 9.0], [1, 1.5, -2.0], 0.6),
}
LOOPS["conditional"] = ([30.0, 60.0, 40.0], [1, 8, 0, 0, 0], 0.02)

out = {"loops": [], "response": []}
for name, (num, den, tau) in LOOPS.items():
    gain, phase = margins(loop(num, den, tau), 1e-2, 1e2)
    out["loops"].append({"name": name, "num": num, "den": den, "tau": tau, "gain": gain, "phase": phase,
                         "unstable": unstable_roots(num, den, tau)})

for n, m, p in [(1, 1, 1), (2, 1, 2), (7, 2, 3), (16, 1, 2)]:
    A = rng.standard_normal((n, n)) * 10 ** rng.uniform(-1, 1.5, (n, n))
    B, C, D = rng.standard_normal((n, m)), rng.standard_normal((p, n)), rng.standard_normal((p, m))
    rows = []
    for s in [0.3j, 2.0 + 1.0j, -0.4 + 11.0j]:
        G = C @ np.linalg.solve(s * np.eye(n) - A, B) + D
        rows.append({"s": [s.real, s.imag], "re": G.real[:, -1].tolist(), "im": G.imag[:, -1].tolist()})
    out["response"].append({"states": n, "inputs": m, "outputs": p, "A": A.ravel().tolist(), "B": B.ravel().tolist(),
                            "C": C.ravel().tolist(), "D": D.ravel().tolist(), "rows": rows})

print(json.dumps(out, indent=1))
