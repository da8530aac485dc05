# SPDX-License-Identifier: MIT
"""The formulas against SciPy and the fluids package, and over arrays."""

from __future__ import annotations

import math

import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

import libflow as lf
from libflow import physics


@given(st.floats(4e3, 1e8), st.floats(0.0, 0.05))
def test_colebrook_against_fluids(re, rough):
    # fluids solves Colebrook-White by the Lambert W function or by iteration; both are full precision.
    assert physics.friction_colebrook(re, rough) == pytest.approx(fluids.friction.Colebrook(re, rough), rel=1e-9)


@given(st.floats(4e3, 1e8), st.floats(0.0, 0.05))
def test_colebrook_against_a_root_by_scipy(re, rough):
    def misfit(x):  # x = 1/sqrt(f)
        return x + 2.0 * math.log10(rough / 3.7 + 2.51 * x / re)

    x = brentq(misfit, 1.0, 100.0, xtol=1e-15, rtol=8.9e-16)
    assert physics.friction_colebrook(re, rough) == pytest.approx(x**-2, rel=1e-12)


def test_laminar_drop_is_hagen_poiseuille():
    q, length, bore, mu = 1e-5, 4.0, 6.35e-3, 0.12
    assert physics.hose_drop(q, length, bore, 1400.0, mu) == pytest.approx(
        128 * mu * length * q / (math.pi * bore**4), rel=1e-13
    )
    assert physics.friction_laminar(1000.0) == 0.064


def test_turbulent_drop_against_fluids():
    q, length, bore, rho, mu, rough = 3e-4, 4.0, 9.525e-3, 1280.0, 4e-3, 1.5e-6
    v = q / (math.pi * bore**2 / 4)
    re = fluids.core.Reynolds(D=bore, rho=rho, mu=mu, V=v)
    assert physics.reynolds_number(q, bore, rho, mu) == pytest.approx(re, rel=1e-14)
    f = fluids.friction.Colebrook(re, rough / bore)
    assert physics.hose_drop(q, length, bore, rho, mu, rough) == pytest.approx(
        f * length / bore * rho * v * v / 2, rel=1e-9
    )


def test_fitting_constants_against_fluids():
    # fluids has both methods; "Elbow, 90°" standard screwed: K1 800, Kinf 0.4; Darby 800, 0.14, 4.0.
    inches = 0.5
    bore = inches * 0.0254
    for re in (50.0, 1e3, 1e5):
        assert 800 / re + physics.hooper_k_inf(0.4, bore) == pytest.approx(
            fluids.fittings.Hooper2K(Di=inches, Re=re, K1=800, Kinfty=0.4), rel=1e-12
        )
        assert 800 / re + physics.darby_k_inf(0.14, 4.0, bore) == pytest.approx(
            fluids.fittings.Darby3K(NPS=inches, Re=re, K1=800, Ki=0.14, Kd=4.0), rel=1e-12
        )
    assert physics.expansion_k_inf(0.5) == pytest.approx(fluids.fittings.diffuser_sharp(Di1=0.5, Di2=1.0), rel=1e-12)


def test_power_law_at_the_newtonian_limit():
    # At n = 1: the common Reynolds number, and the smooth tube of J. Nikuradse 1932, from memory: 1/sqrt(f) = 4 log10(Re sqrt(f)) - 0.4.
    assert physics.reynolds_metzner_reed(1.0, 0.01, 1000.0, 1e-3, 1.0) == pytest.approx(1e4, rel=1e-13)
    re = 1e4
    fanning = brentq(lambda x: 1 / math.sqrt(x) - 4 * math.log10(re * math.sqrt(x)) + 0.4, 1e-4, 0.1, xtol=1e-16)
    assert physics.friction_dodge_metzner(re, 1.0) == pytest.approx(4 * fanning, rel=1e-12)


def test_sampsons_limit_and_the_free_jet():
    # R. A. Sampson 1891: dp = 3 mu q / a^3 through a hole of radius a in a thin plate, at creeping flow.
    bore, mu, q = 1e-3, 1.0, 1e-12
    assert physics.orifice_drop(q, bore, 1000.0, mu) == pytest.approx(3 * mu * q / (bore / 2) ** 3, rel=1e-6)
    assert physics.creeping_resistance(bore, viscosity=mu) == pytest.approx(3 * mu / (bore / 2) ** 3, rel=1e-14)
    # C = 0.61 at high Reynolds number (D. Wu, R. Burton, G. Schoenau 2002, from memory).
    assert physics.orifice_discharge_coefficient(5e-3, 0.01, 1000.0, 1e-3) == pytest.approx(0.61, rel=2e-3)


