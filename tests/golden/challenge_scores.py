#!/usr/bin/env python3
"""An outside check of the challenge scores: written from their definitions, with the standard library alone and sharing no code with core.

    python3 tests/golden/challenge_scores.py            writes core/src/test/resources/golden/challenge-scores.json
    python3 tests/golden/challenge_scores.py CASES.json prints the scores of the cases in a file of the same form

Definitions: Zhang et al., IEEE TBioCAS 2022 (SPRSound): SP = normals called normal; SE = adventitious items given their exact class; AS = (SE + SP) / 2;
HS = 2 SE SP / (SE + SP); Score = (AS + HS) / 2. In tasks 2-1 and 2-2 true poor-quality recordings are left out of SE and SP, and a normal or
adventitious recording called poor quality is an error. Rocha et al., Physiol Meas 2019 (ICBHI): Score = (Se + Sp) / 2.
Exact fractions are used, so that a rounding error in core would show.
"""

import json
import pathlib
import random
import sys
from fractions import Fraction

OUT = pathlib.Path(__file__).resolve().parents[2] / "core/src/test/resources/golden/challenge-scores.json"

TASKS = {
    "1-1": ["normal", "adventitious"],
    "1-2": ["normal", "rhonchus", "wheeze", "stridor", "coarse-crackle", "fine-crackle", "wheeze-and-crackle"],
    "2-1": ["normal", "adventitious", "poor-quality"],
    "2-2": ["normal", "cas", "das", "cas-and-das", "poor-quality"],
    "icbhi-4": ["normal", "crackle", "wheeze", "both"],
}


def scores(task, truth, called):
    counted = [(t, c) for t, c in zip(truth, called) if t != "poor-quality"]
    normals = [c for t, c in counted if t == "normal"]
    others = [(t, c) for t, c in counted if t != "normal"]
    if not normals or not others:
        return {"SE": None, "SP": None, "AS": None, "HS": None, "score": None}
    sp = Fraction(normals.count("normal"), len(normals))
    se = Fraction(len([1 for t, c in others if t == c]), len(others))
    arithmetic = (se + sp) / 2
    harmonic = 2 * se * sp / (se + sp) if se + sp else Fraction(0)
    score = arithmetic if task == "icbhi-4" else (arithmetic + harmonic) / 2
    return {k: float(v) for k, v in {"SE": se, "SP": sp, "AS": arithmetic, "HS": harmonic, "score": score}.items()}


def answer(rng, classes, truth, skill):
    """A simulated listener: right with a chance of `skill`, else any class."""
    return [t if rng.random() < skill else rng.choice(classes) for t in truth]


def make_cases():
    cases = []
    for task, classes in TASKS.items():
        for number, (size, skill) in enumerate([(7, 0.5), (40, 0.0), (200, 0.6), (400, 0.9), (60, 1.0)]):
            rng = random.Random(f"{task} {number}")
            weights = [5] + [1] * (len(classes) - 1)
            # the first items hold every class, so that each score is defined
            truth = classes + rng.choices(classes, weights, k=size)
            called = answer(rng, classes, truth, skill)
            cases.append({"name": f"{task}, {len(truth)} items, skill {skill}", "task": task, "truth": truth, "called": called})
        never = [c for c in classes if c != "poor-quality"]
        cases.append({"name": f"{task}, all wrong", "task": task, "truth": never, "called": never[1:] + never[:1]})
    return cases


def main():
    if len(sys.argv) > 1:
        for case in json.loads(pathlib.Path(sys.argv[1]).read_text())["cases"]:
            print(case["name"], json.dumps(scores(case["task"], case["truth"], case["called"])))
        return
    cases = [{**case, **scores(case["task"], case["truth"], case["called"])} for case in make_cases()]
    body = {"madeWith": {"python": "%d.%d" % sys.version_info[:2]}, "script": "tests/golden/challenge_scores.py", "cases": cases}
    text = json.dumps(body, separators=(",", ":")).replace('{"name"', '\n{"name"')
    OUT.write_text(text + "\n")
    print(f"{OUT.name}: {len(cases)} cases, {len(text)} bytes")


if __name__ == "__main__":
    main()
