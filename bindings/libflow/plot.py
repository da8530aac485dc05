# SPDX-License-Identifier: MIT
"""Pictures of answers and studies, with matplotlib (optional: pip install 'libflow[plot]').

Every function draws on `ax` where one is given, or on a new figure, and returns the axes. Units are on the axes, in the
layout's system unless `units` says 'us' or 'metric'. Colours are those of Okabe and Ito's palette for colour-blind
readers, or the viridis map; marks, hatches and line styles say the same without colour.

Palette: M. Okabe, K. Ito, Color Universal Design, 2008 (values from memory).
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from . import _libflow, physics
from ._errors import InputError
from ._libflow import Answer, to_unit
from ._studies import Study, path as _path

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Units = Literal["us", "metric"] | None

BLUE, ORANGE, GREEN, VERMILION, SKY, PURPLE, YELLOW, BLACK = (
    "#0072B2", "#E69F00", "#009E73", "#D55E00", "#56B4E9", "#CC79A7", "#F0E442", "#000000",
)  # fmt: skip
_HATCHES = ["", "//", "..", "xx", "\\\\", "++", "oo", "--"]
_UNITS = {
    "us": {"area_rate": "gal/ac", "pressure": "psi", "length": "ft", "speed": "mph", "area": "ac", "volume": "gal",
           "temperature": "°F"},
    "metric": {"area_rate": "L/ha", "pressure": "kPa", "length": "m", "speed": "km/h", "area": "ha", "volume": "L",
               "temperature": "°C"},
}  # fmt: skip


def _axes(ax: Axes | None, size: tuple[float, float] = (7.0, 4.0)) -> Axes:
    if ax is not None:
        return ax
    try:
        from matplotlib import pyplot
    except ImportError as missing:
        raise ImportError("pictures need matplotlib: pip install 'libflow[plot]'") from missing
    return pyplot.subplots(figsize=size, layout="constrained")[1]


def _system(units: Units, layout: Any) -> str:
    chosen = units if units is not None else (layout.units if layout is not None else "metric")
    if chosen not in _UNITS:
        _libflow._refuse_name("units", str(chosen), list(_UNITS))
    return chosen


def _in(values: Any, kind: str, system: str) -> Any:
    """SI numbers in the system's unit of a kind; NaN stays."""
    array = np.asarray(values, dtype=float)
    known = np.isfinite(array)
    out = np.full(array.shape, np.nan)
    out[known] = to_unit(array[known], _UNITS[system][kind], kind)
    return out


def _label(what: str, kind: str, system: str) -> str:
    return f"{what} [{_UNITS[system][kind]}]"


def _answer(value: Any, where: str) -> Answer:
    if not isinstance(value, Answer):
        raise InputError(
            f"{where}: a {type(value).__name__} where an answer is wanted; allowed: the Answer of main_job()", where
        )
    if not value.solution.usable:
        raise InputError(f"{where}: the answer is not usable: {value.solution.message}", where)
    return value


def _study(value: Any, name: str, where: str) -> Study:
    if not isinstance(value, Study) or value.name != name:
        shown = f"the study '{value.name}'" if isinstance(value, Study) else f"a {type(value).__name__}"
        raise InputError(f"{where}: {shown} where the study '{name}' is wanted", where)
    return value


def _quiet(ax: Axes) -> None:
    ax.spines[["top", "right"]].set_visible(False)


