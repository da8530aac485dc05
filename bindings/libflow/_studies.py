# SPDX-License-Identifier: MIT
"""Questions that are asked of a layout. Each gives a Study: everything that was found, as data and as a report."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from html import escape
from typing import Any, Literal

import numpy as np

from . import _libflow
from ._errors import refuse
from ._libflow import Answer, Layout, OrificeByBore, OrificeByRating

Quantity = float | str
Progress = Callable[[int, int], bool | None] | None


class Study(Mapping[str, Any]):
    """What a study found: a mapping of everything, SI numbers with their unit in the key, and its report.

        card = setting_card(layout)
        print(card)                    # the report
        card["points"]                 # data; card.frame("points") as a DataFrame
        card.array("points", "gauge_Pa")
    """

    def __init__(self, name: str, layout: Layout | None, found: tuple[str, str, str, str]) -> None:
        self.name = name
        self.layout = layout
        self._json, own, us, metric = found
        self._data: dict[str, Any] = json.loads(self._json)
        self._text = {None: own, "us": us, "metric": metric}

    def __getitem__(self, key: str) -> Any:
        if key not in self._data:
            _libflow._refuse_name(f"{self.name} study", str(key), list(self._data))
        return self._data[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._data)

    def __len__(self) -> int:
        return len(self._data)

    def __contains__(self, key: object) -> bool:
        return key in self._data

    @property
    def complete(self) -> bool:
        """False when progress stopped it: what is there is a part of the work."""
        return bool(self._data.get("complete", True))

    def array(self, table: str, column: str) -> Any:
        """One column of a table (a list of entries) as a NumPy array; NaN where there is no number."""
        entries = self[table]
        if not isinstance(entries, list) or not entries or not isinstance(entries[0], dict):
            tables = [key for key, value in self._data.items() if value and isinstance(value, list)]
            refuse(f"{self.name} study, '{table}'", "is not a table", ", ".join(tables))
        if column not in entries[0]:
            _libflow._refuse_name(f"{self.name} study, '{table}'", column, list(entries[0]))
        values = [np.nan if entry[column] is None else entry[column] for entry in entries]
        return np.array(values)

    def frame(self, table: str) -> Any:
        """A table (a list of entries) as a pandas DataFrame; entries within entries become a.b columns."""
        from ._frames import pandas

        return pandas().json_normalize(self[table])

    def to_json(self) -> str:
        """As the program's --json prints it."""
        return self._json

    def text(self, *, units: Literal["us", "metric"] | None = None) -> str:
        """The report as the program prints it; None: in the layout's units."""
        if units not in self._text:
            _libflow._refuse_name("units", str(units), ["us", "metric"])
        return self._text[units]

    def __str__(self) -> str:
        return self._text[None]

    def __repr__(self) -> str:
        return f"<Study '{self.name}': {', '.join(self._data)}>"

    def _repr_html_(self) -> str:
        return f"<pre>{escape(str(self))}</pre>"

    def __getstate__(self) -> dict[str, Any]:
        return {"name": self.name, "layout": self.layout, "json": self._json, "text": self._text}

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.name, self.layout, self._json, self._text = (state[k] for k in ("name", "layout", "json", "text"))
        self._data = json.loads(self._json)


def _given(**options: Any) -> dict[str, Any]:
    return {name: value for name, value in options.items() if value is not None}


def _layout(layout: Any, where: str) -> Layout:
    if isinstance(layout, Layout):
        return layout
    refuse(where, f"a {type(layout).__name__} where a layout is wanted", "a Layout, e.g. read_layout('bar.toml')")


def operating_point(layout: Layout, *, control: str = "") -> Study:
    """The setting of pump or pressure that gives the job's rate, and the room to every limit.

    Args:
        control: of a layout place by place: the part or supply that is moved; '': it is shown as it stands
    """
    return Study("operating point", layout, _libflow._operating_point(_layout(layout, "operating_point"), control))


