"""The five masses that take up heat, and one step of them in time.

Linearly implicit: the conductances hold over a step, the temperatures are solved for. Two stages of the stiffly
accurate Runge-Kutta method of Alexander (1977), of second order and without ringing where a mass follows in less than a
step. What every path carried in the mean over the step is linear in the mean temperatures, so that heat is kept to
rounding.
"""

from typing import NamedTuple

from toptank.media import coolant, metal
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real, namespace

GAMMA = 1.0 - 0.5**0.5
"""Share of the step that each implicit stage takes [1]."""

OIL_DENSITY, OIL_HEAT_CAPACITY = 850.0, 2100.0
"""Of warm engine oil [kg/m3, J/(kg K)]; from memory."""

GEARBOX_HEAT_CAPACITY = 900.0
"""Of an aluminium or iron gearbox with its fluid, 460 to 2,000 for its materials [J/(kg K)]; judgement."""

STATED_T = 363.15
"""Temperature at which the coolant's heat capacity is taken [K]."""


class Nodes(NamedTuple):
    """A figure for each mass: temperatures [K] or heat capacities [J/K].

    metal : heads and upper block; coolant : what stands in the engine; oil : with sump and lower block; core : its
    metal with the coolant of core, tanks and hoses, at the temperature at which it leaves; gearbox : with its fluid
    """

    metal: Real
    coolant: Real
    oil: Real
    core: Real
    gearbox: Real


class Paths(NamedTuple):
    """What goes in and what leads on, constant over a step: heats [W], conductances and capacity rates [W/K].

    to_metal, to_oil, to_gearbox : heat made there
    metal_coolant, oil_coolant : between metal or oil and the coolant of the engine
    flow : coolant that goes to the core and comes back
    core_hot, core_cold : from the core to its air, reckoned from the coolant that enters and that leaves
    surface, heater, case : from engine, heater and gearbox to the outside
    gearbox_tank, gearbox_air : from the gearbox to the tank of the core, and to the air through a cooler
    T_core_air, T_ambient : air at the core, outside [K]
    """

    to_metal: Real
    to_oil: Real
    to_gearbox: Real
    metal_coolant: Real
    oil_coolant: Real
    flow: Real
    core_hot: Real
    core_cold: Real
    surface: Real
    heater: Real
    case: Real
    gearbox_tank: Real
    gearbox_air: Real
    T_core_air: Real
    T_ambient: Real

    def core_heat(self, T: Nodes) -> Real:
        """Heat from the core to its air [W]."""
        return self.core_hot * (T.coolant - self.T_core_air) + self.core_cold * (T.core - self.T_core_air)

    def tank_heat(self, T: Nodes) -> Real:
        """Heat from the gearbox to the coolant that leaves the core [W]."""
        return self.gearbox_tank * (T.gearbox - T.core)

    def gearbox_heat(self, T: Nodes) -> Real:
        """Heat from the gearbox to the outside, by its case and by a cooler in the air [W]."""
        return (self.case + self.gearbox_air) * (T.gearbox - self.T_ambient)

    def surface_heat(self, T: Nodes) -> Real:
        """Heat from the outside of the engine [W]."""
        return self.surface * (T.coolant - self.T_ambient)

    def heater_heat(self, T: Nodes) -> Real:
        """Heat from the heater to the cabin [W]."""
        return self.heater * (T.coolant - self.T_ambient)


def heat_capacities(vehicle: Vehicle) -> Nodes:
    """Heat that every mass of a vehicle takes up per kelvin [J/K], with the coolant it was filled with."""
    engine, fill = vehicle.engine, vehicle.fill
    iron = engine.displacement * engine.metal * metal.heat_capacity(engine.aluminium)
    oil = engine.displacement * engine.oil_volume * OIL_DENSITY * OIL_HEAT_CAPACITY
    liquid = fill.capacity * (1.0 - fill.air) * coolant_heat_by_volume(vehicle)
    return Nodes(
        metal=iron * engine.jacket_share,
        coolant=liquid * (1.0 - fill.in_core),
        oil=oil + iron * (1.0 - engine.jacket_share),
        core=liquid * fill.in_core + vehicle.core.metal_heat_capacity(),
        gearbox=vehicle.drivetrain.gearbox_mass * GEARBOX_HEAT_CAPACITY,
    )