def rows(answer: Answer, *, units: Units = None, ax: Axes | None = None) -> Axes:
    """Every row's rate as a bar, with the band within the tolerance of the mean; rows outside are hatched and marked."""
    answer = _answer(answer, "plot.rows")
    system = _system(units, answer.layout)
    ax = _axes(ax)
    rate = _in(answer.rate, "area_rate", system)
    mean = float(_in(answer.mean_rate, "area_rate", system))
    low, high = mean * (1 - answer.tolerance), mean * (1 + answer.tolerance)
    ax.axhspan(low, high, color="0.85", zorder=0, label=f"within ±{100 * answer.tolerance:g} % of the mean")
    ax.axhline(mean, color=BLACK, linewidth=1, zorder=3, label=f"mean {mean:.3g}")
    for i, row in enumerate(answer.row):
        if answer.shut[i]:
            ax.annotate("shut", (row, 0), ha="center", va="bottom", rotation=90)
            continue
        deviation = answer.deviation[i]
        outside = abs(deviation) > answer.tolerance
        colour = BLUE if not outside else (VERMILION if deviation > 0 else ORANGE)
        hatch = "" if not outside else ("//" if deviation > 0 else "..")
        ax.bar(row, rate[i], color=colour, hatch=hatch, edgecolor="white", width=0.8, zorder=2)
        if outside:
            ax.annotate("high" if deviation > 0 else "low", (row, rate[i]), ha="center", va="bottom", fontsize="x-small")
    top = 1.18 * max(float(rate.max()), high)
    ax.set(xlabel="row", ylabel=_label("rate", "area_rate", system), xticks=answer.row, ylim=(0, top))
    ax.tick_params(axis="x", labelsize="small")
    _quiet(ax)
    ax.legend(loc="upper left", fontsize="small", ncols=2)
    ax.set_title(answer.layout.name, fontsize="medium")
    return ax


def pressure_path(answer: Answer, row: int, *, units: Units = None, ax: Axes | None = None) -> Axes:
    """Total gauge pressure along the way from the supply to a row, part by part."""
    answer = _answer(answer, "plot.pressure_path")
    system = _system(units, answer.layout)
    steps = _path(answer, row)["steps"]
    ax = _axes(ax, (8.0, 4.0))
    styles = {"hose": (BLUE, "-"), "orifice": (VERMILION, "--"), "check valve": (GREEN, ":")}
    # Lengths of bar between ports are short and many: consecutive parts of one kind before the row's own are one step.
    groups: list[tuple[str, str, float, float]] = []
    own = {name for r in answer.plumbing.rows for name in [*r["hoses"], *r["orifices"], *r["check_valves"]]}
    for step in steps:
        shared = step["part"] not in own
        if shared and groups and groups[-1][0] == step["kind"] and groups[-1][1].startswith("bar"):
            name = f"bar, {int(groups[-1][1].split()[1]) + 1} parts"
            groups[-1] = (step["kind"], name, groups[-1][2], step["after_Pa"])
        elif shared and step["kind"] == "hose":
            groups.append((step["kind"], "bar, 1 parts", step["before_Pa"], step["after_Pa"]))
        else:
            groups.append((step["kind"], step["part"], step["before_Pa"], step["after_Pa"]))
    seen = set()
    ticks = []
    for i, (kind, name, before, after) in enumerate(groups):
        colour, style = styles.get(kind, (PURPLE, "-."))
        pressure = _in([before, after], "pressure", system)
        ax.plot([i, i + 1], pressure, color=colour, linestyle=style, linewidth=2.5, marker="o", markersize=4,
                label=kind if kind not in seen else None)  # fmt: skip
        seen.add(kind)
        ticks.append(textwrap.fill(name.replace(", 1 parts", ", 1 part"), 12))
    ax.set_xticks(np.arange(len(groups)) + 0.5, ticks, fontsize="small")
    ax.set(ylabel=_label("total pressure", "pressure", system), xlabel="from the supply to the air")
    ax.axhline(0, color="0.6", linewidth=0.8)
    ax.set_title(f"{answer.layout.name}: row {row}", fontsize="medium")
    ax.legend(fontsize="small")
    _quiet(ax)
    return ax


