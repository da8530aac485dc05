# SPDX-License-Identifier: MIT
"""The catch test: plan, readings, verdict, diagnosis, layout as built."""

from __future__ import annotations

import json
import os
import pickle
import subprocess

import numpy as np
import pytest
from conftest import EXAMPLES, bar, job, two_rows
from hypothesis import given
from hypothesis import strategies as st

import libflow as lf

BAR = EXAMPLES / "equal_hoses.toml"
DAY, LOW = EXAMPLES / "catch_day.csv", EXAMPLES / "catch_day_low.csv"


@pytest.fixture(scope="module")
def day():
    return lf.read_catch(DAY, gauge="39 psi")


@pytest.fixture(scope="module")
def low():
    return lf.read_catch(LOW, gauge="15 psi")


@pytest.fixture(scope="module")
def diagnosis(equal_bar, day, low):
    return lf.diagnose(equal_bar, [day, low])


def test_the_plan_is_the_programs(program, equal_bar):
    plan = lf.plan_catch(equal_bar)
    assert json.loads(plan.to_json()) == program("catch", BAR)
    plan = lf.plan_catch(equal_bar, time="1 min", repeats=2, reading_error="3 %", together=False)
    said = program("catch", BAR, "--time", "1 min", "--repeats", "2", "--error", "3", "--one-by-one")
    assert json.loads(plan.to_json()) == said
    # The two errors add as squares: 3 % and 0.2 s of 60 s.
    assert plan["cup_error"] == pytest.approx(np.hypot(0.03, 0.2 / 60.0), rel=1e-15)
    # Each cup holds the row's flow for a minute.
    flow = lf.main_job(equal_bar).flow
    assert plan.array("rows", "product_m3") == pytest.approx(60.0 * flow, rel=1e-12)


def test_verdict_and_diagnosis_are_the_programs(program, equal_bar, day, low, diagnosis):
    said = program("catch", BAR, DAY, "--gauge", "39 psi", "--second", LOW, "--second-gauge", "15 psi")
    second, wrong = said.pop("second"), said.pop("diagnosis")
    assert json.loads(lf.judge_catch(equal_bar, day).to_json()) == said
    assert json.loads(lf.judge_catch(equal_bar, low).to_json()) == second
    assert json.loads(diagnosis.to_json()) == wrong
    assert isinstance(diagnosis, lf.Study)
    assert "Diagnosis" in lf.diagnose.__annotations__["return"]


def test_options_reach_the_study(program, equal_bar):
    bores = ["0.042 in", "0.046 in", "0.052 in"]
    readings = lf.read_catch(DAY, gauge="39 psi", water=True, reading_error="4 %", together=False, time="20 s")
    said = program("catch", BAR, DAY, "--gauge", "39 psi", "--water", "--error", "4", "--one-by-one", "--time", "20 s",
                   "--orifices", ", ".join(bores))  # fmt: skip
    assert json.loads(lf.diagnose(equal_bar, readings, orifice_bores=bores).to_json()) == said["diagnosis"]
    assert lf.judge_catch(equal_bar, readings)["rows"] == said["rows"]
    # A wider confidence makes wider intervals.
    wide, narrow = (lf.judge_catch(equal_bar, readings, confidence=c) for c in ("99 %", "90 %"))
    assert (wide.array("rows", "deviation_high") > narrow.array("rows", "deviation_high")).all()
    with pytest.raises(lf.InputError, match="most causes: 9; allowed: 1 to 5"):
        lf.diagnose(equal_bar, readings, most_causes=9)


