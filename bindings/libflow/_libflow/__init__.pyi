# SPDX-License-Identifier: MIT
# Written by bindings/make_stubs.py from the C++ sources.
"""
The C++ part of libflow. Import libflow instead.
"""
from __future__ import annotations
import collections.abc
import numpy
import numpy.typing
import typing
from . import physics
__all__: list[str] = ['Analysis', 'Answer', 'Barb', 'Blend', 'BlendPart', 'CatchReading', 'CatchReadings', 'Caution', 'CentrifugalPump', 'CheckValve', 'CheckValveChoice', 'Comparison', 'Derivatives', 'Distribution', 'Drive', 'DriveLine', 'DriveTank', 'Fitting', 'FlowMeter', 'GroundDrivenPump', 'Hose', 'Job', 'KINDS', 'Layout', 'Liquid', 'LiquidState', 'LyingTank', 'Manifold', 'Network', 'OpenEnd', 'Orifice', 'OrificeByBore', 'OrificeByRating', 'OrificePair', 'Plumbing', 'PositivePump', 'PressureRegulator', 'PulsedValve', 'PumpCurve', 'PumpPoint', 'PumpSlip', 'Reducer', 'ReliefValve', 'Row', 'RowChange', 'RowOutlet', 'ScenarioResults', 'Shortest', 'Solution', 'Strainer', 'SuspensionHose', 'System', 'TablePart', 'TablePoint', 'Tank', 'TankRow', 'TankTable', 'Tee', 'TeeAt', 'Tolerance', 'Toolbar', 'UprightTank', 'Valve', 'VentedTube', 'ViscosityEnd', 'WorkingRange', 'attribute_by_input', 'blend', 'build', 'citation', 'compare', 'layout_schema', 'liquids', 'main_job', 'nutrient_rates', 'parse_layout', 'physics', 'read_layout', 'si', 'solve', 'starter_layout', 'stop_dribble', 'to_unit', 'unit_names']
class Caution:
    """
    Something that was computed but that a person should know about.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        code: short fixed word, e.g. 'below-salt-out'
        subject: the part, place or liquid it speaks of (default '')
        text: plain words (default '')
        value: what was found, SI; None where there is no number (default None)
        limit: what it is held against, SI (default None)
        source: where the limit comes from (default '')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, code: str, subject: str = '', text: str = '', value: float | None = None, limit: float | None = None, source: str = '') -> None:
        """
        Something that was computed but that a person should know about.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, code: str = ..., subject: str = ..., text: str = ..., value: float | None = ..., limit: float | None = ..., source: str = ...) -> Caution:
        """
        A new Caution with some fields changed.
        """
    @property
    def code(self) -> str:
        """
        short fixed word, e.g. 'below-salt-out'
        """
    @property
    def limit(self) -> float | None:
        """
        what it is held against, SI
        """
    @property
    def source(self) -> str:
        """
        where the limit comes from
        """
    @property
    def subject(self) -> str:
        """
        the part, place or liquid it speaks of
        """
    @property
    def text(self) -> str:
        """
        plain words
        """
    @property
    def value(self) -> float | None:
        """
        what was found, SI; None where there is no number
        """
class Analysis:
    """
    Guaranteed analysis [mass %]: phosphorus and potassium as oxides.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        n: nitrogen, N [mass %] (default 0.0)
        p2o5: phosphate, P2O5 [mass %] (default 0.0)
        k2o: potash, K2O [mass %] (default 0.0)
        s: sulfur, S [mass %] (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    @staticmethod
    def parse(text: str) -> Analysis:
        """
        A grade as on a label: '10-34-0', '12-0-0-26S' [mass %].
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, n: float = 0.0, p2o5: float = 0.0, k2o: float = 0.0, s: float = 0.0) -> None:
        """
        Guaranteed analysis [mass %]: phosphorus and potassium as oxides.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, n: float = ..., p2o5: float = ..., k2o: float = ..., s: float = ...) -> Analysis:
        """
        A new Analysis with some fields changed.
        """
    @property
    def grade(self) -> str:
        """
        As on a label.
        """
    @property
    def k2o(self) -> float:
        """
        potash, K2O [mass %]
        """
    @property
    def n(self) -> float:
        """
        nitrogen, N [mass %]
        """
    @property
    def p2o5(self) -> float:
        """
        phosphate, P2O5 [mass %]
        """
    @property
    def s(self) -> float:
        """
        sulfur, S [mass %]
        """
class LiquidState:
    """
    A liquid at one temperature.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        name: of the liquid (default '')
        temperature: [K] of the liquid (default '20 °C')
        density: [kg/m3] of the liquid (default '998.2 kg/m3')
        viscosity: [Pa·s] dynamic (default '1.0016 cP')
        vapour_pressure: [Pa] absolute, of water: an upper bound (default 0.0)
        density_confidence: how far the density can be trusted (default 'published')
        viscosity_confidence: how far the viscosity can be trusted (default 'published')
        density_low: [kg/m3] low end of the figures (default None)
        density_high: [kg/m3] high end of the figures (default None)
        viscosity_low: [Pa·s] low end of the band (default None)
        viscosity_high: [Pa·s] high end of the band (default None)
        density_source: keys for citation(), comma-separated (default '')
        viscosity_source: keys for citation(), comma-separated (default '')
        cautions: what a person should know (default [])
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, name: str = '', temperature: float | str = '20 °C', density: float | str = '998.2 kg/m3', viscosity: float | str = '1.0016 cP', vapour_pressure: float | str = 0.0, density_confidence: typing.Literal['published', 'derived', 'memory', 'common_practice', 'user'] = 'published', viscosity_confidence: typing.Literal['published', 'derived', 'memory', 'common_practice', 'user'] = 'published', density_low: float | str | None = None, density_high: float | str | None = None, viscosity_low: float | str | None = None, viscosity_high: float | str | None = None, density_source: str = '', viscosity_source: str = '', cautions: collections.abc.Sequence[Caution] = []) -> None:
        """
        A liquid at one temperature.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, name: str = ..., temperature: float | str = ..., density: float | str = ..., viscosity: float | str = ..., vapour_pressure: float | str = ..., density_confidence: typing.Literal['published', 'derived', 'memory', 'common_practice', 'user'] = ..., viscosity_confidence: typing.Literal['published', 'derived', 'memory', 'common_practice', 'user'] = ..., density_low: float | str | None = ..., density_high: float | str | None = ..., viscosity_low: float | str | None = ..., viscosity_high: float | str | None = ..., density_source: str = ..., viscosity_source: str = ..., cautions: collections.abc.Sequence[Caution] = ...) -> LiquidState:
        """
        A new LiquidState with some fields changed.
        """
    @property
    def cautions(self) -> collections.abc.Sequence[Caution]:
        """
        what a person should know
        """
    @property
    def density(self) -> float:
        """
        [kg/m3] of the liquid
        """
    @property
    def density_confidence(self) -> typing.Literal['published', 'derived', 'memory', 'common_practice', 'user']:
        """
        how far the density can be trusted
        """
    @property
    def density_high(self) -> float | None:
        """
        [kg/m3] high end of the figures
        """
    @property
    def density_low(self) -> float | None:
        """
        [kg/m3] low end of the figures
        """
    @property
    def density_source(self) -> str:
        """
        keys for citation(), comma-separated
        """
    @property
    def name(self) -> str:
        """
        of the liquid
        """
    @property
    def temperature(self) -> float:
        """
        [K] of the liquid
        """
    @property
    def vapour_pressure(self) -> float:
        """
        [Pa] absolute, of water: an upper bound
        """
    @property
    def viscosity(self) -> float:
        """
        [Pa·s] dynamic
        """
    @property
    def viscosity_confidence(self) -> typing.Literal['published', 'derived', 'memory', 'common_practice', 'user']:
        """
        how far the viscosity can be trusted
        """
    @property
    def viscosity_high(self) -> float | None:
        """
        [Pa·s] high end of the band
        """
    @property
    def viscosity_low(self) -> float | None:
        """
        [Pa·s] low end of the band
        """
    @property
    def viscosity_source(self) -> str:
        """
        keys for citation(), comma-separated
        """
class Liquid:
    """
    A liquid: density, viscosity and vapour pressure against temperature, each figure with its source and confidence.
    
    Liquid('10-34-0') is a built-in one (see liquids()); Liquid.from_points() makes one of your own.
    """
    __hash__: typing.ClassVar[None] = None
    @staticmethod
    def from_points(name: str, *, density: typing.Any, viscosity: typing.Any = []) -> Liquid:
        """
        Your own liquid by measured points.
        
        density: [(density [kg/m3], temperature [K]), ...], one or more.
        viscosity: [(viscosity [Pa s], temperature [K]), ...]; without any, only the density can be asked for.
        Numbers are SI or text with units: ('1.28 SG', '60 F').
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> tuple:
        ...
    def __init__(self, name: typing.Any = 'water') -> None:
        """
        A built-in liquid by id or grade; case, spaces and dashes do not matter.
        Raises InputError that lists them, with the nearest name.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    def at(self, temperature: float | str) -> LiquidState:
        """
        The LiquidState at a temperature [K]: numbers, confidence, sources, cautions. -40 to 100 C.
        """
    def density(self, temperature: numpy.typing.ArrayLike) -> typing.Any:
        """
        Density [kg/m3] at temperatures [K]; takes arrays.
        """
    def figures(self) -> list:
        """
        Every figure known, used or not, as a list of dicts: value, unit, temperature [K], band, confidence, source.
        """
    def vapour_pressure(self, temperature: numpy.typing.ArrayLike) -> typing.Any:
        """
        Vapour pressure of water [Pa absolute], an upper bound for a solution; takes arrays.
        """
    def viscosity(self, temperature: numpy.typing.ArrayLike) -> typing.Any:
        """
        Dynamic viscosity [Pa s] at temperatures [K]; takes arrays.
        """
    def with_density(self, value: float | str, *, at: float | str = None) -> Liquid:
        """
        The same liquid with a weighed density [kg/m3] at a temperature [K] (None: taken as 60 F).
        """
    def with_viscosity(self, value: float | str, *, at: float | str) -> Liquid:
        """
        The same liquid with a measured viscosity [Pa s] at a temperature [K].
        """
    @property
    def aliases(self) -> typing.Any:
        """
        Other names, e.g. the grade.
        """
    @property
    def analysis(self) -> typing.Any:
        """
        Guaranteed analysis [mass %], or None.
        """
    @property
    def has_viscosity(self) -> bool:
        """
        False where nobody has given a viscosity.
        """
    @property
    def id(self) -> str:
        """
        Short name.
        """
    @property
    def name(self) -> str:
        """
        Name for people.
        """
class BlendPart:
    """
    One part of a blend.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        name: for messages
        analysis: of the liquid; default: water (default Analysis())
        density: [kg/m3] of the liquid
        volume: [m3] of it, more than 0
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, name: str, analysis: Analysis = ..., density: float | str, volume: float | str) -> None:
        """
        One part of a blend.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, name: str = ..., analysis: Analysis = ..., density: float | str = ..., volume: float | str = ...) -> BlendPart:
        """
        A new BlendPart with some fields changed.
        """
    @property
    def analysis(self) -> Analysis:
        """
        of the liquid; default: water
        """
    @property
    def density(self) -> float:
        """
        [kg/m3] of the liquid
        """
    @property
    def name(self) -> str:
        """
        for messages
        """
    @property
    def volume(self) -> float:
        """
        [m3] of it, more than 0
        """
class Blend:
    """
    What a mix holds, by mass balance; volumes are taken to add.
    """
    def __repr__(self) -> str:
        ...
    @property
    def analysis(self) -> Analysis:
        """
        Analysis of the mix [mass %].
        """
    @property
    def cautions(self) -> list:
        """
        What a person who mixes has to know.
        """
    @property
    def density(self) -> float:
        """
        [kg/m3]
        """
    @property
    def mass(self) -> float:
        """
        [kg]
        """
    @property
    def volume(self) -> float:
        """
        [m3]
        """
class Hose:
    """
    A hose, a tube or a length of bar. Law: Darcy-Weisbach with 64/Re below Re 2000, Colebrook-White
    above 4000, a smooth cubic between; coiled: Mishra and Gupta 1979; entrance: Shah 1978.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        length: [m] more than 0, at most 1000 m
        bore: [m] inside diameter, 0.1 mm to 0.5 m
        roughness: [m] of the wall, 0 to 0.05 bore; default: drawn tubing (default '0.0015 mm')
        rating: [Pa] working pressure (gauge); a caution when the inlet is above it (default None)
        wall_thickness: [m] for the outside diameter only (default None)
        entrance: add the loss of laminar flow that develops from an even velocity (default False)
        coil_diameter: [m] between centres of the hose, if it lies coiled (default None)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'hose'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, length: float | str, bore: float | str, roughness: float | str = '0.0015 mm', rating: float | str | None = None, wall_thickness: float | str | None = None, entrance: bool = False, coil_diameter: float | str | None = None) -> None:
        """
        A hose, a tube or a length of bar. Law: Darcy-Weisbach with 64/Re below Re 2000, Colebrook-White
        above 4000, a smooth cubic between; coiled: Mishra and Gupta 1979; entrance: Shah 1978.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, length: float | str = ..., bore: float | str = ..., roughness: float | str = ..., rating: float | str | None = ..., wall_thickness: float | str | None = ..., entrance: bool = ..., coil_diameter: float | str | None = ...) -> Hose:
        """
        A new Hose with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] inside diameter, 0.1 mm to 0.5 m
        """
    @property
    def coil_diameter(self) -> float | None:
        """
        [m] between centres of the hose, if it lies coiled
        """
    @property
    def entrance(self) -> bool:
        """
        add the loss of laminar flow that develops from an even velocity
        """
    @property
    def length(self) -> float:
        """
        [m] more than 0, at most 1000 m
        """
    @property
    def rating(self) -> float | None:
        """
        [Pa] working pressure (gauge); a caution when the inlet is above it
        """
    @property
    def roughness(self) -> float:
        """
        [m] of the wall, 0 to 0.05 bore; default: drawn tubing
        """
    @property
    def wall_thickness(self) -> float | None:
        """
        [m] for the outside diameter only
        """
class SuspensionHose:
    """
    A hose with a liquid that thins with shear (power law with a plateau): exact
    laminar flow, Dodge and Metzner 1959 when turbulent.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        length: [m] more than 0, at most 1000 m
        bore: [m] inside diameter, 0.1 mm to 0.5 m
        consistency: K [Pa s^n], 1e-5 to 1e4
        flow_index: n [-], 0.2 to 1
        plateau_shear_rate: [1/s] below which the viscosity is constant (default 0.01)
        rating: [Pa] working pressure (gauge); a caution when the inlet is above it (default None)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'suspension hose'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, length: float | str, bore: float | str, consistency: float, flow_index: float, plateau_shear_rate: float = 0.01, rating: float | str | None = None) -> None:
        """
        A hose with a liquid that thins with shear (power law with a plateau): exact
        laminar flow, Dodge and Metzner 1959 when turbulent.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, length: float | str = ..., bore: float | str = ..., consistency: float = ..., flow_index: float = ..., plateau_shear_rate: float = ..., rating: float | str | None = ...) -> SuspensionHose:
        """
        A new SuspensionHose with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] inside diameter, 0.1 mm to 0.5 m
        """
    @property
    def consistency(self) -> float:
        """
        K [Pa s^n], 1e-5 to 1e4
        """
    @property
    def flow_index(self) -> float:
        """
        n [-], 0.2 to 1
        """
    @property
    def length(self) -> float:
        """
        [m] more than 0, at most 1000 m
        """
    @property
    def plateau_shear_rate(self) -> float:
        """
        [1/s] below which the viscosity is constant
        """
    @property
    def rating(self) -> float | None:
        """
        [Pa] working pressure (gauge); a caution when the inlet is above it
        """
class Barb:
    """
    A short narrow tube inside the end of a hose: contraction, friction, expansion.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] of the barb, 0.1 mm to 0.5 m
        hose_bore: [m] before and behind it, wider than the barb
        length: [m] of the barb, more than 0, at most 0.5 m
        roughness: [m] of its wall, 0 to 0.05 bore (default '0.0015 mm')
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'barb'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, hose_bore: float | str, length: float | str, roughness: float | str = '0.0015 mm') -> None:
        """
        A short narrow tube inside the end of a hose: contraction, friction, expansion.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., hose_bore: float | str = ..., length: float | str = ..., roughness: float | str = ...) -> Barb:
        """
        A new Barb with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] of the barb, 0.1 mm to 0.5 m
        """
    @property
    def hose_bore(self) -> float:
        """
        [m] before and behind it, wider than the barb
        """
    @property
    def length(self) -> float:
        """
        [m] of the barb, more than 0, at most 0.5 m
        """
    @property
    def roughness(self) -> float:
        """
        [m] of its wall, 0 to 0.05 bore
        """
class Reducer:
    """
    One bore becomes another; loses more one way than the other.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        from_bore: [m] at its first place
        to_bore: [m] at its second place; at least 1 % wider or narrower
        cone: [rad] full angle, 5 degrees to 180 (a sudden change) (default '3.141592653589793 rad')
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'reducer'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, from_bore: float | str, to_bore: float | str, cone: float | str = '3.141592653589793 rad') -> None:
        """
        One bore becomes another; loses more one way than the other.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, from_bore: float | str = ..., to_bore: float | str = ..., cone: float | str = ...) -> Reducer:
        """
        A new Reducer with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def cone(self) -> float:
        """
        [rad] full angle, 5 degrees to 180 (a sudden change)
        """
    @property
    def from_bore(self) -> float:
        """
        [m] at its first place
        """
    @property
    def to_bore(self) -> float:
        """
        [m] at its second place; at least 1 % wider or narrower
        """
