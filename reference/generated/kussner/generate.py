"""Kuessner's function from the response to a sinusoidal gust by scipy: python3 generate.py > values.json"""
import json
import sys

import numpy
import scipy
from scipy.integrate import quad
from scipy.special import hankel2, jv


def theodorsen(k):
    return hankel2(1, k) / (hankel2(1, k) + 1j * hankel2(0, k))


def leading_edge(k):
    """Lift by a sinusoidal gust over its quasi-steady value, phase at the leading edge."""
    sears = (jv(0, k) - 1j * jv(1, k)) * theodorsen(k) + 1j * jv(1, k)
    return sears * numpy.exp(-1j * k)


def indicial(s):
    value, _ = quad(lambda k: leading_edge(k).real / k, 1e-12, 400, weight="sin", wvar=s, limit=20000)
    return 2 / numpy.pi * value


rows = [[s, round(float(indicial(s)), 4)] for s in [1, 2, 4, 8, 16, 32]]
json.dump({"numpy": numpy.__version__, "scipy": scipy.__version__, "rows": rows}, sys.stdout, indent=1)
