# SPDX-License-Identifier: MIT
"""The catch test: a cup under each row for half a minute. What to expect, what the cups say, which row is at fault."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from . import _libflow
from ._errors import refuse
from ._libflow import CatchReading, CatchReadings, Layout
from ._studies import Quantity, Study, _given, _layout


def plan_catch(
    layout: Layout,
    *,
    time: Quantity | None = None,
    repeats: int | None = None,
    reading_error: Quantity | None = None,
    timing_error: Quantity | None = None,
    together: bool | None = None,
    strip: Quantity | None = None,
    water_temperature: Quantity | None = None,
    confidence: Quantity | None = None,
    power: Quantity | None = None,
) -> Study:
    """What each cup should hold, with the product and with water, and what such a test can prove.

    Stay clear of moving parts and of liquid under pressure; wear what the product's label asks for. Catch twice:
    first with water, for leaks and how far rows are apart, then with the product, for the rate (common practice).

    Args:
        time: each cup under its row, 1 s to 1 h [s]; None: 30 s
        repeats: readings a row, 1 to 100; None: 3
        reading_error: standard deviation of one reading as a share of it [-]; None: 2 % (common practice)
        timing_error: of the stop-watch, standard deviation [s]; None: 0.2 s (common practice)
        together: all cups at once; False: one after another, so that the stop-watch's error counts too
        strip: the part of a field that one row stands for [m2]; None: 1/128 acre
        water_temperature: of the water in a test [K]; None: 15 C
        confidence, power: of what the test can prove, 0.5 to 0.9999 [-]; None: 95 % and 90 %

    Raises:
        InputError, IllPosedError: as main_job(); InputError for an option out of range
    """
    options = _given(time=time, repeats=repeats, reading_error=reading_error, timing_error=timing_error,
                     together=together, strip=strip, water_temperature=water_temperature, confidence=confidence,
                     power=power)  # fmt: skip
    return Study("catch plan", layout, _libflow._plan_catch(_layout(layout, "plan_catch"), options))


def _made(readings: Sequence[CatchReading], time: Quantity, water: bool, gauge: Quantity | None,
          reading_error: Quantity, together: bool, timing_error: Quantity) -> CatchReadings:  # fmt: skip
    # One by one, the stop-watch's error goes from cup to cup and counts as theirs.
    error = _libflow._cup_error(
        {"time": time, "reading_error": reading_error, "timing_error": timing_error, "together": together}
    )
    return CatchReadings(readings=readings, time=time, water=water, gauge=gauge, reading_error=error)


def read_catch(
    path: str | os.PathLike[str],
    *,
    time: Quantity = "30 s",
    water: bool = False,
    gauge: Quantity | None = None,
    reading_error: Quantity = 0.02,
    together: bool = True,
    timing_error: Quantity = 0.2,
) -> CatchReadings:
    """The readings in a file of comma-separated values: a heading ``row, volume [ml], repeat`` and a line for each cup.

    The unit stands in the heading or in every line; ``repeat`` may be missing, and so may rows.

    Args:
        path: of the file
        time: each cup was under its row this long [s]
        water: water in the tank instead of the product
        gauge: pressure read meanwhile [Pa]; None: what the job needs
        reading_error: standard deviation of one reading as a share of it [-], where the repeats do not tell
        together: all cups at once; False: one after another, so that the stop-watch's error counts too
        timing_error: of the stop-watch, standard deviation [s]

    Raises:
        InputError: names file, line, column, what is wrong and what is allowed
    """
    return _made(_libflow._read_catch(os.fspath(path)), time, water, gauge, reading_error, together, timing_error)


def parse_catch(
    text: str,
    name: str = "readings.csv",
    *,
    time: Quantity = "30 s",
    water: bool = False,
    gauge: Quantity | None = None,
    reading_error: Quantity = 0.02,
    together: bool = True,
    timing_error: Quantity = 0.2,
) -> CatchReadings:
    """The readings in the text of such a file; name: for messages. Other arguments and errors as read_catch()."""
    return _made(_libflow._parse_catch(text, name), time, water, gauge, reading_error, together, timing_error)


def _missing(value: Any) -> bool:
    return value is None or (isinstance(value, (float, np.floating)) and bool(np.isnan(value)))


def catch_readings(
    volumes: ArrayLike | Mapping[int, Any],
    *,
    rows: Iterable[int] | None = None,
    time: Quantity = "30 s",
    water: bool = False,
    gauge: Quantity | None = None,
    reading_error: Quantity = 0.02,
    together: bool = True,
    timing_error: Quantity = 0.2,
) -> CatchReadings:
    """Readings from an array: one volume a row, or a line of repeats a row.

        catch_readings(["240 ml", "236 ml", None, "251 ml"])          # rows 1, 2 and 4
        catch_readings(table_in_m3, gauge="39 psi")                   # shape (rows, repeats)
        catch_readings({3: ["240 ml", "236 ml"], 7: "251 ml"})        # row: volumes

    Args:
        volumes: [m3], or text with units; None or NaN: not read
        rows: number of each line; None: 1, 2, 3 ...

    Other arguments as read_catch().

    Raises:
        InputError: a shape that is neither, as many rows as lines not given, a volume out of 0 to 1 m3
    """
    if isinstance(volumes, Mapping):
        if rows is not None:
            refuse("catch_readings, rows", "the volumes have their rows already", "no rows")
        numbers, lines = list(volumes.keys()), [np.atleast_1d(np.array(v, dtype=object)) for v in volumes.values()]
        ragged = any(line.ndim != 1 for line in lines)
        shape = "nested lists"
    else:
        table = np.array(volumes, dtype=object)
        ragged = table.ndim not in (1, 2)
        shape = f"an array of shape {table.shape}"
        lines = [] if ragged else [np.atleast_1d(line) for line in table]
        numbers = list(range(1, len(lines) + 1)) if rows is None else list(rows)
    if ragged:
        refuse("catch_readings, volumes", shape, "shape (rows,) or (rows, repeats)")
    if len(numbers) != len(lines):
        refuse("catch_readings, rows", f"{len(numbers)} rows for {len(lines)} lines of volumes", f"{len(lines)} rows")
    readings = []
    for row, line in zip(numbers, lines):
        for k, volume in enumerate(line):
            if _missing(volume):
                continue
            where = f"catch_readings, row {row}, repeat {k + 1}"
            readings.append(
                CatchReading(row=row, repeat=k + 1, volume=_libflow._si(volume, "volume", where), where=where,
                             written=volume if isinstance(volume, str) else "")  # fmt: skip
            )
    return _made(readings, time, water, gauge, reading_error, together, timing_error)


def _readings(readings: Any, where: str) -> CatchReadings:
    if isinstance(readings, CatchReadings):
        return readings
    refuse(where, f"a {type(readings).__name__} where readings are wanted", "CatchReadings, e.g. read_catch('cups.csv')")


def _catches(catches: Any, where: str) -> list[CatchReadings]:
    if isinstance(catches, CatchReadings):
        return [catches]
    if isinstance(catches, (str, bytes, Mapping)) or not isinstance(catches, Iterable):
        return [_readings(catches, where)]
    return [_readings(one, where) for one in catches]


def judge_catch(
    layout: Layout,
    readings: CatchReadings,
    *,
    confidence: Quantity | None = None,
    power: Quantity | None = None,
    water_temperature: Quantity | None = None,
) -> Study:
    """What the cups say: mean, spread, rows outside the tolerance and what of it is proved, beside the layout's own.

    Args:
        readings: of read_catch(), parse_catch() or catch_readings()
        confidence, power: of the statistics, 0.5 to 0.9999 [-]; None: 95 % and 90 %
        water_temperature: where water was caught [K]; None: 15 C

    Raises:
        InputError: readings of rows that are not there or shut, fewer than two rows read, nothing caught at all
        IllPosedError: as main_job()
    """
    options = _given(confidence=confidence, power=power, water_temperature=water_temperature)
    found = _libflow._judge_catch(_layout(layout, "judge_catch"), _readings(readings, "judge_catch"), options)
    return Study("catch verdict", layout, found)


class Diagnosis(Study):
    """What is wrong with a bar: a Study with the layout as it was built.

    Attributes:
        calibrated: the Layout with the most probable of each cause, for every other study
    """

    def __init__(
        self, layout: Layout, found: tuple[str, str, str, str], calibrated: Layout, reasons: Sequence[str]
    ) -> None:
        super().__init__("diagnosis", layout, found)
        self.calibrated = calibrated
        self._reasons = list(reasons)

    def calibrated_text(self, layout_file: str | os.PathLike[str]) -> str:
        """The layout file as built: what `libflow catch --calibrated` writes.

        Args:
            layout_file: path of the file of the layout that was diagnosed; all of it stays but what was found

        Raises:
            InputError: the file holds another layout, or cannot be read
        """
        path = os.fspath(layout_file)
        if _libflow.read_layout(path) != self.layout:
            refuse(path, "is not the layout that was diagnosed", f"the file of '{self.layout.name}'")
        return _libflow._calibrated_text(path, self.layout, self.calibrated, self._reasons)

    def save_calibrated(
        self, path: str | os.PathLike[str], layout_file: str | os.PathLike[str], *, overwrite: bool = False
    ) -> None:
        """Writes calibrated_text() into a file, whole or not at all.

        Raises:
            InputError: as calibrated_text(); the file exists and overwrite is False, or it cannot be written
        """
        _libflow._write_text(os.fspath(path), self.calibrated_text(layout_file), overwrite)

    def __getstate__(self) -> dict[str, Any]:
        return super().__getstate__() | {"calibrated": self.calibrated, "reasons": self._reasons}

    def __setstate__(self, state: dict[str, Any]) -> None:
        super().__setstate__(state)
        self.calibrated, self._reasons = state["calibrated"], state["reasons"]


def diagnose(
    layout: Layout,
    catches: CatchReadings | Sequence[CatchReadings],
    *,
    orifice_bores: Sequence[Quantity] | None = None,
    most_causes: int | None = None,
    false_alarm: Quantity | None = None,
    confidence: Quantity | None = None,
    part_scatter: Quantity | None = None,
    gauge_error: Quantity | None = None,
    water_temperature: Quantity | None = None,
) -> Diagnosis:
    """The smallest set of causes that explains the cups, what else looks the same, and what to measure next.

    Readings at two settings (two pressures, or water and product) tell causes apart that one setting cannot.

    Args:
        layout: as it was meant, with a Toolbar
        catches: readings, or a list of them: one for each setting
        orifice_bores: of the orifices in the workshop, one of which may have been fitted [m]
        most_causes: 1 to 5; None: 3
        false_alarm: chance that a sound bar is accused, 0.001 to 0.2 [-]; None: 1 %
        confidence: of intervals, 0.5 to 0.999 [-]; None: 95 %
        part_scatter: how far sound rows differ by their parts, of flow [-]; None: 1 % (common practice)
        gauge_error: of a good gauge with the stop-watch, of its reading [-]; None: 3 % (common practice)
        water_temperature: where water was caught [K]; None: 15 C

    Raises:
        InputError: readings or options that cannot be, a layout given place by place, a layout that gives a row nothing
        IllPosedError: as main_job()
    """
    options = _given(orifice_bores=orifice_bores, most_causes=most_causes, false_alarm=false_alarm,
                     confidence=confidence, part_scatter=part_scatter, gauge_error=gauge_error,
                     water_temperature=water_temperature)  # fmt: skip
    whole = _layout(layout, "diagnose")
    return Diagnosis(whole, *_libflow._diagnose(whole, _catches(catches, "diagnose, catches"), options))


__all__ = ["Diagnosis", "catch_readings", "diagnose", "judge_catch", "parse_catch", "plan_catch", "read_catch"]
