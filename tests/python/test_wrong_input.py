# SPDX-License-Identifier: MIT
"""Wrong use is met with help: where, what, what is allowed, the nearest valid name."""

from __future__ import annotations

import copy
import pickle

import numpy as np
import pytest
from conftest import EXAMPLES, bar, job, two_rows
from hypothesis import given
from hypothesis import strategies as st

import libflow as lf

HOSE = {"length": "14 ft", "bore": "3/8 in"}


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("14", "'14' has no unit"),
        ("14 psi", "'14 psi' is a pressure; a length is wanted"),
        ("14 fet", "did you mean"),
        ("", "empty text"),
        (None, "None where a length"),
        (True, "a bool where a length"),
        (b"14 ft", "a bytes where a length"),
        ([14.0], "a list where a length"),
        (np.array([1.0, 2.0]), "an array of shape (2,) where a length"),
        (np.array(True), "where a length"),
        (1 + 2j, "a complex where a length"),
        (float("nan"), "not a finite number"),
        (float("inf"), "not a finite number"),
        (-1.0, "-1 m; allowed"),
        (0.0, "allowed"),
        (10**400, "where a length"),
        ("\ud800 ft", "Unicode"),
        (object(), "an object where a length"),
    ],
)
def test_a_quantity_of_the_wrong_kind(value, says):
    with pytest.raises(lf.InputError) as raised:
        lf.Hose(**(HOSE | {"length": value}))
    assert says in str(raised.value)
    assert "length" in raised.value.where
    assert isinstance(raised.value, ValueError)


def test_errors_have_the_programs_text_and_pieces():
    with pytest.raises(lf.InputError) as raised:
        lf.Liquid("10-34-O")
    error = raised.value
    assert error.nearest == "10-34-0"
    assert str(error).startswith(f"{error.where}: {error.what}; allowed: {error.allowed}")
    assert str(error).endswith("did you mean '10-34-0'?")
    for other in (pickle.loads(pickle.dumps(error)), copy.copy(error)):
        assert (str(other), other.where, other.nearest) == (str(error), error.where, error.nearest)
    assert issubclass(lf.InputError, lf.Error)
    assert issubclass(lf.IllPosedError, lf.Error)
    assert not issubclass(lf.IllPosedError, ValueError)


@pytest.mark.parametrize(
    ("use", "says"),
    [
        (lambda: lf.Hose("14 ft", "3/8 in"), "Hose: values without the names of their fields; allowed: keywords"),
        (lambda: lf.Hose(length="14 ft"), "'bore' is missing"),
        (lambda: lf.Hose(**HOSE, roughnes=0.0), "did you mean 'roughness'?"),
        (lambda: lf.Hose(**HOSE, entrance=1), "an int where True or False is wanted"),
        (lambda: lf.Hose(**HOSE).replace(boer=1.0), "did you mean 'bore'?"),
        (lambda: lf.Manifold(feed="midle"), "did you mean 'middle'?"),
        (lambda: lf.Manifold(feed=3), "'middle', 'left', 'right', 'both_ends'"),
        (lambda: bar(rows=4.0), "a float where a whole number is wanted"),
        (lambda: bar(manifolds=lf.Manifold()), "where a list is wanted"),
        (lambda: bar(manifolds=["a"]), "manifolds, item 0: a str where Manifold is wanted"),
        (lambda: bar(orifice=lf.Orifice(bore="1 mm")), "OrificeByBore"),
        (lambda: job(tolerance="5"), "tolerance"),
        (lambda: job(tolerance=7.0), "tolerance"),
        (lambda: job(liquid=3), "the name of a built-in one"),
        (lambda: job(rate="5 mph"), "is a speed"),
        (lambda: lf.si("1 m", "lenght"), "did you mean 'length'?"),
        (lambda: lf.to_unit(1.0, "fe", "length"), "did you mean"),
        (lambda: lf.Liquid("mine").at("40 F"), "is not a liquid"),
        (lambda: lf.Liquid().at("200 C"), "temperature"),
        (lambda: lf.Liquid.from_points("x", density=[1.0]), "a pair"),
        (lambda: lf.citation("nobody"), "not a source"),
        (lambda: lf.read_layout(EXAMPLES / "no_such.toml"), "there is no such file"),
        (lambda: lf.parse_layout("name = 3"), "layout.toml"),
        (lambda: lf.main_job(lf.Layout(job=job(), plumbing=bar(hose_length=["1 ft"]))), "length"),
        (lambda: lf.compare([]), "two layouts or more"),
        (lambda: lf.envelope(bar()), "where a layout is wanted"),
    ],
)
def test_wrong_use(use, says):
    with pytest.raises(lf.InputError) as raised:
        use()
    assert says in str(raised.value)


