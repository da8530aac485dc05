#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Spreads a study over worker processes with joblib and shows that the answer is that of one process, bit for bit.

    pip install "./bindings[parallel]"
    python examples/spread_over_processes.py [PROCESSES] [SCENARIOS]

libflow has no scheduler of its own: layouts, networks, arrays of scenarios and results pickle, so that any engine that
carries pickles can spread them. Threads (solve_many(..., threads=0)) are quicker on one machine; processes are for
engines that reach further, and for Python code of your own around each solve.
"""

from __future__ import annotations

import pathlib
import sys
from collections.abc import Sequence

import numpy as np
from joblib import Parallel, delayed

import libflow as lf

EXAMPLES = pathlib.Path(__file__).resolve().parent
ARRAYS = ("flow", "mean_rate", "cv", "lowest", "highest", "supply_pressure", "status")


def draw(scenarios: int) -> dict[str, np.ndarray]:
    """Days in spring: speeds, temperatures and slopes, the same on every run."""
    chance = np.random.default_rng(seed=1)
    return {
        "speed": chance.uniform(lf.si("4 mph", "speed"), lf.si("7 mph", "speed"), scenarios),
        "temperature": chance.uniform(lf.si("35 F", "temperature"), lf.si("75 F", "temperature"), scenarios),
        "side_slope": chance.normal(0.0, 0.03, scenarios),
    }


def spread(layout: lf.Layout, inputs: dict[str, np.ndarray], processes: int, pieces: int) -> dict[str, np.ndarray]:
    """solve_many() over pieces of the scenarios, each in a worker process; the arrays joined in order."""
    cuts = [np.array_split(values, pieces) for values in inputs.values()]
    work = (delayed(lf.solve_many)(layout, **dict(zip(inputs, piece))) for piece in zip(*cuts))
    found: Sequence[lf.ManyResults] = Parallel(n_jobs=processes)(work)
    return {name: np.concatenate([getattr(one, name) for one in found]) for name in ARRAYS}


def main(processes: int = 2, scenarios: int = 4000) -> None:
    """Many scenarios of one bar, then the main job and a study of every example layout."""
    bar = lf.read_layout(EXAMPLES / "short_hoses.toml")
    inputs = draw(scenarios)
    here = lf.solve_many(bar, **inputs)
    there = spread(bar, inputs, processes, pieces=3 * processes)
    for name in ARRAYS:
        one, many = getattr(here, name), there[name]
        # By bytes: the last bit counts, and a missing number equals a missing number.
        assert one.dtype == many.dtype and one.tobytes() == many.tobytes(), name
    even = np.abs([there["lowest"], there["highest"]]).max(axis=0) <= bar.job.tolerance
    print(f"{scenarios} scenarios in {processes} processes, as in one to the last bit: {100 * even.mean():.1f} % even")

    layouts = [lf.read_layout(path) for path in sorted(EXAMPLES.glob("*_hoses.toml"))]
    answers = Parallel(n_jobs=processes)(delayed(lf.main_job)(layout) for layout in layouts)
    faults = Parallel(n_jobs=processes)(delayed(lf.what_if)(layout) for layout in layouts)
    for layout, answer, fault in zip(layouts, answers, faults):
        assert answer.to_json() == lf.main_job(layout).to_json()
        assert fault.to_json() == lf.what_if(layout).to_json()
        print(f"{layout.name}: CV {100 * answer.cv:.1f} %")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
