# SPDX-License-Identifier: MIT
# Written by bindings/make_stubs.py from the C++ sources.
"""
Pure formulas, SI, over arrays; each names its source.
"""
from __future__ import annotations
import numpy.typing
import typing
__all__: list[str] = ['bond_number', 'coil_drop', 'coil_laminar_limit_re', 'contraction_k_inf', 'creeping_resistance', 'darby_k_inf', 'dean_number', 'drained_height', 'effective_duty', 'entrance_drop', 'expansion_k_inf', 'flow_for_rate', 'friction_colebrook', 'friction_darcy', 'friction_dodge_metzner', 'friction_laminar', 'froude_number', 'hole_discharge_coefficient', 'hooper_k_inf', 'hose_drop', 'local_drop', 'orifice_discharge_coefficient', 'orifice_drop', 'power_law_drop', 'rate_for_flow', 'reynolds_metzner_reed', 'reynolds_number', 'shaft_power', 'swept_flow', 'velocity_head', 'water_density', 'water_vapour_pressure', 'water_viscosity']
def bond_number(bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, surface_tension: numpy.typing.ArrayLike = 0.0727) -> typing.Any:
    """
    Bond number rho g D^2 / sigma [-]; surface_tension [N/m].
    
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
def local_drop(flow: numpy.typing.ArrayLike, k1: numpy.typing.ArrayLike, k_inf: numpy.typing.ArrayLike, bore: numpy.typing.ArrayLike, density: numpy.typing.ArrayLike, viscosity: numpy.typing.ArrayLike) -> typing.Any:
    """
    Drop [Pa] of a local loss K = k1/Re + k_inf on the velocity in its bore. Hooper 1981.
    
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
def swept_flow(displacement: numpy.typing.ArrayLike, rate: numpy.typing.ArrayLike) -> typing.Any:
    """
    Flow that a positive pump sweeps [m3/s]; displacement a turn [m3], rate [turns/s].
    
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