class Fitting:
    """
    A local loss K = k1/Re + k_inf on the velocity in its bore.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] 0.1 mm to 0.5 m
        k1: laminar constant [-], 1 to 1e5
        k_inf: loss coefficient at high Reynolds number [-], 0 to 1e5
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'fitting'
    @staticmethod
    def ball_valve(*, bore: float | str, method: typing.Any = 'two_constant') -> Fitting:
        """
        A full-line ball valve, open. bore [m]; method as for elbow_90.
        """
    @staticmethod
    def elbow_45(*, bore: float | str, method: typing.Any = 'two_constant') -> Fitting:
        """
        A screwed 45 degree elbow. bore [m]; method as for elbow_90.
        """
    @staticmethod
    def elbow_90(*, bore: float | str, method: typing.Any = 'two_constant') -> Fitting:
        """
        A screwed 90 degree elbow. bore [m]; method: 'two_constant' (Hooper 1981) or 'three_constant' (Darby 1999).
        """
    @staticmethod
    def rated(*, bore: float | str, flow: float | str, loss: float | str, k1: typing.Any = 1000.0) -> Fitting:
        """
        A device by one rating point: exactly `loss` [Pa] at `flow` [m3/s] of water at 20 C.
        """
    @staticmethod
    def tee_branch(*, bore: float | str, method: typing.Any = 'two_constant') -> Fitting:
        """
        Round the corner of a tee. bore [m]; method as for elbow_90.
        """
    @staticmethod
    def tee_run(*, bore: float | str, method: typing.Any = 'two_constant') -> Fitting:
        """
        Straight through a tee. bore [m]; method as for elbow_90.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, k1: float, k_inf: float) -> None:
        """
        A local loss K = k1/Re + k_inf on the velocity in its bore.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., k1: float = ..., k_inf: float = ...) -> Fitting:
        """
        A new Fitting with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] 0.1 mm to 0.5 m
        """
    @property
    def k1(self) -> float:
        """
        laminar constant [-], 1 to 1e5
        """
    @property
    def k_inf(self) -> float:
        """
        loss coefficient at high Reynolds number [-], 0 to 1e5
        """
class Orifice:
    """
    A metering orifice: a sharp plate, or a hole with a length. Creeping flow by Sampson 1891 and
    Dagan 1982, free jet at high Reynolds number, bridge fitted to Wu 2002.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] 0.05 mm to 50 mm
        thickness: [m] length of the hole, 0 (sharp plate) to 10 bores (default 0.0)
        discharge_coefficient: [-] at high Reynolds number; default by shape (default None)
        bore_tolerance: [m] holes of one box are this much wider or narrower (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'orifice'
    @staticmethod
    def rated(*, flow: float | str, pressure: float | str) -> Orifice:
        """
        The sharp orifice that passes `flow` [m3/s] of water at 20 C with `pressure` [Pa] across it.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, thickness: float | str = 0.0, discharge_coefficient: float | None = None, bore_tolerance: float | str = 0.0) -> None:
        """
        A metering orifice: a sharp plate, or a hole with a length. Creeping flow by Sampson 1891 and
        Dagan 1982, free jet at high Reynolds number, bridge fitted to Wu 2002.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def flow_at(self, pressure: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Flow [m3/s] with pressures [Pa] across it; takes arrays.
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., thickness: float | str = ..., discharge_coefficient: float | None = ..., bore_tolerance: float | str = ...) -> Orifice:
        """
        A new Orifice with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] 0.05 mm to 50 mm
        """
    @property
    def bore_tolerance(self) -> float:
        """
        [m] holes of one box are this much wider or narrower
        """
    @property
    def discharge_coefficient(self) -> float | None:
        """
        [-] at high Reynolds number; default by shape
        """
    @property
    def thickness(self) -> float:
        """
        [m] length of the hole, 0 (sharp plate) to 10 bores
        """
class OrificePair:
    """
    Two orifices in series.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        first: the one upstream
        second: the one downstream
        gap: [m] between the plates, more than 0 to 1 m
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'orifice pair'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, first: Orifice, second: Orifice, gap: float | str) -> None:
        """
        Two orifices in series.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, first: Orifice = ..., second: Orifice = ..., gap: float | str = ...) -> OrificePair:
        """
        A new OrificePair with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def first(self) -> Orifice:
        """
        the one upstream
        """
    @property
    def gap(self) -> float:
        """
        [m] between the plates, more than 0 to 1 m
        """
    @property
    def second(self) -> Orifice:
        """
        the one downstream
        """
class OpenEnd:
    """
    The end of a tube in the air: its velocity head is lost.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] 0.1 mm to 0.5 m
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'open end'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str) -> None:
        """
        The end of a tube in the air: its velocity head is lost.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ...) -> OpenEnd:
        """
        A new OpenEnd with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] 0.1 mm to 0.5 m
        """
class RowOutlet:
    """
    One or two tubes at the row's end, hanging or not.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] of each tube, 0.1 mm to 0.5 m
        count: tubes that share the row's flow equally, 1 or 2 (default 1)
        fall: [m] of the hanging tube, 0 to 5 m (default 0.0)
        surface_tension: [N/m], 0.01 to 0.1 (default 0.0727)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'row outlet'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, count: int = 1, fall: float | str = 0.0, surface_tension: float = 0.0727) -> None:
        """
        One or two tubes at the row's end, hanging or not.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., count: int = ..., fall: float | str = ..., surface_tension: float = ...) -> RowOutlet:
        """
        A new RowOutlet with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] of each tube, 0.1 mm to 0.5 m
        """
    @property
    def count(self) -> int:
        """
        tubes that share the row's flow equally, 1 or 2
        """
    @property
    def fall(self) -> float:
        """
        [m] of the hanging tube, 0 to 5 m
        """
    @property
    def surface_tension(self) -> float:
        """
        [N/m], 0.01 to 0.1
        """
class VentedTube:
    """
    Hanging tubes that take in air at their head while they do not run full.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] of each tube, 0.1 mm to 0.5 m
        count: tubes that share the row's flow equally, 1 or 2 (default 1)
        fall: [m] from head to foot, 0 to 5 m (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'one_way'
    kind: typing.ClassVar[str] = 'vented tube'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, count: int = 1, fall: float | str = 0.0) -> None:
        """
        Hanging tubes that take in air at their head while they do not run full.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., count: int = ..., fall: float | str = ...) -> VentedTube:
        """
        A new VentedTube with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] of each tube, 0.1 mm to 0.5 m
        """
    @property
    def count(self) -> int:
        """
        tubes that share the row's flow equally, 1 or 2
        """
    @property
    def fall(self) -> float:
        """
        [m] from head to foot, 0 to 5 m
        """
class CheckValve:
    """
    A spring check valve: no flow until the crack pressure, then a passage; never back.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        crack: [Pa] 0 to 2 MPa
        passage_bore: [m] of the sharp hole that loses as much, 0.05 mm to 50 mm
        full_open: [Pa] pressure across it at which it is fully open; None: at once (default None)
        crack_spread: [Pa] valves of one box crack within this much of `crack` (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'one_way'
    kind: typing.ClassVar[str] = 'check valve'
    @staticmethod
    def rated(*, crack: float | str, flow: float | str, loss: float | str) -> CheckValve:
        """
        A valve that cracks at `crack` [Pa] and loses `loss` [Pa] more at `flow` [m3/s] of water at 20 C.
        """
    @staticmethod
    def sprung(*, crack: float | str, full_open: float | str, flow: float | str) -> CheckValve:
        """
        A valve that cracks at `crack` [Pa] and is fully open at `full_open` [Pa], then passing `flow` [m3/s] of water.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, crack: float | str, passage_bore: float | str, full_open: float | str | None = None, crack_spread: float | str = 0.0) -> None:
        """
        A spring check valve: no flow until the crack pressure, then a passage; never back.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, crack: float | str = ..., passage_bore: float | str = ..., full_open: float | str | None = ..., crack_spread: float | str = ...) -> CheckValve:
        """
        A new CheckValve with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def crack(self) -> float:
        """
        [Pa] 0 to 2 MPa
        """
    @property
    def crack_spread(self) -> float:
        """
        [Pa] valves of one box crack within this much of `crack`
        """
    @property
    def full_open(self) -> float | None:
        """
        [Pa] pressure across it at which it is fully open; None: at once
        """
    @property
    def passage_bore(self) -> float:
        """
        [m] of the sharp hole that loses as much, 0.05 mm to 50 mm
        """
class ReliefValve:
    """
    Opens at its set pressure.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        set: [Pa] more than 0, at most 20 MPa
        passage_bore: [m] of the sharp hole that loses as much
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'one_way'
    kind: typing.ClassVar[str] = 'relief valve'
    @staticmethod
    def rated(*, set: float | str, flow: float | str, accumulation: float | str) -> ReliefValve:
        """
        A valve set at `set` [Pa] that passes `flow` [m3/s] of water at 20 C with `accumulation` [Pa] more.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, set: float | str, passage_bore: float | str) -> None:
        """
        Opens at its set pressure.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, set: float | str = ..., passage_bore: float | str = ...) -> ReliefValve:
        """
        A new ReliefValve with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def passage_bore(self) -> float:
        """
        [m] of the sharp hole that loses as much
        """
    @property
    def set(self) -> float:
        """
        [Pa] more than 0, at most 20 MPa
        """
class PressureRegulator:
    """
    Holds the pressure behind it.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        set: [Pa] gauge pressure to hold behind it, more than 0, at most 5 MPa
        passage_bore: [m] of the sharp hole that loses as much wide open
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'outer_corrected'
    kind: typing.ClassVar[str] = 'pressure regulator'
    @staticmethod
    def rated(*, set: float | str, flow: float | str, loss: float | str) -> PressureRegulator:
        """
        A regulator set at `set` [Pa] that loses `loss` [Pa] wide open at `flow` [m3/s] of water at 20 C.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, set: float | str, passage_bore: float | str) -> None:
        """
        Holds the pressure behind it.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, set: float | str = ..., passage_bore: float | str = ...) -> PressureRegulator:
        """
        A new PressureRegulator with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def passage_bore(self) -> float:
        """
        [m] of the sharp hole that loses as much wide open
        """
    @property
    def set(self) -> float:
        """
        [Pa] gauge pressure to hold behind it, more than 0, at most 5 MPa
        """
class Valve:
    """
    A section, ball or throttling valve by its Kv (IEC 60534-2-1). open=0 is shut.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        kv: [m3/s] water at 1 bar across it, fully open
        bore: [m] of the valve and of the line beside it, 0.1 mm to 0.5 m
        open: share of its travel [-], 0 (shut) to 1 (default 1.0)
        characteristic: how its coefficient follows its travel (default 'equal_percentage')
        rangeability: rated over least controllable coefficient [-], 2 to 1000 (default 50.0)
        recovery: pressure recovery FL [-], 0.3 to 1 (default 0.9)
        style: style modifier Fd [-], 0.05 to 1 (default 0.46)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'valve'
    @staticmethod
    def ball(*, kv: float | str, bore: float | str, open: typing.Any = 1.0) -> Valve:
        """
        A ball valve. kv [m3/s], bore [m].
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, kv: float | str, bore: float | str, open: float = 1.0, characteristic: typing.Literal['equal_percentage', 'linear'] = 'equal_percentage', rangeability: float = 50.0, recovery: float = 0.9, style: float = 0.46) -> None:
        """
        A section, ball or throttling valve by its Kv (IEC 60534-2-1). open=0 is shut.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, kv: float | str = ..., bore: float | str = ..., open: float = ..., characteristic: typing.Literal['equal_percentage', 'linear'] = ..., rangeability: float = ..., recovery: float = ..., style: float = ...) -> Valve:
        """
        A new Valve with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] of the valve and of the line beside it, 0.1 mm to 0.5 m
        """
    @property
    def characteristic(self) -> typing.Literal['equal_percentage', 'linear']:
        """
        how its coefficient follows its travel
        """
    @property
    def kv(self) -> float:
        """
        [m3/s] water at 1 bar across it, fully open
        """
    @property
    def open(self) -> float:
        """
        share of its travel [-], 0 (shut) to 1
        """
    @property
    def rangeability(self) -> float:
        """
        rated over least controllable coefficient [-], 2 to 1000
        """
    @property
    def recovery(self) -> float:
        """
        pressure recovery FL [-], 0.3 to 1
        """
    @property
    def style(self) -> float:
        """
        style modifier Fd [-], 0.05 to 1
        """
