# SPDX-License-Identifier: MIT
"""Python and the C++ program agree to the last bit."""

from __future__ import annotations

import json

import pytest
from conftest import EXAMPLES
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import libflow as lf

LAYOUTS = sorted(EXAMPLES.glob("*.toml"))


@pytest.mark.parametrize("path", LAYOUTS, ids=lambda p: p.stem)
def test_examples(path, program):
    assert json.loads(lf.main_job(lf.read_layout(path)).to_json()) == program("solve", path)


def test_the_comparison(program, equal_bar, short_bar):
    both = lf.compare([equal_bar, short_bar])
    assert json.loads(both.to_json()) == program("compare", EXAMPLES / "equal_hoses.toml", EXAMPLES / "short_hoses.toml")
    assert both.evenest == 0
    assert both.deciding_cause == "hose lengths"


@st.composite
def bars(draw):
    """A toolbar and job as Python objects and as the text of a layout file, from the same SI numbers."""
    rows = draw(st.integers(2, 12))
    number = {
        "spacing": draw(st.floats(0.3, 1.0)),
        "hose_bore": draw(st.floats(4e-3, 12e-3)),
        "orifice": draw(st.floats(0.6e-3, 2e-3)),
        "crack": draw(st.floats(5e3, 5e4)),
        "temperature": draw(st.floats(275.0, 300.0)),
        "rate": draw(st.floats(3e-6, 2e-5)),
        "speed": draw(st.floats(1.0, 4.0)),
        "slope": draw(st.floats(-0.2, 0.2)),
    }
    lengths = draw(st.lists(st.floats(0.5, 8.0), min_size=rows, max_size=rows))
    liquid = draw(st.sampled_from(["water", "10-34-0", "uan28"]))
    layout = lf.Layout(
        name="bar",
        job=lf.Job(liquid=liquid, temperature=number["temperature"], rate=number["rate"], speed=number["speed"]),
        plumbing=lf.Toolbar(
            rows=rows, spacing=number["spacing"], side_slope=number["slope"], manifolds=[lf.Manifold()],
            hose_length=lengths, hose_bore=number["hose_bore"], orifice=lf.OrificeByBore(bore=number["orifice"]),
            check_valve=lf.CheckValveChoice(crack=number["crack"], rated_flow=3e-5, rated_loss=14e3),
        ),
    )  # fmt: skip
    listed = ", ".join(f'"{x!r} m"' for x in lengths)
    text = f"""
name = "bar"
[job]
product = "{liquid}"
temperature = "{number["temperature"]!r} K"
rate = "{number["rate"]!r} m3/m2"
speed = "{number["speed"]!r} m/s"
[toolbar]
rows = {rows}
spacing = "{number["spacing"]!r} m"
side_slope = "{number["slope"]!r} rad"
[[manifold]]
[hose]
bore = "{number["hose_bore"]!r} m"
lengths = [{listed}]
[check_valve]
crack = "{number["crack"]!r} Pa"
rated_flow = "3e-05 m3/s"
rated_loss = "14000 Pa"
[orifice]
bore = "{number["orifice"]!r} m"
"""
    return layout, text


@given(bars())
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bar(program, tmp_path_factory, both):
    layout, text = both
    path = tmp_path_factory.mktemp("bar") / "bar.toml"
    path.write_text(text)
    assert lf.read_layout(path) == layout
    assert json.loads(lf.main_job(layout).to_json()) == program("solve", path)


@pytest.mark.parametrize(
    ("command", "study", "example"),
    [
        ("point", lf.operating_point, "equal_hoses.toml"),
        ("point", lf.operating_point, "pump_and_tank_bar.toml"),
        ("whatif", lf.what_if, "short_hoses.toml"),
        ("drawdown", lf.drawdown, "pump_and_tank_bar.toml"),
        ("order", lf.order_list, "short_hoses.toml"),
        ("lines", lf.lines, "equal_hoses.toml"),
        ("nutrients", lf.nutrients, "equal_hoses.toml"),
        ("card", lf.setting_card, "equal_hoses.toml"),
    ],
)
def test_studies(command, study, example, program):
    found = study(lf.read_layout(EXAMPLES / example))
    assert json.loads(found.to_json()) == program(command, EXAMPLES / example)
    assert dict(found) == json.loads(found.to_json())
    assert found.complete


def test_the_envelope(program, equal_bar):
    found = lf.envelope(equal_bar, columns=4, lines=3)
    assert json.loads(found.to_json()) == program("envelope", EXAMPLES / "equal_hoses.toml", "--grid", "4x3")


def test_the_way_to_a_row(program, short_bar):
    found = lf.path(lf.main_job(short_bar), 8)
    assert json.loads(found.to_json()) == program("explain", EXAMPLES / "short_hoses.toml", 8)
