"""Solutions of A P + P A' + Q = 0 by scipy: python3 generate.py > values.json"""
import json
import sys

import numpy
import scipy
from scipy.linalg import expm, solve_continuous_lyapunov

random = numpy.random.default_rng(20261125)
cases = []
for n, scale in [(1, 1), (2, 1), (3, 10), (5, 1), (8, 30), (13, 1), (20, 5), (30, 1)]:
    g = random.standard_normal((n, n)) * scale
    # shifted to the left half plane by a margin of 5 % of its size
    a = g - (max(numpy.linalg.eigvals(g).real) + 0.05 * scale) * numpy.eye(n)
    b = random.standard_normal((n, max(1, n // 3)))
    q = b @ b.T
    a = numpy.round(a, 6)
    q = numpy.round(q, 6)
    q = 0.5 * (q + q.T)
    p = solve_continuous_lyapunov(a, -q)
    assert numpy.abs(a @ p + p @ a.T + q).max() < 1e-11 * numpy.abs(a @ p).max()
    cases.append({"n": n, "a": a.ravel().tolist(), "q": q.ravel().tolist(), "p": p.ravel().tolist(),
                  "exponential": expm(a / (4 * scale)).ravel().tolist(), "divisor": 4 * scale})
json.dump({"numpy": numpy.__version__, "scipy": scipy.__version__, "cases": cases}, sys.stdout, indent=None)
