# SPDX-License-Identifier: MIT
"""Pictures show what the answers say, with units on the axes."""

from __future__ import annotations

import numpy as np
import pytest
from conftest import EXAMPLES
from matplotlib import pyplot
from matplotlib.colors import to_hex

import libflow as lf
from libflow import plot


@pytest.fixture(autouse=True)
def _closed():
    yield
    pyplot.close("all")


@pytest.fixture(scope="module")
def answer(short_bar):
    return lf.main_job(short_bar)


def texts(ax):
    return [t.get_text() for t in ax.texts]


def test_rows(answer):
    ax = plot.rows(answer)
    heights = [bar.get_height() for bar in ax.patches if bar.get_width() == pytest.approx(0.8)]
    assert heights == pytest.approx(lf.to_unit(answer.rate, "gal/ac", "area_rate").tolist())
    assert ax.get_ylabel() == "rate [gal/ac]"
    assert texts(ax).count("high") + texts(ax).count("low") == len(answer.outside)
    assert plot.rows(answer, units="metric").get_ylabel() == "rate [L/ha]"
    hatches = {bar.get_hatch() for bar in ax.patches if bar.get_width() == pytest.approx(0.8)}
    assert len(hatches) == 3  # inside, low and high differ without colour
    own = pyplot.subplots()[1]
    assert plot.rows(answer, ax=own) is own


def test_pressure_path(answer):
    ax = plot.pressure_path(answer, 8)
    assert ax.get_ylabel() == "total pressure [psi]"
    first = ax.lines[0].get_ydata()[0]
    assert first == pytest.approx(lf.to_unit(answer.supply_pressure, "psi", "pressure"))
    assert np.asarray(ax.lines[-2].get_ydata())[-1] == pytest.approx(0.0, abs=1e-9)


def test_network(answer):
    ax = plot.network(answer)
    assert {str(row) for row in answer.row} <= set(texts(ax))
    assert ax.get_xlabel() == "along the bar [ft]"
    assert "psi" in ax.figure.axes[1].get_ylabel()


def test_friction(answer):
    ax = plot.friction(answer)
    assert ax.get_ylabel() == "Darcy friction factor [-]"
    labels = ax.get_legend_handles_labels()[1]
    assert "row hoses" in labels
    mine = ax.lines[[line.get_label() for line in ax.lines].index("row hoses")]
    assert sorted(mine.get_xdata()) == pytest.approx(sorted(answer.hose_reynolds))


def test_envelope(equal_bar):
    study = lf.envelope(equal_bar, columns=6, lines=5, usable_speeds=False)
    ax = plot.envelope(study)
    assert ax.get_xlabel() == "speed [mph]"
    assert ax.get_ylabel() == "rate [gal/ac]"
    assert len(ax.patches) == 30
    even = sum(p["state"] == "even" for p in study["points"])
    assert sum(to_hex(p.get_facecolor()).upper() == plot.GREEN for p in ax.patches) == even
    with pytest.raises(lf.InputError, match="0 to 0"):
        plot.envelope(study, map=1)


def test_tolerance(equal_bar):
    bore = lf.Tolerance(of="orifice_bore", difference=lf.Distribution(deviation=0.01), relative=True)
    study = lf.tolerance(equal_bar.replace(tolerances=[bore]), machines=512, shares=False, threads=1)
    ax = plot.tolerance(study)
    assert sum(p.get_height() for p in ax.patches) == pytest.approx(98.0, abs=0.5)  # from the 1st to the 99th hundredth
    assert "[%]" in ax.get_xlabel()
    assert "worst row" in plot.tolerance(study, of="worst_row_deviation").get_xlabel()


def test_what_if_and_drawdown(short_bar):
    study = lf.what_if(short_bar)
    table = plot.what_if(study).tables[0]
    lines = 1 + max(line for line, _ in table.get_celld())
    assert lines == 1 + sum(fault["applies"] for fault in study["faults"])
    fill = lf.drawdown(lf.read_layout(EXAMPLES / "pump_and_tank_bar.toml"), samples=6)
    axes = plot.drawdown(fill)
    assert axes[2].get_xlabel() == "area done [ac]"
    assert axes[0].get_ylabel() == "in the tank [gal]"


def test_wrong_use(answer, equal_bar):
    with pytest.raises(lf.InputError, match="the Answer of main_job"):
        plot.rows(equal_bar)
    with pytest.raises(lf.InputError, match="did you mean 'metric'"):
        plot.rows(answer, units="metrik")
    with pytest.raises(lf.InputError, match="the study 'path' where the study 'envelope'"):
        plot.envelope(lf.path(answer, 1))
