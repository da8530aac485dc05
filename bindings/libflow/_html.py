# SPDX-License-Identifier: MIT
"""Answers in a notebook."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ._libflow import to_unit

if TYPE_CHECKING:
    from ._libflow import Answer

_RATE = {"us": "gal/ac", "metric": "L/ha"}
_LENGTH = {"us": "ft", "metric": "m"}


def answer_html(answer: Answer) -> str:
    """The verdict, then a line a row with a bar for its deviation; never by colour alone."""
    units = answer.layout.units
    head = f"<p><b>{escape(answer.verdict)}</b></p>"
    if not answer.solution.usable:
        return f"<div>{head}<p>{escape(answer.solution.message)}</p></div>"
    rate = to_unit(answer.rate, _RATE[units], "area_rate")
    length = to_unit(answer.hose_length, _LENGTH[units], "length")
    full = max(answer.tolerance, float(abs(answer.deviation).max()), 1e-12)
    lines = []
    for i, row in enumerate(answer.row):
        deviation = float(answer.deviation[i])
        if answer.shut[i]:
            mark = "shut"
        elif abs(deviation) > answer.tolerance:
            mark = "HIGH" if deviation > 0 else "LOW"
        else:
            mark = ""
        width = round(60 * abs(deviation) / full)
        left = 60 if deviation >= 0 else 60 - width
        bar = (
            "<div style='position:relative;width:121px;height:1em;border-left:1px solid #999;border-right:1px solid #999'>"
            f"<div style='position:absolute;left:{left}px;width:{width}px;height:1em;background:#0072B2'></div>"
            "<div style='position:absolute;left:60px;width:1px;height:1em;background:#000'></div></div>"
        )
        lines.append(
            f"<tr><td>{row}</td><td>{length[i]:.1f}</td><td>{rate[i]:.2f}</td>"
            f"<td>{100 * deviation:+.1f}</td><td>{bar}</td><td>{mark}</td></tr>"
        )
    cautions = "".join(f"<li>{escape(c.subject)}: {escape(c.text)}</li>" for c in answer.cautions)
    return (
        f"<div>{head}<table><thead><tr><th>row</th><th>hose [{_LENGTH[units]}]</th><th>rate [{_RATE[units]}]</th>"
        f"<th>off mean [%]</th><th>&plusmn;{100 * full:.0f} %</th><th></th></tr></thead>"
        f"<tbody>{''.join(lines)}</tbody></table>" + (f"<ul>{cautions}</ul>" if cautions else "") + "</div>"
    )
