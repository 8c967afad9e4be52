"""Scores of distributions of counts, and tails of chi-squared.

CRPS as E|X - y| - E|X - X'| / 2 (Gneiting and Raftery 2007), coverage, histogram and quantiles by their definitions, all in
exact fractions of the floating-point probabilities that stand beside them: no running sums are shared with what is tested.

Run: python3 scores.py > scores.json
"""
import json
import platform
from fractions import Fraction as F

import scipy
from scipy.stats import binom, chi2, nbinom, poisson

LOW, HIGH = F(1, 10), F(9, 10)


def scored(name, pmf, counts):
    exact = [F(p) for p in pmf]
    # What the cut and rounding lack lies on the last count, as a distribution must sum to 1.
    exact[-1] += 1 - sum(exact)
    below = [sum(exact[:k], F(0)) for k in range(len(exact) + 1)]
    apart = sum(p * q * abs(i - j) for i, p in enumerate(exact) if p for j, q in enumerate(exact) if q)
    rows = []
    for y in counts:
        a, b = (below[y], below[y + 1]) if y < len(exact) else (F(1), F(1))
        inside = max(F(0), min(b, HIGH) - max(a, LOW))
        bars = [max(F(0), min(b, F(i + 1, 10)) - max(a, F(i, 10))) / (b - a) for i in range(10)] if b > a else None
        levels = [F(1, 10), F(1, 4), F(1, 2), F(3, 4), F(9, 10)]
        quantiles = [next(k for k in range(len(exact)) if below[k + 1] >= level) for level in levels]
        rows.append({
            "count": y,
            "crps": float(sum(p * abs(k - y) for k, p in enumerate(exact)) - apart / 2),
            "coverage": float(inside / (b - a)) if b > a else None,
            "pit": bars and [float(bar) for bar in bars],
            "pinball": [float(level * (y - q) if y >= q else (1 - level) * (q - y)) for level, q in zip(levels, quantiles)],
        })
    return {"name": name, "pmf": [float(p) for p in pmf], "rows": rows}


def cut(of, *args):
    top = int(of.isf(1e-16, *args))
    return of.pmf(range(top + 1), *args).tolist()


print(json.dumps({
    "made": f"scipy {scipy.__version__}, python {platform.python_version()}",
    "scores": [
        scored("Poisson 7.3", cut(poisson, 7.3), [0, 4, 7, 11, 30, 60]),
        scored("negative binomial 1.5, mean 3", cut(nbinom, 1.5, 1.5 / 4.5), [0, 1, 5, 12, 80]),
        scored("Poisson 0.2", cut(poisson, 0.2), [0, 1, 3]),
        scored("Poisson 160", cut(poisson, 160), [120, 143, 160, 176, 220]),
        scored("binomial 12, 0.85", binom.pmf(range(13), 12, 0.85).tolist(), [0, 6, 10, 12, 13]),
        scored("two heaps", [0.05, 0.45, 0, 0, 0, 0, 0.3, 0.2], [0, 1, 3, 6, 7]),
    ],
    "chiSquaredAbove": [[x, k, float(chi2.sf(x, k))] for x in (0.1, 1, 4.2, 16.9, 60, 250) for k in (1, 2, 3, 4, 9, 10, 19, 60)],
}, indent=1).replace("\n    ", " ").replace("\n   ", " "))
