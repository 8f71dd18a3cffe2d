#!/usr/bin/env python3
"""Limit cycles of a mass with negative damping on a boom spring in series with accumulator and snubber.

    m x'' = d x' - P,   P = k_b (x - s) + c_b (x' - s') = k_a s + F(s') + F_c sign(s')

The speed s' is found by a bracketing root finder from the flows of the valve (bleed and orifice in line, relief valve
beside them, friction beside all), not by any formula of the tool. python3 oscillator.py > values.json
"""
import json
import sys

import numpy
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

CASES = {
    "orifice": dict(m=1000.0, d=250.0, kb=60e3, cb=200.0, ka=60e3, C1=0.0, C2=20e3, relief=None, rise=0.0, friction=0.0),
    "bleed and relief": dict(m=1000.0, d=250.0, kb=60e3, cb=200.0, ka=20e3, C1=200.0, C2=10e3, relief=8.0, rise=800.0, friction=0.0),
    "friction": dict(m=1000.0, d=250.0, kb=60e3, cb=200.0, ka=60e3, C1=0.0, C2=20e3, relief=None, rise=0.0, friction=30.0),
}


def speed_of(p, g):
    """Speed of the piston at a valve force: what passes the restrictions and what passes the relief valve."""
    if p["C2"] > 0:
        through = (-p["C1"] + (p["C1"] ** 2 + 4 * p["C2"] * g) ** 0.5) / (2 * p["C2"])
    else:
        through = g / p["C1"]
    beside = 0.0 if p["relief"] is None else max(0.0, g - p["relief"]) / p["rise"]
    return through + beside


def rate(p, load):
    r = abs(load) - p["friction"]
    if r <= 0:
        return 0.0
    g = brentq(lambda f: f + p["cb"] * speed_of(p, f) - r, 0.0, r, xtol=1e-13, rtol=1e-13)
    return (1 if load > 0 else -1) * speed_of(p, g)


def right(p):
    def f(_t, y):
        x, v, s = y
        load = p["kb"] * (x - s) + p["cb"] * v - p["ka"] * s
        w = rate(p, load)
        force = p["kb"] * (x - s) + p["cb"] * (v - w)
        return [v, (p["d"] * v - force) / p["m"], w]
    return f


def cycle(p, start):
    f = right(p)
    peak = lambda _t, y: y[1]
    y = [start, 0.0, 0.0]
    t = 0.0
    before = 0.0
    for _ in range(200):
        run = solve_ivp(f, (t, t + 20.0), y, method="DOP853", rtol=1e-8, atol=1e-11, events=peak, max_step=0.05)
        t, y = run.t[-1], run.y[:, -1]
        xs = run.y_events[0][:, 0]
        ts = run.t_events[0]
        amplitude = float(numpy.mean(numpy.abs(numpy.diff(xs[-9:]))) / 2)
        if abs(amplitude - before) < 1e-6 * amplitude:
            break
        before = amplitude
    omega = float(numpy.pi * (len(ts) - 1) / (ts[-1] - ts[0]))
    return dict(tip_m=amplitude, omega_rad_s=omega, time_s=float(t))


if __name__ == "__main__":
    out = {"versions": {"numpy": numpy.__version__, "scipy": scipy.__version__}, "cases": {}}
    for name, p in CASES.items():
        out["cases"][name] = {"given": p, **cycle(p, 0.05)}
        print(name, out["cases"][name], file=sys.stderr)
    json.dump(out, sys.stdout, indent=1)
    print()
