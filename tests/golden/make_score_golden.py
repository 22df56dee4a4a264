#!/usr/bin/python3
"""Writes the golden vectors for ROC areas and quantiles, computed by SciPy and NumPy.

    apt-get install python3-scipy
    /usr/bin/python3 tests/golden/make_score_golden.py

Writes core/src/test/resources/golden/roc.json and quantiles.json; each file holds the versions it was made with.
"""

import json
import pathlib

import numpy as np
import scipy
import scipy.stats

OUT = pathlib.Path(__file__).resolve().parents[2] / "core/src/test/resources/golden"
VERSIONS = {"scipy": scipy.__version__, "numpy": np.__version__}


def write(name, cases):
    body = {"madeWith": VERSIONS, "script": "tests/golden/make_score_golden.py", "cases": cases}
    text = json.dumps(body, separators=(",", ":")).replace('{"name"', '\n{"name"')
    (OUT / (name + ".json")).write_text(text + "\n")
    print(f"{name}.json: {len(cases)} cases, {len(text)} bytes")


def roc():
    cases = []
    for negatives, positives, shift, decimals in [(20, 15, 0.8, 6), (60, 5, 0.3, 1), (7, 40, -0.5, 0), (200, 30, 1.5, 1), (10, 10, 0, 0)]:
        rng = np.random.default_rng(negatives * 1000 + positives)
        # rounding to few decimals makes ties
        low = np.round(rng.normal(size=negatives), decimals)
        high = np.round(rng.normal(loc=shift, size=positives), decimals)
        u = scipy.stats.mannwhitneyu(high, low, alternative="two-sided").statistic
        cases.append({
            "name": f"{negatives} negatives, {positives} positives, {decimals} decimals",
            "negatives": low.tolist(), "positives": high.tolist(), "auc": float(u / (negatives * positives)),
        })
    write("roc", cases)


def quantiles():
    cases = []
    for n in [1, 2, 5, 40, 1000]:
        x = np.sort(np.round(np.random.default_rng(n).normal(size=n), 6))
        q = [0.0, 0.025, 0.5, 0.975, 1.0]
        cases.append({"name": f"{n} values", "x": x.tolist(), "q": q, "quantile": np.quantile(x, q).tolist()})
    write("quantiles", cases)


roc()
quantiles()
