# SPDX-License-Identifier: MIT
"""Tees: their law, and in a network."""

from __future__ import annotations

import math
import pickle

import fluids
import pytest
from conftest import EXAMPLES
from hypothesis import given
from hypothesis import strategies as st

import libflow as lf
from libflow import physics

WATER = lf.Liquid().at("20 C")
TEE = lf.Tee(run_bore="1 in", branch_bore="0.5 in")


def supply_and_two_ends() -> lf.Network:
    """A run of bar with a tee in its middle; two ends in the open."""
    n = lf.Network()
    n.add_supply("pump", pressure="20 psi")
    n.add_place("tee")
    n.add_air("far")
    n.add_air("side")
    n.add_part("in", "pump", "tee", lf.Hose(length="3 ft", bore="1 in"))
    n.add_part("on", "tee", "far", lf.Hose(length="10 ft", bore="1 in"))
    n.add_part("out", "tee", "side", lf.Hose(length="2 ft", bore="0.5 in"))
    return n


AT = lf.TeeAt(place="tee", left="in", right="on", branches=["out"])


@given(st.floats(0.01, 0.99))
def test_a_dividing_tee_against_fluids(q):
    flow, density = 1e-3, 1000.0
    head = physics.velocity_head(flow, TEE.run_bore, density)
    # Crane TP-410 as the fluids package has it.
    branch = fluids.fittings.K_branch_diverging_Crane(
        D_run=TEE.run_bore, D_branch=TEE.branch_bore, Q_run=(1 - q) * flow, Q_branch=q * flow
    )
    run = fluids.fittings.K_run_diverging_Crane(
        D_run=TEE.run_bore, D_branch=TEE.branch_bore, Q_run=(1 - q) * flow, Q_branch=q * flow
    )
    assert physics.tee_dividing_branch(q, 0.25) == pytest.approx(branch, rel=1e-9)
    assert physics.tee_dividing_run(q, 0.25) == pytest.approx(run, rel=1e-9, abs=1e-12)
    levels = TEE.levels(left=-flow, right=(1 - q) * flow, density=density)
    assert levels == pytest.approx({"left": 0.0, "right": -run * head, "branch": -branch * head}, rel=1e-9, abs=1e-9)
    assert TEE.state(left=-flow, right=(1 - q) * flow) == "dividing"


def test_states_and_symmetry():
    assert TEE.state(left=0.0, right=0.0) == "still"
    assert TEE.state(left=2e-4, right=-1e-4) == "combining"
    assert TEE.state(left=-2e-4, right=-1e-4) == "meeting"
    assert TEE.state(left=2e-4, right=1e-4) == "parting"
    one = TEE.levels(left="-2 gpm", right="-1 gpm", density=1000.0)
    other = TEE.levels(left="-1 gpm", right="-2 gpm", density=1000.0)
    assert (one["left"], one["right"], one["branch"]) == (other["right"], other["left"], other["branch"])
    assert physics.tee_parting(0.5, 0.25) == 1.0 + 1.5 * (0.25 * 0.5) ** 2  # Idelchik, diagram 7-29
    codes = [c.code for c in TEE.cautions(left="-0.1 gpm", right=0.0, liquid=WATER, matters=0.0)]
    assert codes == ["outside-range"]
    assert TEE.cautions(left="-0.1 gpm", right=0.0, liquid=WATER, matters="10 psi") == []


def test_a_tee_in_a_network_keeps_bernoulli():
    n = supply_and_two_ends()
    plain, s = lf.solve(n, WATER), lf.solve(n, WATER, tees=[AT])
    assert s.usable
    (tee,) = s.tees
    assert (tee["place"], tee["state"], tee["tee"]) == ("tee", "dividing", TEE)
    flow = dict(zip(s.part_ids, s.flow))
    assert tee["flows"]["branch"] == flow["out"]
    assert sum(tee["flows"].values()) == pytest.approx(0.0, abs=1e-15)
    q = flow["out"] / flow["in"]
    head = physics.velocity_head(flow["in"], TEE.run_bore, WATER.density)
    # Along the way from the pump out of the branch: friction and the tee's loss use up the pressure.
    drops = {"in": n.part("in").drop(flow["in"], WATER), "out": n.part("out").drop(flow["out"], WATER)}
    loss = physics.tee_dividing_branch(q, 0.25) * head
    assert drops["in"] + drops["out"] + loss == pytest.approx(lf.si("20 psi", "pressure"), rel=1e-8)
    # Straight on the same with the run's loss.
    on = n.part("on").drop(flow["on"], WATER) + physics.tee_dividing_run(q, 0.25) * head
    assert drops["in"] + on == pytest.approx(lf.si("20 psi", "pressure"), rel=1e-8)
    assert flow["out"] < plain.part("out")["flow"]
    assert plain.tees == []
    again = pickle.loads(pickle.dumps(s))
    assert (again.flow == s.flow).all()
    assert again.tees == s.tees