def _positions(answer: Answer) -> dict[str, tuple[float, float]]:
    """Outlets where the rows are, the places where their hoses begin in a line above them, sources on top; every other
    place amid its neighbours (W. T. Tutte, 1963).
    """
    network = answer.plumbing.network
    ids = [place["id"] for place in network.places]
    number = {name: i for i, name in enumerate(ids)}
    fixed: dict[int, tuple[float, float]] = {}
    for row in answer.plumbing.rows:
        for k, air in enumerate(row["airs"]):
            fixed[number[air]] = (row["x"] + 0.1 * (k - (len(row["airs"]) - 1) / 2), 0.0)
    middle = float(np.mean([x for x, _ in fixed.values()]))
    # Far enough apart for what is written beside them.
    gap = max(1.0, float(np.ptp([x for x, _ in fixed.values()])) / 3)
    sources = [i for i, place in enumerate(network.places) if place["kind"] in ("supply", "fed")]
    for k, i in enumerate(sources):
        fixed.setdefault(i, (middle + gap * (k - (len(sources) - 1) / 2), 1.0))
    parts = {part["id"]: part for part in network.parts}
    ports: dict[int, list[float]] = {}
    for row in answer.plumbing.rows:
        if row["hoses"]:
            ports.setdefault(number[parts[row["hoses"][0]]["from"]], []).append(row["x"])
    for i, x in ports.items():
        fixed.setdefault(i, (float(np.mean(x)), 0.65))
    others = [i for i in range(len(ids)) if i not in fixed]
    place = {i: k for k, i in enumerate(others)}
    matrix, right = np.zeros((len(others), len(others))), np.zeros((len(others), 2))
    for part in network.parts:
        a, b = number[part["from"]], number[part["to"]]
        for here, there in ((a, b), (b, a)):
            if here not in place:
                continue
            matrix[place[here], place[here]] += 1.0
            if there in place:
                matrix[place[here], place[there]] -= 1.0
            else:
                right[place[here]] += fixed[there]
    matrix[np.diag_indices_from(matrix)] += 1e-9
    found = np.linalg.solve(matrix, right) if others else right
    at = {ids[i]: fixed[i] for i in fixed}
    at.update({ids[i]: (float(found[k, 0]), float(found[k, 1])) for i, k in place.items()})
    return at


def network(answer: Answer, *, units: Units = None, ax: Axes | None = None) -> Axes:
    """The plumbing over the toolbar with pressure by colour; line width by flow, shut check valves crossed.

    Outlets stand where the rows are; what is between them and the supply is a sketch, not to scale.
    """
    answer = _answer(answer, "plot.network")
    system = _system(units, answer.layout)
    ax = _axes(ax, (8.5, 4.2))
    from matplotlib.collections import LineCollection

    solution = answer.solution
    at = _positions(answer)
    scale = float(to_unit(1.0, _UNITS[system]["length"], "length"))
    pressure = dict(zip(solution.place_ids, _in(solution.pressure, "pressure", system)))
    segments, colours, widths = [], [], []
    largest = max(float(np.abs(solution.flow).max()), 1e-300)
    crossed = []
    for i, part in enumerate(solution.network.parts):
        (x0, y0), (x1, y1) = at[part["from"]], at[part["to"]]
        p0, p1 = pressure[part["from"]], pressure[part["to"]]
        t = np.linspace(0.0, 1.0, 9)
        for a, b in zip(t[:-1], t[1:]):
            segments.append([(scale * (x0 + a * (x1 - x0)), y0 + a * (y1 - y0)),
                             (scale * (x0 + b * (x1 - x0)), y0 + b * (y1 - y0))])  # fmt: skip
            colours.append(p0 + (a + b) / 2 * (p1 - p0))
            widths.append(1.0 + 4.0 * abs(solution.flow[i]) / largest)
        if solution.valve[i] == "closed":
            crossed.append((scale * (x0 + x1) / 2, (y0 + y1) / 2))
    # A dark casing keeps light colours visible on white paper.
    ax.add_collection(LineCollection(segments, colors="0.25", linewidths=np.array(widths) + 1.4, capstyle="round"))
    lines = LineCollection(segments, array=np.array(colours), linewidths=widths, cmap="viridis", capstyle="round")
    ax.add_collection(lines)
    bar = ax.figure.colorbar(lines, ax=ax, pad=0.01)
    bar.set_label(_label("total pressure", "pressure", system))
    for row in answer.plumbing.rows:
        if row["airs"]:
            ax.annotate(str(row["row"]), (scale * at[row["airs"][0]][0], -0.04), ha="center", va="top", fontsize="small")
    for place in solution.network.places:
        if place["kind"] in ("supply", "fed"):
            x, y = at[place["id"]]
            ax.plot(scale * x, y, marker="s", color=BLACK, markersize=7)
            ax.annotate(f" {place['id']}, {pressure[place['id']]:.3g} {_UNITS[system]['pressure']}", (scale * x, y),
                        va="bottom", fontsize="small")  # fmt: skip
    if crossed:
        ax.plot(*zip(*crossed), "x", color=BLACK, label="shut check valve")
        ax.legend(fontsize="small")
    ax.autoscale()
    ax.set(xlabel=_label("along the bar", "length", system), yticks=[], ylim=(-0.18, 1.15))
    ax.spines[["top", "right", "left"]].set_visible(False)
    ax.set_title(f"{answer.layout.name} (row numbers at the outlets)", fontsize="medium")
    return ax


