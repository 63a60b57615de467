"""Reference values from SciPy for the series that reference.R printed. JSON in, JSON out."""

import json
import sys

import numpy
import scipy
from scipy.stats import kendalltau, median_abs_deviation, norm, theilslopes


def measure(times, values):
    slope, intercept, low, high = theilslopes(values, times, alpha=0.95, method="joint")
    tau = kendalltau(times, values)
    exact = len(set(values)) == len(values)
    return {
        "slope": slope,
        "intercept": intercept,
        "low": low,
        "high": high,
        # SciPy's normal approximation has no continuity correction; its exact probability needs values without ties.
        "exactP": kendalltau(times, values, method="exact").pvalue if exact else None,
        "tau": tau.statistic if hasattr(tau, "statistic") else tau.correlation,
    }


given = json.load(sys.stdin)
series = []
for one in given["series"]:
    times, masses = one["times"], one["masses"]
    series.append(
        {
            "name": one["name"],
            "onMass": measure(times, masses),
            "onLogarithm": measure(times, list(numpy.log(masses))),
            "firstEight": measure(times[:8], masses[:8]),
            "median": float(numpy.median(masses)),
            "scaledDeviation": float(median_abs_deviation(masses, scale=1 / 1.4826)),
        }
    )
tails = [{"z": z, "upper": norm.sf(z)} for z in (-3, -1, -0.1, 0, 0.1, 0.5, 1, 1.645, 2, 2.9, 3, 3.1, 4, 6, 10)]
quantiles = [{"upper": p, "z": norm.isf(p)} for p in (0.5, 0.25, 0.1, 0.05, 0.025, 0.005, 0.0005, 1e-6)]
json.dump(
    {
        "madeWith": f"SciPy {scipy.__version__}, NumPy {numpy.__version__}, Python {sys.version.split()[0]}",
        "series": series,
        "normalTails": tails,
        "normalQuantiles": quantiles,
    },
    sys.stdout,
)
