# SPDX-License-Identifier: MIT
"""Many scenarios, and studies as data."""

from __future__ import annotations

import json
import pickle

import numpy as np
import pytest
from conftest import EXAMPLES, bar, job

import libflow as lf


def test_many_scenarios_broadcast_like_numpy(equal_bar):
    speed = np.array([1.8, 2.2, 2.6])
    temperature = np.array([[278.0], [295.0]])
    many = lf.solve_many(equal_bar, speed=speed, temperature=temperature)
    assert many.shape == (2, 3)
    assert many.flow.shape == (2, 3, 16)
    assert many.cv.shape == many.inputs["speed"].shape == (2, 3)
    assert many.usable.all()
    assert (many.status == "solved").all()
    assert (many.mass_residual < 1e-11).all()
    for i in range(2):
        for k in range(3):
            alone = lf.main_job(equal_bar.replace(job=equal_bar.job.replace(speed=speed[k], temperature=temperature[i, 0])))
            assert many.flow[i, k] == pytest.approx(alone.flow, rel=1e-9)
            assert many.supply_pressure[i, k] == pytest.approx(alone.supply_pressure, rel=1e-9)
    frame = many.frame()
    assert len(frame) == 6
    assert (frame["speed_m_per_s"].to_numpy() == np.tile(speed, 2)).all()


def test_one_scenario_and_tables_by_row():
    layout = lf.Layout(job=job(), plumbing=bar())
    one = lf.solve_many(layout)
    assert one.shape == ()
    assert one.cv.shape == ()
    assert one.flow == pytest.approx(lf.main_job(layout).flow, rel=1e-9)
    lengths = np.linspace(2.0, 4.0, 8).reshape(2, 4)
    many = lf.solve_many(bar(), job(), hose_length=lengths, speed=["5 mph", "6 mph"])
    for i, speed in enumerate(("5 mph", "6 mph")):
        alone = lf.main_job(lf.Layout(job=job(speed=speed), plumbing=bar(hose_length=lengths[i])))
        assert many.flow[i] == pytest.approx(alone.flow, rel=1e-9)
    same = lf.solve_many(bar(), job(), crack=[["3 psi"], ["6 psi"]])
    assert same.flow.shape == (2, 4)
    plain = lf.solve_many(bar(), job(), hose_length=lengths, packed=False)
    assert plain.flow == pytest.approx(lf.solve_many(bar(), job(), hose_length=lengths, threads=2).flow, rel=1e-9)


def test_progress_stops_and_errors_go_through(equal_bar):
    seen = []

    def stop(done, total):
        seen.append((done, total))
        return False

    many = lf.solve_many(equal_bar, speed=np.linspace(2.0, 3.0, 3000), progress=stop)
    assert seen
    assert not many.complete
    assert (many.status == "not_reached").any()
    assert np.isnan(many.cv[many.status == "not_reached"]).all()

    def fail(done, total):
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        lf.solve_many(equal_bar, speed=np.linspace(2.0, 3.0, 10), progress=fail)


def test_a_study_is_a_mapping_with_a_report(short_bar):
    study = lf.what_if(short_bar, row=8)
    assert study["complete"]
    assert study.name in repr(study)
    assert study.text(units="metric") != study.text(units="us")
    assert str(study) == study.text()
    assert "<pre>" in study._repr_html_()
    assert len(study.frame("faults")) == len(study["faults"])
    assert study.array("faults", "name").shape == (len(study["faults"]),)
    again = pickle.loads(pickle.dumps(study))
    assert dict(again) == dict(study)
    with pytest.raises(lf.InputError, match="did you mean 'faults'"):
        study["fault"]
    with pytest.raises(lf.InputError, match="did you mean 'name'"):
        study.array("faults", "nam")
    with pytest.raises(lf.InputError, match="metric"):
        study.text(units="metrik")


def test_sizing_takes_a_layout_or_a_file(short_bar):
    found = lf.size(short_bar.replace(range=lf.WorkingRange()), orifices=[lf.OrificeByBore(bore="0.046 in")])
    assert found.complete
    for path in EXAMPLES.glob("*.toml"):
        if "[size]" in path.read_text():
            assert lf.size(path).complete
    assert lf.equal_hoses(short_bar).complete