def friction(answer: Answer | None = None, *, ax: Axes | None = None) -> Axes:
    """Darcy friction factor against Reynolds number (a Moody-type chart), with the hoses of an answer on it."""
    ax = _axes(ax, (7.5, 5.0))
    re = np.geomspace(300, 1e7, 600)
    for rough, style in ((0.0, "-"), (1e-4, "--"), (1e-3, "-."), (1e-2, ":"), (5e-2, (0, (1, 3)))):
        turbulent = re >= _begins(rough)
        ax.loglog(re[turbulent], physics.friction_darcy(re[turbulent], rough), color="0.35", linestyle=style,
                  linewidth=1.2, label=f"e/D = {rough:g}" if rough else "smooth")  # fmt: skip
    ax.axvspan(2000, 4000, color="0.9", zorder=0)
    ax.annotate("transition", (2830, 0.98), xycoords=("data", "axes fraction"), rotation=90, ha="center", va="top",
                fontsize="small", color="0.35")  # fmt: skip
    ax.annotate("64/Re", (700, 64 / 700 * 1.1), fontsize="small", color="0.35")
    if answer is not None:
        solution = _answer(answer, "plot.friction").solution
        own = {name for row in answer.plumbing.rows for name in row["hoses"]}
        for label, mark, colour, mine in (("row hoses", "o", BLUE, True), ("bars and lines", "^", VERMILION, False)):
            points = [
                (solution.reynolds[i], part["part"].roughness / part["part"].bore)
                for i, part in enumerate(solution.network.parts)
                if part["kind"] == "hose" and solution.reynolds[i] > 0 and (part["id"] in own) == mine
            ]
            if points:
                x, rough = np.array(points).T
                ax.loglog(x, physics.friction_darcy(x, rough), mark, color=colour, markersize=6, markerfacecolor="none",
                          markeredgewidth=1.5, label=label)  # fmt: skip
                ax.set_xlim(min(300, 0.7 * x.min()), None)
                if x.min() < 300:
                    laminar = np.geomspace(0.7 * x.min(), 300, 50)
                    ax.loglog(laminar, physics.friction_darcy(laminar), color="0.35", linewidth=1.2)
        ax.set_title(answer.layout.name, fontsize="medium")
    ax.set(xlabel="Reynolds number [-]", ylabel="Darcy friction factor [-]")
    ax.grid(which="major", color="0.9")
    ax.legend(fontsize="small")
    _quiet(ax)
    return ax


def _begins(rough: float) -> float:
    """Where a curve of the chart begins: the laminar line belongs to all, and is drawn once."""
    return 300.0 if rough == 0.0 else 2000.0


