"""Normal, beta and gamma values of an independent library. python3 values.py > values.json"""
import json
from scipy import special, stats

xs = [-37.0, -20.0, -8.0, -5.0, -3.5, -3.0, -2.9, -2.0, -1.0, -0.3, -1e-3, 0.0, 0.5, 1.96, 3.0, 4.0, 6.0]
ps = [1e-300, 1e-20, 1e-9, 1e-4, 0.001, 0.025, 0.1, 0.3, 0.4999, 0.5, 0.6, 0.9, 0.975, 0.999, 0.999999]
betas = [(x, a, b) for x in [1e-6, 0.01, 0.2, 0.5, 0.8, 0.99] for a, b in [(0.5, 0.5), (1, 1), (2, 3.5), (10, 0.7), (40, 60), (500, 2), (3, 9998)]]
print(json.dumps({
    "cdf": [[x, float(special.ndtr(x))] for x in xs],
    "quantile": [[p, float(special.ndtri(p))] for p in ps],
    "beta": [[x, a, b, float(special.betainc(a, b, x))] for x, a, b in betas],
    "gamma": [[x, float(special.gammaln(x))] for x in [0.1, 0.5, 1.5, 3.0, 7.25, 30.0, 1e3, 1e5]],
    "clopper": [[k, n, c, *map(float, stats.binomtest(k, n).proportion_ci(c, "exact"))] for k, n, c in [(7, 2048, 0.95), (500, 10000, 0.95), (9999, 10000, 0.99)]],
}))
