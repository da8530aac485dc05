# SPDX-License-Identifier: MIT
"""Results as pandas DataFrames. pandas is optional."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ._libflow import Answer, Solution


def pandas() -> Any:
    """pandas, or what to do about it."""
    try:
        import pandas
    except ImportError as missing:
        raise ImportError("DataFrames need pandas: pip install 'libflow[frames]'") from missing
    return pandas


def rows_frame(answer: Answer) -> Any:
    """One line a row, numbered from 1; SI units in the column names."""
    frame = pandas().DataFrame(
        {
            "row": answer.row,
            "rate_m3_per_m2": answer.rate,
            "deviation": answer.deviation,
            "flow_m3_per_s": answer.flow,
            "width_m": answer.width,
            "speed_m_per_s": answer.speed,
            "hose_length_m": answer.hose_length,
            "orifice_drop_Pa": answer.orifice_drop,
            "check_valve_drop_Pa": answer.check_valve_drop,
            "line_drop_Pa": answer.line_drop,
            "unused_fall_Pa": answer.unused_fall,
            "lift_Pa": answer.lift,
            "orifice_share": answer.orifice_share,
            "hose_reynolds": answer.hose_reynolds,
            "hose_regime": answer.regime,
            "check_valve": answer.valve,
            "shut": answer.shut,
        }
    )
    return frame.set_index("row")


def parts_frame(solution: Solution) -> Any:
    """One line a part."""
    parts = solution.network.parts
    frame = pandas().DataFrame(
        {
            "part": solution.part_ids,
            "kind": [part["kind"] for part in parts],
            "from": [part["from"] for part in parts],
            "to": [part["to"] for part in parts],
            "flow_m3_per_s": solution.flow,
            "drop_Pa": solution.drop,
            "velocity_m_per_s": solution.velocity,
            "reynolds": solution.reynolds,
            "regime": solution.regime,
            "valve": solution.valve,
            "inlet_static_Pa": solution.inlet_static,
            "outlet_static_Pa": solution.outlet_static,
        }
    )
    return frame.set_index("part")


def places_frame(solution: Solution) -> Any:
    """One line a place."""
    places = solution.network.places
    frame = pandas().DataFrame(
        {
            "place": solution.place_ids,
            "kind": [place["kind"] for place in places],
            "elevation_m": [place["elevation"] for place in places],
            "total_pressure_Pa": solution.pressure,
            "determined": solution.determined,
            "lower_Pa": solution.lower,
            "upper_Pa": solution.upper,
        }
    )
    return frame.set_index("place")
