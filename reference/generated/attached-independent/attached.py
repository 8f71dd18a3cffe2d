"""Rest and natural frequencies of a body held by a boom and by legs with pins, from one potential.

Own derivation, apart from the tool: everything follows from U(q), kinetic energy and nothing else.
Run: python3 attached.py > values.json   (numpy)
"""
import json
import numpy as np

G = 9.80665
MASS = dict(mass=2600.0, Ixx=2050.0, Iyy=5700.0, Izz=7000.0, Ixz=250.0)
I = np.array([[MASS["Ixx"], 0, -MASS["Ixz"]], [0, MASS["Iyy"], 0], [-MASS["Ixz"], 0, MASS["Izz"]]])
PROBE = np.array([2.2, 0.0, -0.85])
TIP_MASS = 120.0
L, GAMMA = 5.6, 0.7
BOOM = dict(axial=6e6, lateral=6e5, tangential=9e4)
PINS = {"left": np.array([-0.75, -0.55, -0.62]), "right": np.array([-0.75, 0.55, -0.62])}
ROOTS = {"left": np.array([-2.843, -0.55, 0.23]), "right": np.array([-2.843, 0.55, 0.23])}
ALONG, ASIDE = {"left": 12e6, "right": 12e6}, 0.5e6
PITCH = 0.0128


def rotation(v):
    a = np.linalg.norm(v)
    if a < 1e-300:
        return np.eye(3)
    k = v / a
    K = np.array([[0, -k[2], k[1]], [k[2], 0, -k[0]], [-k[1], k[0], 0]])
    return np.eye(3) + np.sin(a) * K + (1 - np.cos(a)) * K @ K


R0 = rotation(np.array([0, PITCH, 0]))
TIP0 = L * np.array([-np.cos(GAMMA), 0, np.sin(GAMMA)])
X0 = TIP0 - R0 @ PROBE
REST = {n: np.linalg.norm(X0 + R0 @ PINS[n] - ROOTS[n]) for n in PINS}


def place(q):
    return X0 + q[:3], R0 @ rotation(q[3:])


def potential(q, pins, gravity, along=ALONG):
    x, R = place(q)
    t = x + R @ PROBE
    ell = np.linalg.norm(t)
    swing = np.arctan2(t[2], -t[0]) - GAMMA
    side = np.arcsin(t[1] / ell)
    u = 0.5 * BOOM["axial"] * (ell - L) ** 2 + 0.5 * BOOM["tangential"] * (L * swing) ** 2
    u += 0.5 * BOOM["lateral"] * (L * side) ** 2
    for n in pins:
        d = x + R @ PINS[n] - ROOTS[n]
        u += 0.5 * along[n] * (np.linalg.norm(d) - REST[n]) ** 2 + 0.5 * ASIDE * (d[1]) ** 2
    return u - MASS["mass"] * gravity * x[2]


def gradient(f, q, h):
    e = np.eye(len(q))
    c = lambda s: np.array([(f(q + s * h * v) - f(q - s * h * v)) / (2 * s * h) for v in e])
    return (4 * c(0.5) - c(1)) / 3


def hessian(f, q, h):
    e = np.eye(len(q))
    g = lambda p: gradient(f, p, h)
    c = lambda s: np.array([(g(q + s * h * v) - g(q - s * h * v)) / (2 * s * h) for v in e])
    H = (4 * c(0.5) - c(1)) / 3
    return 0.5 * (H + H.T)


def case(name, pins, gravity, along=ALONG):
    f = lambda q: potential(q, pins, gravity, along)
    q = np.zeros(6)
    # the load in parts, so that the rest is the one next to the start
    for part in np.linspace(0.25, 1, 4) if gravity > 0 else []:
        p = lambda q: potential(q, pins, part * gravity, along)
        for _ in range(60):
            step = np.linalg.solve(hessian(p, q, 2e-3), gradient(p, q, 2e-3))
            q = q - step
            if np.linalg.norm(step) < 1e-13:
                break
    x, R = place(q)
    # small motion about the rest: position in H, rotation vector in body axes
    def about(s):
        y = x + s[:3]
        S = R @ rotation(s[3:])
        full = np.zeros(6)
        full[:3] = y - X0
        # rotation vector of R0^T S
        W = R0.T @ S
        a = np.arccos(np.clip((np.trace(W) - 1) / 2, -1, 1))
        w = np.array([W[2, 1] - W[1, 2], W[0, 2] - W[2, 0], W[1, 0] - W[0, 1]])
        full[3:] = 0.5 * w * (a / np.sin(a) if a > 1e-8 else 1)
        return f(full)
    K = hessian(about, np.zeros(6), 2e-3)
    M = np.zeros((6, 6))
    M[:3, :3] = MASS["mass"] * np.eye(3)
    M[3:, 3:] = I
    P = np.array([[0, -PROBE[2], PROBE[1]], [PROBE[2], 0, -PROBE[0]], [-PROBE[1], PROBE[0], 0]])
    J = np.hstack([np.eye(3), -R @ P])
    M += TIP_MASS * J.T @ J
    w2 = np.sort(np.linalg.eigvals(np.linalg.solve(M, K)).real)
    return dict(
        name=name, pins=list(pins), gravity=gravity, position=x.tolist(), rotation=R.reshape(-1).tolist(),
        omegaSquared=w2.tolist(),
        along=along, tension={n: along[n] * (np.linalg.norm(x + R @ PINS[n] - ROOTS[n]) - REST[n]) for n in pins},
    )


cases = [
    case("three point, no weight", ["left", "right"], 0.0),
    case("three point", ["left", "right"], G),
    case("left pin, no weight", ["left"], 0.0),
    case("unequal legs", ["left", "right"], G, {"left": 12e6, "right": 3e6}),
]
print(json.dumps(dict(numpy=np.__version__, cases=cases), indent=1))
