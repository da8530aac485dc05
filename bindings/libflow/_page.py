# SPDX-License-Identifier: MIT
"""The page to print."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from html import escape
from typing import Literal

from . import _libflow
from ._catch import _catches
from ._errors import refuse
from ._libflow import CatchReadings, Layout
from ._studies import Progress, Quantity, _given, _layout


class Page:
    """A page that needs no network and no script and prints on letter and A4. A notebook shows it in place.

    Attributes:
        html: the whole page
        complete: False when progress stopped it: what is there is a part of the work, and says so
    """

    def __init__(self, html: str, complete: bool = True) -> None:
        self.html = html
        self.complete = complete

    def save(self, path: str | os.PathLike[str], *, overwrite: bool = False) -> None:
        """Writes the page into a file, whole or not at all.

        Raises:
            InputError: the file exists and overwrite is False, or it cannot be written
        """
        _libflow._write_text(os.fspath(path), self.html, overwrite)

    def _repr_html_(self) -> str:
        # In a frame of its own: the page's style stays out of the notebook and the notebook's out of the page.
        return (
            f'<iframe title="page to print" sandbox="" srcdoc="{escape(self.html)}" '
            'style="width:100%;height:40em;border:1px solid #999"></iframe>'
        )

    def __repr__(self) -> str:
        return f"<Page of {len(self.html.encode()) / 1000:.0f} kB{'' if self.complete else ', not complete'}>"


def report(
    layout: Layout | Sequence[Layout],
    *,
    catches: CatchReadings | Sequence[CatchReadings] | None = None,
    orifice_bores: Sequence[Quantity] | None = None,
    water_temperature: Quantity | None = None,
    units: Literal["us", "metric"] | None = None,
    file: str | os.PathLike[str] = "",
    date: datetime.date | str = "",
    progress: Progress = None,
) -> Page:
    """The page that `libflow report` writes: verdict, rows, drawing, what decides it, where it works, faults, order list,
    setting card, catch test. Several layouts: side by side, the difference first.

        report(layout)                                    # in a notebook: shows the page
        report(layout).save("north_bar.html")             # never over a file that exists, but with overwrite=True
        report(layout, catches=read_catch("cups.csv"))

    Args:
        layout: a Layout, or two and more to compare
        catches: readings of a catch test, or of two at different settings: judged on the page; one layout only
        orifice_bores, water_temperature: as in diagnose() [m], [K]
        units: of what is shown; None: as the (first) layout asks
        file: the name that the page says it is from, e.g. that of the layout's file; "": none
        date: that the page bears, e.g. datetime.date.today(); "": none
        progress: called with studies done and all; returns False to stop; one layout only

    Raises:
        InputError, IllPosedError: as main_job(), compare(), judge_catch() and diagnose()
    """
    origin = (os.fspath(file), str(date))
    if not isinstance(layout, Layout) and isinstance(layout, (list, tuple)):
        if catches is not None:
            refuse("report, catches", "cups stand under one bar, and there are several layouts", "one Layout")
        return Page(_libflow._comparison_report([_layout(one, "report") for one in layout], units, *origin))
    cups = [] if catches is None else _catches(catches, "report, catches")
    how = _given(orifice_bores=orifice_bores, water_temperature=water_temperature)
    cup_options = _given(water_temperature=water_temperature)
    return Page(*_libflow._report(_layout(layout, "report"), cups, cup_options, how, units, *origin, progress))


__all__ = ["Page", "report"]