def envelope(
    layout: Layout,
    *,
    speeds: Sequence[Quantity] | None = None,
    rates: Sequence[Quantity] | None = None,
    temperatures: Sequence[Quantity] | None = None,
    side_slopes: Sequence[Quantity] | None = None,
    columns: int = 25,
    lines: int = 17,
    usable_speeds: bool = True,
    control: str | None = None,
    progress: Progress = None,
) -> Study:
    """Over which speeds and rates a layout works, and which limit binds.

    Args:
        speeds, rates: the points of the axes, rising [m/s], [m3/m2]; None: the layout's range, or half to twice its job
        temperatures, side_slopes: one map for each [K], [rad]
        columns, lines: points of the axes that are not given
        usable_speeds: find the usable speeds of every rate too
        control: of a layout place by place: the part or supply that is moved
        progress: called with points done and all; returns False to stop
    """
    options = _given(speeds=speeds, rates=rates, temperatures=temperatures, side_slopes=side_slopes, columns=columns,
                     lines=lines, usable_speeds=usable_speeds, control=control)  # fmt: skip
    return Study("envelope", layout, _libflow._envelope(_layout(layout, "envelope"), options, progress))


def what_if(
    layout: Layout,
    *,
    row: int | None = None,
    kink_left: Quantity | None = None,
    bore_left: Quantity | None = None,
    screen_blocked: Quantity | None = None,
    colder: float | None = None,
    side_slope: Quantity | None = None,
    pump_wear: Quantity | None = None,
    pump_reach: float | None = None,
    gauge_step: Quantity | None = None,
    meter_step: Quantity | None = None,
    progress: Progress = None,
) -> Study:
    """What a plugged row, a kinked hose ... would do, and who would notice.

    Args:
        row: the row at fault, from 1; None: one in the middle
        kink_left: of the hose's area at a kink [-]. bore_left: of the bore of a hose that is too narrow [-].
        screen_blocked: of a strainer's screen [-]. colder: by so much [K]. side_slope: rise over run [-].
        pump_wear: of the gain or the swept flow [-]. pump_reach: place by place: the controller can turn a pump up to
            this times its present speed [-]
        gauge_step: smallest change that is seen on the gauge [Pa]; meter_step: on the meter, of its reading [-]
        progress: called with faults done and all; returns False to stop
    """
    options = _given(row=row, kink_left=kink_left, bore_left=bore_left, screen_blocked=screen_blocked, colder=colder,
                     side_slope=side_slope, pump_wear=pump_wear, pump_reach=pump_reach, gauge_step=gauge_step,
                     meter_step=meter_step)  # fmt: skip
    return Study("what if", layout, _libflow._what_if(_layout(layout, "what_if"), options, progress))


def drawdown(
    layout: Layout,
    *,
    hold_rate: bool | None = None,
    from_full: bool | None = None,
    samples: int | None = None,
    least_flow: Quantity | None = None,
    longest: Quantity | None = None,
    progress: Progress = None,
) -> Study:
    """One fill from full to empty: time, area, levels, evenness. The layout needs a tank.

    Args:
        hold_rate: the control is moved all the time; False: found once, then left alone
        from_full: every tank full at the beginning; False: at the layout's levels
        samples: equal shares of the fill to look at, 2 to 10,000
        least_flow: the fill has ended below this share of the wanted flow [-]
        longest: gives up after this time [s]
        progress: called with samples done and all; returns False to stop
    """
    options = _given(hold_rate=hold_rate, from_full=from_full, samples=samples, least_flow=least_flow, longest=longest)
    return Study("drawdown", layout, _libflow._drawdown(_layout(layout, "drawdown"), options, progress))


def compare_points(
    layouts: Sequence[Layout],
    *,
    speeds: Sequence[Quantity] | None = None,
    rates: Sequence[Quantity] | None = None,
    progress: Progress = None,
) -> Study:
    """Layouts side by side over the same operating points: evenness, worst rows, pressures, pump reserve, hose, pieces.

    Args:
        layouts: two or more with the same number of rows
        speeds, rates: rising [m/s], [m3/m2]; None: the first layout's range, or its job's
        progress: called with points done and all; returns False to stop

    Raises:
        InputError, IllPosedError: names the layout
    """
    options = _given(speeds=speeds, rates=rates)
    return Study("comparison over points", None, _libflow._compare_points(layouts, options, progress))


