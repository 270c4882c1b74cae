"""Quantiles and distribution functions of t, chi-square, F and normal over wide degrees of freedom.

Writes ../vectors/distributions.json. Run: python3 distributions.py (needs scipy).
Each row: [arguments..., value]; seventeen significant digits. No random numbers.

Left out: the chi-square quantile at p = 1e-6 with 1e7 degrees of freedom. scipy 1.10.1 says 9978763.78 there, while
the Cornish-Fisher series d + z sqrt(2d) + 2(z^2 - 1)/3 + (z^3 - 7z)/(9 sqrt(2d)) says 9978756.434, as we do.
"""
import json
import os
import sys

import scipy
from scipy import special, stats

dofs = [0.5, 1, 2, 3, 4.5, 7, 12.5, 28, 76, 200, 999, 1001, 5000, 30000, 99999, 100001, 1e6, 1e7]
ps = [1e-6, 1e-4, 0.005, 0.025, 0.1, 0.3, 0.5, 0.7, 0.9, 0.95, 0.975, 0.995, 0.9995, 0.999999]
xs = [-40.0, -12.0, -5.0, -2.5, -1.0, -0.1, 0.0, 0.3, 1.5, 2.0, 3.5, 8.0]
first = [1, 2, 3, 4, 20, 60, 1000, 29000, 1e5]
second = [1, 2.5, 10, 28, 76, 999, 29999, 99999, 1e7]
shares = [0.05, 0.2, 0.5, 0.8, 1.0, 1.2, 2.0, 5.0]


def number(v):
    return float(v)


rows = {
    "tQuantile": [[p, d, number(stats.t.ppf(p, d))] for d in dofs for p in ps if p != 0.5],
    "tCdf": [[x, d, number(stats.t.cdf(x, d))] for d in dofs for x in xs],
    "chiSquareQuantile": [[p, d, number(stats.chi2.ppf(p, d))] for d in dofs for p in ps if (p, d) != (1e-6, 1e7)],
    "chiSquareCdf": [[s * d, d, number(stats.chi2.cdf(s * d, d))] for d in dofs for s in shares]
    + [[d + z * (2 * d) ** 0.5, d, number(stats.chi2.cdf(d + z * (2 * d) ** 0.5, d))] for d in dofs[8:] for z in [-3, -1, 0.5, 2.5]],
    "fQuantile": [[p, a, b, number(stats.f.ppf(p, a, b))] for a in first for b in second for p in [0.001, 0.05, 0.5, 0.95, 0.99, 0.999]],
    "fCdf": [[s, a, b, number(stats.f.cdf(s, a, b))] for a in first for b in second for s in [0.02, 0.3, 0.98, 1.0, 1.01, 2.5, 9.0]],
    "normalQuantile": [[p, number(special.ndtri(p))] for p in [1e-9] + ps if p != 0.5],
    "normalCdf": [[x, number(special.ndtr(x))] for x in xs],
}
out = {
    "tool": "scipy",
    "version": scipy.__version__,
    "python": sys.version.split()[0],
    "call": "stats.t/chi2/f .ppf and .cdf, special.ndtri, special.ndtr; rows are [arguments in our order..., value]",
    "rows": rows,
}
path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "vectors", "distributions.json")
with open(path, "w") as file:
    json.dump(out, file, separators=(",", ":"))
    file.write("\n")
