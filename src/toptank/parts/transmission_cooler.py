"""Where the transmission's heat goes."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import CONDUCTANCE

T_FLUID_LIMIT = 430.0
"""Fluid temperature above which more heat cannot be passed on in the model [K]; the seals have long gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TransmissionCooler:
    """Cooler in the outlet tank of the core, ahead of the core, or elsewhere (also: none)."""

    # fmt: off
    place: Real = declare_choice(
        "where the transmission is cooled", ("none", "in the tank", "ahead of the core", "out of the core's air"),
        typical="in the tank", measure="follow the two pipes from the transmission")
    conductance: Real = declare(
        "heat passed on per kelvin", CONDUCTANCE, hard=(5, 2000), plausible=(40, 500), typical=200, spread=0.25,
        relative=True, measure="not measured; typical, no source")
    case_conductance: Real = declare(
        "heat lost from the transmission's case per kelvin", CONDUCTANCE, hard=(1, 300), plausible=(8, 80), typical=25,
        spread=0.25, relative=True, measure="not measured; judgement")
    # fmt: on

    def to_coolant(self) -> Real:
        """1 where the cooler sits in the tank [1]."""
        xp = namespace(self.place, self.conductance)
        return xp.where((self.place > 0.5) & (self.place < 1.5), 1.0, 0.0)

    def to_core_air(self) -> Real:
        """1 where the cooler heats the air ahead of the core [1]."""
        xp = namespace(self.place, self.conductance)
        return xp.where((self.place > 1.5) & (self.place < 2.5), 1.0, 0.0)

    def reach(self, *, C_sink: Real) -> Real:
        """Heat passed on per kelvin [W/K] to a sink of a capacity rate [W/K]; none without a cooler."""
        xp = namespace(C_sink, self.place)
        return xp.where(self.place > 0.5, C_sink * -xp.expm1(-self.conductance / C_sink), 0.0)

    def split(self, *, heat: Real, T_sink: Real, C_sink: Real, T_ambient: Real) -> tuple[Real, Real]:
        """Heat passed to the cooler's sink [W] and temperature of the fluid [K].

        Parameters
        ----------
        heat : heat made in the transmission [W]
        T_sink : coolant or air at the cooler [K]
        C_sink : its capacity rate: a trickle of coolant takes up no more than it can carry [W/K]
        T_ambient : air around the case [K]
        """
        xp = namespace(heat, T_sink, self.place)
        cooler = self.reach(C_sink=C_sink)
        total = cooler + self.case_conductance
        T_fluid = (heat + cooler * T_sink + self.case_conductance * T_ambient) / total
        T_fluid = xp.minimum(T_fluid, xp.maximum(T_FLUID_LIMIT, T_sink))
        return cooler * (T_fluid - T_sink), T_fluid
