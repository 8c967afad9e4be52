"""Reference values for what is learned of stages, each by another way than the engine's.

- `worked`: the engine's worked example in whole fractions, the posterior of each day written out by hand.
- `freireich`: Kaplan-Meier of the 6-MP arm of Freireich et al. 1963 (Blood 21:699-716) by scipy.stats.ecdf.
- `causes`: Aalen-Johansen as a product of transition matrices in fractions, with late entry (brute force).
- `gated`: posterior means of one day when some animals could not go on, by numerical integration (scipy.integrate).
- `grid`: the first grid's weights and mixture from the chance of each animal's whole stay (scipy quadrature), where the
  engine multiplies days.
- `betas`, `gammas`: distribution functions that draws must follow (scipy.stats, scipy.special).
- `vague`: the likelihood of ends between two dates maximised directly (scipy.optimize).

Run: python3 learning.py > learning.json
"""
import json
import platform
from fractions import Fraction as F

import numpy as np
import scipy
from scipy.integrate import dblquad, quad
from scipy.optimize import minimize
from scipy.special import gammainc, log_ndtr
from scipy.stats import CensoredData, beta, ecdf, norm


def worked(c):
    g_on = [F(0), F(5, 100), F(15, 100), F(25, 100), F(15, 100)]
    g_died = [F(10, 100), F(10, 100), F(5, 100), F(3, 100), F(2, 100)]
    r, on, died = [5, 5, 3, 1, 0], [0, 0, 1, 1, 0], [1, 1, 0, 0, 0]
    left, s, cif_on, cif_died = F(1), F(1), F(0), F(0)
    rows = []
    for d in range(5):
        weight = c * left + r[d]
        h_on, h_died = (c * g_on[d] + on[d]) / weight, (c * g_died[d] + died[d]) / weight
        cif_on, cif_died, s = cif_on + s * h_on, cif_died + s * h_died, s * (1 - h_on - h_died)
        left -= g_on[d] + g_died[d]
        rows.append([str(x) for x in (h_on, h_died, s, cif_on, cif_died)])
    return rows


def freireich():
    text = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+".split()
    times = [(int(t.rstrip("+")), t.endswith("+")) for t in text]
    data = CensoredData(uncensored=[t for t, c in times if not c], right=[t for t, c in times if c])
    sf = ecdf(data).sf
    return {"times": text, "survival": [[d, float(sf.evaluate(d))] for d in range(0, 36)]}


# entered, last day, exit or None: trials run from the first to the last.
CAUSES = [(0, 0, "died"), (0, 2, "onward"), (1, 4, "onward"), (0, 3, "left"), (2, 5, "euthanased"), (0, 5, None),
          (3, 6, "onward"), (0, 1, None), (0, 6, "died"), (1, 6, "onward"), (0, 8, None), (2, 8, "onward"), (0, 9, "onward")]


def causes():
    states = ["in", "onward", "died", "euthanased", "left"]
    product = [[F(int(i == j)) for j in range(5)] for i in range(5)]
    rows = []
    for d in range(10):
        at_risk = [x for x in CAUSES if x[0] <= d <= x[1]]
        step = [[F(int(i == j)) for j in range(5)] for i in range(5)]
        for j in range(1, 5):
            step[0][j] = F(sum(x[1] == d and x[2] == states[j] for x in at_risk), len(at_risk)) if at_risk else F(0)
        step[0][0] = 1 - sum(step[0][1:])
        product = [[sum(product[i][k] * step[k][j] for k in range(5)) for j in range(5)] for i in range(5)]
        rows.append([float(x) for x in product[0]])
    return {"stays": CAUSES, "columns": states, "rows": rows}


def gated():
    """Prior Dirichlet(a_on, a_died, a_stay); open trials: 2 went on, 1 died, 4 stayed; shut ones: 3 died, 5 did not."""
    a_on, a_died, a_stay = 1.7, 0.9, 5.4
    like = lambda on, died: (
        on ** (a_on - 1 + 2) * died ** (a_died - 1 + 1 + 3) * (1 - on - died) ** (a_stay - 1 + 4) * (1 - died) ** 5
    )
    moment = lambda f: dblquad(lambda on, died: f(on, died) * like(on, died), 0, 1, 0, lambda died: 1 - died,
                               epsabs=0, epsrel=1e-11)[0]
    total = moment(lambda on, died: 1.0)
    return {"prior": [a_on, a_died, a_stay], "on": moment(lambda on, died: on) / total,
            "died": moment(lambda on, died: died) / total}


