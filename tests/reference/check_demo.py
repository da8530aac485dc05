#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Solves the demo layouts a second time, with SciPy and the fluids package, and compares every row with the program.

    /usr/bin/python3 check_demo.py LIBFLOW_PROGRAM EXAMPLES_FOLDER

Nothing but the layout files and the documented formulas is shared with the library. From the program's answer only the
liquid's density and viscosity are taken; they have tests of their own. Here a bar is a tree: the unknowns are the
rows' flows and the supply's pressure, the equations are one pressure balance a row and the total flow, and
scipy.optimize.root solves them. Friction factors are those of fluids (64/Re; Colebrook-White by D. Clamond's method).
Exit code 0: every number agrees.
"""

import json
import math
import re
import subprocess
import sys
import tomllib
from pathlib import Path

from fluids.friction import friction_factor
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq, root

LAYOUTS = ("equal_hoses.toml", "short_hoses.toml", "turn_on_a_hill.toml")
TOLERANCE = 1e-6  # relative, for flows, rates and the supply's pressure

INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665
GALLON, ACRE = 231 * INCH**3, 43560 * (12 * INCH) ** 2
UNITS = {  # to SI
    "ft": 12 * INCH, "in": INCH, "m": 1.0, "mm": 1e-3,
    "psi": POUND * GRAVITY / INCH**2, "gpm": GALLON / 60, "gal/ac": GALLON / ACRE, "L/ha": 1e-7,
    "mph": 5280 * 12 * INCH / 3600, "km/h": 1 / 3.6, "%": 0.01,
}
WATER_20C = (998.2072, 1.0016e-3)  # kg/m3, Pa s: IAPWS R6-95 and R12-08 at 20 C and 0.1 MPa, rounded
ROUGHNESS = 1.5e-6                 # m, drawn tubing
# The documented orifice law for a sharp plate.
SHARP_C, UNCONTRACTED, CONTRACTION_RE = 0.61, 0.54, 450.0

# What this model understands. A layout that says more is refused, not half understood.
KNOWN = {
    "": {"name", "units", "job", "toolbar", "manifold", "hose", "check_valve", "orifice", "row"},
    "job": {"product", "temperature", "rate", "speed", "tolerance", "pump_limit", "turn", "turn_radius"},
    "toolbar": {"rows", "spacing", "side_slope"},
    "manifold": {"id", "bore", "first_row", "last_row", "feed_length", "feed_bore"},
    "hose": {"bore", "length", "schedule", "extra", "rating"},
    "check_valve": {"crack", "rated_flow", "rated_loss"},
    "orifice": {"bore"},
    "row": {"number", "width", "hose_length"},
}


class Mismatch(Exception):
    """The program and this model disagree, or the model cannot read the layout."""


def si(text):
    """'1/4 in' or '22 ft' to SI."""
    found = re.fullmatch(r"([\d.]+)(?:/(\d+))?\s*(\S+)", text)
    if not found or found[3] not in UNITS:
        raise Mismatch(f"this check does not know the quantity '{text}'")
    return float(found[1]) / float(found[2] or 1) * UNITS[found[3]]


def check_known(table, name=""):
    for entry in table if isinstance(table, list) else [table]:
        for key, value in entry.items():
            if key not in KNOWN[name]:
                raise Mismatch(f"this check does not know the key '{key}' of [{name or 'the file'}]")
            if isinstance(value, (dict, list)):
                check_known(value, key)


# ---- the documented formulas ----------------------------------------------------------------------------------------

def friction(re_number, rough):
    """Darcy friction factor: 64/Re below 2000, Colebrook-White above 4000, a cubic with the values and slopes of both
    ends between."""
    if not 2000 <= re_number <= 4000:
        return friction_factor(Re=re_number, eD=rough) if re_number > 4000 else 64 / re_number
    upper = friction_factor(Re=4000.0, eD=rough)
    # Slope of Colebrook-White by differentiating x = -2 log10(rough/3.7 + 2.51 x/Re), f = 1/x^2.
    x, c = upper**-0.5, 2 / math.log(10)
    inside = rough / 3.7 + 2.51 * x / 4000
    slope_x = c * 2.51 * x / 4000**2 / inside / (1 + c * 2.51 / 4000 / inside)
    band = CubicHermiteSpline([2000, 4000], [0.032, upper], [-64 / 2000**2, -2 * slope_x / x**3])
    return float(band(re_number))


class Liquid:
    def __init__(self, density, viscosity):
        self.density, self.viscosity = density, viscosity

    def reynolds(self, flow, bore):
        return 4 * self.density * flow / (math.pi * bore * self.viscosity)

    def hose_drop(self, flow, length, bore):
        if flow == 0:
            return 0.0
        velocity = abs(flow) / (math.pi * bore**2 / 4)
        f = friction(self.reynolds(abs(flow), bore), ROUGHNESS / bore)
        return math.copysign(f * length / bore * self.density * velocity**2 / 2, flow)

    def hole_drop(self, flow, bore):
        """A sharp hole: Sampson's creeping resistance, and a jet that contracts less at low Reynolds number."""
        area = math.pi * bore**2 / 4
        creeping = 3 * self.viscosity / (bore / 2) ** 3 * flow
        jet = self.density * flow * abs(flow) / (2 * SHARP_C**2 * area**2)
        return creeping + jet * (1 - UNCONTRACTED / (1 + self.reynolds(abs(flow), bore) / CONTRACTION_RE) ** 2)


def hole_by_rating(flow, loss):
    """The sharp hole that loses `loss` at `flow` of water at 20 C."""
    water = Liquid(*WATER_20C)
    return brentq(lambda bore: water.hole_drop(flow, bore) - loss, 1e-4, 0.05, xtol=1e-15, rtol=1e-14)


# ---- the bar --------------------------------------------------------------------------------------------------------

class Bar:
    """A layout as a tree: every row's way from the supply is a list of (length, bore, rows behind it)."""

    def __init__(self, layout):
        check_known(layout)
        tool, job = layout["toolbar"], layout["job"]
        self.count = tool["rows"]
        spacing = si(tool["spacing"])
        self.x = [(i - (self.count - 1) / 2) * spacing for i in range(self.count)]
        width = [spacing] * self.count
        own_length = {}
        for own in layout.get("row", []):
            if "width" in own:
                width[own["number"] - 1] = si(own["width"])
            if "hose_length" in own:
                own_length[own["number"] - 1] = si(own["hose_length"])
        turn = {"left": 1, "right": -1}.get(job.get("turn"), 0)
        speed = [si(job["speed"]) * (1 + (turn * x / si(job["turn_radius"]) if turn else 0)) for x in self.x]
        self.area_rate = [s * w for s, w in zip(speed, width)]  # m2/s that a row covers
        self.total = si(job["rate"]) * sum(self.area_rate)

        rise = math.sin(math.atan(si(tool["side_slope"]))) if "side_slope" in tool else 0.0
        self.lift = [x * rise for x in self.x]  # of the outlet above the supply in the bar's centre
        self.ways, ports = [None] * self.count, [None] * self.count
        for manifold in layout["manifold"]:
            self.add_manifold(manifold, ports)
        hose = layout["hose"]
        for i in range(self.count):
            length = (si(hose["length"]) if "length" in hose
                      else abs(self.x[i] - ports[i]) + (si(hose["extra"]) if "extra" in hose else 0.0))
            self.ways[i].append((own_length.get(i, length), si(hose["bore"]), [i]))
        self.orifice = si(layout["orifice"]["bore"])
        self.valve = None
        if "check_valve" in layout:
            valve = layout["check_valve"]
            self.valve = (si(valve["crack"]), hole_by_rating(si(valve["rated_flow"]), si(valve["rated_loss"])))

    def add_manifold(self, manifold, ports):
        """A bar fed in its middle; ports 50 mm apart, 1 in bore unless the layout says otherwise."""
        first, last = manifold.get("first_row", 1) - 1, manifold.get("last_row", self.count) - 1
        rows = list(range(first, last + 1))
        middle = (self.x[first] + self.x[last]) / 2
        bore = si(manifold["bore"]) if "bore" in manifold else INCH
        for k, row in enumerate(rows):
            place = (k - (len(rows) - 1) / 2) * 0.05  # of the port, from the bar's middle
            ports[row] = middle + place
            way = []
            if "feed_length" in manifold:
                way.append((si(manifold["feed_length"]), si(manifold["feed_bore"]), rows))
            # From the middle outwards: past each port lies the liquid of the rows beyond.
            side = [r for j, r in enumerate(rows) if (j - (len(rows) - 1) / 2) * place > 0]
            side = sorted(side, key=lambda r: abs(r - (first + last) / 2))
            at = 0.0
            for j, other in enumerate(side[: side.index(row) + 1] if row in side else []):
                there = abs(other - (first + last) / 2) * 0.05
                way.append((there - at, bore, side[j:]))
                at = there
            self.ways[row] = way

    def row_drop(self, i, flows, liquid):
        drop = sum(liquid.hose_drop(sum(flows[r] for r in behind), length, bore)
                   for length, bore, behind in self.ways[i])
        if self.valve:
            if flows[i] <= 0:
                raise Mismatch(f"row {i + 1}: this check does not follow a shut valve")
            drop += self.valve[0] + liquid.hole_drop(flows[i], self.valve[1])
        return drop + liquid.hole_drop(flows[i], self.orifice)

    def solve(self, liquid):
        """Flows [m3/s] and supply pressure [Pa]."""
        mean, scale = self.total / self.count, 1e5

        def misfit(unknown):
            flows = [u * mean for u in unknown[:-1]]
            balance = [(unknown[-1] * scale - self.row_drop(i, flows, liquid)
                        - liquid.density * GRAVITY * self.lift[i]) / scale for i in range(self.count)]
            return balance + [sum(unknown[:-1]) - self.count]

        start = [1.0] * self.count
        start.append(self.row_drop(0, [mean] * self.count, liquid) / scale)
        answer = root(misfit, start, method="hybr", options={"xtol": 1e-13})
        worst = max(abs(v) for v in misfit(list(answer.x)))
        if worst > 1e-10:
            raise Mismatch(f"SciPy did not solve the layout: {answer.message} (misfit {worst:.1e})")
        return [u * mean for u in answer.x[:-1]], answer.x[-1] * scale


# ---- the comparison -------------------------------------------------------------------------------------------------

def run_program(program, path):
    done = subprocess.run([program, "solve", str(path), "--json"], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):  # even, not even
        raise Mismatch(f"the program gave exit code {done.returncode}: {done.stderr.strip()}")
    return json.loads(done.stdout)


def check(program, path):
    answer = run_program(program, path)
    with open(path, "rb") as file:
        bar = Bar(tomllib.load(file))
    job, evenness = answer["job"], answer["evenness"]
    flows, pressure = bar.solve(Liquid(job["density_kg_per_m3"], job["viscosity_Pa_s"]))
    if len(evenness["rows"]) != bar.count:
        raise Mismatch(f"the program has {len(evenness['rows'])} rows, the layout {bar.count}")
    pairs = [("supply pressure, Pa", evenness["supply_pressure_Pa"], pressure),
             ("total flow, m3/s", evenness["total_flow_m3_per_s"], bar.total)]
    for row, flow, covered in zip(evenness["rows"], flows, bar.area_rate):
        pairs.append((f"row {row['row']}, flow, m3/s", row["flow_m3_per_s"], flow))
        pairs.append((f"row {row['row']}, rate, m3/m2", row["rate_m3_per_m2"], flow / covered))
    misses = [(abs(given / wanted - 1), what, given, wanted) for what, given, wanted in pairs]
    wrong = [f"{what}: the program {given:.9g}, this check {wanted:.9g}"
             for miss, what, given, wanted in misses if not miss <= TOLERANCE]
    if wrong:
        raise Mismatch("\n  ".join(["numbers differ:"] + wrong))
    spread = max(flows) / min(flows) - 1
    print(f"{path.name}: {bar.count} rows agree within {max(misses)[0]:.1e}; "
          f"the highest row gets {spread:.2%} more than the lowest")


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    bad = 0
    for name in LAYOUTS:
        try:
            check(sys.argv[1], Path(sys.argv[2]) / name)
        except (Mismatch, OSError, KeyError, ValueError) as error:
            bad += 1
            print(f"{name}: {type(error).__name__}: {error}", file=sys.stderr)
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
