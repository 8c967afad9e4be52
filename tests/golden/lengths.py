"""P(K > k) of a lognormal stay begun at a uniform moment of day 0: the integral of its survival over [k, k+1].

Computed with the adaptive quadrature of scipy. Run: python3 lengths.py > lengths.json
"""
import json
import math
import platform

import scipy
from scipy.integrate import quad
from scipy.special import log_ndtr
from scipy.stats import norm

Z90 = norm.ppf(0.9)


def tail(median, p90, k):
    sigma = math.log(p90 / median) / Z90
    survival = lambda t: 1.0 if t <= 0 else math.exp(log_ndtr(-math.log(t / median) / sigma))
    # Breaks where the survival turns keep the adaptive rule from missing a steep step.
    cuts = sorted({k, k + 1, *(c for c in (median * math.exp(sigma * z) for z in range(-8, 9)) if k < c < k + 1)})
    return math.fsum(quad(survival, a, b, epsabs=0, epsrel=1e-13, limit=200)[0] for a, b in zip(cuts, cuts[1:]))


cases = [(21, 35), (1, 4), (2, 31), (0.45, 1.2), (0.6, 3), (7, 18), (30, 33), (50, 120), (1.5, 5), (50, 260)]
rows = [
    {"median": m, "p90": p, "k": k, "tail": tail(m, p, k)} for m, p in cases for k in (0, 1, 2, 5, 13, 34, 90, 200)
]
rows = [row for row in rows if row["tail"] > 1e-280]
print(json.dumps({"made": f"scipy {scipy.__version__}, python {platform.python_version()}", "tails": rows}, indent=1))
