"""The temperature gauge and its sender: what the driver sees."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import TEMPERATURE_RISE, TIME

HEAD_SHARE = 0.2
"""How far a sender in a cylinder head reads towards the metal around it [1]; judgement.

Common practice has it 5 to 11 K above one in the manifold on a climb, where that metal stands some 30 K above."""

DRY_FROM = (0.25, 0.35, 0.10)
"""Share of the volume that is missing from which a sender begins to stand in steam: housing, head, radiator tank [1].

Judgement: the radiator's tank empties first, then the outlet at the top of the engine."""

DRY_OVER = 0.15
"""Further share that is missing until it stands in steam all the time [1]; judgement."""

STEAM_SHORT = 0.25
"""How far a sender in steam falls short of the coolant, over coolant above outside air [1]; judgement: 15 to 20 K."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """Sender and instrument."""

    # fmt: off
    sender_place: Real = declare_choice(
        "where the sender sits", ("outlet housing", "cylinder head", "radiator tank"), typical="outlet housing",
        measure="follow the wire from the gauge: at the thermostat, in a head by the plugs, or in the radiator")
    sender_offset: Real = declare(
        "sender above or below what flows past it", TEMPERATURE_RISE, hard=(-20, 30), plausible=(-8, 12), typical=0.0,
        spread=1.5, measure="second thermometer beside it; a poor seat or thread sealer reads low")
    error: Real = declare(
        "error of the instrument", TEMPERATURE_RISE, hard=(-60, 120), plausible=(-15, 15), typical=0.0, spread=2.0,
        measure="second thermometer in the neck; sender in hot water")
    lag: Real = declare(
        "time in which sender and needle follow two thirds of a change", TIME, hard=(0.1, 200), plausible=(1, 60),
        typical=8, spread=0.5, relative=True,
        measure="sender in hot water and a watch; a heated-strip gauge takes 20 to 30 s, a logger 2 to 3, no source")
    # fmt: on

    def at_sender(self, *, T_engine_out: Real, T_metal: Real, T_tank: Real, T_ambient: Real, missing: Real) -> Real:
        """Temperature that the sender comes to [K].

        Parameters
        ----------
        T_engine_out, T_metal, T_tank, T_ambient : coolant that leaves the engine, metal of the heads, the radiator's
            hot tank, outside air [K]
        missing : share of the coolant's volume that is air or steam [1]
        """
        xp = namespace(T_engine_out, T_tank, self.sender_place, missing)
        head, tank = self.sender_place > 0.5, self.sender_place > 1.5
        wet = xp.where(tank, T_tank, T_engine_out + xp.where(head, HEAD_SHARE, 0.0) * (T_metal - T_engine_out))
        dry_from = xp.where(tank, DRY_FROM[2], xp.where(head, DRY_FROM[1], DRY_FROM[0]))
        dry = xp.clip((missing - dry_from) / DRY_OVER, 0.0, 1.0)
        return wet - STEAM_SHORT * dry * (wet - T_ambient)

    def shown(self, *, T_sender: Real) -> Real:
        """What the gauge shows [K] for the temperature of its sender [K]."""
        return T_sender + self.sender_offset + self.error