def test_the_same_cups_from_file_text_array_and_by_row(day, tmp_path):
    assert lf.parse_catch(DAY.read_text(), "cups.csv", gauge="39 psi").readings == [
        cup.replace(where=cup.where.replace(str(DAY), "cups.csv")) for cup in day.readings
    ]
    table = np.full((16, 3), np.nan)
    for cup in day.readings:
        table[cup.row - 1, cup.repeat - 1] = cup.volume
    assert day.readings[0].written == "240 ml"

    def without_words(readings):  # where a volume stood and how it was written are for messages
        return [cup.replace(where="", written="") for cup in readings.readings]

    bare = without_words(day)
    assert without_words(lf.catch_readings(table)) == bare
    by_row = {row: [f"{1e6 * float(v)!r} mL" for v in line if np.isfinite(v)] for row, line in enumerate(table, start=1)}
    listed = lf.catch_readings(by_row)
    assert [cup.volume for cup in listed.readings] == pytest.approx([cup.volume for cup in bare], rel=1e-15)
    some = lf.catch_readings(["240 ml", None, float("nan"), "8 fl oz"])
    assert [(cup.row, cup.repeat) for cup in some.readings] == [(1, 1), (4, 1)]
    assert [cup.written for cup in some.readings] == ["240 ml", "8 fl oz"]
    assert some.readings[1].volume == pytest.approx(8 * 231 * 0.0254**3 / 128, rel=1e-14)  # 1 gal = 231 in3 = 128 fl oz
    assert [cup.row for cup in lf.catch_readings([1e-4, 2e-4], rows=[7, 3]).readings] == [7, 3]


@given(st.lists(st.floats(1e-6, 1e-3), min_size=4, max_size=4))
def test_a_verdicts_mean_is_that_of_the_cups(volumes):
    layout = lf.Layout(job=job(), plumbing=bar(4))
    verdict = lf.judge_catch(layout, lf.catch_readings(volumes))
    every = verdict["with_all_readings"]  # what cannot be right is set aside, and told
    assert every["mean_m3"] == pytest.approx(np.mean(volumes), rel=1e-12)
    assert every["coefficient_of_variation"] == pytest.approx(np.std(volumes, ddof=1) / np.mean(volumes), abs=1e-12)
    kept = [v for row, v in enumerate(volumes, start=1) if row not in verdict["rows_set_aside"]]
    assert verdict["mean_m3"] == pytest.approx(np.mean(kept), rel=1e-12)


def test_a_plugged_row_is_found():
    layout = lf.Layout(name="four", job=job(pressure="30 psi"), plumbing=bar(4))
    built = layout.replace(plumbing=bar(4, row_changes=[lf.RowChange(row=3, orifice=lf.OrificeByBore(bore="0.040 in"))]))
    cups = [
        lf.catch_readings(30.0 * lf.main_job(built.replace(job=job(pressure=p))).flow, gauge=p) for p in ("30 psi", "12 psi")
    ]
    found = lf.diagnose(layout, cups)
    assert [cause["likely"][0]["rows"] for cause in found["causes"]] == [[3]]
    right = lf.main_job(built).flow
    # As built, the layout gives what the cups said.
    assert lf.main_job(found.calibrated).flow == pytest.approx(right, rel=3e-3)
    assert abs(lf.main_job(layout).flow[2] / right[2] - 1.0) > 0.05


def test_the_layout_as_built_is_the_programs_file(equal_bar, diagnosis, tmp_path):
    theirs, ours = tmp_path / "theirs.toml", tmp_path / "ours.toml"
    subprocess.run(
        [os.environ["LIBFLOW_APP"], "catch", BAR, DAY, "--gauge", "39 psi", "--second", LOW, "--second-gauge", "15 psi",
         "--calibrated", theirs], check=False, capture_output=True,
    )  # fmt: skip
    diagnosis.save_calibrated(ours, BAR)
    assert ours.read_text() == theirs.read_text() == diagnosis.calibrated_text(BAR)
    assert lf.main_job(lf.read_layout(ours)).flow == pytest.approx(lf.main_job(diagnosis.calibrated).flow, rel=1e-6)
    with pytest.raises(lf.InputError, match="exists already.*overwrite=True"):
        diagnosis.save_calibrated(ours, BAR)
    diagnosis.save_calibrated(ours, BAR, overwrite=True)
    with pytest.raises(lf.InputError, match="is not the layout that was diagnosed"):
        diagnosis.calibrated_text(EXAMPLES / "short_hoses.toml")