class PulsedValve:
    """
    A solenoid valve that is open a share of the time.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        passage_bore: [m] of the sharp hole that loses the same, 0.05 mm to 50 mm
        outlet_bore: [m] sharp metering orifice right behind it (default None)
        duty: share of the time that the signal is on [-], more than 0 to 1 (default 1.0)
        frequency: pulses a second [Hz], 0.1 to 100 (default 10.0)
        opening_lag: [s] from signal to open, 0 to 1 s (default 0.0)
        closing_lag: [s] from its end to shut, 0 to 1 s (default 0.0)
        least_usable_duty: below it a caution [-] (default 0.2)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'pulsed valve'
    @staticmethod
    def rated(*, flow: float | str, loss: float | str) -> PulsedValve:
        """
        A valve that loses `loss` [Pa] at `flow` [m3/s] of water at 20 C while it is open.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, passage_bore: float | str, outlet_bore: float | str | None = None, duty: float = 1.0, frequency: float = 10.0, opening_lag: float | str = 0.0, closing_lag: float | str = 0.0, least_usable_duty: float = 0.2) -> None:
        """
        A solenoid valve that is open a share of the time.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, passage_bore: float | str = ..., outlet_bore: float | str | None = ..., duty: float = ..., frequency: float = ..., opening_lag: float | str = ..., closing_lag: float | str = ..., least_usable_duty: float = ...) -> PulsedValve:
        """
        A new PulsedValve with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def closing_lag(self) -> float:
        """
        [s] from its end to shut, 0 to 1 s
        """
    @property
    def duty(self) -> float:
        """
        share of the time that the signal is on [-], more than 0 to 1
        """
    @property
    def frequency(self) -> float:
        """
        pulses a second [Hz], 0.1 to 100
        """
    @property
    def least_usable_duty(self) -> float:
        """
        below it a caution [-]
        """
    @property
    def opening_lag(self) -> float:
        """
        [s] from signal to open, 0 to 1 s
        """
    @property
    def outlet_bore(self) -> float | None:
        """
        [m] sharp metering orifice right behind it
        """
    @property
    def passage_bore(self) -> float:
        """
        [m] of the sharp hole that loses the same, 0.05 mm to 50 mm
        """
class Strainer:
    """
    A screen in its body, clean or partly blocked.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] of its ports, 0.1 mm to 0.5 m
        rated_flow: [m3/s] water, 20 C
        rated_loss: [Pa] clean, at rated_flow
        opening: [m] of one mesh, 0.01 mm to 10 mm; see mesh_opening()
        open_area: [m2] of the clean screen, all openings together
        blocked: share of the open area [-], 0 to 0.99 (default 0.0)
        orifice_bore: [m] smallest hole that it protects; for cautions (default None)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'strainer'
    @staticmethod
    def mesh_opening(mesh: typing.SupportsInt | typing.SupportsIndex) -> float:
        """
        Opening [m] of a mesh number.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, rated_flow: float | str, rated_loss: float | str, opening: float | str, open_area: float | str, blocked: float = 0.0, orifice_bore: float | str | None = None) -> None:
        """
        A screen in its body, clean or partly blocked.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., rated_flow: float | str = ..., rated_loss: float | str = ..., opening: float | str = ..., open_area: float | str = ..., blocked: float = ..., orifice_bore: float | str | None = ...) -> Strainer:
        """
        A new Strainer with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def blocked(self) -> float:
        """
        share of the open area [-], 0 to 0.99
        """
    @property
    def bore(self) -> float:
        """
        [m] of its ports, 0.1 mm to 0.5 m
        """
    @property
    def open_area(self) -> float:
        """
        [m2] of the clean screen, all openings together
        """
    @property
    def opening(self) -> float:
        """
        [m] of one mesh, 0.01 mm to 10 mm; see mesh_opening()
        """
    @property
    def orifice_bore(self) -> float | None:
        """
        [m] smallest hole that it protects; for cautions
        """
    @property
    def rated_flow(self) -> float:
        """
        [m3/s] water, 20 C
        """
    @property
    def rated_loss(self) -> float:
        """
        [Pa] clean, at rated_flow
        """
class FlowMeter:
    """
    A loss known at one flow, and a range of flows in which it reads true.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] of its ports, 0.1 mm to 0.5 m
        rated_flow: [m3/s] water, 20 C
        rated_loss: [Pa] at rated_flow
        least: [m3/s] of its working range
        most: [m3/s] of its working range
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'flow meter'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, rated_flow: float | str, rated_loss: float | str, least: float | str, most: float | str) -> None:
        """
        A loss known at one flow, and a range of flows in which it reads true.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, bore: float | str = ..., rated_flow: float | str = ..., rated_loss: float | str = ..., least: float | str = ..., most: float | str = ...) -> FlowMeter:
        """
        A new FlowMeter with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def bore(self) -> float:
        """
        [m] of its ports, 0.1 mm to 0.5 m
        """
    @property
    def least(self) -> float:
        """
        [m3/s] of its working range
        """
    @property
    def most(self) -> float:
        """
        [m3/s] of its working range
        """
    @property
    def rated_flow(self) -> float:
        """
        [m3/s] water, 20 C
        """
    @property
    def rated_loss(self) -> float:
        """
        [Pa] at rated_flow
        """
class TablePoint:
    """
    One measured point of a part.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        flow: [m3/s] through it, more than 0
        drop: [Pa] across it, more than 0
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, flow: float | str, drop: float | str) -> None:
        """
        One measured point of a part.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, flow: float | str = ..., drop: float | str = ...) -> TablePoint:
        """
        A new TablePoint with some fields changed.
        """
    @property
    def drop(self) -> float:
        """
        [Pa] across it, more than 0
        """
    @property
    def flow(self) -> float:
        """
        [m3/s] through it, more than 0
        """
class TablePart:
    """
    A part by a table of flow and drop; by similarity in another liquid.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        points: 2 to 1000 TablePoint, flow and drop both rising
        density: [kg/m3] of the measured liquid (default '998.2 kg/m3')
        viscosity: [Pa·s] of the measured liquid (default '1.0016 cP')
        rigid: nothing in it moves with the flow (default True)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'passage'
    kind: typing.ClassVar[str] = 'part by table'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, points: collections.abc.Sequence[TablePoint], density: float | str = '998.2 kg/m3', viscosity: float | str = '1.0016 cP', rigid: bool = True) -> None:
        """
        A part by a table of flow and drop; by similarity in another liquid.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, points: collections.abc.Sequence[TablePoint] = ..., density: float | str = ..., viscosity: float | str = ..., rigid: bool = ...) -> TablePart:
        """
        A new TablePart with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def density(self) -> float:
        """
        [kg/m3] of the measured liquid
        """
    @property
    def points(self) -> collections.abc.Sequence[TablePoint]:
        """
        2 to 1000 TablePoint, flow and drop both rising
        """
    @property
    def rigid(self) -> bool:
        """
        nothing in it moves with the flow
        """
    @property
    def viscosity(self) -> float:
        """
        [Pa·s] of the measured liquid
        """
class CentrifugalPump:
    """
    A gain that falls as the flow rises, by two figures.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        shutoff: [Pa] gain at no flow, 1 Pa to 5 MPa
        free_flow: [m3/s] flow at no gain, more than 0, at most 1 m3/s
        linear_share: of the fall that is linear in flow [-], 0.001 to 1 (default 0.05)
        efficiency: of the pump alone [-], 0.01 to 1; None: no shaft power is told (default None)
        speed: against the curve's speed [-], 0.05 to 3 (default 1.0)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'source'
    kind: typing.ClassVar[str] = 'centrifugal pump'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, shutoff: float | str, free_flow: float | str, linear_share: float = 0.05, efficiency: float | None = None, speed: float = 1.0) -> None:
        """
        A gain that falls as the flow rises, by two figures.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, shutoff: float | str = ..., free_flow: float | str = ..., linear_share: float = ..., efficiency: float | None = ..., speed: float = ...) -> CentrifugalPump:
        """
        A new CentrifugalPump with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def efficiency(self) -> float | None:
        """
        of the pump alone [-], 0.01 to 1; None: no shaft power is told
        """
    @property
    def free_flow(self) -> float:
        """
        [m3/s] flow at no gain, more than 0, at most 1 m3/s
        """
    @property
    def linear_share(self) -> float:
        """
        of the fall that is linear in flow [-], 0.001 to 1
        """
    @property
    def shutoff(self) -> float:
        """
        [Pa] gain at no flow, 1 Pa to 5 MPa
        """
    @property
    def speed(self) -> float:
        """
        against the curve's speed [-], 0.05 to 3
        """
class PumpPoint:
    """
    One point of a pump curve.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        flow: [m3/s] first row 0, then rising
        gain: [Pa] total, never rising from row to row
        efficiency: pump alone [-], 0 to 1 (default None)
        suction_head: [m] net positive suction head required (default None)
        shaft_power: [W] (default None)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, flow: float | str, gain: float | str, efficiency: float | None = None, suction_head: float | str | None = None, shaft_power: float | None = None) -> None:
        """
        One point of a pump curve.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, flow: float | str = ..., gain: float | str = ..., efficiency: float | None = ..., suction_head: float | str | None = ..., shaft_power: float | None = ...) -> PumpPoint:
        """
        A new PumpPoint with some fields changed.
        """
    @property
    def efficiency(self) -> float | None:
        """
        pump alone [-], 0 to 1
        """
    @property
    def flow(self) -> float:
        """
        [m3/s] first row 0, then rising
        """
    @property
    def gain(self) -> float:
        """
        [Pa] total, never rising from row to row
        """
    @property
    def shaft_power(self) -> float | None:
        """
        [W]
        """
    @property
    def suction_head(self) -> float | None:
        """
        [m] net positive suction head required
        """
class PumpCurve:
    """
    A centrifugal pump by its points.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        points: 4 or more PumpPoint
        speed: against the points' speed [-], 0.05 to 3 (default 1.0)
        points_density: [kg/m3] of the liquid in which the gains hold (default '998.2 kg/m3')
        atmosphere: [Pa] absolute, for the suction head (default '101.325 kPa')
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'source'
    kind: typing.ClassVar[str] = 'pump curve'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, points: collections.abc.Sequence[PumpPoint], speed: float = 1.0, points_density: float | str = '998.2 kg/m3', atmosphere: float | str = '101.325 kPa') -> None:
        """
        A centrifugal pump by its points.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, points: collections.abc.Sequence[PumpPoint] = ..., speed: float = ..., points_density: float | str = ..., atmosphere: float | str = ...) -> PumpCurve:
        """
        A new PumpCurve with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def atmosphere(self) -> float:
        """
        [Pa] absolute, for the suction head
        """
    @property
    def points(self) -> collections.abc.Sequence[PumpPoint]:
        """
        4 or more PumpPoint
        """
    @property
    def points_density(self) -> float:
        """
        [kg/m3] of the liquid in which the gains hold
        """
    @property
    def speed(self) -> float:
        """
        against the points' speed [-], 0.05 to 3
        """
class PumpSlip:
    """
    What a positive pump delivers less than it sweeps, measured once.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        flow: [m3/s] swept less delivered
        gain: [Pa] at which it was measured, 1 kPa to 20 MPa
        viscosity: [Pa·s] of the liquid: water at 20 C (default '1.0016 cP')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, flow: float | str, gain: float | str, viscosity: float | str = '1.0016 cP') -> None:
        """
        What a positive pump delivers less than it sweeps, measured once.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, flow: float | str = ..., gain: float | str = ..., viscosity: float | str = ...) -> PumpSlip:
        """
        A new PumpSlip with some fields changed.
        """
    @property
    def flow(self) -> float:
        """
        [m3/s] swept less delivered
        """
    @property
    def gain(self) -> float:
        """
        [Pa] at which it was measured, 1 kPa to 20 MPa
        """
    @property
    def viscosity(self) -> float:
        """
        [Pa·s] of the liquid: water at 20 C
        """