def test_sizing_says_whether_it_is_sure(program):
    path = EXAMPLES / "sizing.toml"
    found = lf.size(path)
    assert json.loads(found.to_json()) == program("size", path)
    assert found["cheapest_sure_rank"] > 1
    assert found["recommended_is_sure"] == (found["recommended_rank"] == found["cheapest_sure_rank"])
    thin, thick = found["recommended_over_viscosity_band"]
    assert (thin["end"], thick["end"]) == ("lower", "upper")
    narrow = lf.size(path, cuts=["equal"], cut_to="0 m", verify=2, good_practice=True, groups={"outer": [1, 16]})
    assert {entry["cut"] for entry in narrow["ranked"]} == {"equal"}
    assert [g["group"] for g in narrow["ranked"][0]["orifices"]] == ["other rows", "outer"]
    run = 7.5 * (0.762 - 0.05) + 3 * 0.3048
    assert narrow["ranked"][0]["hose_lengths_m"][0] == pytest.approx(run, abs=1e-12)
    for step, length in (("1 in", 247 * 0.0254), ("1 cm", 6.26)):
        cut = lf.size(path, cuts=["equal"], cut_to=step)["ranked"][0]["hose_lengths_m"][0]
        assert cut == pytest.approx(length, abs=1e-12)
    with pytest.raises(lf.InputError, match="groups"):
        lf.size(path, groups=[1, 16])
    with pytest.raises(lf.InputError, match="did you mean 'equal'"):
        lf.size(path, cuts=["equall"])


def test_cuts_are_those_of_a_tape(short_bar, program):
    order = lf.order_list(short_bar, coil="100 ft")
    assert json.loads(order.to_json()) == program("order", EXAMPLES / "short_hoses.toml", "--coil", "100 ft")
    for cut in order["hoses"][0]["cuts"]:
        assert 0 <= cut["cut_m"] - cut["length_m"] < 0.0254
        assert cut["cut_m"] / 0.0254 == pytest.approx(round(cut["cut_m"] / 0.0254), abs=1e-9)
    assert order["cut_total_m"] == pytest.approx(sum(c["cut_m"] for c in order["hoses"][0]["cuts"]))
    assert "20 ft 7 in" in order.text(units="us")
    assert "6.26 m" in order.text(units="metric")
    metric = lf.order_list(short_bar, tape="metric")
    assert metric["cut_step_m"] == 0.01
    assert max(c["cut_m"] for c in metric["hoses"][0]["cuts"]) == 6.26


def test_tolerances_as_built(equal_bar):
    bore = lf.Tolerance(of="orifice_bore", difference=lf.Distribution(kind="normal", deviation=0.01), relative=True)
    layout = equal_bar.replace(tolerances=[bore])
    study = lf.tolerance(layout, machines=1024, shares=False, threads=1)
    again = lf.tolerance(layout, machines=1024, shares=False, threads=2)
    assert study.to_json() == again.to_json()
    # Flow goes with the square of the bore through a free jet, and less in a hose in series: CV at most 2 x 1 %.
    assert 0.002 < study["rms_coefficient_of_variation"]["value"] < 0.0205


def test_points_side_by_side(program, equal_bar, short_bar):
    found = lf.compare_points([equal_bar, short_bar], speeds=["4 mph", "6 mph"], rates=["5 gal/ac"])
    said = program("compare", EXAMPLES / "equal_hoses.toml", EXAMPLES / "short_hoses.toml", "--speeds", "4 mph, 6 mph",
                   "--rates", "5 gal/ac")  # fmt: skip
    assert json.loads(found.to_json()) == said
    assert found.complete
    assert len(found.frame("layouts")) == 2
    part = lf.compare_points([equal_bar, short_bar], speeds=["4 mph", "6 mph"], progress=lambda done, total: False)
    assert not part.complete
    with pytest.raises(lf.InputError, match="two layouts or more"):
        lf.compare_points([equal_bar])
    with pytest.raises(lf.InputError, match="where a list is wanted"):
        lf.compare_points(equal_bar)