def test_a_plugged_end_is_an_elbow_and_bores_may_be_given():
    n = supply_and_two_ends()
    given_bores = AT.replace(run_bore="1 in", branch_bore="0.5 in")
    assert (lf.solve(n, WATER, tees=[given_bores]).flow == lf.solve(n, WATER, tees=[AT]).flow).all()
    narrow = lf.solve(n, WATER, tees=[AT.replace(branch_bore="0.3 in")])
    assert narrow.part("out")["flow"] < lf.solve(n, WATER, tees=[AT]).part("out")["flow"]
    slow = lf.solve(n, lf.Liquid("10-34-0").at("40 F"), tees=[AT])
    subjects = [c.subject for c in slow.cautions if c.code == "outside-range"]
    assert subjects in ([], ["tee at 'tee'"])


@pytest.mark.parametrize(
    ("tees", "says"),
    [
        ([AT.replace(place="te")], "did you mean 'tee'"),
        ([AT.replace(left="inn")], "did you mean 'in'"),
        ([AT.replace(branches=[])], "branches: none given"),
        ([AT.replace(left=None, right=None)], "both ends are plugged"),
        ([AT.replace(left="out")], "given twice"),
        ([AT, AT], "given twice; allowed: one tee at a place"),
        ([AT.replace(place="far")], "does not join that place"),
        ([AT.replace(run_bore="0.3 in")], "branch bore"),
        ([AT.replace(parting=9.0)], "parting: 9; allowed: 0 to 3"),
        (AT, "where a list is wanted"),
        (["tee"], "item 0: a str where TeeAt is wanted"),
    ],
)
def test_wrong_tees(tees, says):
    with pytest.raises(lf.InputError) as raised:
        lf.solve(supply_and_two_ends(), WATER, tees=tees)
    assert says in str(raised.value)


def test_derivatives_go_through_tees():
    n = supply_and_two_ends()
    d = lf.Derivatives(lf.solve(n, WATER, tees=[AT]))
    by = dict(zip(d.inputs, d.of_flow("out")))["pump, pressure"]
    alone = dict(zip(d.inputs, lf.Derivatives(lf.solve(n, WATER)).of_flow("out")))["pump, pressure"]

    def flow_at(pressure):
        n.set_supply_pressure("pump", pressure)
        return lf.solve(n, WATER, tees=[AT]).part("out")["flow"]

    p, h = lf.si("20 psi", "pressure"), 500.0
    assert by == pytest.approx((flow_at(p + h) - flow_at(p - h)) / (2 * h), rel=1e-4)
    assert by != pytest.approx(alone, rel=1e-2)  # the tee counts


def test_a_vented_tube_never_pulls():
    tube = lf.VentedTube(bore="0.5 in", fall="2 ft")
    fall = WATER.density * 9.80665 * 0.6096
    # At a trickle the whole fall is lost to air (hydrostatics); full, only friction and the open end are left.
    assert tube.drop(1e-9, WATER) == pytest.approx(fall, rel=1e-3)
    flow = 1e-3
    friction = physics.hose_drop(flow, "2 ft", "0.5 in", WATER.density, WATER.viscosity)
    assert friction > fall
    assert tube.drop(flow, WATER) == pytest.approx(friction + lf.OpenEnd(bore="0.5 in").drop(flow, WATER), rel=1e-2)
    assert tube.contract == "one_way"
    assert math.isclose(lf.RowOutlet(bore="0.5 in", fall="2 ft").drop(flow, WATER), tube.drop(flow, WATER), rel_tol=1e-2)


def test_tees_of_a_layout_come_along():
    layout = lf.read_layout(EXAMPLES / "tees.toml")
    assert pickle.loads(pickle.dumps(layout)) == layout
    answer = lf.main_job(layout)
    plumbing = answer.plumbing
    assert [tee.place for tee in plumbing.tees] == ["feed tee", "tee 2", "elbow 1", "tee 3", "elbow 4"]
    assert plumbing.tees[1].left == "arm 2"
    assert plumbing.tees[2].right is None
    by_hand = lf.solve(plumbing.network, answer.liquid, tees=plumbing.tees)
    assert by_hand.flow == pytest.approx(answer.solution.flow, rel=1e-9)
    assert [tee["state"] for tee in answer.solution.tees][:2] == ["parting", "dividing"]


def test_the_factor_scales_all_of_a_tees_losses():
    def losses(factor):
        return lf.Tee(run_bore="1 in", branch_bore="0.5 in", factor=factor).levels(
            left="-3 gpm", right="2 gpm", density=1000.0
        )

    published = losses(1.0)
    assert published == TEE.levels(left="-3 gpm", right="2 gpm", density=1000.0)
    assert losses(2.0) == pytest.approx({leg: 2 * level for leg, level in published.items()}, rel=1e-12)
    assert losses(0.0) == {"left": 0.0, "right": 0.0, "branch": 0.0}
    with pytest.raises(lf.InputError, match="factor"):
        lf.Tee(run_bore="1 in", branch_bore="0.5 in", factor=3.5)
    lossless = AT.replace(factor=0.0)
    assert (AT.factor, lossless.factor) == (1.0, 0.0)
    assert pickle.loads(pickle.dumps(lossless)) == lossless != AT
    n = supply_and_two_ends()
    plain, none, real = lf.solve(n, WATER), lf.solve(n, WATER, tees=[lossless]), lf.solve(n, WATER, tees=[AT])
    assert none.flow == pytest.approx(plain.flow, rel=1e-9)
    assert real.flow[0] < plain.flow[0]
    assert none.tees[0]["tee"].factor == 0.0
    assert pickle.loads(pickle.dumps(none)).tees[0]["tee"].factor == 0.0