class PositivePump:
    """
    A piston, diaphragm or roller pump: swept flow less slip.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        displacement: [m3] swept a revolution, more than 0, at most 0.1 m3
        rpm: revolutions a minute, more than 0, at most 10,000
        slip: measured once
        max_pressure: [Pa] at the outlet, gauge, to 20 MPa (default None)
        efficiency: of the pump alone [-], 0.01 to 1; None: no shaft power is told (default None)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'source'
    kind: typing.ClassVar[str] = 'positive pump'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, displacement: float | str, rpm: float, slip: PumpSlip, max_pressure: float | str | None = None, efficiency: float | None = None) -> None:
        """
        A piston, diaphragm or roller pump: swept flow less slip.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, displacement: float | str = ..., rpm: float = ..., slip: PumpSlip = ..., max_pressure: float | str | None = ..., efficiency: float | None = ...) -> PositivePump:
        """
        A new PositivePump with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def displacement(self) -> float:
        """
        [m3] swept a revolution, more than 0, at most 0.1 m3
        """
    @property
    def efficiency(self) -> float | None:
        """
        of the pump alone [-], 0.01 to 1; None: no shaft power is told
        """
    @property
    def max_pressure(self) -> float | None:
        """
        [Pa] at the outlet, gauge, to 20 MPa
        """
    @property
    def rpm(self) -> float:
        """
        revolutions a minute, more than 0, at most 10,000
        """
    @property
    def slip(self) -> PumpSlip:
        """
        measured once
        """
class GroundDrivenPump:
    """
    A positive pump turned by a ground wheel.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        displacement: [m3] swept over `distance`, more than 0, at most 1 m3
        distance: [m] travelled meanwhile, 1 mm to 10 km
        ground_speed: [m/s] 0.01 to 20 m/s
        slip: measured once
        max_pressure: [Pa] at the outlet, gauge, to 20 MPa (default None)
        efficiency: of the pump alone [-], 0.01 to 1; None: no shaft power is told (default None)
    """
    __hash__: typing.ClassVar[None] = None
    contract: typing.ClassVar[str] = 'source'
    kind: typing.ClassVar[str] = 'ground-driven pump'
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, displacement: float | str, distance: float | str, ground_speed: float | str, slip: PumpSlip, max_pressure: float | str | None = None, efficiency: float | None = None) -> None:
        """
        A positive pump turned by a ground wheel.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, flow: float | str, liquid: LiquidState, *, pressure: float | str = 0.0) -> list:
        """
        Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].
        """
    def drop(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.
        """
    def drop_slopes(self, flow: float | str, liquid: LiquidState) -> dict:
        """
        The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density
        [Pa per kg/m3] and viscosity [Pa per Pa s].
        """
    def inputs(self) -> dict:
        """
        Its numeric inputs: name to (value in SI or None, unit).
        """
    def replace(self, *, displacement: float | str = ..., distance: float | str = ..., ground_speed: float | str = ..., slip: PumpSlip = ..., max_pressure: float | str | None = ..., efficiency: float | None = ...) -> GroundDrivenPump:
        """
        A new GroundDrivenPump with some fields changed.
        """
    def reynolds(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Reynolds number [-] on its bore at flows; 0 for a part without a bore.
        """
    def slope(self, flow: numpy.typing.ArrayLike, liquid: LiquidState) -> typing.Any:
        """
        Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.
        """
    @property
    def displacement(self) -> float:
        """
        [m3] swept over `distance`, more than 0, at most 1 m3
        """
    @property
    def distance(self) -> float:
        """
        [m] travelled meanwhile, 1 mm to 10 km
        """
    @property
    def efficiency(self) -> float | None:
        """
        of the pump alone [-], 0.01 to 1; None: no shaft power is told
        """
    @property
    def ground_speed(self) -> float:
        """
        [m/s] 0.01 to 20 m/s
        """
    @property
    def max_pressure(self) -> float | None:
        """
        [Pa] at the outlet, gauge, to 20 MPa
        """
    @property
    def slip(self) -> PumpSlip:
        """
        measured once
        """
class UprightTank:
    """
    A tank with upright walls.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        plan: [m2] inside area, 1 cm2 to 1000 m2
        height: [m] inside, 1 cm to 20 m
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, plan: float | str, height: float | str) -> None:
        """
        A tank with upright walls.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, plan: float | str = ..., height: float | str = ...) -> UprightTank:
        """
        A new UprightTank with some fields changed.
        """
    @property
    def height(self) -> float:
        """
        [m] inside, 1 cm to 20 m
        """
    @property
    def plan(self) -> float:
        """
        [m2] inside area, 1 cm2 to 1000 m2
        """
class LyingTank:
    """
    A round or oval tank that lies down.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        height: [m] inside; equal to the width: round
        width: [m] inside
        length: [m] inside, 1 cm to 100 m
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, height: float | str, width: float | str, length: float | str) -> None:
        """
        A round or oval tank that lies down.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, height: float | str = ..., width: float | str = ..., length: float | str = ...) -> LyingTank:
        """
        A new LyingTank with some fields changed.
        """
    @property
    def height(self) -> float:
        """
        [m] inside; equal to the width: round
        """
    @property
    def length(self) -> float:
        """
        [m] inside, 1 cm to 100 m
        """
    @property
    def width(self) -> float:
        """
        [m] inside
        """
class TankRow:
    """
    One row of a tank's table.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        level: [m] above the inside bottom; first row 0, then rising
        volume: [m3] first row 0, then rising
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, level: float | str, volume: float | str) -> None:
        """
        One row of a tank's table.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, level: float | str = ..., volume: float | str = ...) -> TankRow:
        """
        A new TankRow with some fields changed.
        """
    @property
    def level(self) -> float:
        """
        [m] above the inside bottom; first row 0, then rising
        """
    @property
    def volume(self) -> float:
        """
        [m3] first row 0, then rising
        """
class TankTable:
    """
    A tank of any shape by a table.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        rows: 4 or more TankRow
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, rows: collections.abc.Sequence[TankRow]) -> None:
        """
        A tank of any shape by a table.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, rows: collections.abc.Sequence[TankRow] = ...) -> TankTable:
        """
        A new TankTable with some fields changed.
        """
    @property
    def rows(self) -> collections.abc.Sequence[TankRow]:
        """
        4 or more TankRow
        """
class Tank:
    """
    A tank: level, volume, pressure at its outlet.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        shape: an UprightTank, a LyingTank or a TankTable
        top_pressure: [Pa] gauge, of the air above the liquid; 0 with an open vent (default 0.0)
        outlet_level: [m] of the outlet's opening (default 0.0)
        lowest_level: [m] below it nothing is drawn; at least the outlet's level (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, shape: UprightTank | LyingTank | TankTable, top_pressure: float | str = 0.0, outlet_level: float | str = 0.0, lowest_level: float | str = 0.0) -> None:
        """
        A tank: level, volume, pressure at its outlet.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def level(self, volume: float | str) -> float:
        """
        Level [m] of a volume [m3] of liquid.
        """
    def outlet_pressure(self, level: float | str, liquid: LiquidState) -> float:
        """
        Gauge pressure [Pa] at its outlet with the liquid at a level [m].
        """
    def replace(self, *, shape: UprightTank | LyingTank | TankTable = ..., top_pressure: float | str = ..., outlet_level: float | str = ..., lowest_level: float | str = ...) -> Tank:
        """
        A new Tank with some fields changed.
        """
    def volume(self, level: float | str) -> float:
        """
        Volume [m3] of the liquid at a level [m].
        """
    @property
    def capacity(self) -> float:
        """
        [m3]
        """
    @property
    def lowest_level(self) -> float:
        """
        [m] below it nothing is drawn; at least the outlet's level
        """
    @property
    def outlet_level(self) -> float:
        """
        [m] of the outlet's opening
        """
    @property
    def shape(self) -> UprightTank | LyingTank | TankTable:
        """
        an UprightTank, a LyingTank or a TankTable
        """
    @property
    def top_pressure(self) -> float:
        """
        [Pa] gauge, of the air above the liquid; 0 with an open vent
        """
class Network:
    """
    Places joined by parts.
    
        n = Network()
        n.add_supply('pump', pressure='30 psi')
        n.add_air('row 1')
        n.add_part('hose 1', 'pump', 'row 1', Hose(length='14 ft', bore='3/8 in'))
        solve(n, Liquid('10-34-0').at('40 F')).flow
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> tuple:
        ...
    def __init__(self) -> None:
        """
        An empty network.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    def add_air(self, id: str, *, elevation: float | str = 0.0) -> None:
        """
        A place open to the air, where liquid leaves. elevation [m] above any one datum.
        """
    def add_drawn(self, id: str, *, flow: float | str, elevation: float | str = 0.0) -> None:
        """
        A place from which a flow [m3/s] is taken, whatever the pressure. elevation [m] above any one datum.
        """
    def add_fed(self, id: str, *, flow: float | str, elevation: float | str = 0.0) -> None:
        """
        A place into which a flow [m3/s] is pushed, whatever the pressure. elevation [m] above any one datum.
        """
    def add_part(self, id: str, from_place: str, to_place: str, part: typing.Any) -> None:
        """
        Joins two places by a part; liquid that goes from the first to the second counts as positive.
        Raises InputError for an unknown place (with the nearest name) or an id used twice.
        """
    def add_place(self, id: str, *, elevation: float | str = 0.0) -> None:
        """
        A place where parts meet. elevation [m] above any one datum.
        """
    def add_supply(self, id: str, *, pressure: float | str, elevation: float | str = 0.0) -> None:
        """
        A place held at a total pressure [Pa gauge]. elevation [m] above any one datum.
        """
    def copy(self) -> Network:
        """
        Another network, equal now.
        """
    def part(self, id: str) -> typing.Any:
        """
        The part of this id, as its own type.
        """
    def place(self, id: str) -> dict:
        """
        A place as a dict: kind, elevation [m], given pressure [Pa gauge], flow pushed in [m3/s].
        """
    def replace_part(self, id: str, part: typing.Any) -> None:
        """
        Puts another part in the place of one.
        """
    def set_fed_flow(self, id: str, flow: float | str) -> None:
        """
        Gives a fed place another flow [m3/s].
        """
    def set_supply_pressure(self, id: str, pressure: float | str) -> None:
        """
        Gives a supply another total pressure [Pa gauge].
        """
    @property
    def parts(self) -> list:
        """
        Every part as a dict: id, kind, from, to, part.
        """
    @property
    def places(self) -> list:
        """
        Every place as place() has it, in order.
        """
