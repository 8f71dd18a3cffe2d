"""Binomial tests, trials of a demonstration, sequential plans and shares in a circle. python3 values.py > values.json"""
import itertools, json, math
import mpmath
from scipy import special, stats

def trials(share, confidence, failures):
    n = failures + 1
    while stats.binom.cdf(failures, n, 1 - share) > 1 - confidence:
        n += 1
    return n

def further(hits, of, share, confidence):
    m = 0
    while special.betaincinv(hits + m, of - hits + 1, 1 - confidence) < share:
        m += 1
    return m

def plan(p0, p1, alpha, beta, most, p):
    """All series by dictionary; the lines straight from the likelihood ratio, no closed form of slope and intercepts."""
    a, b = math.log((1 - beta) / alpha), math.log(beta / (1 - alpha))
    ratio = lambda n, d: d * math.log((1 - p1) / (1 - p0)) + (n - d) * math.log(p1 / p0)
    open_, accept, trials_ = {0: 1.0}, 0.0, 0.0
    for n in range(1, most + 1):
        trials_ += sum(open_.values())
        after = {}
        for d, w in open_.items():
            for e, v in ((d, w * p), (d + 1, w * (1 - p))):
                after[e] = after.get(e, 0.0) + v
        open_ = {}
        for d, w in after.items():
            r = ratio(n, d)
            if r <= b + 1e-12 or (n == most and r <= 1e-12):
                accept += w
            elif r < a - 1e-12 and n < most:
                open_[d] = w
    return accept, trials_

mpmath.mp.dps = 30
def circle(r, m1, m2, s1, s2, rho):
    """Double integral in polar coordinates: another way round than strips."""
    r, m1, m2, s1, s2, rho = map(mpmath.mpf, (r, m1, m2, s1, s2, rho))
    k = 1 / (2 * mpmath.pi * s1 * s2 * mpmath.sqrt(1 - rho ** 2))
    def f(a, t):
        u, v = (a * mpmath.cos(t) - m1) / s1, (a * mpmath.sin(t) - m2) / s2
        return k * a * mpmath.exp(-(u * u - 2 * rho * u * v + v * v) / (2 * (1 - rho ** 2)))
    # the mean over equally spaced angles converges faster than any power
    n = 400
    ring = lambda a: sum(f(a, 2 * mpmath.pi * i / n) for i in range(n)) * 2 * mpmath.pi / n
    return float(mpmath.quad(ring, [0, r / 4, r / 2, 3 * r / 4, r]))

cases = [(3, 10, 0.27), (18, 20, 0.95), (18, 20, 0.8), (0, 15, 0.1), (40, 400, 0.13), (20, 20, 0.9), (7, 20, 0.5)]
needs = [(s, c, f) for s, c in [(0.9, 0.9), (0.95, 0.95), (0.99, 0.95), (0.9, 0.95), (0.999, 0.95), (0.8, 0.9)] for f in (0, 1, 2)]
groups = [(3, 4, 1, 4), (18, 20, 6, 9), (18, 20, 930, 1000), (9, 10, 9, 10), (0, 5, 5, 5), (12, 12, 4711, 5000)]
plans = [(0.95, 0.8, 0.05, 0.1, 60), (0.9, 0.7, 0.1, 0.1, 25), (0.99, 0.95, 0.05, 0.05, 400)]
circles = [(0.4, 0.1, 0.05, 0.2, 0.2, 0), (0.4, 0.1, -0.2, 0.15, 0.3, 0), (0.5, 0.3, 0.1, 0.2, 0.1, 0.6), (1, 0, 0, 0.5, 0.25, 0), (0.3, 0.9, 0, 0.2, 0.2, -0.5)]
rice = [(0.5, 1), (1, 1), (2, 0.5), (3, 4), (0, 2), (6, 2), (2, 6), (20, 19)]
print(json.dumps({
    "binomial": [[k, n, p, *map(float, (stats.binom.pmf(k, n, p), stats.binom.sf(k - 1, n, p), stats.binom.cdf(k, n, p), stats.binomtest(k, n, p).pvalue))] for k, n, p in cases],
    "trials": [[s, c, f, trials(s, c, f)] for s, c, f in needs],
    "further": [[k, n, s, c, further(k, n, s, c)] for k, n, s, c in [(18, 20, 0.9, 0.9), (18, 20, 0.9, 0.95), (6, 9, 0.8, 0.9), (12, 12, 0.9, 0.95), (27, 27, 0.9, 0.9)]],
    "fisher": [[a, n, b, m, *(float(stats.fisher_exact([[a, n - a], [b, m - b]], alternative=w).pvalue) for w in ("two-sided", "less", "greater"))] for a, n, b, m in groups],
    "posterior": [[a, b, p, float(special.betaincinv(a, b, p))] for a, b in [(18.5, 2.5), (6.5, 3.5), (1, 1), (13, 1)] for p in (0.025, 0.05, 0.5, 0.975)],
    "plan": [[*q, p, *plan(*q, p)] for q in plans for p in (0.6, 0.8, 0.9, 0.97, q[0], q[1])],
    "marcum": [[a, b, float(stats.ncx2.cdf(b * b, 2, a * a)) if a else -math.expm1(-b * b / 2), float(stats.ncx2.sf(b * b, 2, a * a)) if a else math.exp(-b * b / 2)] for a, b in rice],
    "rayleigh": [[r, s, float(stats.rayleigh.cdf(r, scale=s))] for r, s in [(0.4, 0.2), (0.1, 3.0), (2, 0.5)]],
    "circle": [[*c, circle(*c)] for c in circles],
}))