def test_network_names():
    n = two_rows()
    with pytest.raises(lf.InputError, match="did you mean '4 ft end'"):
        n.add_part("x", "pump", "4 ft ende", lf.Hose(**HOSE))
    with pytest.raises(lf.InputError, match="used twice"):
        n.add_air("pump")
    with pytest.raises(lf.InputError, match="a str where a part is wanted; allowed: Hose"):
        n.add_part("x", "pump", "4 ft end", "hose")
    with pytest.raises(lf.InputError, match="did you mean '20 ft hose'"):
        n.part("20 ft hos")
    with pytest.raises(TypeError):
        lf.solve(n, lf.Liquid())
    alone = lf.Network()
    alone.add_place("a")
    alone.add_place("b")
    alone.add_part("hose", "a", "b", lf.Hose(**HOSE))
    with pytest.raises(lf.IllPosedError):
        lf.solve(alone, lf.Liquid().at("20 C"))


def test_a_network_changed_after_solving(cold):
    n = two_rows()
    solution = lf.solve(n, cold)
    assert solution.current
    before = solution.flow.copy()
    system = lf.System(n, cold)
    n.add_air("new row")
    n.add_part("new hose", "pump", "new row", lf.Hose(**HOSE))
    assert not solution.current
    assert "changed" in repr(solution)
    assert (solution.flow == before).all()
    assert len(solution.part_ids) == len(solution.flow) == 4
    with pytest.raises(lf.InputError, match="changed since; allowed: solve the network again"):
        solution.part("new hose")
    with pytest.raises(lf.InputError, match="changed since"):
        solution.place("new row")
    with pytest.raises(lf.InputError, match="changed after this System was made"):
        system.solve()


def test_arrays_that_do_not_fit(equal_bar):
    with pytest.raises(lf.InputError, match=r"re \(3,\), rel_roughness \(4,\)"):
        lf.physics.friction_darcy(np.full(3, 1e5), np.zeros(4))
    with pytest.raises(lf.InputError, match=r"speed \(3,\), temperature \(4,\)"):
        lf.solve_many(equal_bar, speed=[2.0, 2.1, 2.2], temperature=np.full(4, 280.0))
    with pytest.raises(lf.InputError, match=r"a last axis of 16 \(one a row\) or 1"):
        lf.solve_many(equal_bar, hose_length=np.full((2, 15), 3.0))
    with pytest.raises(lf.InputError, match="did you mean 'speed'"):
        lf.solve_many(equal_bar, sped=2.0)
    with pytest.raises(lf.InputError, match="scenario 1, speed"):
        lf.solve_many(equal_bar, speed=[2.0, -2.0])
    with pytest.raises(lf.InputError, match="number 1: nan is not a finite number"):
        lf.solve_many(equal_bar, speed=[2.0, float("nan")])
    with pytest.raises(lf.InputError, match="is a length"):
        lf.solve_many(equal_bar, speed=["2 m/s", "2 m"])
    with pytest.raises(lf.InputError, match="the job is missing"):
        lf.solve_many(bar())
    with pytest.raises(lf.InputError, match="where a layout is wanted"):
        lf.solve_many(3)


def test_formulas_say_what_is_wrong():
    with pytest.raises(lf.InputError, match="did you mean 'rel_roughness'"):
        lf.physics.friction_darcy(1e5, rel_roughnes=0.0)
    with pytest.raises(lf.InputError, match="'re' is missing"):
        lf.physics.friction_laminar()
    with pytest.raises(lf.InputError, match="friction_colebrook, re: 1000; allowed: 4000 to 1e"):
        lf.physics.friction_colebrook(1000.0)
    with pytest.raises(lf.InputError, match="number 1: 0; allowed: more than 0|re, number 1"):
        lf.physics.friction_laminar([1.0, 0.0])
    with pytest.raises(lf.InputError, match="given twice"):
        lf.physics.friction_laminar(1.0, re=2.0)
    with pytest.raises(lf.InputError, match="2 values"):
        lf.physics.friction_laminar(1.0, 2.0)
    with pytest.raises(lf.InputError, match="is not an array of numbers"):
        lf.physics.friction_laminar([[1.0], [1.0, 2.0]])
    with pytest.raises(lf.InputError):
        lf.physics.friction_laminar(np.array([True]))


@given(st.text(max_size=40))
def test_any_text_is_a_length_or_an_input_error(text):
    try:
        assert np.isfinite(lf.si(text, "length"))
    except lf.InputError as error:
        assert "value" in error.where


@given(st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=9), st.lists(st.floats(), max_size=2)))
def test_any_object_is_a_bore_or_an_input_error(value):
    try:
        assert 5e-5 <= lf.Orifice(bore=value).bore <= 0.05
    except lf.InputError:
        pass