class Tee:
    """
    A tee with a straight run of one bore and a branch at a right angle: what it does to total pressure,
    whichever way its three legs flow. It has three ends, so it is no part between two places: TeeAt puts it
    where parts join, for solve(). Dividing and combining: Crane TP-410 2009; meeting and parting: Idelchik,
    diagram 7-29; turbulent flow (Re 1e4), else cautioned.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        run_bore: [m] 1 mm to 0.5 m
        branch_bore: [m] a tenth of the run's to the run's
        parting: k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3 (default 1.5)
        factor: on all its published losses [-], 0 to 3; 1: as published (default 1.0)
    """
    __hash__: typing.ClassVar[None] = None
    @staticmethod
    def state(*, left: float | str, right: float | str) -> typing.Any:
        """
        Which way a tee flows: 'still', 'dividing', 'combining', 'meeting' or 'parting'. left, right: flows out of it
        by the ends of its run [m3/s], in negative; the branch takes what they leave.
        """
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, run_bore: float | str, branch_bore: float | str, parting: float = 1.5, factor: float = 1.0) -> None:
        """
        A tee with a straight run of one bore and a branch at a right angle: what it does to total pressure,
        whichever way its three legs flow. It has three ends, so it is no part between two places: TeeAt puts it
        where parts join, for solve(). Dividing and combining: Crane TP-410 2009; meeting and parting: Idelchik,
        diagram 7-29; turbulent flow (Re 1e4), else cautioned.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def cautions(self, *, left: float | str, right: float | str, liquid: LiquidState, matters: float | str) -> list:
        """
        A caution where the flow is not turbulent enough for the published losses and they count: more than a
        hundredth of `matters` [Pa], such as a row's orifice drop.
        """
    def levels(self, *, left: float | str, right: float | str, density: float | str) -> dict:
        """
        Total pressure just inside each leg over that of the tee's place [Pa], a dict; the leg that the place stands
        for has 0. left, right: as in state(). density [kg/m3].
        """
    def replace(self, *, run_bore: float | str = ..., branch_bore: float | str = ..., parting: float = ..., factor: float = ...) -> Tee:
        """
        A new Tee with some fields changed.
        """
    @property
    def branch_bore(self) -> float:
        """
        [m] a tenth of the run's to the run's
        """
    @property
    def factor(self) -> float:
        """
        on all its published losses [-], 0 to 3; 1: as published
        """
    @property
    def parting(self) -> float:
        """
        k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3
        """
    @property
    def run_bore(self) -> float:
        """
        [m] 1 mm to 0.5 m
        """
class TeeAt:
    """
    A tee and where it stands: a place of a network and the parts that are its legs there, for
    solve(network, liquid, tees=[...]). An end of the run without a part is plugged: an elbow.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        place: id of the place
        branches: ids of one part or more that leave the branch side by side
        left: id of the part at one end of the run; None: plugged (default None)
        right: id of the part at the other end; None: plugged (default None)
        run_bore: [m] 1 mm to 0.5 m; None: of the part at its left end, else at its right (default None)
        branch_bore: [m] a tenth of the run's to the run's; None: of a tube with the area of all branches (default None)
        parting: k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3 (default 1.5)
        factor: on all its published losses [-], 0 to 3; 1: as published (default 1.0)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, place: str, branches: collections.abc.Sequence[str], left: str | None = None, right: str | None = None, run_bore: float | str | None = None, branch_bore: float | str | None = None, parting: float = 1.5, factor: float = 1.0) -> None:
        """
        A tee and where it stands: a place of a network and the parts that are its legs there, for
        solve(network, liquid, tees=[...]). An end of the run without a part is plugged: an elbow.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, place: str = ..., branches: collections.abc.Sequence[str] = ..., left: str | None = ..., right: str | None = ..., run_bore: float | str | None = ..., branch_bore: float | str | None = ..., parting: float = ..., factor: float = ...) -> TeeAt:
        """
        A new TeeAt with some fields changed.
        """
    @property
    def branch_bore(self) -> float | None:
        """
        [m] a tenth of the run's to the run's; None: of a tube with the area of all branches
        """
    @property
    def branches(self) -> collections.abc.Sequence[str]:
        """
        ids of one part or more that leave the branch side by side
        """
    @property
    def factor(self) -> float:
        """
        on all its published losses [-], 0 to 3; 1: as published
        """
    @property
    def left(self) -> str | None:
        """
        id of the part at one end of the run; None: plugged
        """
    @property
    def parting(self) -> float:
        """
        k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3
        """
    @property
    def place(self) -> str:
        """
        id of the place
        """
    @property
    def right(self) -> str | None:
        """
        id of the part at the other end; None: plugged
        """
    @property
    def run_bore(self) -> float | None:
        """
        [m] 1 mm to 0.5 m; None: of the part at its left end, else at its right
        """
class Solution:
    """
    Flow in every part, pressure at every place, and how good the answer is.
    
    Arrays are read-only views into the solution, by part (part_ids) or by place (place_ids).
    A solution keeps the network as it was solved.
    """
    def __getstate__(self) -> tuple[tuple, LiquidState, typing.Any, typing.Any]:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    def part(self, id: str) -> dict:
        """
        Everything known of one part as a dict; flow [m3/s], drop [Pa], velocity [m/s] ...
        """
    def parts_frame(self) -> typing.Any:
        """
        The parts as a pandas DataFrame, SI units in the column names.
        """
    def place(self, id: str) -> dict:
        """
        Everything known of one place as a dict; pressure and its bounds [Pa gauge], elevation [m].
        """
    def places_frame(self) -> typing.Any:
        """
        The places as a pandas DataFrame, SI units in the column names.
        """
    @property
    def cautions(self) -> list:
        """
        What a person should know, a list of Caution.
        """
    @property
    def current(self) -> bool:
        """
        False when the network has been changed since: solve it again.
        """
    @property
    def determined(self) -> numpy.ndarray:
        """
        False for places that shut one-way parts cut off: any pressure within the bounds is possible.
        """
    @property
    def drop(self) -> numpy.ndarray:
        """
        Total-pressure drop of each part, elevation included [Pa].
        """
    @property
    def energy_residual(self) -> float:
        """
        Largest misfit of a part's law over the largest drop [-].
        """
    @property
    def factorisations(self) -> int:
        """
        Linear systems that were factorised.
        """
    @property
    def flow(self) -> numpy.ndarray:
        """
        Flow in each part [m3/s], + from its first place to its second.
        """
    @property
    def inlet_static(self) -> numpy.ndarray:
        """
        Static gauge pressure just inside each part's first end [Pa].
        """
    @property
    def iterations(self) -> int:
        """
        Newton steps.
        """
    @property
    def liquid(self) -> LiquidState:
        """
        The LiquidState it was solved in.
        """
    @property
    def lower(self) -> numpy.ndarray:
        """
        Lower bound of each place's pressure [Pa gauge]; see determined.
        """
    @property
    def mass_residual(self) -> float:
        """
        Largest imbalance of a place over the largest flow [-].
        """
    @property
    def message(self) -> str:
        """
        How it went, in words.
        """
    @property
    def network(self) -> Network:
        """
        A copy of the network as it was solved.
        """
    @property
    def outlet_static(self) -> numpy.ndarray:
        """
        Static gauge pressure just inside each part's second end [Pa].
        """
    @property
    def part_ids(self) -> list:
        """
        Ids of the parts, in the order of the arrays.
        """
    @property
    def place_ids(self) -> list:
        """
        Ids of the places, in the order of the arrays.
        """
    @property
    def pressure(self) -> numpy.ndarray:
        """
        Total gauge pressure at each place [Pa].
        """
    @property
    def regime(self) -> list:
        """
        'still', 'laminar', 'transition' or 'turbulent' in each part.
        """
    @property
    def reynolds(self) -> numpy.ndarray:
        """
        Reynolds number of each part on its bore [-]; 0 where it has none.
        """
    @property
    def status(self) -> typing.Any:
        """
        'converged', 'iteration_limit' or 'not_solved'.
        """
    @property
    def tees(self) -> list:
        """
        Every tee as a dict: place, tee, state, flows out of its legs [m3/s], levels: total pressure just inside
        each leg over that of its place [Pa].
        """
    @property
    def upper(self) -> numpy.ndarray:
        """
        Upper bound of each place's pressure [Pa gauge]; see determined.
        """
    @property
    def usable(self) -> bool:
        """
        True when the numbers may be used.
        """
    @property
    def valve(self) -> list:
        """
        'open' or 'closed' of each part that passes one way, else 'none'.
        """
    @property
    def velocity(self) -> numpy.ndarray:
        """
        Velocity in each part's bore [m/s]; 0 where it has none.
        """
class System:
    """
    A network compiled for one liquid, ready to solve again and again with other supply pressures
    and fed flows, from the last answer if wanted. It works on its own copy of the network.
    """
    def __init__(self, network: Network, liquid: LiquidState) -> None:
        """
        Raises IllPosedError for plumbing that cannot have an answer.
        """
    def __repr__(self) -> str:
        ...
    def set_fed_flow(self, id: str, flow: float | str) -> None:
        """
        Gives a fed place another flow [m3/s].
        """
    def set_liquid(self, liquid: LiquidState) -> None:
        """
        Another LiquidState; the shape stays.
        """
    def set_supply_pressure(self, id: str, pressure: float | str) -> None:
        """
        Gives a supply another total pressure [Pa gauge].
        """
    def solve(self, *, warm: bool = False, mass_tolerance: typing.Any = 1e-12, energy_tolerance: typing.Any = 1e-09, max_iterations: typing.SupportsInt | typing.SupportsIndex = 200) -> Solution:
        """
        Solves. warm: from the last answer. mass_tolerance: largest imbalance over the largest flow [-].
        energy_tolerance: largest misfit of a law over the largest drop [-]. max_iterations: Newton steps.
        Pressure regulators stay wide open here; solve() moves them.
        """
class OrificeByBore:
    """
    A metering hole of a toolbar by its bore.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        bore: [m] 0.05 mm to 50 mm
        thickness: [m] length of the hole; 0: sharp plate (default 0.0)
        discharge_coefficient: [-] at high Reynolds number (default None)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, bore: float | str, thickness: float | str = 0.0, discharge_coefficient: float | None = None) -> None:
        """
        A metering hole of a toolbar by its bore.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, bore: float | str = ..., thickness: float | str = ..., discharge_coefficient: float | None = ...) -> OrificeByBore:
        """
        A new OrificeByBore with some fields changed.
        """
    @property
    def bore(self) -> float:
        """
        [m] 0.05 mm to 50 mm
        """
    @property
    def discharge_coefficient(self) -> float | None:
        """
        [-] at high Reynolds number
        """
    @property
    def thickness(self) -> float:
        """
        [m] length of the hole; 0: sharp plate
        """
class OrificeByRating:
    """
    A metering hole of a toolbar by what it passes of water at 20 C.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        flow: [m3/s] at `pressure`
        pressure: [Pa] across it
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, flow: float | str, pressure: float | str) -> None:
        """
        A metering hole of a toolbar by what it passes of water at 20 C.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, flow: float | str = ..., pressure: float | str = ...) -> OrificeByRating:
        """
        A new OrificeByRating with some fields changed.
        """
    @property
    def flow(self) -> float:
        """
        [m3/s] at `pressure`
        """
    @property
    def pressure(self) -> float:
        """
        [Pa] across it
        """
class CheckValveChoice:
    """
    The check valves of a toolbar, as bought.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        crack: [Pa] pressure that cracks it, at least 0
        rated_flow: [m3/s] water, 20 C
        rated_loss: [Pa] lost at rated_flow beyond the crack pressure; not used with full_open
        full_open: [Pa] across the valve that is just fully open, at rated_flow; None: fully open at once (default None)
        crack_spread: [Pa] valves of one box crack within this on either side (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, crack: float | str, rated_flow: float | str, rated_loss: float | str, full_open: float | str | None = None, crack_spread: float | str = 0.0) -> None:
        """
        The check valves of a toolbar, as bought.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, crack: float | str = ..., rated_flow: float | str = ..., rated_loss: float | str = ..., full_open: float | str | None = ..., crack_spread: float | str = ...) -> CheckValveChoice:
        """
        A new CheckValveChoice with some fields changed.
        """
    @property
    def crack(self) -> float:
        """
        [Pa] pressure that cracks it, at least 0
        """
    @property
    def crack_spread(self) -> float:
        """
        [Pa] valves of one box crack within this on either side
        """
    @property
    def full_open(self) -> float | None:
        """
        [Pa] across the valve that is just fully open, at rated_flow; None: fully open at once
        """
    @property
    def rated_flow(self) -> float:
        """
        [m3/s] water, 20 C
        """
    @property
    def rated_loss(self) -> float:
        """
        [Pa] lost at rated_flow beyond the crack pressure; not used with full_open
        """
class Shortest:
    """
    Every hose as short as its run along the bar allows.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        extra: [m] drop to the row and slack, added to every run (default 0.0)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, extra: float | str = 0.0) -> None:
        """
        Every hose as short as its run along the bar allows.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, extra: float | str = ...) -> Shortest:
        """
        A new Shortest with some fields changed.
        """
    @property
    def extra(self) -> float:
        """
        [m] drop to the row and slack, added to every run
        """
class Manifold:
    """
    A bar with one port a row.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        id: '' for 'manifold 1', 'manifold 2', ... (default '')
        first_row: 1-based; 0: the first row of the toolbar (default 0)
        last_row: 1-based; 0: the last row of the toolbar (default 0)
        position: [m] of its middle, + right; None: the middle of its rows (default None)
        bore: [m] inside (default '1 in')
        port_spacing: [m] between ports (default '0.05 m')
        feed: where liquid enters (default 'middle')
        feed_length: [m] hose from the supply to each feed point; 0: joined directly (default 0.0)
        feed_bore: [m] of that hose (default '1 in')
        height: [m] of the ports above the row outlets (default 0.0)
        junction_losses: ports lose as tees and regain along the bar (default False)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, id: str = '', first_row: int = 0, last_row: int = 0, position: float | str | None = None, bore: float | str = '1 in', port_spacing: float | str = '0.05 m', feed: typing.Literal['middle', 'left', 'right', 'both_ends'] = 'middle', feed_length: float | str = 0.0, feed_bore: float | str = '1 in', height: float | str = 0.0, junction_losses: bool = False) -> None:
        """
        A bar with one port a row.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, id: str = ..., first_row: int = ..., last_row: int = ..., position: float | str | None = ..., bore: float | str = ..., port_spacing: float | str = ..., feed: typing.Literal['middle', 'left', 'right', 'both_ends'] = ..., feed_length: float | str = ..., feed_bore: float | str = ..., height: float | str = ..., junction_losses: bool = ...) -> Manifold:
        """
        A new Manifold with some fields changed.
        """
    @property
    def bore(self) -> float:
        """
        [m] inside
        """
    @property
    def feed(self) -> typing.Literal['middle', 'left', 'right', 'both_ends']:
        """
        where liquid enters
        """
    @property
    def feed_bore(self) -> float:
        """
        [m] of that hose
        """
    @property
    def feed_length(self) -> float:
        """
        [m] hose from the supply to each feed point; 0: joined directly
        """
    @property
    def first_row(self) -> int:
        """
        1-based; 0: the first row of the toolbar
        """
    @property
    def height(self) -> float:
        """
        [m] of the ports above the row outlets
        """
    @property
    def id(self) -> str:
        """
        '' for 'manifold 1', 'manifold 2', ...
        """
    @property
    def junction_losses(self) -> bool:
        """
        ports lose as tees and regain along the bar
        """
    @property
    def last_row(self) -> int:
        """
        1-based; 0: the last row of the toolbar
        """
    @property
    def port_spacing(self) -> float:
        """
        [m] between ports
        """
    @property
    def position(self) -> float | None:
        """
        [m] of its middle, + right; None: the middle of its rows
        """
class RowChange:
    """
    What one row has that the others do not; only what is set differs.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        row: 1-based
        hose_length: [m] of its hose (default None)
        hose_bore: [m] of its hose (default None)
        orifice: of its outlets (default None)
        crack: [Pa] of its check valves (default None)
        width: [m] field width that it covers (default None)
        height: [m] of its outlet above the other outlets (default None)
        shut: valved off (default False)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, row: int, hose_length: float | str | None = None, hose_bore: float | str | None = None, orifice: OrificeByBore | OrificeByRating | None = None, crack: float | str | None = None, width: float | str | None = None, height: float | str | None = None, shut: bool = False) -> None:
        """
        What one row has that the others do not; only what is set differs.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, row: int = ..., hose_length: float | str | None = ..., hose_bore: float | str | None = ..., orifice: OrificeByBore | OrificeByRating | None = ..., crack: float | str | None = ..., width: float | str | None = ..., height: float | str | None = ..., shut: bool = ...) -> RowChange:
        """
        A new RowChange with some fields changed.
        """
    @property
    def crack(self) -> float | None:
        """
        [Pa] of its check valves
        """
    @property
    def height(self) -> float | None:
        """
        [m] of its outlet above the other outlets
        """
    @property
    def hose_bore(self) -> float | None:
        """
        [m] of its hose
        """
    @property
    def hose_length(self) -> float | None:
        """
        [m] of its hose
        """
    @property
    def orifice(self) -> OrificeByBore | OrificeByRating | None:
        """
        of its outlets
        """
    @property
    def row(self) -> int:
        """
        1-based
        """
    @property
    def shut(self) -> bool:
        """
        valved off
        """
    @property
    def width(self) -> float | None:
        """
        [m] field width that it covers
        """
class DriveTank:
    """
    A tank of a drive and how full it is.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        id: '' for 'tank', or 'tank 1', 'tank 2' ... (default '')
        tank: its shape and outlet
        level: [m] of the liquid above its inside bottom
        height: [m] of its inside bottom above the row outlets (default 0.0)
        ahead: [m] in front of the manifolds (default 0.0)
        right: [m] of the middle of the bar (default 0.0)
        line_length: [m] its own hose to where the tanks are tied; 0: joined directly (default 0.0)
        line_bore: [m] of that hose (default '38.1 mm')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, id: str = '', tank: Tank, level: float | str, height: float | str = 0.0, ahead: float | str = 0.0, right: float | str = 0.0, line_length: float | str = 0.0, line_bore: float | str = '38.1 mm') -> None:
        """
        A tank of a drive and how full it is.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, id: str = ..., tank: Tank = ..., level: float | str = ..., height: float | str = ..., ahead: float | str = ..., right: float | str = ..., line_length: float | str = ..., line_bore: float | str = ...) -> DriveTank:
        """
        A new DriveTank with some fields changed.
        """
    @property
    def ahead(self) -> float:
        """
        [m] in front of the manifolds
        """
    @property
    def height(self) -> float:
        """
        [m] of its inside bottom above the row outlets
        """
    @property
    def id(self) -> str:
        """
        '' for 'tank', or 'tank 1', 'tank 2' ...
        """
    @property
    def level(self) -> float:
        """
        [m] of the liquid above its inside bottom
        """
    @property
    def line_bore(self) -> float:
        """
        [m] of that hose
        """
    @property
    def line_length(self) -> float:
        """
        [m] its own hose to where the tanks are tied; 0: joined directly
        """
    @property
    def right(self) -> float:
        """
        [m] of the middle of the bar
        """
    @property
    def tank(self) -> Tank:
        """
        its shape and outlet
        """
class DriveLine:
    """
    A line of hose of a drive.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        length: [m] 0: joined directly (default 0.0)
        bore: [m] inside (default '38.1 mm')
        rating: [Pa] working pressure (gauge) (default None)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, length: float | str = 0.0, bore: float | str = '38.1 mm', rating: float | str | None = None) -> None:
        """
        A line of hose of a drive.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, length: float | str = ..., bore: float | str = ..., rating: float | str | None = ...) -> DriveLine:
        """
        A new DriveLine with some fields changed.
        """
    @property
    def bore(self) -> float:
        """
        [m] inside
        """
    @property
    def length(self) -> float:
        """
        [m] 0: joined directly
        """
    @property
    def rating(self) -> float | None:
        """
        [Pa] working pressure (gauge)
        """
class Drive:
    """
    What pushes the liquid: tanks, suction, pump, returns, delivery, and its control.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        tanks: at least one
        suction: hose to the pump (default DriveLine())
        suction_strainer: before the pump (default None)
        pump: at a setting of 1
        pump_height: [m] above the row outlets (default 0.0)
        relief: back to the tank (default None)
        bypass: valve back to the tank (default None)
        agitation: jet back into the tank (default None)
        meter: in the delivery line (default None)
        line_strainer: in the delivery line (default None)
        throttle: in the delivery line (default None)
        pulse: in the delivery line (default None)
        regulator: in the delivery line (default None)
        section_valve: in the delivery line (default None)
        delivery: hose to the gauge (default DriveLine(bore='1 in'))
        control: what is moved to reach the rate (default 'pump_speed')
        least: of the setting, SI; None: as libflow allows (default None)
        most: of the setting, SI; None: as libflow allows (default None)
        setting: held here, SI; None: what gives the wanted rate (default None)
        suction_limit: [Pa] lowest total gauge pressure allowed at the pump's inlet (default None)
        suction_velocity: [m/s] above it a caution (default '3.29184 km/h')
        delivery_velocity: [m/s] above it a caution (default '6.58368 km/h')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, tanks: collections.abc.Sequence[DriveTank], suction: DriveLine = ..., suction_strainer: Strainer | None = None, pump: CentrifugalPump | PumpCurve | PositivePump | GroundDrivenPump, pump_height: float | str = 0.0, relief: ReliefValve | None = None, bypass: Valve | None = None, agitation: Orifice | None = None, meter: FlowMeter | None = None, line_strainer: Strainer | None = None, throttle: Valve | None = None, pulse: PulsedValve | None = None, regulator: PressureRegulator | None = None, section_valve: Valve | None = None, delivery: DriveLine = ..., control: typing.Literal['pump_speed', 'regulator', 'relief', 'bypass', 'throttle', 'pulse'] = 'pump_speed', least: float | None = None, most: float | None = None, setting: float | None = None, suction_limit: float | str | None = None, suction_velocity: float | str = '3.29184 km/h', delivery_velocity: float | str = '6.58368 km/h') -> None:
        """
        What pushes the liquid: tanks, suction, pump, returns, delivery, and its control.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, tanks: collections.abc.Sequence[DriveTank] = ..., suction: DriveLine = ..., suction_strainer: Strainer | None = ..., pump: CentrifugalPump | PumpCurve | PositivePump | GroundDrivenPump = ..., pump_height: float | str = ..., relief: ReliefValve | None = ..., bypass: Valve | None = ..., agitation: Orifice | None = ..., meter: FlowMeter | None = ..., line_strainer: Strainer | None = ..., throttle: Valve | None = ..., pulse: PulsedValve | None = ..., regulator: PressureRegulator | None = ..., section_valve: Valve | None = ..., delivery: DriveLine = ..., control: typing.Literal['pump_speed', 'regulator', 'relief', 'bypass', 'throttle', 'pulse'] = ..., least: float | None = ..., most: float | None = ..., setting: float | None = ..., suction_limit: float | str | None = ..., suction_velocity: float | str = ..., delivery_velocity: float | str = ...) -> Drive:
        """
        A new Drive with some fields changed.
        """
    @property
    def agitation(self) -> Orifice | None:
        """
        jet back into the tank
        """
    @property
    def bypass(self) -> Valve | None:
        """
        valve back to the tank
        """
    @property
    def control(self) -> typing.Literal['pump_speed', 'regulator', 'relief', 'bypass', 'throttle', 'pulse']:
        """
        what is moved to reach the rate
        """
    @property
    def delivery(self) -> DriveLine:
        """
        hose to the gauge
        """
    @property
    def delivery_velocity(self) -> float:
        """
        [m/s] above it a caution
        """
    @property
    def least(self) -> float | None:
        """
        of the setting, SI; None: as libflow allows
        """
    @property
    def line_strainer(self) -> Strainer | None:
        """
        in the delivery line
        """
    @property
    def meter(self) -> FlowMeter | None:
        """
        in the delivery line
        """
    @property
    def most(self) -> float | None:
        """
        of the setting, SI; None: as libflow allows
        """
    @property
    def pulse(self) -> PulsedValve | None:
        """
        in the delivery line
        """
    @property
    def pump(self) -> CentrifugalPump | PumpCurve | PositivePump | GroundDrivenPump:
        """
        at a setting of 1
        """
    @property
    def pump_height(self) -> float:
        """
        [m] above the row outlets
        """
    @property
    def regulator(self) -> PressureRegulator | None:
        """
        in the delivery line
        """
    @property
    def relief(self) -> ReliefValve | None:
        """
        back to the tank
        """
    @property
    def section_valve(self) -> Valve | None:
        """
        in the delivery line
        """
    @property
    def setting(self) -> float | None:
        """
        held here, SI; None: what gives the wanted rate
        """
    @property
    def suction(self) -> DriveLine:
        """
        hose to the pump
        """
    @property
    def suction_limit(self) -> float | None:
        """
        [Pa] lowest total gauge pressure allowed at the pump's inlet
        """
    @property
    def suction_strainer(self) -> Strainer | None:
        """
        before the pump
        """
    @property
    def suction_velocity(self) -> float:
        """
        [m/s] above it a caution
        """
    @property
    def tanks(self) -> collections.abc.Sequence[DriveTank]:
        """
        at least one
        """
    @property
    def throttle(self) -> Valve | None:
        """
        in the delivery line
        """
class Toolbar:
    """
    The plumbing of a bar: rows, manifolds, hoses, metering.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        rows: 1 to 200
        spacing: [m] of the rows
        manifolds: at least one Manifold; together they feed every row once
        hose_length: one length [m] for all rows, a list of one a row, or Shortest
        hose_bore: [m] inside, more than 0
        hose_roughness: [m] of the wall; default: drawn tubing (default '0.0015 mm')
        hose_rating: [Pa] working pressure (gauge); a caution when exceeded (default None)
        hose_wall: [m] thickness; with hose_modulus: how a row's hose stretches (default None)
        hose_modulus: [Pa] of elasticity of that wall (default None)
        side_slope: [rad] + right end higher (default 0.0)
        fore_aft_slope: [rad] + front higher (default 0.0)
        outlets_behind: [m] outlets this far behind the manifolds (default 0.0)
        outlets_per_row: 1 or 2, each with its own check valve and orifice (default 1)
        metering: check valve and orifice at the row end or at the manifold port (default 'outlet')
        orifice: None: the hose itself meters (default None)
        check_valve: None: there is none (default None)
        outlet_bore: [m] open end of each outlet; 0: see the manual (default 0.0)
        outlet_fall: [m] each outlet is a tube of outlet_bore that hangs down this far (default 0.0)
        outlet_vented: that tube takes in air at its head: it never pulls (default False)
        row_changes: rows that differ (default [])
        orifice_least: [Pa] drop below which an orifice meters badly (default None)
        orifice_most: [Pa] drop above which an orifice wears or atomises (default None)
        drive: what pushes the liquid; None: an ideal supply (default None)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, rows: int, spacing: float | str, manifolds: collections.abc.Sequence[Manifold], hose_length: float | str | collections.abc.Sequence[float | str] | Shortest, hose_bore: float | str, hose_roughness: float | str = '0.0015 mm', hose_rating: float | str | None = None, hose_wall: float | str | None = None, hose_modulus: float | str | None = None, side_slope: float | str = 0.0, fore_aft_slope: float | str = 0.0, outlets_behind: float | str = 0.0, outlets_per_row: int = 1, metering: typing.Literal['outlet', 'manifold'] = 'outlet', orifice: OrificeByBore | OrificeByRating | None = None, check_valve: CheckValveChoice | None = None, outlet_bore: float | str = 0.0, outlet_fall: float | str = 0.0, outlet_vented: bool = False, row_changes: collections.abc.Sequence[RowChange] = [], orifice_least: float | str | None = None, orifice_most: float | str | None = None, drive: Drive | None = None) -> None:
        """
        The plumbing of a bar: rows, manifolds, hoses, metering.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, rows: int = ..., spacing: float | str = ..., manifolds: collections.abc.Sequence[Manifold] = ..., hose_length: float | str | collections.abc.Sequence[float | str] | Shortest = ..., hose_bore: float | str = ..., hose_roughness: float | str = ..., hose_rating: float | str | None = ..., hose_wall: float | str | None = ..., hose_modulus: float | str | None = ..., side_slope: float | str = ..., fore_aft_slope: float | str = ..., outlets_behind: float | str = ..., outlets_per_row: int = ..., metering: typing.Literal['outlet', 'manifold'] = ..., orifice: OrificeByBore | OrificeByRating | None = ..., check_valve: CheckValveChoice | None = ..., outlet_bore: float | str = ..., outlet_fall: float | str = ..., outlet_vented: bool = ..., row_changes: collections.abc.Sequence[RowChange] = ..., orifice_least: float | str | None = ..., orifice_most: float | str | None = ..., drive: Drive | None = ...) -> Toolbar:
        """
        A new Toolbar with some fields changed.
        """
    @property
    def check_valve(self) -> CheckValveChoice | None:
        """
        None: there is none
        """
    @property
    def drive(self) -> Drive | None:
        """
        what pushes the liquid; None: an ideal supply
        """
    @property
    def fore_aft_slope(self) -> float:
        """
        [rad] + front higher
        """
    @property
    def hose_bore(self) -> float:
        """
        [m] inside, more than 0
        """
    @property
    def hose_length(self) -> float | list[float] | Shortest:
        """
        one length [m] for all rows, a list of one a row, or Shortest
        """
    @property
    def hose_modulus(self) -> float | None:
        """
        [Pa] of elasticity of that wall
        """
    @property
    def hose_rating(self) -> float | None:
        """
        [Pa] working pressure (gauge); a caution when exceeded
        """
    @property
    def hose_roughness(self) -> float:
        """
        [m] of the wall; default: drawn tubing
        """
    @property
    def hose_wall(self) -> float | None:
        """
        [m] thickness; with hose_modulus: how a row's hose stretches
        """
    @property
    def manifolds(self) -> collections.abc.Sequence[Manifold]:
        """
        at least one Manifold; together they feed every row once
        """
    @property
    def metering(self) -> typing.Literal['outlet', 'manifold']:
        """
        check valve and orifice at the row end or at the manifold port
        """
    @property
    def orifice(self) -> OrificeByBore | OrificeByRating | None:
        """
        None: the hose itself meters
        """
    @property
    def orifice_least(self) -> float | None:
        """
        [Pa] drop below which an orifice meters badly
        """
    @property
    def orifice_most(self) -> float | None:
        """
        [Pa] drop above which an orifice wears or atomises
        """
    @property
    def outlet_bore(self) -> float:
        """
        [m] open end of each outlet; 0: see the manual
        """
    @property
    def outlet_fall(self) -> float:
        """
        [m] each outlet is a tube of outlet_bore that hangs down this far
        """
    @property
    def outlet_vented(self) -> bool:
        """
        that tube takes in air at its head: it never pulls
        """
    @property
    def outlets_behind(self) -> float:
        """
        [m] outlets this far behind the manifolds
        """
    @property
    def outlets_per_row(self) -> int:
        """
        1 or 2, each with its own check valve and orifice
        """
    @property
    def row_changes(self) -> collections.abc.Sequence[RowChange]:
        """
        rows that differ
        """
    @property
    def rows(self) -> int:
        """
        1 to 200
        """
    @property
    def side_slope(self) -> float:
        """
        [rad] + right end higher
        """
    @property
    def spacing(self) -> float:
        """
        [m] of the rows
        """
class Job:
    """
    What a toolbar has to do.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        liquid: a Liquid, or the name of a built-in one (default <Liquid 'Water', figures of its own>)
        temperature: [K] of the liquid (default '20 °C')
        rate: [m3/m2] wanted per area
        speed: [m/s] of the bar's centre
        pressure: [Pa] supply held at this gauge pressure; None: the supply gives the wanted total (default None)
        turn_radius: [m] of the bar's centre, + turning left; None: straight (default None)
        tolerance: [-] each row within this fraction of the mean, 0.05 or '5 %' (default 0.05)
        pump_limit: [Pa] highest pressure that the supply can give; a caution when exceeded (default None)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, liquid: Liquid | str = ..., temperature: float | str = '20 °C', rate: float | str, speed: float | str, pressure: float | str | None = None, turn_radius: float | str | None = None, tolerance: float | str = 0.05, pump_limit: float | str | None = None) -> None:
        """
        What a toolbar has to do.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, liquid: Liquid | str = ..., temperature: float | str = ..., rate: float | str = ..., speed: float | str = ..., pressure: float | str | None = ..., turn_radius: float | str | None = ..., tolerance: float | str = ..., pump_limit: float | str | None = ...) -> Job:
        """
        A new Job with some fields changed.
        """
    @property
    def liquid(self) -> Liquid | str:
        """
        a Liquid, or the name of a built-in one
        """
    @property
    def pressure(self) -> float | None:
        """
        [Pa] supply held at this gauge pressure; None: the supply gives the wanted total
        """
    @property
    def pump_limit(self) -> float | None:
        """
        [Pa] highest pressure that the supply can give; a caution when exceeded
        """
    @property
    def rate(self) -> float:
        """
        [m3/m2] wanted per area
        """
    @property
    def speed(self) -> float:
        """
        [m/s] of the bar's centre
        """
    @property
    def temperature(self) -> float:
        """
        [K] of the liquid
        """
    @property
    def tolerance(self) -> float:
        """
        [-] each row within this fraction of the mean, 0.05 or '5 %'
        """
    @property
    def turn_radius(self) -> float | None:
        """
        [m] of the bar's centre, + turning left; None: straight
        """
class Distribution:
    """
    A difference from the layout's value as chance; zero is the value itself.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        kind: its shape (default 'normal')
        deviation: standard deviation, of 'normal' [SI, or a share] (default 0.0)
        low: of 'uniform' and 'triangular', at most 0 [SI, or a share] (default 0.0)
        high: of 'uniform' and 'triangular', at least 0 [SI, or a share] (default 0.0)
        values: measured differences, of 'listed' [SI, or shares] (default [])
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, kind: typing.Literal['normal', 'uniform', 'triangular', 'listed'] = 'normal', deviation: float = 0.0, low: float = 0.0, high: float = 0.0, values: collections.abc.Sequence[float] = []) -> None:
        """
        A difference from the layout's value as chance; zero is the value itself.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, kind: typing.Literal['normal', 'uniform', 'triangular', 'listed'] = ..., deviation: float = ..., low: float = ..., high: float = ..., values: collections.abc.Sequence[float] = ...) -> Distribution:
        """
        A new Distribution with some fields changed.
        """
    @property
    def deviation(self) -> float:
        """
        standard deviation, of 'normal' [SI, or a share]
        """
    @property
    def high(self) -> float:
        """
        of 'uniform' and 'triangular', at least 0 [SI, or a share]
        """
    @property
    def kind(self) -> typing.Literal['normal', 'uniform', 'triangular', 'listed']:
        """
        its shape
        """
    @property
    def low(self) -> float:
        """
        of 'uniform' and 'triangular', at most 0 [SI, or a share]
        """
    @property
    def values(self) -> collections.abc.Sequence[float]:
        """
        measured differences, of 'listed' [SI, or shares]
        """
class Tolerance:
    """
    One source of difference between a layout and the machine as built and at work.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        of: what differs
        difference: by how much, as chance
        relative: the difference is a share of the layout's value, not SI (default False)
        batch: by row: rows of one number share one draw; empty: each row its own (default [])
        name: for reports (default '')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, of: typing.Literal['orifice_bore', 'hose_length', 'hose_bore', 'crack', 'viscosity', 'density', 'temperature', 'side_slope', 'fore_aft_slope', 'speed', 'rate', 'pressure'], difference: Distribution, relative: bool = False, batch: collections.abc.Sequence[int] = [], name: str = '') -> None:
        """
        One source of difference between a layout and the machine as built and at work.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, of: typing.Literal['orifice_bore', 'hose_length', 'hose_bore', 'crack', 'viscosity', 'density', 'temperature', 'side_slope', 'fore_aft_slope', 'speed', 'rate', 'pressure'] = ..., difference: Distribution = ..., relative: bool = ..., batch: collections.abc.Sequence[int] = ..., name: str = ...) -> Tolerance:
        """
        A new Tolerance with some fields changed.
        """
    @property
    def batch(self) -> collections.abc.Sequence[int]:
        """
        by row: rows of one number share one draw; empty: each row its own
        """
    @property
    def difference(self) -> Distribution:
        """
        by how much, as chance
        """
    @property
    def name(self) -> str:
        """
        for reports
        """
    @property
    def of(self) -> typing.Literal['orifice_bore', 'hose_length', 'hose_bore', 'crack', 'viscosity', 'density', 'temperature', 'side_slope', 'fore_aft_slope', 'speed', 'rate', 'pressure']:
        """
        what differs
        """
    @property
    def relative(self) -> bool:
        """
        the difference is a share of the layout's value, not SI
        """
class WorkingRange:
    """
    Over what a toolbar works, for studies of more than one operating point.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        speeds: [m/s] rising, or empty (default [])
        rates: [m3/m2] rising, or empty (default [])
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, speeds: collections.abc.Sequence[float | str] = [], rates: collections.abc.Sequence[float | str] = []) -> None:
        """
        Over what a toolbar works, for studies of more than one operating point.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, speeds: collections.abc.Sequence[float | str] = ..., rates: collections.abc.Sequence[float | str] = ...) -> WorkingRange:
        """
        A new WorkingRange with some fields changed.
        """
    @property
    def rates(self) -> collections.abc.Sequence[float | str]:
        """
        [m3/m2] rising, or empty
        """
    @property
    def speeds(self) -> collections.abc.Sequence[float | str]:
        """
        [m/s] rising, or empty
        """
class Row:
    """
    One row of a network that was drawn place by place: which of its parts belong to it.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        row: 1-based
        width: [m] field width that it covers
        airs: ids of the places where its liquid leaves
        hose_length: [m] 0 where it has none (default 0.0)
        x: [m] along the bar from its centre, + right: its speed in a turn (default 0.0)
        hoses: ids of its hoses (default [])
        orifices: ids of its orifices, one an outlet (default [])
        check_valves: ids of its check valves (default [])
        shut: valved off (default False)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, row: int, width: float | str, airs: collections.abc.Sequence[str], hose_length: float | str = 0.0, x: float | str = 0.0, hoses: collections.abc.Sequence[str] = [], orifices: collections.abc.Sequence[str] = [], check_valves: collections.abc.Sequence[str] = [], shut: bool = False) -> None:
        """
        One row of a network that was drawn place by place: which of its parts belong to it.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, row: int = ..., width: float | str = ..., airs: collections.abc.Sequence[str] = ..., hose_length: float | str = ..., x: float | str = ..., hoses: collections.abc.Sequence[str] = ..., orifices: collections.abc.Sequence[str] = ..., check_valves: collections.abc.Sequence[str] = ..., shut: bool = ...) -> Row:
        """
        A new Row with some fields changed.
        """
    @property
    def airs(self) -> collections.abc.Sequence[str]:
        """
        ids of the places where its liquid leaves
        """
    @property
    def check_valves(self) -> collections.abc.Sequence[str]:
        """
        ids of its check valves
        """
    @property
    def hose_length(self) -> float:
        """
        [m] 0 where it has none
        """
    @property
    def hoses(self) -> collections.abc.Sequence[str]:
        """
        ids of its hoses
        """
    @property
    def orifices(self) -> collections.abc.Sequence[str]:
        """
        ids of its orifices, one an outlet
        """
    @property
    def row(self) -> int:
        """
        1-based
        """
    @property
    def shut(self) -> bool:
        """
        valved off
        """
    @property
    def width(self) -> float:
        """
        [m] field width that it covers
        """
    @property
    def x(self) -> float:
        """
        [m] along the bar from its centre, + right: its speed in a turn
        """
class Plumbing:
    """
    A network together with which of its parts belong to which row.
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> tuple:
        ...
    def __init__(self, *, network: Network, supply: str, rows: typing.Any) -> None:
        """
        network: a Network. supply: id of the place whose pressure a gauge shows. rows: a list of Row.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    @property
    def hose_total(self) -> float:
        """
        All hose to cut [m].
        """
    @property
    def network(self) -> Network:
        """
        A copy of its network; its tees are in tees.
        """
    @property
    def rows(self) -> list:
        """
        Every row as a dict: row, x [m], width [m], hose_length [m], ids.
        """
    @property
    def supply(self) -> str:
        """
        Id of the place whose pressure a gauge shows.
        """
    @property
    def tees(self) -> typing.Any:
        """
        Its tees, a list of TeeAt, for solve(plumbing.network, liquid, tees=plumbing.tees).
        """
class Layout:
    """
    A layout as a whole: what is plumbed and what it has to do.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        name: for people (default '')
        job: what it has to do
        plumbing: a Toolbar, or a Plumbing
        units: for what a person reads (default 'us')
        range: speeds and rates that it works over; empty: the job's only (default WorkingRange())
        tolerances: what may differ as built and at work, a list of Tolerance (default [])
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, name: str = '', job: Job, plumbing: Toolbar | Plumbing, units: typing.Literal['us', 'metric'] = 'us', range: WorkingRange = ..., tolerances: collections.abc.Sequence[Tolerance] = []) -> None:
        """
        A layout as a whole: what is plumbed and what it has to do.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, name: str = ..., job: Job = ..., plumbing: Toolbar | Plumbing = ..., units: typing.Literal['us', 'metric'] = ..., range: WorkingRange = ..., tolerances: collections.abc.Sequence[Tolerance] = ...) -> Layout:
        """
        A new Layout with some fields changed.
        """
    @property
    def job(self) -> Job:
        """
        what it has to do
        """
    @property
    def name(self) -> str:
        """
        for people
        """
    @property
    def plumbing(self) -> Toolbar | Plumbing:
        """
        a Toolbar, or a Plumbing
        """
    @property
    def range(self) -> WorkingRange:
        """
        speeds and rates that it works over; empty: the job's only
        """
    @property
    def tolerances(self) -> collections.abc.Sequence[Tolerance]:
        """
        what may differ as built and at work, a list of Tolerance
        """
    @property
    def units(self) -> typing.Literal['us', 'metric']:
        """
        for what a person reads
        """
class ViscosityEnd:
    """
    The verdict if the product's viscosity were at one end of its band, the control brought to the rate anew.
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> tuple:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    @property
    def cv(self) -> float:
        """
        Coefficient of variation of the rates [-].
        """
    @property
    def even(self) -> bool:
        """
        Every counted row is within the tolerance.
        """
    @property
    def pressure(self) -> float:
        """
        At the gauge [Pa]; 0 where there is no answer.
        """
    @property
    def solved(self) -> bool:
        """
        There is an answer.
        """
    @property
    def stop(self) -> str:
        """
        What keeps it from the wanted rate, or why there is no answer; '': nothing does.
        """
    @property
    def upper(self) -> bool:
        """
        The thick end of the band.
        """
    @property
    def viscosity(self) -> float:
        """
        At the job's temperature [Pa s].
        """
    @property
    def worst_deviation(self) -> float:
        """
        Of that row, signed [-].
        """
    @property
    def worst_row(self) -> int:
        """
        The row furthest from the mean, from 1; 0: none.
        """