def envelope(study: Study, *, units: Units = None, map: int = 0, ax: Axes | None = None) -> Axes:
    """Where a layout works over speed and rate: green even, else the limit that binds, each with a hatch of its own.

    map: which map, where the study has several temperatures or slopes.
    """
    study = _study(study, "envelope", "plot.envelope")
    system = _system(units, study.layout)
    ax = _axes(ax, (8.0, 4.8))
    from matplotlib.patches import Patch, Rectangle

    speeds, rates = study["axes"]["speeds_m_per_s"], study["axes"]["rates_m3_per_m2"]
    frames: dict[tuple[Any, Any], list[Any]] = {}
    for point in study["points"]:
        frames.setdefault((point["temperature_K"], point["side_slope_rad"]), []).append(point)
    if not 0 <= map < len(frames):
        raise InputError(f"plot.envelope, map: {map}; allowed: 0 to {len(frames) - 1}", "plot.envelope, map")
    points = list(frames.values())[map]
    limits = sorted({p["binding_limit"] for p in points if p["state"] != "even"})
    colours = [VERMILION, ORANGE, PURPLE, SKY, YELLOW, "0.5"]
    kinds = {"even": 0} | {limit: k + 1 for k, limit in enumerate(limits)}
    grid = np.full((len(rates), len(speeds)), np.nan)
    index = {(s, r): (j, i) for i, s in enumerate(speeds) for j, r in enumerate(rates)}
    for p in points:
        grid[index[p["speed_m_per_s"], p["rate_m3_per_m2"]]] = kinds["even" if p["state"] == "even" else p["binding_limit"]]

    def edges(values: Any) -> Any:
        if len(values) == 1:
            return np.array([0.95, 1.05]) * values[0]
        middle = (values[1:] + values[:-1]) / 2
        return np.concatenate(([2 * values[0] - middle[0]], middle, [2 * values[-1] - middle[-1]]))

    x, y = edges(_in(speeds, "speed", system)), edges(_in(rates, "area_rate", system))
    handles = []
    for name, k in kinds.items():
        colour = GREEN if k == 0 else colours[(k - 1) % len(colours)]
        hatch = "" if k == 0 else _HATCHES[1 + (k - 1) % (len(_HATCHES) - 1)]
        if not (grid == k).any():
            continue
        for j, i in zip(*np.nonzero(grid == k)):
            ax.add_patch(Rectangle((x[i], y[j]), x[i + 1] - x[i], y[j + 1] - y[j], facecolor=colour, hatch=hatch,
                                   edgecolor="white", linewidth=0.2))  # fmt: skip
        label = "even, every limit kept" if k == 0 else name
        handles.append(Patch(facecolor=colour, hatch=hatch, edgecolor="white", label=textwrap.fill(label, 34)))
    ax.set(xlabel=_label("speed", "speed", system), ylabel=_label("rate", "area_rate", system), xlim=(x[0], x[-1]),
           ylim=(y[0], y[-1]))  # fmt: skip
    if study.layout is not None:
        job = study.layout.job
        ax.plot(_in(job.speed, "speed", system), _in(job.rate, "area_rate", system), "*", color=BLACK, markersize=12,
                markeredgecolor="white")  # fmt: skip
    ax.legend(handles=handles, loc="center left", bbox_to_anchor=(1.0, 0.5), fontsize="small", title="binding limit")
    ax.set_title(f"{study['name']} (star: the job)", fontsize="medium")
    return ax


def tolerance(
    study: Study, *, of: Literal["coefficient_of_variation", "worst_row_deviation"] = "coefficient_of_variation",
    ax: Axes | None = None,
) -> Axes:  # fmt: skip
    """How even machines turn out as built: a histogram from the quantiles that the study found, each an equal share."""
    study = _study(study, "tolerance", "plot.tolerance")
    if of not in ("coefficient_of_variation", "worst_row_deviation"):
        _libflow._refuse_name("plot.tolerance, of", of, ["coefficient_of_variation", "worst_row_deviation"])
    ax = _axes(ax)
    level = study.array("quantiles", "level")
    if len(level) < 5:
        raise InputError("plot.tolerance: too few quantiles for a histogram; allowed: tolerance(levels=...) with 5 or more",
                         "plot.tolerance")  # fmt: skip
    value = 100 * np.array([q[of]["value"] for q in study["quantiles"]])
    # The study's quantiles as a distribution, cut into bins of equal width.
    edges = np.linspace(value[0], value[-1], 25)
    share = np.diff(np.interp(edges, value, level))
    ax.bar(edges[:-1], 100 * share, width=np.diff(edges), align="edge", color=SKY, edgecolor=BLACK, linewidth=0.6)
    limit = 100 * study["tolerance"]
    if of == "worst_row_deviation":
        ax.axvline(limit, color=VERMILION, linestyle="--", label=f"tolerance {limit:g} %")
    layout_key = "layout_" + of
    nominal = abs(study[layout_key])
    ax.axvline(100 * nominal, color=BLACK, linestyle=":", label=f"the layout as drawn {100 * nominal:.2g} %")
    words = {"coefficient_of_variation": "coefficient of variation of the rows [%]", "worst_row_deviation": "worst row off the mean [%]"}
    within = study["probability_within_tolerance"]["value"]
    ax.set(xlabel=words[of], ylabel="machines [%]")
    ax.set_title(f"{study['name']}: {100 * within:.1f} % of machines within ±{limit:g} %", fontsize="medium")
    ax.legend(fontsize="small")
    _quiet(ax)
    return ax


