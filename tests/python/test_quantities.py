# SPDX-License-Identifier: MIT
"""Quantities in and out, records, liquids."""

from __future__ import annotations

import math
import pickle

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import libflow as lf


def test_text_and_si_numbers_are_the_same():
    # 1 ft = 0.3048 m, 1 in = 0.0254 m, exact (NIST SP 811).
    assert lf.Hose(length="14 ft", bore="3/8 in") == lf.Hose(length=14 * 0.3048, bore=0.375 * 0.0254)
    assert lf.si("1 gal", "volume") == pytest.approx(231 * 0.0254**3, rel=1e-15)
    assert lf.si(np.float32(0.5), "length") == 0.5
    assert lf.si(np.int64(3), "length") == 3.0
    assert lf.si(np.array(2.5), "length") == 2.5


def test_units_take_arrays():
    assert lf.to_unit([0.3048, 0.6096], "ft", "length").tolist() == [1.0, 2.0]
    assert lf.to_unit("14 ft", "m", "length") == pytest.approx(4.2672, rel=1e-15)
    assert "ft" in lf.unit_names("length")
    assert set(lf.KINDS) >= {"length", "pressure", "temperature"}


@given(st.floats(1e-3, 999.0), st.floats(1e-4, 0.4))
def test_repr_makes_the_same_part_again(length, bore):
    hose = lf.Hose(length=length, bore=bore)
    assert eval(repr(hose), vars(lf)) == hose  # noqa: S307
    assert pickle.loads(pickle.dumps(hose)) == hose


def test_a_record_is_immutable_and_can_be_replaced():
    hose = lf.Hose(length="14 ft", bore="3/8 in")
    with pytest.raises(AttributeError):
        hose.length = 3.0
    other = hose.replace(bore="1/2 in")
    assert other.bore == 0.5 * 0.0254
    assert other.length == hose.length != other.bore
    assert other != hose
    assert hose != 3
    assert hose.as_dict()["entrance"] is False
    with pytest.raises(TypeError, match="unhashable"):
        hash(hose)


def test_every_public_name_has_a_docstring_and_quantities_have_units():
    for module in (lf, lf.physics):
        for name in module.__all__:
            thing = getattr(module, name)
            if name == "KINDS":
                continue
            assert (thing.__doc__ or "").strip(), name
            if isinstance(thing, type):
                for field, value in vars(thing).items():
                    if not field.startswith("_") and (callable(value) or isinstance(value, property)):
                        assert (value.__doc__ or "").strip(), f"{name}.{field}"
    assert "[m]" in lf.Hose.length.__doc__
    assert "[Pa]" in lf.Hose.rating.__doc__
    assert "length: float | str" in lf.Hose.__init__.__doc__


def test_liquids():
    water = lf.Liquid()
    # IAPWS: 998.21 kg/m3 and 1.0016 mPa s at 20 C (check table of SR6-08, from memory).
    assert water.density("20 C") == pytest.approx(998.21, abs=0.01)
    assert water.viscosity(293.15) == pytest.approx(1.0016e-3, rel=2e-4)
    assert water.density([280.0, 300.0]).shape == (2,)
    for name in lf.liquids():
        liquid = lf.Liquid(name)
        assert pickle.loads(pickle.dumps(liquid)) == liquid
        assert repr(liquid) == f"Liquid('{name}')"
    weighed = lf.Liquid("10-34-0").with_density("1.41 SG", at="60 F")
    assert weighed != lf.Liquid("10-34-0")
    assert weighed.at("60 F").density == pytest.approx(1.41 * 999.016, rel=1e-12)
    assert pickle.loads(pickle.dumps(weighed)).at("60 F") == weighed.at("60 F")
    own = lf.Liquid.from_points("mine", density=[("1.2 SG", "60 F")], viscosity=[("20 cP", "40 F"), ("10 cP", "70 F")])
    assert own.at("40 F").viscosity == pytest.approx(0.020, rel=1e-12)
    assert "own" in repr(own)
    assert any(figure["property"] == "density" for figure in lf.Liquid("10-34-0").figures())
    assert lf.Liquid("10-34-0").analysis.grade == "10-34-0"
    assert lf.Analysis.parse("12-0-0-26S").s == 26.0


def test_blend_by_mass_balance():
    mix = lf.blend([
        lf.BlendPart(name="water", density=1000.0, volume="1 L"),
        lf.BlendPart(name="10-34-0", density=1400.0, volume="1 L", analysis=lf.Analysis(n=10, p2o5=34)),
    ])  # fmt: skip
    assert mix.mass == pytest.approx(2.4)
    assert mix.analysis.n == pytest.approx(10 * 1.4 / 2.4)
    assert [c.code for c in mix.cautions] == ["mixing", "compatibility"]
    # 1 L/ha of a liquid of 1000 kg/m3 with 10 % N brings 0.1 kg/ha.
    rates = lf.nutrient_rates(rate="1 L/ha", density=1000.0, analysis=lf.Analysis(n=10))
    assert rates["n"] == pytest.approx(0.1e-4)


def test_cautions_are_data(cold):
    codes = {c.code: c for c in cold.cautions}
    assert codes
    for c in codes.values():
        assert c.text
        assert c.value is None or math.isfinite(c.value)