class Answer:
    """
    A layout and everything that was found out about it: the verdict, the rows, why, and how sure.
    
    Arrays are read-only views by row. print() shows the report, a notebook a table.
    """
    def __getstate__(self) -> tuple:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    def __str__(self) -> str:
        ...
    def _repr_html_(self) -> typing.Any:
        ...
    def cause_deviation(self, cause: str) -> numpy.ndarray:
        """
        Deviation of each row that one cause makes [-]; those of all causes add up.
        """
    def frame(self) -> typing.Any:
        """
        The rows as a pandas DataFrame, SI units in the column names.
        """
    def text(self, *, units: typing.Any = None, width: typing.SupportsInt | typing.SupportsIndex = 100) -> str:
        """
        The report as `libflow solve` prints it. units: 'us', 'metric' or None (as the layout asks); width: columns.
        """
    def to_csv(self) -> str:
        """
        The rows as `libflow solve --csv` prints them.
        """
    def to_json(self) -> str:
        """
        As `libflow solve --json` prints it: SI numbers with their unit in the key.
        """
    @property
    def as_built(self) -> typing.Any:
        """
        With the layout's tolerances, to first order: which share of such machines is even [-], and their mean
        coefficient of variation [-]; None without tolerances. tolerance() solves the machines one by one.
        """
    @property
    def causes(self) -> dict:
        """
        What makes the rows differ: cause to its share of the variance [-], largest first; they add up to 1.
        """
    @property
    def cautions(self) -> list:
        """
        What a person should know, a list of Caution.
        """
    @property
    def check_valve_drop(self) -> numpy.ndarray:
        """
        Of each row [Pa].
        """
    @property
    def christiansen(self) -> float:
        """
        Christiansen's uniformity coefficient [-], 1 is perfect.
        """
    @property
    def cv(self) -> float:
        """
        Coefficient of variation of the rates, sample standard deviation over mean [-].
        """
    @property
    def deviation(self) -> numpy.ndarray:
        """
        Rate over the mean rate of each row, less one [-].
        """
    @property
    def even(self) -> bool:
        """
        Every counted row is within the tolerance.
        """
    @property
    def flow(self) -> numpy.ndarray:
        """
        All outlets of each row together [m3/s].
        """
    @property
    def highest_row(self) -> int:
        """
        Row number.
        """
    @property
    def hose_length(self) -> numpy.ndarray:
        """
        Of each row [m].
        """
    @property
    def hose_reynolds(self) -> numpy.ndarray:
        """
        In each row's hose [-].
        """
    @property
    def layout(self) -> Layout:
        """
        What was asked.
        """
    @property
    def lift(self) -> numpy.ndarray:
        """
        Static head up to each row's outlet [Pa].
        """
    @property
    def line_drop(self) -> numpy.ndarray:
        """
        Hose, bar and everything else of each row [Pa].
        """
    @property
    def liquid(self) -> LiquidState:
        """
        The liquid at its temperature.
        """
    @property
    def low_quarter(self) -> float:
        """
        Low-quarter distribution uniformity [-], 1 is perfect.
        """
    @property
    def lowest_row(self) -> int:
        """
        Row number.
        """
    @property
    def mean_rate(self) -> float:
        """
        Of the counted rows [m3/m2].
        """
    @property
    def orifice_drop(self) -> numpy.ndarray:
        """
        Of each row [Pa].
        """
    @property
    def orifice_share(self) -> numpy.ndarray:
        """
        Of each row's friction drop [-].
        """
    @property
    def outside(self) -> typing.Any:
        """
        Rows outside the tolerance.
        """
    @property
    def plumbing(self) -> Plumbing:
        """
        Its network and rows.
        """
    @property
    def rate(self) -> numpy.ndarray:
        """
        Rate of each row [m3/m2].
        """
    @property
    def rate_reached(self) -> bool:
        """
        The wanted rate is given within the pressure that there is.
        """
    @property
    def reference(self) -> str:
        """
        The even bar that causes are measured against, in words; '' where there are none.
        """
    @property
    def regime(self) -> list:
        """
        Flow in each row's hose: 'laminar', ...
        """
    @property
    def row(self) -> numpy.ndarray:
        """
        Numbers of the rows, from 1 at the left end.
        """
    @property
    def shut(self) -> numpy.ndarray:
        """
        Rows that are valved off.
        """
    @property
    def solution(self) -> Solution:
        """
        Flows and pressures of the whole network.
        """
    @property
    def speed(self) -> numpy.ndarray:
        """
        Ground speed of each row [m/s].
        """
    @property
    def supply_pressure(self) -> float:
        """
        Total gauge pressure at the supply [Pa].
        """
    @property
    def target_rate(self) -> float:
        """
        What the job asked for [m3/m2].
        """
    @property
    def tolerance(self) -> float:
        """
        Each counted row within this fraction of the mean [-].
        """
    @property
    def total_flow(self) -> float:
        """
        [m3/s]
        """
    @property
    def unused_fall(self) -> numpy.ndarray:
        """
        Height that a hanging tube of each row does not use [Pa].
        """
    @property
    def valve(self) -> list:
        """
        'closed' when any of a row's outlets is closed.
        """
    @property
    def verdict(self) -> str:
        """
        In one sentence.
        """
    @property
    def verdict_word(self) -> str:
        """
        'EVEN', 'EVEN, not sure', 'NOT EVEN', 'NOT EVEN, not sure' or 'NOT SOLVED'; not sure: another one at an end
        of the viscosity's band, or by orifices that meter nothing.
        """
    @property
    def viscosity_band(self) -> list:
        """
        The verdict at the ends of the viscosity's band, a list of ViscosityEnd, the thin end first; empty where no
        band is known or nothing was solved.
        """
    @property
    def width(self) -> numpy.ndarray:
        """
        Field width that each row covers [m].
        """