def test_water_against_iapws_tables():
    # IAPWS R7-97 table 35 (from memory): saturation pressure 0.353658941e-2 MPa at 300 K.
    assert physics.water_vapour_pressure(300.0) == pytest.approx(0.353658941e-2 * 1e6, rel=3e-4)
    # IAPWS R12-08 (from memory) gives 889.7351 uPa s at 298.15 K, 998 kg/m3.
    assert physics.water_viscosity(298.15) == pytest.approx(889.9e-6, rel=5e-4)


def test_the_trades_rule_of_thumb():
    # gal/min = gal/ac x mph x inches / 5940 (University of Florida EDIS WG013); exact, for 60 x 12 x 43560 / 5280.
    flow = physics.flow_for_rate("10 gal/ac", "5 mph", "30 in")
    assert lf.to_unit(flow, "gpm", "flow") == pytest.approx(10 * 5 * 30 / 5940, rel=1e-12)
    assert physics.rate_for_flow(flow, "5 mph", "30 in") == pytest.approx(lf.si("10 gal/ac", "area_rate"), rel=1e-14)


@given(
    st.lists(st.floats(1.0, 1e8), min_size=1, max_size=5),
    st.lists(st.floats(0.0, 0.05), min_size=1, max_size=4),
)
def test_arrays_give_what_numbers_give_one_by_one(re, rough):
    table = physics.friction_darcy(np.array(re)[:, np.newaxis], rough)
    assert table.shape == (len(re), len(rough))
    for i, x in enumerate(re):
        for j, e in enumerate(rough):
            assert table[i, j] == physics.friction_darcy(x, e)


def test_shapes_and_kinds_of_arrays():
    assert isinstance(physics.friction_laminar(100.0), float)
    assert isinstance(physics.friction_laminar(np.float64(100.0)), float)
    assert physics.friction_laminar(np.array([], dtype=float)).shape == (0,)
    every_second = np.arange(1.0, 9.0)[::2]
    assert physics.friction_laminar(every_second).tolist() == (64 / every_second).tolist()
    turned = np.arange(1.0, 7.0).reshape(2, 3).T
    assert (physics.friction_laminar(turned) == 64 / turned).all()
    assert (physics.friction_laminar(np.array([1, 2], dtype=np.int32)) == [64.0, 32.0]).all()
    assert physics.hose_drop(["0.1 gpm", "0.2 gpm"], "14 ft", "1/4 in", 1400.0, "120 cP").shape == (2,)
    assert physics.velocity_head(flow=[1e-5], bore=[[0.01], [0.02]], density=1000.0).shape == (2, 1)


def test_parts_are_their_formulas(cold):
    hose = lf.Hose(length="14 ft", bore="1/4 in")
    q = np.linspace(-2e-5, 2e-5, 11)
    expected = physics.hose_drop(q, hose.length, hose.bore, cold.density, cold.viscosity, hose.roughness)
    assert (hose.drop(q, cold) == expected).all()
    step = 1e-10
    slope = (hose.drop(1e-5 + step, cold) - hose.drop(1e-5 - step, cold)) / (2 * step)
    assert hose.slope(1e-5, cold) == pytest.approx(slope, rel=1e-5)
    slopes = hose.drop_slopes(1e-5, cold)
    assert slopes["drop"] == hose.drop(1e-5, cold)
    # Laminar: the drop is proportional to length and viscosity and falls with the fourth power of the bore.
    assert slopes["inputs"]["length"] == pytest.approx(slopes["drop"] / hose.length, rel=1e-12)
    assert slopes["inputs"]["bore"] == pytest.approx(-4 * slopes["drop"] / hose.bore, rel=1e-12)
    assert slopes["viscosity"] == pytest.approx(slopes["drop"] / cold.viscosity, rel=1e-12)
    assert hose.inputs()["length"] == (hose.length, "m")
    orifice = lf.Orifice.rated(flow="0.2 gpm", pressure="10 psi")
    water = lf.Liquid().at("20 C")
    assert orifice.flow_at("10 psi", water) == pytest.approx(lf.si("0.2 gpm", "flow"), rel=1e-6)


