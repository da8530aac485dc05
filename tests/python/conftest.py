# SPDX-License-Identifier: MIT
"""What the tests of the Python package share."""

from __future__ import annotations

import json
import os
import pathlib
import subprocess

import matplotlib
import pytest

import libflow as lf

matplotlib.use("Agg")

ROOT = pathlib.Path(os.environ["LIBFLOW_ROOT"])
EXAMPLES = ROOT / "examples"


@pytest.fixture(scope="session")
def program():
    """Runs the libflow program and returns the JSON that it prints."""
    path = os.environ["LIBFLOW_APP"]

    def run(*arguments: object) -> dict:
        done = subprocess.run([path, *map(str, arguments), "--json"], capture_output=True, text=True, check=False)
        assert done.returncode in (0, 1, 4), done.stderr
        return json.loads(done.stdout)

    return run


@pytest.fixture(scope="session")
def cold():
    """10-34-0 at 40 F."""
    return lf.Liquid("10-34-0").at("40 F")


@pytest.fixture(scope="session")
def short_bar():
    """The layout with the shortest hoses."""
    return lf.read_layout(EXAMPLES / "short_hoses.toml")


@pytest.fixture(scope="session")
def equal_bar():
    """The layout with equal hoses."""
    return lf.read_layout(EXAMPLES / "equal_hoses.toml")


def two_rows() -> lf.Network:
    """A pump and two rows with hoses of different length, as in README.md."""
    n = lf.Network()
    n.add_supply("pump", pressure="30 psi")
    for feet in (4, 20):
        n.add_place(f"{feet} ft end")
        n.add_air(f"{feet} ft row")
        n.add_part(f"{feet} ft hose", "pump", f"{feet} ft end", lf.Hose(length=f"{feet} ft", bore="0.25 in"))
        n.add_part(f"{feet} ft orifice", f"{feet} ft end", f"{feet} ft row", lf.Orifice(bore="0.046 in"))
    return n


def bar(rows: int = 4, **changes: object) -> lf.Toolbar:
    """A small toolbar."""
    fields = dict(
        rows=rows, spacing="30 in", manifolds=[lf.Manifold()], hose_length="10 ft", hose_bore="0.25 in",
        orifice=lf.OrificeByBore(bore="0.046 in"),
        check_valve=lf.CheckValveChoice(crack="4 psi", rated_flow="0.5 gpm", rated_loss="2 psi"),
    )  # fmt: skip
    return lf.Toolbar(**(fields | changes))


def job(**changes: object) -> lf.Job:
    """A job for it."""
    return lf.Job(**(dict(liquid="10-34-0", temperature="40 F", rate="5 gal/ac", speed="5 mph") | changes))