def coolant_heat_by_volume(vehicle: Vehicle) -> Real:
    """Heat that a cubic metre of the coolant takes up per kelvin [J/(m3 K)]."""
    mix = (vehicle.fill.concentrate, vehicle.fill.glycol)
    return coolant.density(STATED_T, *mix) * coolant.heat_capacity(STATED_T, *mix)


def core_split(conductance: Real, flow: Real) -> tuple[Real, Real]:
    r"""Conductances from a core to its air, reckoned from the coolant that enters and from that which leaves [W/K].

    With N = -ln(1 - K / C) transfer units, C N of them act on what stands in the core and

    .. math:: C (1 - (1 + N) e^{-N})

    on what enters. A settled core then gives K (T_in - T_air), as the steady balance has it; one that stands still
    cools with its whole surface; and what leaves never rises when what enters falls.

    Parameters
    ----------
    conductance : heat per kelvin between the coolant that enters and the air, settled, K [W/K]
    flow : capacity rate of the coolant, C [W/K]
    """
    xp = namespace(conductance, flow)
    used = xp.clip(conductance / flow, 0.0, 1.0 - 1e-12)
    cold = -flow * xp.log1p(-used)
    return xp.maximum(conductance - cold * (1.0 - used), 0.0), cold


def step(T: Nodes, C: Nodes, paths: Paths, dt: Real) -> tuple[Nodes, Nodes]:
    """Temperatures after a step, and the mean ones over it that carried all heat [K].

    Parameters
    ----------
    T, C : temperatures [K] and heat capacities [J/K]
    paths : what is constant over the step
    dt : length of the step [s]
    """
    a = GAMMA * dt
    first = _solved(T, C, paths, a)
    onward = Nodes(*(t + (1.0 - GAMMA) / GAMMA * (x - t) for t, x in zip(T, first, strict=True)))
    last = _solved(onward, C, paths, a)
    mean = Nodes(*((1.0 - GAMMA) * x + GAMMA * y for x, y in zip(first, last, strict=True)))
    return last, mean


def _solved(T: Nodes, C: Nodes, p: Paths, a: Real) -> Nodes:
    """Solve T' - a dT'/dt = T: each mass but the engine's coolant in terms of the one it hangs on, then back."""
    c_m, c_e, c_o, c_c, c_g = (c / a for c in C)
    # metal and oil hang on the engine's coolant, the gearbox on the core, the core on the engine's coolant
    d_m, d_o = c_m + p.metal_coolant, c_o + p.oil_coolant
    m_0, m_1 = (c_m * T.metal + p.to_metal) / d_m, p.metal_coolant / d_m
    o_0, o_1 = (c_o * T.oil + p.to_oil) / d_o, p.oil_coolant / d_o
    outside = p.case + p.gearbox_air
    d_g = c_g + p.gearbox_tank + outside
    g_0, g_1 = (c_g * T.gearbox + p.to_gearbox + outside * p.T_ambient) / d_g, p.gearbox_tank / d_g
    d_c = c_c + p.flow + p.core_cold
    k_0 = (c_c * T.core + (p.core_hot + p.core_cold) * p.T_core_air) / d_c
    k_1 = (p.flow - p.core_hot) / d_c
    # back from the core: flow at the core's temperature, and what the gearbox adds in its tank
    back_0 = (p.flow - p.gearbox_tank + p.gearbox_tank * g_1) * k_0 + p.gearbox_tank * g_0
    back_1 = (p.flow - p.gearbox_tank + p.gearbox_tank * g_1) * k_1
    lost = p.surface + p.heater
    given = c_e * T.coolant + p.metal_coolant * m_0 + p.oil_coolant * o_0 + back_0 + lost * p.T_ambient
    held = c_e + p.metal_coolant * (1.0 - m_1) + p.oil_coolant * (1.0 - o_1) + p.flow + lost - back_1
    T_e = given / held
    T_c = k_0 + k_1 * T_e
    return Nodes(metal=m_0 + m_1 * T_e, coolant=T_e, oil=o_0 + o_1 * T_e, core=T_c, gearbox=g_0 + g_1 * T_c)
