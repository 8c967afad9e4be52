"""The difference of two Poisson counts of the same mean, by scipy.

Run: python3 skellam.py > skellam.json
"""
import json
import platform

import scipy
from scipy.stats import skellam

print(
    json.dumps(
        {
            "made": f"scipy {scipy.__version__}, python {platform.python_version()}",
            "cases": [
                {"variance": v, "pmf": [float(skellam.pmf(s, v / 2, v / 2)) for s in range(0, 13)]}
                for v in (0.01, 0.3, 1.0, 4.5, 30.0)
            ],
        },
        indent=1,
    )
)
