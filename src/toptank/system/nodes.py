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
    stage = _Stage.of(C, paths, GAMMA * dt)
    first = stage.solved(T)
    onward = Nodes(*(t + (1.0 - GAMMA) / GAMMA * (x - t) for t, x in zip(T, first, strict=True)))
    last = stage.solved(onward)
    mean = Nodes(*((1.0 - GAMMA) * x + GAMMA * y for x, y in zip(first, last, strict=True)))
    return last, mean


class _Stage(NamedTuple):
    """An implicit stage T' - a dT'/dt = T, solved but for T: each mass in terms of the one that it hangs on.

    Metal and oil hang on the engine's coolant, the gearbox on the core, the core on the engine's coolant.

    own : how much of a mass's own T stays in its T'; of the coolant over all that goes into it
    given : what the outside and the heat made there add to it [K]
    hung : share of the temperature of the mass that it hangs on
    to_coolant : how much of each mass's T, without its share of the coolant's, comes back to the coolant
    """

    own: Nodes
    given: Nodes
    hung: Nodes
    to_coolant: Nodes

    @classmethod
    def of(cls, C: Nodes, p: Paths, a: Real) -> "_Stage":
        c_m, c_e, c_o, c_c, c_g = (c / a for c in C)
        outside = p.case + p.gearbox_air
        by_m, by_o = 1.0 / (c_m + p.metal_coolant), 1.0 / (c_o + p.oil_coolant)
        by_g = 1.0 / (c_g + p.gearbox_tank + outside)
        by_c = 1.0 / (c_c + p.flow + p.core_cold)
        hung = Nodes(
            metal=p.metal_coolant * by_m,
            coolant=0.0 * by_m,
            oil=p.oil_coolant * by_o,
            core=(p.flow - p.core_hot) * by_c,
            gearbox=p.gearbox_tank * by_g,
        )
        # what flows back comes from the core, with what the gearbox adds in its tank
        back = p.flow - p.gearbox_tank + p.gearbox_tank * hung.gearbox
        lost = p.surface + p.heater
        held = c_e + p.metal_coolant * (1.0 - hung.metal) + p.oil_coolant * (1.0 - hung.oil) + p.flow + lost
        by_e = 1.0 / (held - back * hung.core)
        return cls(
            own=Nodes(metal=c_m * by_m, coolant=c_e * by_e, oil=c_o * by_o, core=c_c * by_c, gearbox=c_g * by_g),
            given=Nodes(
                metal=p.to_metal * by_m,
                coolant=lost * p.T_ambient * by_e,
                oil=p.to_oil * by_o,
                core=(p.core_hot + p.core_cold) * p.T_core_air * by_c,
                gearbox=(p.to_gearbox + outside * p.T_ambient) * by_g,
            ),
            hung=hung,
            to_coolant=Nodes(
                metal=p.metal_coolant * by_e,
                coolant=0.0 * by_e,
                oil=p.oil_coolant * by_e,
                core=back * by_e,
                gearbox=p.gearbox_tank * by_e,
            ),
        )

    def solved(self, T: Nodes) -> Nodes:
        """T' of a T [K]."""
        alone = Nodes(*(own * t + given for own, t, given in zip(self.own, T, self.given, strict=True)))
        back = self.to_coolant
        of_engine = back.metal * alone.metal + back.oil * alone.oil
        coolant = alone.coolant + of_engine + back.core * alone.core + back.gearbox * alone.gearbox
        core = alone.core + self.hung.core * coolant
        return Nodes(
            metal=alone.metal + self.hung.metal * coolant,
            coolant=coolant,
            oil=alone.oil + self.hung.oil * coolant,
            core=core,
            gearbox=alone.gearbox + self.hung.gearbox * core,
        )