class Comparison:
    """
    Two or more layouts at one rate, and which is evener.
    """
    def __getstate__(self) -> tuple[list, int, int, str, typing.Any]:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple) -> None:
        ...
    def __str__(self) -> str:
        ...
    def text(self, *, units: typing.Any = None, width: typing.SupportsInt | typing.SupportsIndex = 100) -> str:
        """
        The report as `libflow compare` prints it.
        """
    def to_json(self) -> str:
        """
        As `libflow compare --json` prints it.
        """
    @property
    def answers(self) -> list:
        """
        One Answer a layout, in the order given.
        """
    @property
    def cautions(self) -> list:
        """
        About the comparison itself.
        """
    @property
    def deciding_cause(self) -> str:
        """
        What makes the difference; '' where it is not known.
        """
    @property
    def evenest(self) -> int:
        """
        Index of the lowest CV.
        """
    @property
    def least_even(self) -> int:
        """
        Index of the highest CV.
        """
    @property
    def verdict(self) -> str:
        """
        In one sentence.
        """
class ScenarioResults:
    """
    What many scenarios give; read by solve_many().
    """
    @property
    def alone(self) -> int:
        """
        Of these, solved one by one because the pack could not, or was not asked to.
        """
    @property
    def complete(self) -> bool:
        """
        False: stopped by progress.
        """
    @property
    def cv(self) -> numpy.ndarray:
        """
        Coefficient of variation of the rates [-].
        """
    @property
    def done(self) -> int:
        """
        Scenarios that were reached.
        """
    @property
    def energy_residual(self) -> numpy.ndarray:
        """
        The certificate [-].
        """
    @property
    def failures(self) -> dict:
        """
        Scenario number to why it has no answer.
        """
    @property
    def flow(self) -> numpy.ndarray:
        """
        All outlets of a row together [m3/s], scenario x row.
        """
    @property
    def highest(self) -> numpy.ndarray:
        """
        Deviation of the highest row from the mean [-].
        """
    @property
    def lowest(self) -> numpy.ndarray:
        """
        Deviation of the lowest row from the mean [-].
        """
    @property
    def mass_residual(self) -> numpy.ndarray:
        """
        The certificate [-].
        """
    @property
    def mean_rate(self) -> numpy.ndarray:
        """
        Of the counted rows [m3/m2].
        """
    @property
    def status(self) -> numpy.typing.NDArray[numpy.uint8]:
        """
        0: not reached, 1: solved, 2: not converged, 3: no answer.
        """
    @property
    def supply_pressure(self) -> numpy.ndarray:
        """
        Total gauge pressure at the supply [Pa].
        """