def tolerance(
    layout: Layout,
    *,
    machines: int = 32768,
    levels: Sequence[float] | None = None,
    seed: int = 1,
    shares: bool = True,
    threads: int = 0,
    progress: Progress = None,
) -> Study:
    """As built: how even, how sure, and which of the layout's tolerances matters.

    Args:
        machines: to draw, at least
        levels: quantiles wanted, more than 0, less than 1; None: every hundredth
        seed: the same seed draws the same machines
        shares: find which tolerance matters
        threads: 0 for one a core; the results do not depend on it
        progress: called with machines done and all; returns False to stop
    """
    if levels is None:
        levels = [k / 100 for k in range(1, 100)]
    options = _given(machines=machines, levels=list(levels), seed=seed, shares=shares, threads=threads)
    return Study("tolerance", layout, _libflow._tolerance(_layout(layout, "tolerance"), options, progress))


def path(answer: Answer, row: int) -> Study:
    """The way that liquid takes from the supply to a row, part by part, and the pressure along it [Pa].

    It is the account that the program's `libflow explain` prints.
    """
    if not isinstance(answer, Answer):
        refuse("path", f"a {type(answer).__name__} where an answer is wanted", "the Answer of main_job()")
    return Study("path", answer.layout, _libflow._path(answer, row))


def size(
    layout: Layout | str | os.PathLike[str],
    *,
    orifices: Sequence[OrificeByBore | OrificeByRating] | None = None,
    hose_bores: Sequence[Quantity] | None = None,
    hose_prices: Sequence[float] | None = None,
    groups: Mapping[str, Sequence[int]] | None = None,
    cuts: Sequence[Literal["equal", "shortest", "rounded", "two_lengths"]] | None = None,
    step: Quantity | None = None,
    cut_to: Quantity | None = None,
    extra: Quantity | None = None,
    manifold_bores: Sequence[Quantity] | None = None,
    feeds: Sequence[Literal["middle", "left", "right", "both_ends"]] | None = None,
    cracks: Sequence[Quantity] | None = None,
    speeds: Sequence[Quantity] | None = None,
    rates: Sequence[Quantity] | None = None,
    temperatures: Sequence[Quantity] | None = None,
    side_slopes: Sequence[Quantity] | None = None,
    least_pressure: Quantity | None = None,
    most_pressure: Quantity | None = None,
    good_practice: bool | None = None,
    verify: int | None = None,
    progress: Progress = None,
) -> Study:
    """What to buy so that every limit holds at every operating point, the cheapest first.

    Where the product's viscosity is known as a band only, recommended_is_sure tells whether every limit holds at both
    ends of it too, cheapest_sure_rank which choice is the first that does.

    Args:
        layout: a Layout, or the path of a layout file, whose [size] is then read
        orifices, hose_bores, manifold_bores, feeds, cracks: what there is to choose from [m], [Pa]
        hose_prices: a metre of each of hose_bores; None: the least hose is the best
        groups: name to rows that get an orifice of their own; None: one for all rows
        cuts: ways to cut; None: all four. step: of 'rounded' hoses [m].
        cut_to: other cuts are rounded up to multiples of it, 0 to 1 [m]; None: an inch, or a centimetre in a metric
            layout; 0: as the runs are
        extra: drop to the row and slack on every run [m]
        speeds, rates, temperatures, side_slopes: where it has to hold: every combination [m/s], [m3/m2], [K], [rad]
        least_pressure, most_pressure: window of the gauge [Pa]
        good_practice: line velocity, pump reserve and a shut relief valve count as limits
        verify: speeds and rates at which what is recommended is verified, 1 to 50
        progress: called with candidates done and all; returns False to stop
    """
    if groups is not None and not isinstance(groups, Mapping):
        refuse("size, groups", f"a {type(groups).__name__}", "names with their rows, e.g. {'outer': [1, 16]}")
    groups = None if groups is None else dict(groups)
    options = _given(orifices=orifices, hose_bores=hose_bores, hose_prices=hose_prices, groups=groups, cuts=cuts,
                     step=step, cut_to=cut_to, extra=extra, manifold_bores=manifold_bores, feeds=feeds, cracks=cracks,
                     speeds=speeds, rates=rates, temperatures=temperatures, side_slopes=side_slopes,
                     least_pressure=least_pressure, most_pressure=most_pressure, good_practice=good_practice,
                     verify=verify)  # fmt: skip
    whole = layout if isinstance(layout, Layout) else None
    return Study("size", whole, _libflow._size(layout, options, progress))


