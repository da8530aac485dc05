# SPDX-License-Identifier: MIT
"""Many scenarios of one layout, broadcast like NumPy."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from . import _libflow
from ._errors import refuse
from ._libflow import Job, Layout, Plumbing, Toolbar

_COLUMNS = {
    "speed": "speed",
    "rate": "area_rate",
    "pressure": "pressure",
    "temperature": "temperature",
    "density": "density",
    "viscosity": "viscosity",
    "side_slope": "angle",
    "fore_aft_slope": "angle",
}
_TABLES = {"hose_length": "length", "hose_bore": "length", "orifice_bore": "length", "crack": "pressure"}
_STATUS = np.array(["not_reached", "solved", "not_converged", "no_answer"])


class ManyResults:
    """What many scenarios give: arrays of the shape to which the inputs broadcast, SI.

    Attributes:
        shape: the shape of the scenarios
        inputs: every input by name, broadcast to that shape (tables: with rows as one more axis)
        flow: all outlets of a row together [m3/s], shape + (rows,); NaN where a scenario has no answer
        mean_rate: of the counted rows [m3/m2]
        cv: coefficient of variation of the rates [-]
        lowest, highest: deviation of the lowest and the highest row from the mean [-]
        supply_pressure: total gauge pressure at the supply [Pa]
        mass_residual, energy_residual: the certificate of each [-]
        status: 'solved', 'not_converged', 'no_answer' or 'not_reached'
        failures: scenario (an index into the arrays) to why it has no answer
        alone: so many were solved one by one because the pack could not, or was not asked to
        complete: False when progress stopped it
    """

    def __init__(self, results: Any, shape: tuple[int, ...], inputs: Mapping[str, NDArray[np.float64]]) -> None:
        self.shape = shape
        self.inputs = dict(inputs)
        self.complete: bool = results.complete
        self.alone: int = results.alone
        codes = results.status.reshape(shape)
        self.status: NDArray[np.str_] = _STATUS[codes]
        solved = codes == 1

        def of(name: str) -> NDArray[np.float64]:
            flat = np.asarray(getattr(results, name))
            values = flat.reshape(shape + flat.shape[1:])
            if solved.all():
                return values
            keep = solved if values.ndim == solved.ndim else solved[..., np.newaxis]
            return np.where(keep, values, np.nan)

        self.flow = of("flow")
        self.mean_rate = of("mean_rate")
        self.cv = of("cv")
        self.lowest = of("lowest")
        self.highest = of("highest")
        self.supply_pressure = of("supply_pressure")
        self.mass_residual = of("mass_residual")
        self.energy_residual = of("energy_residual")
        self.failures = {
            tuple(int(k) for k in np.unravel_index(i, shape)) if shape else (): why for i, why in results.failures.items()
        }

    @property
    def usable(self) -> NDArray[np.bool_]:
        """True where the numbers may be used."""
        return self.status == "solved"

    def frame(self) -> Any:
        """One line a scenario as a pandas DataFrame, SI units in the column names."""
        from ._frames import pandas

        unit = {"speed": "m_per_s", "rate": "m3_per_m2", "pressure": "Pa", "temperature": "K", "density": "kg_per_m3",
                "viscosity": "Pa_s", "side_slope": "rad", "fore_aft_slope": "rad"}  # fmt: skip
        columns: dict[str, Any] = {
            f"{name}_{unit[name]}": values.ravel() for name, values in self.inputs.items() if name in unit
        }
        columns.update(
            status=self.status.ravel(),
            mean_rate_m3_per_m2=self.mean_rate.ravel(),
            cv=self.cv.ravel(),
            lowest_deviation=self.lowest.ravel(),
            highest_deviation=self.highest.ravel(),
            supply_pressure_Pa=self.supply_pressure.ravel(),
        )
        return pandas().DataFrame(columns)

    def __repr__(self) -> str:
        names = ", ".join(self.inputs) or "nothing"
        return (
            f"<ManyResults of shape {self.shape} over {names}: {int(self.usable.sum())} of {self.status.size} solved>"
        )


def solve_many(
    layout: Layout | Toolbar | Plumbing,
    job: Job | None = None,
    *,
    speed: ArrayLike | None = None,
    rate: ArrayLike | None = None,
    pressure: ArrayLike | None = None,
    temperature: ArrayLike | None = None,
    density: ArrayLike | None = None,
    viscosity: ArrayLike | None = None,
    side_slope: ArrayLike | None = None,
    fore_aft_slope: ArrayLike | None = None,
    hose_length: ArrayLike | None = None,
    hose_bore: ArrayLike | None = None,
    orifice_bore: ArrayLike | None = None,
    crack: ArrayLike | None = None,
    threads: int = 1,
    packed: bool = True,
    progress: Callable[[int, int], bool | None] | None = None,
    **unknown: Any,
) -> ManyResults:
    """Solves many scenarios of one layout; the inputs broadcast against one another as in NumPy.

        solve_many(layout, speed=["3 mph", "5 mph"], temperature=np.linspace(275, 300, 26)[:, None])   # 26 x 2

    Args:
        layout: a Layout, or a Toolbar or Plumbing with its job
        job: the Job, where layout is not a Layout
        speed: of the bar's centre [m/s]
        rate: wanted per area [m3/m2]
        pressure: of the supply [Pa gauge]; only where the job holds it
        temperature: of the job's liquid [K]
        density, viscosity: in place of the liquid's own [kg/m3], [Pa s]
        side_slope, fore_aft_slope: [rad]; toolbars only
        hose_length, hose_bore, orifice_bore, crack: one a row; the last axis is the row [m], [m], [m], [Pa]. A tee at a
            port keeps the layout's bore whatever the hose's: a bar with other tees is another layout.
        threads: 0 for one a core; the answers do not depend on it
        packed: side by side; False: each alone, slower
        progress: called with scenarios done and all; returns False to stop

    Numbers are SI; text with units is read too. What is not given is as the layout and its job have it.

    Raises:
        InputError: shapes that do not fit, an unknown name, a value that is not allowed; names scenario and field
        IllPosedError: plumbing that cannot have an answer
    """
    if unknown:
        name = next(iter(unknown))
        names = [*_COLUMNS, *_TABLES, "threads", "packed", "progress"]
        _libflow._refuse_name("solve_many", name, names)
    if isinstance(layout, Layout):
        if job is not None:
            refuse("solve_many", "a Layout has its job already", "layout.replace(job=...)")
        whole = layout
    elif isinstance(layout, (Toolbar, Plumbing)):
        if not isinstance(job, Job):
            refuse("solve_many", "the job is missing", "solve_many(toolbar, Job(...), ...)")
        whole = Layout(job=job, plumbing=layout)
    else:
        wrong = f"a {type(layout).__name__} where a layout is wanted"
        refuse("solve_many", wrong, "a Layout, a Toolbar or a Plumbing")
    given = dict(
        speed=speed, rate=rate, pressure=pressure, temperature=temperature, density=density, viscosity=viscosity,
        side_slope=side_slope, fore_aft_slope=fore_aft_slope, hose_length=hose_length, hose_bore=hose_bore,
        orifice_bore=orifice_bore, crack=crack,
    )  # fmt: skip
    arrays = {
        name: _libflow._to_array(value, (_COLUMNS | _TABLES)[name], f"solve_many, {name}")
        for name, value in given.items()
        if value is not None
    }
    rows = len(whole.plumbing.rows) if isinstance(whole.plumbing, Plumbing) else whole.plumbing.rows
    shapes = {}
    for name, array in arrays.items():
        if name in _COLUMNS:
            shapes[name] = array.shape
            continue
        if array.ndim == 0 or array.shape[-1] not in (1, rows):
            refuse(
                f"solve_many, {name}",
                f"an array of shape {array.shape} where the last axis is the row",
                f"a last axis of {rows} (one a row) or 1",
            )
        shapes[name] = array.shape[:-1]
    try:
        shape = np.broadcast_shapes(*shapes.values())
    except ValueError:
        shape = None
    if shape is None:
        refuse(
            "solve_many",
            "arrays whose shapes do not fit together: "
            + ", ".join(f"{name} {shape}" for name, shape in shapes.items() if shape),
            "shapes that NumPy broadcasts: equal, or 1, from the last axis backwards",
        )
    count = int(np.prod(shape, dtype=np.int64))
    inputs, columns = {}, {}
    for name, array in arrays.items():
        full = shape if name in _COLUMNS else (*shape, rows)
        inputs[name] = np.broadcast_to(array, full)
        columns[name] = np.ascontiguousarray(inputs[name]).reshape((count,) if name in _COLUMNS else (count, rows))
    results = _libflow._solve_columns(whole, count, columns, threads, packed, progress)
    return ManyResults(results, tuple(shape), inputs)