def what_if(study: Study, *, ax: Axes | None = None) -> Axes:
    """Faults one by one as a table: what changes while the total is held, and where it would be noticed."""
    study = _study(study, "what if", "plot.what_if")
    faults = [f for f in study["faults"] if f["applies"]]
    ax = _axes(ax, (9.0, 0.6 + 0.42 * (len(faults) + 1)))
    cells = []
    for fault in faults:
        effect = fault["total_held"]
        if not effect["answered"]:
            cells.append([textwrap.fill(fault["name"], 36), "no answer", "", "", textwrap.fill(effect["why_not"], 22)])
            continue

        def percent(key: str, effect: dict[str, Any] = effect) -> str:
            return "–" if effect[key] is None else f"{100 * effect[key]:+.1f}"

        cv = effect["coefficient_of_variation"]
        cells.append([
            textwrap.fill(fault["name"], 36), percent("row_change"), percent("largest_change_of_other_rows"),
            "–" if cv is None else f"{100 * cv:.1f}", effect["noticed_at"],
        ])  # fmt: skip
    table = ax.table(
        cellText=cells,
        colLabels=["fault", "its row [%]", "other rows,\nmost [%]", "CV [%]", "noticed at"],
        colWidths=[0.4, 0.13, 0.15, 0.1, 0.22], loc="center", cellLoc="center",
    )  # fmt: skip
    table.auto_set_font_size(False)
    table.set_fontsize(9)
    table.scale(1.0, 1.7)
    for (line, column), cell in table.get_celld().items():
        cell.set_edgecolor("0.8")
        if line == 0:
            cell.set_text_props(weight="bold")
            cell.set_facecolor("0.92")
            cell.set_height(1.3 * cell.get_height())
        if column == 0:
            cell.set_text_props(ha="left")
    ax.axis("off")
    ax.set_title(f"{study['name']}: what if, with the total held", fontsize="medium")
    return ax


def drawdown(study: Study, *, units: Units = None) -> Any:
    """One fill from full to empty against the area done: levels, pressure at the gauge, evenness. Returns three axes."""
    study = _study(study, "drawdown", "plot.drawdown")
    system = _system(units, study.layout)
    try:
        from matplotlib import pyplot
    except ImportError as missing:
        raise ImportError("pictures need matplotlib: pip install 'libflow[plot]'") from missing
    axes = pyplot.subplots(3, 1, figsize=(7.0, 6.5), sharex=True, layout="constrained")[1]
    area = _in(study.array("samples", "area_m2"), "area", system)
    volumes = np.array([s["volume_m3"] for s in study["samples"]], dtype=float)
    styles = ["-", "--", "-.", ":"]
    for k, tank in enumerate(study["tanks"]):
        axes[0].plot(area, _in(volumes[:, k], "volume", system), styles[k % 4], color=[BLUE, ORANGE, GREEN, PURPLE][k % 4],
                     marker=".", label=tank["id"])  # fmt: skip
    axes[0].set_ylabel(_label("in the tank", "volume", system))
    axes[0].legend(fontsize="small")
    pressure = study.array("samples", "supply_pressure_Pa").astype(float)
    axes[1].plot(area, _in(pressure, "pressure", system), color=VERMILION, marker=".")
    top = float(np.nanmax(_in(pressure, "pressure", system)))
    axes[1].set(ylabel=_label("gauge", "pressure", system), ylim=(0, 1.15 * top if top > 0 else None))
    cv = study.array("samples", "coefficient_of_variation").astype(float)
    axes[2].plot(area, 100 * cv, color=GREEN, marker=".")
    axes[2].set(ylabel="CV of the rows [%]", xlabel=_label("area done", "area", system), ylim=(0, 1.15 * max(100 * float(np.nanmax(cv)), 0.1)))
    for event in study["events"]:
        for one in axes:
            one.axvline(float(_in(event["area_m2"], "area", system)), color="0.6", linestyle=":", linewidth=1)
    for one in axes:
        _quiet(one)
    axes[0].set_title(study["name"], fontsize="medium")
    return axes


__all__ = ["drawdown", "envelope", "friction", "network", "pressure_path", "rows", "tolerance", "what_if"]
