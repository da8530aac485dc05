# SPDX-License-Identifier: MIT
"""Everything that a study needs and gives can be sent to another process, and comes back to the last bit."""

from __future__ import annotations

import os
import pickle
import runpy
import subprocess
import sys

import numpy as np
import pytest
from conftest import EXAMPLES, bar, job
from joblib import Parallel, delayed

import libflow as lf


def there_and_back(thing):
    return pickle.loads(pickle.dumps(thing))


def test_the_example_in_two_processes():
    done = subprocess.run(
        [sys.executable, EXAMPLES / "spread_over_processes.py", "2", "600"],
        capture_output=True, text=True, check=False, env=os.environ | {"PYTHONDONTWRITEBYTECODE": "1"},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "600 scenarios in 2 processes, as in one to the last bit" in done.stdout


def test_workers_are_other_processes():
    example = runpy.run_path(str(EXAMPLES / "spread_over_processes.py"))
    assert os.getpid() not in Parallel(n_jobs=2)(delayed(os.getpid)() for _ in range(4))
    layout = lf.Layout(job=job(), plumbing=bar())
    inputs = {"speed": np.linspace(1.5, 3.0, 101), "temperature": np.linspace(276.0, 300.0, 101)}
    here = lf.solve_many(layout, **inputs)
    for pieces in (2, 7):  # wherever the cuts fall
        found = example["spread"](layout, inputs, processes=2, pieces=pieces)
        for name in example["ARRAYS"]:
            assert found[name].tobytes() == getattr(here, name).tobytes(), name


def test_errors_come_back_from_a_worker():
    with pytest.raises(lf.InputError, match="speed") as raised:
        Parallel(n_jobs=2)(delayed(lf.solve_many)(bar(), job(), speed=s) for s in (2.0, -2.0))
    assert "speed" in raised.value.where


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda p: p.stem)
def test_layouts_and_answers(path):
    layout = lf.read_layout(path)
    assert there_and_back(layout) == layout
    answer = lf.main_job(layout)
    again = there_and_back(answer)
    assert again.to_json() == answer.to_json()
    assert str(again) == str(answer)
    assert again.plumbing == answer.plumbing
    assert again.layout == answer.layout
    for name in ("flow", "pressure", "drop", "inlet_static"):
        assert getattr(again.solution, name).tobytes() == getattr(answer.solution, name).tobytes()
    assert again.solution.current
    if layout.range.speeds or isinstance(layout.plumbing, lf.Toolbar):
        assert lf.main_job(again.layout).to_json() == lf.main_job(answer.layout).to_json()


def test_solutions_comparisons_scenarios_and_studies(short_bar, equal_bar):
    solution = lf.main_job(short_bar).solution
    again = there_and_back(solution)
    assert repr(again) == repr(solution)
    assert again.cautions == solution.cautions
    assert (lf.Derivatives(again).of_flow(again.part_ids[0]) == lf.Derivatives(solution).of_flow(again.part_ids[0])).all()
    both = lf.compare([short_bar, equal_bar])
    assert there_and_back(both).to_json() == both.to_json()
    assert str(there_and_back(both)) == str(both)
    many = lf.solve_many(short_bar, speed=[[2.0], [2.5]], crack=[["3 psi"], ["4 psi"]])
    assert there_and_back(many).flow.tobytes() == many.flow.tobytes()
    assert there_and_back(many).shape == many.shape
    assert there_and_back(many).frame().equals(many.frame())
    study = lf.setting_card(equal_bar)
    assert dict(there_and_back(study)) == dict(study)


def test_a_pickle_of_another_version_is_refused(short_bar):
    solution = lf.main_job(short_bar).solution
    state = solution.__getstate__()
    blank = lf.Solution.__new__(lf.Solution)
    with pytest.raises(lf.InputError, match="made by another version of libflow"):
        blank.__setstate__(state[:2])
    blank.__setstate__(state)
    assert (blank.flow == solution.flow).all()