def test_which_hose_makes_how_much(short_bar):
    answer = lf.main_job(short_bar)
    found = lf.attribute_by_input(answer)
    total = sum(part["deviation"] for part in found["inputs"])
    assert total == pytest.approx(answer.deviation, abs=1e-6)
    assert sum(part["share"] for part in found["inputs"]) == pytest.approx(1.0, abs=1e-6)
    assert found["left_over"] < 1e-6
    # The largest single input is a hose's length, and the hoses together are what the answer says of them.
    assert found["inputs"][0]["unit"] == "m"
    lengths = sum(part["share"] for part in found["inputs"] if part["group"] == "hose lengths")
    assert lengths == pytest.approx(answer.causes["hose lengths"], abs=0.02)
    with pytest.raises(lf.InputError, match="place by place"):
        lf.attribute_by_input(lf.main_job(lf.read_layout(EXAMPLES / "free_form.toml")))


def test_after_a_stop(equal_bar):
    still = lf.stop_dribble(equal_bar, pressure="39 psi")
    assert still["column"] == 0.0  # a 4 psi valve holds more than any bar stands high
    weak = equal_bar.plumbing.replace(
        check_valve=equal_bar.plumbing.check_valve.replace(crack="0.5 psi"), manifolds=[lf.Manifold(height="3 ft")]
    )
    drips = lf.stop_dribble(equal_bar.replace(plumbing=weak), pressure="39 psi")
    density = equal_bar.job.liquid.density(equal_bar.job.temperature)
    assert drips["standing"] == pytest.approx(density * 9.80665 * 0.9144, rel=1e-9)  # hydrostatics
    assert drips["crack"] == pytest.approx(lf.si("0.5 psi", "pressure"))
    assert drips["column"] > 0.0
    assert drips["row"] >= 1


def test_a_layout_file_to_begin_with(program):
    text = lf.starter_layout(rows="8", rate="6 gal/ac")
    layout = lf.parse_layout(text)
    assert layout.plumbing.rows == 8
    assert layout.job.rate == pytest.approx(lf.si("6 gal/ac", "area_rate"))
    assert lf.main_job(layout).solution.usable
    with pytest.raises(lf.InputError, match="'6' has no unit"):
        lf.starter_layout(rate="6")
    schema = lf.layout_schema()
    assert schema["$schema"].startswith("https://json-schema.org/draft/2020-12")
    assert "toolbar" in schema["properties"]


def test_what_the_lines_hold_and_how_they_flush(program, equal_bar):
    found = lf.lines(equal_bar, share="95 %")
    assert json.loads(found.to_json()) == program("lines", EXAMPLES / "equal_hoses.toml", "--share", "95 %")
    hoses = lf.physics.tube_volume(lf.main_job(equal_bar).hose_length, equal_bar.plumbing.hose_bore)
    assert found.array("rows", "held_m3") == pytest.approx(hoses, rel=1e-12)
    stiff, soft = (lf.lines(equal_bar, hose_modulus=m).array("rows", "pressure_delay_s") for m in ("100 MPa", "5 MPa"))
    assert (stiff < soft).all()


def test_options_that_the_program_has_too(program):
    tank = lf.read_layout(EXAMPLES / "tank_and_pump.toml")
    point = lf.operating_point(tank, control="pump")
    assert json.loads(point.to_json()) == program("point", EXAMPLES / "tank_and_pump.toml", "--control", "pump")
    assert lf.operating_point(tank).to_json() != point.to_json()
    envelope = lf.envelope(tank, control="pump", columns=3, lines=2, usable_speeds=False)
    assert envelope["control"]
    with pytest.raises(lf.InputError, match="pump reach"):
        lf.what_if(tank, pump_reach=9.0)
    stiff, soft = (lf.lines(tank, hose_modulus="20 MPa", wall_share=share)["rows"] for share in (0.4, 0.1))
    assert stiff != soft