# first and last possible day of going on; None: stayed past the first.
VAGUE = [(0, 2), (1, 3), (2, 2), (3, 6), (4, 4), (5, 7), (6, 6), (3, None), (2, 5), (1, 1), (7, 7), (4, 7)]


def vague():
    days = 8
    last = lambda p: 1 - p.sum()

    def minus_log(x):
        p = np.exp(x - np.logaddexp.reduce(np.append(x, 0.0)))
        return -sum(np.log(p[a + 1:].sum() + last(p) if b is None else p[a:b + 1].sum()) for a, b in VAGUE)

    best = min((minimize(minus_log, start, method="BFGS", options={"gtol": 1e-12, "maxiter": 5000})
                for start in (np.zeros(days), np.linspace(-1, 1, days))), key=lambda r: r.fun)
    p = np.exp(best.x - np.logaddexp.reduce(np.append(best.x, 0.0)))
    return {"stays": VAGUE, "logLikelihood": -best.fun, "survival": [float(1 - p[: d + 1].sum()) for d in range(days)]}


# exit (None: in care still), midnights (of those in care: passed so far), midnights before the import.
GRID_STAYS = [("onward", 4, 0), ("onward", 9, 2), ("died", 1, 0), (None, 6, 0), ("onward", 3, 0), ("died", 0, 0), (None, 8, 3)]
GRID_PLAN = {"ready": [5, 10], "died": [2, 6], "early": 0.2}


def day_tails(median, sigma, days):
    survival = lambda t: 1.0 if t <= 0 else float(np.exp(log_ndtr(-np.log(t / median) / sigma)))
    return [quad(survival, k, k + 1, epsabs=0, epsrel=1e-12, limit=200, points=[k + 1e-3, k + 0.1])[0] for k in range(days)]


def grid(days=14):
    z90 = norm.ppf(0.9)
    sigma = lambda m, p: np.log(p / m) / z90
    (m, p), (md, pd), early = GRID_PLAN["ready"], GRID_PLAN["died"], GRID_PLAN["early"]
    died = day_tails(md, sigma(md, pd), days)
    mass = lambda tails, k: (1.0 if k == 0 else tails[k - 1]) - tails[k]
    logs, survivals = [], []
    for log_stretch in [(i - 6) * 0.2 for i in range(13)]:
        for spread, prior in zip((0.7, 1, 1.4), (0.25, 0.5, 0.25)):
            ready = day_tails(m * np.exp(log_stretch), sigma(m, p) * spread, days)
            for odds in [(i - 3) * 0.5 for i in range(7)]:
                q = early * np.exp(odds) / (1 - early + early * np.exp(odds))
                alive = [q * a + (1 - q) * b for a, b in zip(died, ready)]
                log = -((log_stretch / 0.4) ** 2) / 2 + np.log(prior) - (odds / 0.75) ** 2 / 2
                for exit, k, seen in GRID_STAYS:
                    if exit is None:
                        log += np.log(alive[k - 1])
                    else:
                        log += np.log(q * mass(died, k) if exit == "died" else (1 - q) * mass(ready, k))
                    log -= np.log(alive[seen - 1]) if seen > 0 else 0.0
                logs.append(log)
                survivals.append(alive)
    weights = np.exp(np.array(logs) - max(logs))
    weights /= weights.sum()
    return {"plan": GRID_PLAN, "stays": GRID_STAYS, "weights": weights.tolist(), "survival": (weights @ np.array(survivals)).tolist()}


def betas():
    return [{"a": a, "b": b, "points": [[x, float(beta.cdf(x, a, b))] for x in xs]}
            for a, b, xs in [(3.7, 12.4, (0.1, 0.2, 0.3, 0.45)), (0.4, 0.7, (0.01, 0.2, 0.6, 0.95)), (20, 0.3, (0.9, 0.99, 0.9999))]]


def gammas():
    return [{"shape": a, "points": [[x, float(gammainc(a, np.exp(x)))] for x in xs]}
            for a, xs in [(0.01, (-300, -100, -30, -3)), (0.3, (-8, -3, -1, 0.5)), (1, (-3, -1, 0, 1)), (7.5, (1.3, 1.8, 2.1, 2.5))]]


print(json.dumps({
    "grid": grid(), "betas": betas(), "gammas": gammas(),
    "made": f"scipy {scipy.__version__}, numpy {np.__version__}, python {platform.python_version()}",
    "worked": worked(2), "freireich": freireich(), "causes": causes(),
    "gated": gated(), "vague": vague(),
}, indent=1))
