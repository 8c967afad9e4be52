"""Counts: a Poisson-binomial of 600 trials in exact fractions, shortages of a Poisson, a compound Poisson.

Run: python3 counts.py > counts.json
"""
import json
import platform
from fractions import Fraction

import numpy as np
import scipy
from scipy.stats import poisson

scale = 101
pmf = [1]  # numerators over 101^n
for i in range(600):
    p = (i % 97) + 1
    pmf = [(pmf[k] if k < len(pmf) else 0) * (scale - p) + (pmf[k - 1] if k else 0) * p for k in range(len(pmf) + 1)]
above = float(Fraction(sum(pmf[301:]), scale**600))


def short(mean, places):
    return sum((n - places) * poisson.pmf(n, mean) for n in range(places + 1, 400))


# Compound Poisson: 3 events a day expected with one animal, 1.5 with two, 0.5 with four.
total = np.array([1.0])
for size, rate in ((1, 3.0), (2, 1.5), (4, 0.5)):
    part = np.zeros(60 * size + 1)
    part[::size] = poisson.pmf(range(61), rate)
    total = np.convolve(total, part)
print(
    json.dumps(
        {
            "made": f"scipy {scipy.__version__}, python {platform.python_version()}",
            "sixHundredAbove300": above,
            "poisson10Short10": short(10, 10),
            "poisson10Short15": short(10, 15),
            "compound": total[:31].tolist(),
        },
        indent=1,
    )
)