def equal_hoses(
    layout: Layout | str | os.PathLike[str],
    *,
    speeds: Sequence[Quantity] | None = None,
    rates: Sequence[Quantity] | None = None,
    temperatures: Sequence[Quantity] | None = None,
    side_slopes: Sequence[Quantity] | None = None,
    cut_to: Quantity | None = None,
    extra: Quantity | None = None,
    least_pressure: Quantity | None = None,
    most_pressure: Quantity | None = None,
    progress: Progress = None,
) -> Study:
    """Do my hoses have to be equal? The largest orifice with which the shortest hoses are even enough.

    Arguments as for size().
    """
    options = _given(speeds=speeds, rates=rates, temperatures=temperatures, side_slopes=side_slopes, cut_to=cut_to,
                     extra=extra, least_pressure=least_pressure, most_pressure=most_pressure)  # fmt: skip
    whole = layout if isinstance(layout, Layout) else None
    return Study("equal hoses", whole, _libflow._equal_hoses(layout, options, progress))


def order_list(
    layout: Layout,
    *,
    waste: Quantity | None = None,
    coil: Quantity | None = None,
    tape: Literal["us", "metric"] | None = None,
) -> Study:
    """Hose to cut, row by row, and parts to buy. Every cut is rounded up: cut_m beside the layout's own length_m.

    Args:
        waste: hose beyond the cuts, as a share of them [-]
        coil: hose comes in coils of this length [m]
        tape: cuts are rounded up to whole inches ('us') or centimetres ('metric'); None: as the layout's units
    """
    options = _given(waste=waste, coil=coil, tape=tape)
    return Study("order list", layout, _libflow._order_list(_layout(layout, "order_list"), options))


def lines(
    layout: Layout,
    *,
    share: Quantity | None = None,
    control: str | None = None,
    hose_modulus: Quantity | None = None,
    wall_share: Quantity | None = None,
) -> Study:
    """What the hoses hold; time to fill, to flush, for a change to reach the rows.

    Args:
        share: of new liquid at which a row counts as flushed [-]
        control: place of the control; None: where the gauge stands
        hose_modulus: stiffness of the hose wall [Pa]. wall_share: thickness of that wall over the bore [-].
    """
    options = _given(share=share, control=control, hose_modulus=hose_modulus, wall_share=wall_share)
    return Study("lines", layout, _libflow._lines(_layout(layout, "lines"), options))


def nutrients(
    layout: Layout,
    *,
    crop: str | None = None,
    soil: str | None = None,
    water_temperature: Quantity | None = None,
    furrow: Quantity | None = None,
) -> Study:
    """Nutrients per area, salt with the seed against published limits, and the test with water.

    The product label and local guidance decide what may lie with the seed.

    Args:
        crop: whose seed: 'corn', 'soybean', 'dry-bean', 'sunflower' or 'spring-wheat'
        soil: 'sandy', 'medium' or 'fine'; None: limits for each
        water_temperature: of the water in a test [K]
        furrow: width over which seed and liquid are spread [m]
    """
    options = _given(crop=crop, soil=soil, water_temperature=water_temperature, furrow=furrow)
    return Study("nutrients", layout, _libflow._nutrients(_layout(layout, "nutrients"), options))


def setting_card(
    layout: Layout,
    *,
    speeds: Sequence[Quantity] | None = None,
    rates: Sequence[Quantity] | None = None,
    catch_time: Quantity | None = None,
) -> Study:
    """One page for the operator: pressures, speeds, what the cups catch.

    Args:
        speeds, rates: rising, at most 20 and 6 [m/s], [m3/m2]; None: the layout's range
        catch_time: that the cups are held under [s]
    """
    options = _given(speeds=speeds, rates=rates, catch_time=catch_time)
    return Study("setting card", layout, _libflow._setting_card(_layout(layout, "setting_card"), options))


__all__ = [
    "Study",
    "compare_points",
    "drawdown",
    "envelope",
    "equal_hoses",
    "lines",
    "nutrients",
    "operating_point",
    "order_list",
    "path",
    "setting_card",
    "size",
    "tolerance",
    "what_if",
]
