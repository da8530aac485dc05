# SPDX-License-Identifier: MIT
"""Networks: solved, pickled, from threads, differentiated."""

from __future__ import annotations

import pickle
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from conftest import EXAMPLES, bar, job, two_rows
from scipy.optimize import brentq

import libflow as lf


def test_the_two_rows_of_the_readme(cold):
    s = lf.solve(two_rows(), cold)
    # As README.md prints them for the C++ example.
    assert f"{lf.to_unit(s.part('4 ft orifice')['flow'], 'gpm', 'flow'):.4f}" == "0.1795"
    assert f"{lf.to_unit(s.part('20 ft orifice')['flow'], 'gpm', 'flow'):.4f}" == "0.1183"
    assert s.usable
    assert s.status == "converged"
    assert s.mass_residual < 1e-12


def test_one_row_against_a_root_by_scipy(cold):
    hose, orifice = lf.Hose(length="12 ft", bore="1/4 in"), lf.Orifice(bore="0.046 in")
    n = lf.Network()
    n.add_supply("pump", pressure="30 psi", elevation="2 ft")
    n.add_place("end")
    n.add_air("row")
    n.add_part("hose", "pump", "end", hose)
    n.add_part("orifice", "end", "row", orifice)
    head = lf.si("30 psi", "pressure") + cold.density * 9.80665 * 0.6096
    flow = brentq(lambda q: hose.drop(q, cold) + orifice.drop(q, cold) - head, 0.0, 1e-3, xtol=1e-18, rtol=8.9e-16)
    assert lf.solve(n, cold).flow[0] == pytest.approx(flow, rel=1e-12)


def test_arrays_are_read_only_views_that_keep_the_solution_alive(cold):
    s = lf.solve(two_rows(), cold)
    flow = s.flow
    assert flow.base is s
    assert not flow.flags.writeable
    with pytest.raises(ValueError, match="read-only"):
        flow[0] = 1.0
    copy = flow.copy()
    del s
    assert (flow == copy).all()
    assert flow.dtype == np.float64


def test_networks_layouts_and_answers_pickle(cold, short_bar):
    n = two_rows()
    again = pickle.loads(pickle.dumps(n))
    assert again == n
    assert (lf.solve(again, cold).flow == lf.solve(n, cold).flow).all()
    again.set_supply_pressure("pump", "31 psi")
    assert again != n
    for path in sorted(EXAMPLES.glob("*.toml")):
        layout = lf.read_layout(path)
        if isinstance(layout.plumbing, lf.Toolbar):
            assert pickle.loads(pickle.dumps(layout)) == layout
        network = lf.main_job(layout).solution.network
        assert pickle.loads(pickle.dumps(network)) == network
    assert lf.main_job(pickle.loads(pickle.dumps(short_bar))).to_json() == lf.main_job(short_bar).to_json()


def test_systems_solve_again_and_again(cold):
    n = two_rows()
    system = lf.System(n, cold)
    once = system.solve()
    assert (once.flow == lf.solve(n, cold).flow).all()
    system.set_supply_pressure("pump", "40 psi")
    warm = system.solve(warm=True)
    n.set_supply_pressure("pump", "40 psi")
    assert warm.flow == pytest.approx(lf.solve(n, cold).flow, rel=1e-11)
    with pytest.raises(lf.InputError):
        lf.System(n, cold).solve(max_iterations=0)


def test_threads_give_what_one_thread_gives(short_bar):
    expected = lf.main_job(short_bar).to_json()
    with ThreadPoolExecutor(4) as pool:
        assert set(pool.map(lambda _: lf.main_job(short_bar).to_json(), range(16))) == {expected}


def test_another_thread_runs_while_a_study_does(equal_bar):
    # While the solver holds no lock this thread counts on; with the lock held it could not count at all.
    with ThreadPoolExecutor(1) as pool:
        work = pool.submit(lf.solve_many, equal_bar, speed=np.linspace(1.5, 3.0, 400))
        count = 0
        while not work.done():
            count += 1
    assert work.result().usable.all()
    assert count > 100


def test_derivatives_against_differences(cold):
    n = two_rows()
    d = lf.Derivatives(lf.solve(n, cold))
    gradient = dict(zip(d.inputs, d.of_flow("20 ft orifice")))
    name = next(x for x in d.inputs if "pump" in x)
    flows, pressures = d.by(name)
    h = 50.0

    def flow_at(pressure):
        n.set_supply_pressure("pump", pressure)
        return lf.solve(n, cold).part("20 ft orifice")["flow"]

    p = lf.si("30 psi", "pressure")
    assert gradient[name] == pytest.approx((flow_at(p + h) - flow_at(p - h)) / (2 * h), rel=1e-6)
    solution_parts = [part["id"] for part in n.parts]
    assert flows[solution_parts.index("20 ft orifice")] == pytest.approx(gradient[name], rel=1e-12)
    assert pressures[0] == pytest.approx(1.0)
    with pytest.raises(lf.InputError):
        d.by("nothing")


def test_a_free_form_layout_made_in_python(cold):
    n = two_rows()
    rows = [
        lf.Row(row=i + 1, width="30 in", airs=[f"{feet} ft row"], hoses=[f"{feet} ft hose"], orifices=[f"{feet} ft orifice"],
               hose_length=f"{feet} ft")
        for i, feet in enumerate((4, 20))
    ]  # fmt: skip
    plumbing = lf.Plumbing(network=n, supply="pump", rows=rows)
    answer = lf.main_job(lf.Layout(name="two rows", job=job(pressure="30 psi"), plumbing=plumbing))
    assert (answer.flow == lf.solve(n, cold).flow[1::2]).all()
    assert answer.outside == [1, 2]
    with pytest.raises(lf.InputError, match="rows in order"):
        lf.Plumbing(network=n, supply="pump", rows=rows[::-1])


def test_a_bar_is_built_and_shown():
    plumbing = lf.build(bar(), job())
    assert len(plumbing.rows) == 4
    assert plumbing.hose_total == pytest.approx(4 * 10 * 0.3048)
    answer = lf.main_job(lf.Layout(name="a <b>", job=job(), plumbing=bar()))
    html = answer._repr_html_()
    assert "<table>" in html
    assert "a <b>" not in html
    frame = answer.frame()
    assert list(frame.index) == [1, 2, 3, 4]
    assert (frame["rate_m3_per_m2"].to_numpy() == answer.rate).all()
    assert "flow_m3_per_s" in answer.solution.parts_frame()
    assert "total_pressure_Pa" in answer.solution.places_frame()
    assert sum(answer.causes.values()) == pytest.approx(1.0) or not any(answer.causes.values())
    total = sum(answer.cause_deviation(name) for name in answer.causes)
    assert total == pytest.approx(answer.deviation, abs=1e-9)
    assert answer.verdict in str(answer).replace("\n", " ")
