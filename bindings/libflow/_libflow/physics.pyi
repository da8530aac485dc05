# SPDX-License-Identifier: MIT
# Written by bindings/make_stubs.py from the C++ sources.
"""
Pure formulas, SI, over arrays; each names its source.
"""
from __future__ import annotations
import numpy.typing
import typing
__all__: list[str] = ['bond_number', 'choked_drop', 'coil_drop', 'coil_laminar_limit_re', 'contraction_k_inf', 'creeping_resistance', 'darby_k_inf', 'dean_number', 'drained_height', 'effective_duty', 'entrance_drop', 'expansion_k_inf', 'flow_at_speed', 'flow_for_rate', 'friction_colebrook', 'friction_darcy', 'friction_dodge_metzner', 'friction_laminar', 'froude_number', 'gain_at_speed', 'hole_discharge_coefficient', 'hooper_k_inf', 'hose_drop', 'hydraulic_power', 'inherent_equal_percentage', 'inherent_linear', 'laminar_flushing_time', 'laminar_new_share', 'local_drop', 'lying_tank_volume', 'orifice_discharge_coefficient', 'orifice_drop', 'power_at_speed', 'power_law_drop', 'rate_for_flow', 'reynolds_metzner_reed', 'reynolds_number', 'shaft_power', 'slip_share', 'suction_head_available', 'swept_flow', 'tee_combining_branch', 'tee_combining_run', 'tee_dividing_branch', 'tee_dividing_run', 'tee_meeting', 'tee_parting', 'tube_storage', 'tube_volume', 'valve_drop', 'velocity_head', 'water_density', 'water_vapour_pressure', 'water_viscosity']
def bond_number(bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, surface_tension: numpy.typing.ArrayLike = 0.0727) -> typing.Any:
    """
    Bond number rho g D^2 / sigma [-]; surface_tension [N/m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def choked_drop(inlet: numpy.typing.ArrayLike, vapour: numpy.typing.ArrayLike, critical: numpy.typing.ArrayLike = 22120000.0, recovery: numpy.typing.ArrayLike = 0.9) -> typing.Any:
    """
    Drop [Pa] beyond which more brings no more flow; inlet, vapour and critical pressures [Pa absolute], recovery
    FL [-]. IEC 60534-2-1.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def coil_drop(flow: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, curvature: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike, roughness: numpy.typing.ArrayLike = 1.5e-06) -> typing.Any:
    """
    Drop [Pa] of a coiled hose; curvature: bore over coil diameter [-], 0 to 0.15. Mishra and Gupta 1979, Schmidt 1967.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def coil_laminar_limit_re(curvature: numpy.typing.ArrayLike) -> typing.Any:
    """
    Reynolds number to which flow in a coil is laminar, 2000 + 19780 (d/D)^0.45 [-]. Schmidt 1967.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def contraction_k_inf(bore_ratio: numpy.typing.ArrayLike, cone: numpy.typing.ArrayLike = 3.141592653589793) -> typing.Any:
    """
    Loss coefficient of a narrowing bore on the velocity in the smaller one [-]; bore_ratio smaller over larger, cone
    full angle [rad]. Crane TP-410.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def creeping_resistance(bore: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike = 0.0) -> typing.Any:
    """
    Resistance of a hole in creeping flow [Pa per m3/s]. Sampson 1891 (exact for length 0), Dagan 1982.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def darby_k_inf(ki: numpy.typing.ArrayLike, kd: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike) -> typing.Any:
    """
    K_inf = Ki (1 + Kd/D^0.3), D in inches [-]. Silverberg and Darby 1999.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def dean_number(re: numpy.typing.ArrayLike, curvature: numpy.typing.ArrayLike) -> typing.Any:
    """
    Dean number Re sqrt(d/D) [-].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def drained_height(column: numpy.typing.ArrayLike, crack: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike) -> typing.Any:
    """
    Height of a standing column that drains through a valve that closes at `crack` [m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def effective_duty(duty: numpy.typing.ArrayLike, frequency: numpy.typing.ArrayLike, opening_lag: numpy.typing.ArrayLike = 0.0, closing_lag: numpy.typing.ArrayLike = 0.0) -> typing.Any:
    """
    Share of the time that a pulsed valve is open [-]; frequency [Hz], lags [s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def entrance_drop(flow: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Drop [Pa] beyond developed friction of liquid that enters a hose with an even velocity. Shah 1978.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def expansion_k_inf(bore_ratio: numpy.typing.ArrayLike, cone: numpy.typing.ArrayLike = 3.141592653589793) -> typing.Any:
    """
    Loss coefficient of a widening bore on the velocity in the smaller one [-]. Borda, Carnot; Crane TP-410.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def flow_at_speed(flow: numpy.typing.ArrayLike, ratio: numpy.typing.ArrayLike) -> typing.Any:
    """
    Flow [m3/s] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def flow_for_rate(rate: numpy.typing.ArrayLike, speed: numpy.typing.ArrayLike, width: numpy.typing.ArrayLike) -> typing.Any:
    """
    Flow [m3/s] that gives a rate [m3/m2] over a strip of a width [m] at a speed [m/s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def friction_colebrook(re: numpy.typing.ArrayLike, rel_roughness: numpy.typing.ArrayLike = 0.0) -> typing.Any:
    """
    Darcy friction factor of turbulent flow [-] by Colebrook-White (1939), full precision; Re 4e3 to 1e8,
    rel_roughness e/D 0 to 0.05. Steps of Clamond 2009.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def friction_darcy(re: numpy.typing.ArrayLike, rel_roughness: numpy.typing.ArrayLike = 0.0) -> typing.Any:
    """
    Darcy friction factor over all regimes [-]: 64/Re to Re 2000, Colebrook-White from 4000, between them the cubic
    that continues value and slope; rel_roughness e/D 0 to 0.05.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def friction_dodge_metzner(re: numpy.typing.ArrayLike, index: numpy.typing.ArrayLike) -> typing.Any:
    """
    Darcy friction factor of turbulent power-law flow in a smooth tube [-]; re generalised, 2900 to 36000, index n 0.36
    to 1. Dodge and Metzner 1959.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def friction_laminar(re: numpy.typing.ArrayLike) -> typing.Any:
    """
    Darcy friction factor of laminar flow, 64/Re [-]; valid to Re 2000.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def froude_number(flow: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike) -> typing.Any:
    """
    Froude number V / sqrt(g D) of a full tube [-].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def gain_at_speed(gain: numpy.typing.ArrayLike, ratio: numpy.typing.ArrayLike) -> typing.Any:
    """
    Gain [Pa] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def hole_discharge_coefficient(length_ratio: numpy.typing.ArrayLike, sharp: numpy.typing.ArrayLike = 0.61) -> typing.Any:
    """
    Discharge coefficient at high Reynolds number of a hole with length [-]; length_ratio L/d 0 to 10. McGreehan and
    Schotsch 1988.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def hooper_k_inf(k: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike) -> typing.Any:
    """
    K_inf = K (1 + 1/D), D the bore in inches [-]. Hooper 1981.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def hose_drop(flow: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike, roughness: numpy.typing.ArrayLike = 1.5e-06) -> typing.Any:
    """
    Darcy-Weisbach drop [Pa] at a flow [m3/s, either sign] in a straight hose: length [m], bore [m], density [kg/m3],
    viscosity [Pa s], roughness [m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def hydraulic_power(flow: numpy.typing.ArrayLike, gain: numpy.typing.ArrayLike) -> typing.Any:
    """
    Power [W] that a pump puts into the liquid: flow [m3/s] x gain [Pa].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def inherent_equal_percentage(travel: numpy.typing.ArrayLike, rangeability: numpy.typing.ArrayLike = 50.0) -> typing.Any:
    """
    Share of a valve's rated coefficient at a share of its travel, R^(h - 1) [-]. IEC 60534-1.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def inherent_linear(travel: numpy.typing.ArrayLike, rangeability: numpy.typing.ArrayLike = 50.0) -> typing.Any:
    """
    Share of a valve's rated coefficient at a share of its travel, linear [-]; rangeability: rated over least
    controllable coefficient [-]. IEC 60534-1.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def laminar_flushing_time(share: numpy.typing.ArrayLike) -> typing.Any:
    """
    Time, over the mean transit time, after which a tube in laminar flow gives new liquid to a share [-]; 5 for
    99 %. Danckwerts 1953, Levenspiel 1999.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def laminar_new_share(time: numpy.typing.ArrayLike) -> typing.Any:
    """
    Share of new liquid in what leaves a tube in laminar flow [-]; time: over the mean transit time [-]. Danckwerts
    1953, Levenspiel 1999.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def local_drop(flow: numpy.typing.ArrayLike, k1: numpy.typing.ArrayLike, k_inf: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Drop [Pa] of a local loss K = k1/Re + k_inf on the velocity in its bore. Hooper 1981.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def lying_tank_volume(level: numpy.typing.ArrayLike, height: numpy.typing.ArrayLike, width: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike) -> typing.Any:
    """
    Volume [m3] in a lying tank of elliptical section up to a level [m]; height, width, length inside [m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def orifice_discharge_coefficient(flow: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Discharge coefficient q / (A sqrt(2 dp/rho)) of a sharp orifice that orifice_drop implies [-].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def orifice_drop(flow: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Drop [Pa] across a sharp orifice at a flow [m3/s, either sign]: creeping limit, free jet, bridge (Wu 2002).
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def power_at_speed(power: numpy.typing.ArrayLike, ratio: numpy.typing.ArrayLike) -> typing.Any:
    """
    Power [W] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def power_law_drop(flow: numpy.typing.ArrayLike, length: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, consistency: numpy.typing.ArrayLike, index: numpy.typing.ArrayLike, plateau_shear_rate: numpy.typing.ArrayLike = 0.01) -> typing.Any:
    """
    Drop [Pa] of a hose with a liquid that thins with shear; consistency K [Pa s^n], index n [-], plateau [1/s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def rate_for_flow(flow: numpy.typing.ArrayLike, speed: numpy.typing.ArrayLike, width: numpy.typing.ArrayLike) -> typing.Any:
    """
    Rate [m3/m2] that a flow [m3/s] gives over a strip of a width [m] at a speed [m/s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def reynolds_metzner_reed(velocity: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, consistency: numpy.typing.ArrayLike, index: numpy.typing.ArrayLike) -> typing.Any:
    """
    Reynolds number of a power-law liquid [-]; consistency K [Pa s^n], index n [-]. Metzner and Reed 1955.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def reynolds_number(flow: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Reynolds number of a flow [m3/s] in a round bore [m], 4 rho |q| / (pi D mu) [-].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def shaft_power(flow: numpy.typing.ArrayLike, gain: numpy.typing.ArrayLike, efficiency: numpy.typing.ArrayLike) -> typing.Any:
    """
    Power at a pump's shaft [W].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def slip_share(swept: numpy.typing.ArrayLike, delivered: numpy.typing.ArrayLike) -> typing.Any:
    """
    Slip of a positive pump, 1 - delivered / swept [-]; both [m3/s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def suction_head_available(inlet_pressure: numpy.typing.ArrayLike, vapour_pressure: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike) -> typing.Any:
    """
    Net positive suction head available [m]: inlet total pressure over vapour pressure [Pa absolute], over weight.
    ANSI/HI 9.6.1.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def swept_flow(displacement: numpy.typing.ArrayLike, rate: numpy.typing.ArrayLike) -> typing.Any:
    """
    Flow that a positive pump sweeps [m3/s]; displacement a turn [m3], rate [turns/s].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_combining_branch(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0, angle: numpy.typing.ArrayLike = 90.0) -> typing.Any:
    """
    Loss of total pressure from the branch of a tee in which two flows combine, over the velocity head of the
    combined flow in the run [-]; negative where it is dragged along. Arguments as tee_dividing_branch. Crane TP-410
    2009.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_combining_run(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0, angle: numpy.typing.ArrayLike = 90.0) -> typing.Any:
    """
    Loss of total pressure straight on in a tee in which two flows combine, over the velocity head of the
    combined flow [-]. Arguments as tee_dividing_branch. Crane TP-410 2009.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_dividing_branch(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0, angle: numpy.typing.ArrayLike = 90.0) -> typing.Any:
    """
    Loss of total pressure into the branch of a tee that divides, over the run's velocity head [-]; q: the
    branch's share of the flow [-], area_ratio: branch over run [-], angle [degrees], 30 to 90. Crane TP-410 2009;
    turbulent flow.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_dividing_run(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0, angle: numpy.typing.ArrayLike = 90.0) -> typing.Any:
    """
    Loss of total pressure straight on in a tee that divides, over the velocity head of the combined flow [-].
    Arguments as tee_dividing_branch. Crane TP-410 2009.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_meeting(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0) -> typing.Any:
    """
    Loss from either end of the run to the branch where two streams meet, over the velocity head in the branch [-];
    q: share of either stream [-]. Shape: Idelchik, diagram 7-29; height: as tee_dividing_branch of one stream alone.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tee_parting(q: numpy.typing.ArrayLike, area_ratio: numpy.typing.ArrayLike = 1.0, k: numpy.typing.ArrayLike = 1.5) -> typing.Any:
    """
    Loss from the branch to one end of the run where the branch's stream parts, over the velocity head in the
    branch [-]; q: share of that end [-], k: 1.5 threaded, 0.3 welded. Idelchik, diagram 7-29.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tube_storage(bulk_modulus: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, wall: numpy.typing.ArrayLike, modulus: numpy.typing.ArrayLike) -> typing.Any:
    """
    Relative volume that a full elastic tube stores for a pressure, 1/K + D/(E e) [1/Pa]; bulk_modulus K of the
    liquid, modulus E of the wall [Pa], bore D, wall e [m]. Korteweg 1878.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def tube_volume(length: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike) -> typing.Any:
    """
    Volume [m3] of a round tube; length, bore inside [m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def valve_drop(flow: numpy.typing.ArrayLike, kv: numpy.typing.ArrayLike, rated_kv: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike, recovery: numpy.typing.ArrayLike = 0.9, style: numpy.typing.ArrayLike = 0.46) -> typing.Any:
    """
    Drop [Pa] of a valve at a flow [m3/s, either sign]; kv at its opening, rated_kv fully open [m3/s of water at
    1 bar], bore of valve and line [m], recovery FL, style Fd [-]. IEC 60534-2-1.
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def velocity_head(flow: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike) -> typing.Any:
    """
    Velocity head rho V^2/2 [Pa] of a flow [m3/s] in a round bore [m].
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def water_density(temperature: numpy.typing.ArrayLike) -> typing.Any:
    """
    Density of water at 0.1 MPa [kg/m3]. IAPWS SR6-08(2011).
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def water_vapour_pressure(temperature: numpy.typing.ArrayLike) -> typing.Any:
    """
    Vapour pressure of water [Pa absolute]. IAPWS SR1-86(1992).
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
def water_viscosity(temperature: numpy.typing.ArrayLike) -> typing.Any:
    """
    Viscosity of water at 0.1 MPa [Pa s]. IAPWS SR6-08(2011).
    
    Takes numbers or arrays, which broadcast; a quantity also as text with its unit. Returns a float or an array.
    """
