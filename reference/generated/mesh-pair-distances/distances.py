"""Least distance of rob.obj, moved, from env.obj, by two methods that share no formula. Needs numpy and scipy.

    python3 reference/generated/mesh-pair-distances/distances.py

1. All pairs of triangles by their features: edge to edge as a minimum of a convex quadratic over the unit square, corner to
   face by barycentric coordinates; contact where an edge pierces a face (signs of four volumes).
2. min |Av - Bw| over weights v, w >= 0 with sum 1 as non-negative least squares, the sums enforced by a heavy row, for every pair of
   triangles whose spheres are nearer than the result of 1. It has no notion of edges, faces and piercing.
"""
import json
import os
import numpy as np
from scipy.optimize import nnls

HERE = os.path.dirname(os.path.abspath(__file__))
MESHES = os.path.join(HERE, "..", "..", "published", "collision-library-distance-cases")
SHIFTS = [(0, 0, 0), (0, 0, 3000), (5000, 0, 0), (0, -6000, 1000)]


def read(name):
    points, faces = [], []
    for line in open(os.path.join(MESHES, name)):
        words = line.split()
        if words and words[0] == "v":
            points.append([float(w) for w in words[1:4]])
        elif words and words[0] == "f":
            faces.append([int(w) - 1 for w in words[1:4]])
    return np.array(points)[np.array(faces)]


def edge_edge(p, d, q, e):
    """Squared distance of segments p + s d and q + t e: the inner minimum, or the best of the four sides of the square."""
    r = p - q
    a, b, c = (d * d).sum(-1), (d * e).sum(-1), (e * e).sum(-1)
    f, g = (d * r).sum(-1), (e * r).sum(-1)
    best = np.full(a.shape, np.inf)

    def trial(s, t):
        w = r + s[..., None] * d - t[..., None] * e
        np.minimum(best, (w * w).sum(-1), out=best)

    zero, one = np.zeros_like(a), np.ones_like(a)
    for s in (zero, one):
        trial(s, np.clip((g + b * s) / c, 0, 1))
    for t in (zero, one):
        trial(np.clip((b * t - f) / a, 0, 1), t)
    det = a * c - b * b
    ok = det > 1e-12 * a * c
    det = np.where(ok, det, 1)
    s, t = (b * g - c * f) / det, (a * g - b * f) / det
    inner = ok & (s > 0) & (s < 1) & (t > 0) & (t < 1)
    trial(np.where(inner, s, 0), np.where(inner, t, 0))
    return best


def point_face(x, tri):
    """Squared distance to the face along its normal; infinite where the foot lies outside."""
    a, u, v = tri[..., 0, :], tri[..., 1, :] - tri[..., 0, :], tri[..., 2, :] - tri[..., 0, :]
    n = np.cross(u, v)
    nn = (n * n).sum(-1)
    w = x - a
    l1 = (np.cross(w, v) * n).sum(-1) / nn
    l2 = (np.cross(u, w) * n).sum(-1) / nn
    inside = (l1 >= 0) & (l2 >= 0) & (l1 + l2 <= 1)
    return np.where(inside, (w * n).sum(-1) ** 2 / nn, np.inf)


def pierces(p, q, tri):
    volume = lambda a, b, c, d: (np.cross(b - a, c - a) * (d - a)).sum(-1)
    a, b, c = tri[..., 0, :], tri[..., 1, :], tri[..., 2, :]
    opposite = volume(a, b, c, p) * volume(a, b, c, q) < 0
    x, y, z = (volume(p, q, *pair) for pair in ((a, b), (b, c), (c, a)))
    return opposite & (((x > 0) & (y > 0) & (z > 0)) | ((x < 0) & (y < 0) & (z < 0)))


def features(rob, env):
    least, crossings = np.inf, 0
    for t in rob:
        one = np.broadcast_to(t, env.shape)
        for i in range(3):
            p, q = one[:, i], one[:, (i + 1) % 3]
            crossings += int(pierces(p, q, env).sum())
            least = min(least, point_face(p, env).min(), point_face(env[:, i], one).min())
            crossings += int(pierces(env[:, i], env[:, (i + 1) % 3], one).sum())
            for j in range(3):
                r, s = env[:, j], env[:, (j + 1) % 3]
                least = min(least, edge_edge(p, q - p, r, s - r).min())
    return (0.0 if crossings else float(np.sqrt(least))), crossings


def weights(rob, env, near):
    centre = lambda m: m.mean(axis=1)
    radius = lambda m: np.linalg.norm(m - centre(m)[:, None], axis=2).max(axis=1)
    gap = np.linalg.norm(centre(rob)[:, None] - centre(env)[None], axis=2) - radius(rob)[:, None] - radius(env)[None]
    pairs = np.argwhere(gap <= near * (1 + 1e-12) + 1e-9)
    heavy, least = 1e6, np.inf
    for i, j in pairs:
        # Lengths from the middle of the pair and by its size, so that the heavy row is heavy and no digits are lost.
        middle = 0.5 * (centre(rob)[i] + centre(env)[j])
        a, b = rob[i] - middle, env[j] - middle
        size = max(np.abs(a).max(), np.abs(b).max())
        rows = np.vstack([np.hstack([a.T, -b.T]) / size, heavy * np.array([[1, 1, 1, 0, 0, 0], [0, 0, 0, 1, 1, 1]])])
        x, _ = nnls(rows, np.array([0, 0, 0, heavy, heavy]), maxiter=1000)
        v, w = x[:3] / x[:3].sum(), x[3:] / x[3:].sum()
        least = min(least, float(np.linalg.norm(v @ a - w @ b)))
    return least, len(pairs)


if __name__ == "__main__":
    rob, env = read("rob.obj"), read("env.obj")
    cases = []
    for shift in SHIFTS:
        moved = rob + np.array(shift, dtype=float)
        exact, crossings = features(moved, env)
        other, pairs = weights(moved, env, exact)
        print(shift, repr(exact), repr(other), "crossings", crossings, "pairs", pairs)
        cases.append({"shift": shift, "features": exact, "weights": other, "crossings": crossings, "weightedPairs": pairs})
    with open(os.path.join(HERE, "values.json"), "w") as out:
        out.write(json.dumps({"cases": cases}, indent=1) + "\n")