@given(st.floats(0.01, 0.99), st.floats(0.05, 1.0))
def test_a_combining_tee_against_fluids(q, area_ratio):
    # Crane TP-410 as the fluids package has it, but where its branch factor jumps (q 0.389 to 0.4, see physics/tee.hpp).
    bores = {"D_run": 0.05, "D_branch": 0.05 * math.sqrt(area_ratio), "Q_run": 1 - q, "Q_branch": q}
    run = fluids.fittings.K_run_converging_Crane(**bores)
    assert physics.tee_combining_run(q, area_ratio) == pytest.approx(run, rel=1e-9, abs=1e-12)
    if area_ratio > 0.36 and 0.38 < q < 0.41:
        return
    branch = fluids.fittings.K_branch_converging_Crane(**bores)
    assert physics.tee_combining_branch(q, area_ratio) == pytest.approx(branch, rel=1e-9, abs=1e-9)


def test_a_valve_against_fluids():
    # IEC 60534-2-1 in fluids: the coefficient that passes a flow of water with a drop, and where more brings no more.
    kv, bore, flow = lf.si("10 gpm", "flow"), 0.0127, 8e-4
    drop = physics.valve_drop(flow, kv, kv, bore, 999.1, 1e-5)
    sized = fluids.control_valve.size_control_valve_l(
        rho=999.1, Psat=2e3, Pc=22.12e6, mu=1e-5, P1=1e6 + drop, P2=1e6, Q=flow, D1=bore, D2=bore, d=bore, FL=0.9, Fd=0.46
    )
    assert sized / 3600 == pytest.approx(kv, rel=2e-3)
    ff = fluids.control_valve.FF_critical_pressure_ratio_l(Psat=2e3, Pc=22.12e6)
    assert physics.choked_drop(3e5, 2e3) == pytest.approx(0.9**2 * (3e5 - ff * 2e3), rel=1e-12)
    assert physics.inherent_linear(0.5, 50.0) == pytest.approx(0.51)
    assert physics.inherent_equal_percentage(0.5, 50.0) == pytest.approx(50**-0.5)


@given(st.floats(0.01, 0.99))
def test_a_lying_tank_against_fluids(filled):
    tank = fluids.geometry.TANK(D=1.2, L=2.5, horizontal=True)
    level = 1.2 * filled
    assert physics.lying_tank_volume(level, 1.2, 1.2, 2.5) == pytest.approx(tank.V_from_h(level), rel=1e-9)
    # Stretched sideways, it holds in proportion.
    assert physics.lying_tank_volume(level, 1.2, 1.8, 2.5) == pytest.approx(1.5 * tank.V_from_h(level), rel=1e-9)


def test_flushing_is_the_parabola_of_laminar_flow():
    # Rings of a tube, each at its own velocity 2 (1 - x^2) of the mean: what has arrived by a time is new.
    x = (np.arange(200_000) + 0.5) / 200_000
    velocity, flow = 2 * (1 - x**2), 2 * (1 - x**2) * 2 * x / 200_000
    for time in (0.3, 0.6, 1.0, 3.0):
        assert physics.laminar_new_share(time) == pytest.approx(flow[velocity * time > 1].sum(), abs=2e-5)
    assert physics.laminar_flushing_time(0.99) == pytest.approx(5.0, rel=1e-12)
    assert physics.laminar_new_share(physics.laminar_flushing_time([0.1, 0.5])) == pytest.approx([0.1, 0.5])
    assert physics.tube_volume(2.0, 0.01) == pytest.approx(math.pi * 0.01**2 / 4 * 2.0, rel=1e-15)
    # Korteweg 1878: a wall that hardly stretches leaves the liquid's own sound speed, 1480 m/s for water (from memory).
    storage = physics.tube_storage(2.19e9, 0.01, 0.002, 1e18)
    assert (1000.0 * storage) ** -0.5 == pytest.approx(1480.0, rel=1e-3)


def test_pumps():
    flow, gain, ratio = 2e-3, 3e5, 0.8
    power = physics.hydraulic_power(flow, gain)
    moved = physics.hydraulic_power(physics.flow_at_speed(flow, ratio), physics.gain_at_speed(gain, ratio))
    assert physics.power_at_speed(power, ratio) == pytest.approx(moved, rel=1e-14)
    assert physics.suction_head_available("101325 Pa", 2339.0, 998.2) == pytest.approx((101325 - 2339) / (998.2 * 9.80665))
    assert physics.slip_share(1e-3, 0.9e-3) == pytest.approx(0.1)
    with pytest.raises(lf.InputError, match="lying_tank_volume, level"):
        physics.lying_tank_volume(2.0, 1.0, 1.0, 1.0)