def test_readings_and_findings_pickle(day, diagnosis):
    assert pickle.loads(pickle.dumps(day)) == day
    again = pickle.loads(pickle.dumps(diagnosis))
    assert dict(again) == dict(diagnosis)
    assert again.calibrated == diagnosis.calibrated
    assert again.calibrated_text(BAR) == diagnosis.calibrated_text(BAR)


@pytest.mark.parametrize(
    ("use", "says"),
    [
        (lambda d: lf.parse_catch("row, volume [ml]\n1, x\n"), "readings.csv:2:4"),
        (lambda d: lf.parse_catch("row, volume\n1, 240\n"), "'240' has no unit"),
        (lambda d: lf.parse_catch("row, volum [ml]\n1, 240\n"), "readings.csv:1"),
        (lambda d: lf.read_catch(EXAMPLES / "none.csv"), "there is no such file"),
        (lambda d: lf.catch_readings(np.zeros((2, 2, 2))), "an array of shape (2, 2, 2); allowed: shape (rows,)"),
        (lambda d: lf.catch_readings(3.0), "an array of shape (); allowed"),
        (lambda d: lf.catch_readings([1e-4], rows=[1, 2]), "2 rows for 1 lines"),
        (lambda d: lf.catch_readings({1: "2 ml"}, rows=[1]), "have their rows already"),
        (lambda d: lf.catch_readings({1: [["2 ml"]]}), "nested lists"),
        (lambda d: lf.catch_readings(["240 ml", "240"]), "row 2, repeat 1: '240' has no unit"),
        (lambda d: lf.catch_readings([2.0]), "row 1, repeat 1, volume: 2 m3; allowed: 0 to 1 m3"),
        (lambda d: lf.catch_readings([-1e-4]), "row 1, repeat 1, volume"),
        (lambda d: lf.catch_readings([]), "none given"),
        (lambda d: lf.catch_readings([None]), "none given"),
        (lambda d: lf.catch_readings({0: "2 ml"}), "row: 0"),
        (lambda d: lf.catch_readings([1e-4], time="1 day"), "time"),
        (lambda d: lf.catch_readings([1e-4], time="5 mph"), "is a speed"),
        (lambda d: lf.catch_readings([1e-4], reading_error=0.9), "reading error: 0.9"),
        (lambda d: d.replace(readings=[d.readings[0], d.readings[0]]), "row 1 has a repeat 1 twice"),
        (lambda d: lf.judge_catch(bar(), d), "where a layout is wanted"),
        (lambda d: lf.judge_catch(lf.read_layout(BAR), [1.0]), "a list where readings are wanted"),
        (lambda d: lf.judge_catch(lf.read_layout(BAR), lf.catch_readings([1e-4], rows=[17])), "row 17"),
        (lambda d: lf.judge_catch(lf.read_layout(BAR), lf.catch_readings([1e-4])), "two rows"),
        (lambda d: lf.diagnose(lf.read_layout(BAR), "cups.csv"), "a str where readings are wanted"),
        (lambda d: lf.diagnose(lf.read_layout(BAR), []), "no readings"),
        (lambda d: lf.diagnose(free_form(), lf.catch_readings([1e-4, 1e-4])), "[toolbar]"),
        (lambda d: lf.plan_catch(lf.read_layout(BAR), repeats=0), "repeats: 0; allowed: 1 to 100"),
        (lambda d: lf.plan_catch(lf.read_layout(BAR), strip="1 acre ft"), "strip"),
    ],
)
def test_wrong_use(use, says, day):
    with pytest.raises(lf.InputError) as raised:
        use(day)
    assert says in str(raised.value)


def free_form() -> lf.Layout:
    rows = [
        lf.Row(row=i, width="30 in", airs=[f"{feet} ft row"], hoses=[f"{feet} ft hose"], orifices=[f"{feet} ft orifice"])
        for i, feet in ((1, 4), (2, 20))
    ]
    plumbing = lf.Plumbing(network=two_rows(), supply="pump", rows=rows)
    return lf.Layout(name="two rows", job=job(pressure="30 psi"), plumbing=plumbing)