class Derivatives:
    """
    How the answer moves when an input moves: exact derivatives of every flow and pressure of a
    solved network by every input of its parts (set points too), its liquid, its supplies, given flows
    and elevations, and of its tees.
    """
    def __init__(self, solution: Solution, *, at_crack: str = 'shut') -> None:
        """
        solution: usable; its tees' losses and throttling regulators are differentiated too. at_crack: which side's
        derivative is meant where a one-way part stands exactly at its threshold, 'shut' or 'open'.
        """
    def __repr__(self) -> str:
        ...
    def by(self, input: str) -> tuple[numpy.typing.NDArray[numpy.float64], numpy.typing.NDArray[numpy.float64]]:
        """
        (flows by part [m3/s per unit], pressures by place [Pa per unit]) as one input moves.
        """
    def of_flow(self, part: str) -> numpy.typing.NDArray[numpy.float64]:
        """
        Derivatives of a part's flow by every input [m3/s per unit of the input].
        """
    def of_pressure(self, place: str) -> numpy.typing.NDArray[numpy.float64]:
        """
        Derivatives of a place's total pressure by every input [Pa per unit of the input].
        """
    @property
    def inputs(self) -> typing.Any:
        """
        Names of the inputs, in the order of every gradient.
        """
    @property
    def units(self) -> typing.Any:
        """
        SI unit of each input; '' for a plain number.
        """
    @property
    def values(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Value of each input [its unit].
        """
class CatchReading:
    """
    One cup of a catch test.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        row: from 1 at the left end
        volume: [m3] in the cup, 0 to 1 m3 (default 0.0)
        repeat: from 1: a row may be caught several times (default 1)
        where: file and line, for messages (default '')
        written: the volume as it was written, with its unit, for messages (default '')
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, row: int, volume: float | str = 0.0, repeat: int = 1, where: str = '', written: str = '') -> None:
        """
        One cup of a catch test.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, row: int = ..., volume: float | str = ..., repeat: int = ..., where: str = ..., written: str = ...) -> CatchReading:
        """
        A new CatchReading with some fields changed.
        """
    @property
    def repeat(self) -> int:
        """
        from 1: a row may be caught several times
        """
    @property
    def row(self) -> int:
        """
        from 1 at the left end
        """
    @property
    def volume(self) -> float:
        """
        [m3] in the cup, 0 to 1 m3
        """
    @property
    def where(self) -> str:
        """
        file and line, for messages
        """
    @property
    def written(self) -> str:
        """
        the volume as it was written, with its unit, for messages
        """
class CatchReadings:
    """
    A catch test as it was made: all cups at one setting, for one time. read_catch(), parse_catch() and
    catch_readings() make it from a file, from text and from an array.
    
    Fields, given by keyword (a quantity as an SI number or as text with its unit) and read as SI numbers:
    
        readings: a list of CatchReading
        time: [s] each cup was under its row this long, 1 s to 1 h
        water: water in the tank instead of the product (default False)
        gauge: [Pa] pressure read meanwhile; None: what the job needs (default None)
        reading_error: [-] standard deviation of one reading as a share of it, where the repeats do not tell, 1e-6 to 0.5 (default 0.02)
    """
    __hash__: typing.ClassVar[None] = None
    def __eq__(self, arg0: typing.Any) -> typing.Any:
        ...
    def __getstate__(self) -> dict:
        ...
    def __init__(self, *, readings: collections.abc.Sequence[CatchReading], time: float | str, water: bool = False, gauge: float | str | None = None, reading_error: float | str = 0.02) -> None:
        """
        A catch test as it was made: all cups at one setting, for one time. read_catch(), parse_catch() and
        catch_readings() make it from a file, from text and from an array.
        """
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: dict) -> None:
        ...
    def as_dict(self) -> dict:
        """
        Every field by name, quantities in SI.
        """
    def replace(self, *, readings: collections.abc.Sequence[CatchReading] = ..., time: float | str = ..., water: bool = ..., gauge: float | str | None = ..., reading_error: float | str = ...) -> CatchReadings:
        """
        A new CatchReadings with some fields changed.
        """
    @property
    def gauge(self) -> float | None:
        """
        [Pa] pressure read meanwhile; None: what the job needs
        """
    @property
    def reading_error(self) -> float:
        """
        [-] standard deviation of one reading as a share of it, where the repeats do not tell, 1e-6 to 0.5
        """
    @property
    def readings(self) -> collections.abc.Sequence[CatchReading]:
        """
        a list of CatchReading
        """
    @property
    def time(self) -> float:
        """
        [s] each cup was under its row this long, 1 s to 1 h
        """
    @property
    def water(self) -> bool:
        """
        water in the tank instead of the product
        """
def _calibrated_text(arg0: str, arg1: Layout, arg2: Layout, arg3: typing.Any) -> str:
    ...
def _compare_points(arg0: typing.Any, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _comparison_report(arg0: typing.Any, arg1: typing.Any, arg2: str, arg3: str) -> str:
    ...
def _cup_error(arg0: dict) -> float:
    ...
def _diagnose(arg0: Layout, arg1: typing.Any, arg2: dict) -> tuple:
    ...
def _drawdown(arg0: Layout, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _envelope(arg0: Layout, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _equal_hoses(arg0: typing.Any, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _judge_catch(arg0: Layout, arg1: CatchReadings, arg2: dict) -> tuple:
    ...
def _lines(arg0: Layout, arg1: dict) -> tuple:
    ...
def _nutrients(arg0: Layout, arg1: dict) -> tuple:
    ...
def _operating_point(arg0: Layout, arg1: str) -> tuple:
    ...
def _order_list(arg0: Layout, arg1: dict) -> tuple:
    ...
def _parse_catch(arg0: str, arg1: str) -> typing.Any:
    ...
def _path(arg0: Answer, arg1: typing.SupportsInt | typing.SupportsIndex) -> tuple:
    ...
def _plan_catch(arg0: Layout, arg1: dict) -> tuple:
    ...
def _read_catch(arg0: str) -> typing.Any:
    ...
def _refuse_name(arg0: str, arg1: str, arg2: typing.Any) -> None:
    """
    Raises InputError with the nearest name.
    """
def _report(arg0: Layout, arg1: typing.Any, arg2: dict, arg3: dict, arg4: typing.Any, arg5: str, arg6: str, arg7: typing.Any) -> tuple:
    ...
def _setting_card(arg0: Layout, arg1: dict) -> tuple:
    ...
def _si(arg0: float | str, arg1: typing.Any, arg2: str) -> float:
    """
    As si(), with a place for messages.
    """
def _size(arg0: typing.Any, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _solve_columns(arg0: Layout, arg1: typing.SupportsInt | typing.SupportsIndex, arg2: dict, arg3: typing.SupportsInt | typing.SupportsIndex, arg4: bool, arg5: typing.Any) -> ScenarioResults:
    """
    Columns of equal length to results; solve_many() is the way in.
    """
def _to_array(arg0: numpy.typing.ArrayLike, arg1: typing.Any, arg2: str) -> numpy.typing.NDArray[numpy.float64]:
    """
    Numbers or text with units to an array of SI numbers.
    """
def _tolerance(arg0: Layout, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _what_if(arg0: Layout, arg1: dict, arg2: typing.Any) -> tuple:
    ...
def _write_text(arg0: str, arg1: str, arg2: bool) -> None:
    ...
def attribute_by_input(answer: Answer, *, tolerance: typing.Any = 1e-07) -> dict:
    """
    Which hose, which orifice: how much of every row's deviation each single input of a bar makes, by derivatives
    integrated from an even bar. A dict: inputs (a list, largest share first: name, group, unit, reference, value,
    share of the variance [-], deviation by row [-], which add up to the rows'), deviation of every row [-],
    reference in words, left_over: what the parts miss [-], solves.
    
    answer: of main_job(), a Toolbar's. tolerance: of the sum of a row's parts [-], 1e-10 to 1e-3.
    Raises InputError for junction losses, or rows with different parts.
    """
def blend(parts: typing.Any) -> Blend:
    """
    The mix of several BlendPart by mass balance. Nothing here says that products may be mixed.
    """
def build(toolbar: Toolbar, job: Job) -> Plumbing:
    """
    The Plumbing of a toolbar for a job.
    """
def citation(key: str) -> str:
    """
    The source behind a short key, such as LiquidState.density_source names.
    """
def compare(layouts: typing.Any) -> Comparison:
    """
    Layouts side by side at the first one's rate and speed.
    """
def layout_schema() -> typing.Any:
    """
    The layout file's vocabulary as a JSON Schema (draft 2020-12), a dict, as `libflow schema` prints it.
    """
def liquids() -> list:
    """
    Ids of the built-in liquids.
    """
def main_job(layout: Layout) -> Answer:
    """
    Is this layout even at its job, and if not, why? Other threads run meanwhile.
    Raises InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer.
    """
def nutrient_rates(*, rate: float | str, density: float | str, analysis: Analysis) -> dict:
    """
    Nutrients that a rate [m3/m2] of a liquid brings, each [kg/m2]; P and K as oxides.
    """
def parse_layout(text: str, name: str = 'layout.toml') -> Layout:
    """
    The Layout in the text of a layout file; name: for messages.
    """
def read_layout(path: typing.Any) -> Layout:
    """
    The Layout in a layout file (TOML). Raises InputError with file, line, column, key and the nearest valid name.
    """
def si(value: float | str, kind: typing.Any) -> float:
    """
    The SI number of a quantity: si('14 ft', 'length') is 4.2672.
    
    value: an SI number, or text with a unit, e.g. '14 ft', '3/8 in', '12 gal/ac', '40 F', '10 %'.
    kind: 'length' [m], 'area' [m2], 'volume' [m3], 'time' [s], 'speed' [m/s], 'mass' [kg], 'pressure' [Pa gauge],
    'flow' [m3/s], 'area_rate' [m3/m2], 'density' [kg/m3], 'viscosity' [Pa s], 'temperature' [K], 'angle' [rad],
    'mass_per_area' [kg/m2] or 'fraction' [-].
    Raises InputError for text without a unit, with an unknown one or with one of another kind.
    """
def solve(network: Network, liquid: LiquidState, *, tees: typing.Any = ()) -> Solution:
    """
    Solves a network in a liquid (Liquid.at) with its regulators and hanging tubes; other threads run meanwhile.
    tees: a list of TeeAt, whose losses depend on how the flow splits; a solution where they do not settle is not
    usable. Raises IllPosedError for plumbing that cannot have an answer.
    """
def starter_layout(*, rows: str = '16', spacing: str = '30 in', product: str = '10-34-0', temperature: str = '', rate: str = '5 gal/ac', speed: str = '5 mph') -> str:
    """
    The text of a commented layout file to begin with, as `libflow new` writes it; every answer as text, quantities
    with their unit. temperature: of the liquid on the coldest day; '' writes an assumption to change. Raises
    InputError for an answer that cannot be used.
    """
def stop_dribble(layout: Layout, *, pressure: float | str) -> dict:
    """
    What drips after a stop with the supply shut off just ahead of the manifolds: a dict of row (whose check valve
    gives way first; 0: none has one), standing head on it and its crack pressure [Pa], column that runs out through
    it, trapped between supply and check valves, relaxed by stretched hoses, below the check valves [m3].
    
    pressure: at the supply when the flow stopped [Pa gauge].
    """
def to_unit(value: numpy.typing.ArrayLike, unit: str, kind: typing.Any) -> typing.Any:
    """
    The number of a quantity in a unit: to_unit(4.2672, 'ft', 'length') is 14.0. Takes arrays.
    
    value: SI numbers or text with units. unit: as libflow writes it, e.g. 'ft', 'gal/ac', '°F'. kind: as in si().
    Raises InputError for an unknown unit, with the nearest.
    """
def unit_names(kind: typing.Any) -> list:
    """
    The units of a kind of quantity, the SI unit first. kind: as in si().
    """
KINDS: tuple = ('length', 'area', 'volume', 'time', 'speed', 'mass', 'pressure', 'flow', 'area_rate', 'density', 'viscosity', 'temperature', 'angle', 'mass_per_area', 'fraction')
__version__: str
