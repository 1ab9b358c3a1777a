"""A core on the bench: fixed flows and inlet temperatures, everything else from the geometry."""

from typing import NamedTuple

import numpy as np

from toptank.equations.effectiveness import crossflow
from toptank.knowledge.sheet import Sheet, vehicle
from toptank.media import air, coolant
from toptank.parts.air_passage import AirPassage, Film
from toptank.parts.coolant_passage import CoolantPassage
from toptank.system.vehicle import Vehicle

BENCH_PRESSURE = 101325.0
"""Pressure of the air on the bench [Pa]."""

ROUNDS = 6
"""Rounds on the mean temperatures at which the properties are taken; each gains a digit."""


class CoreRating(NamedTuple):
    """A core on the bench: heat [W], temperatures [K], pressure drops [Pa], UA [W/K], Reynolds number, shares [1]."""

    heat: float
    T_coolant_out: float
    T_air_out: float
    air_pressure_drop: float
    coolant_pressure_drop: float
    conductance: float
    effectiveness: float
    air_share_of_resistance: float
    tube_reynolds: float
    regime: str
    depth: float


class _Round(NamedTuple):
    heat: float
    C_air: float
    C_coolant: float
    UA: float
    air_share: float
    tube_reynolds: float


def rate(sheet: Sheet, *, flow: float, T_coolant_in: float, T_air_in: float, V_face: float) -> CoreRating:
    """Rate the core of a sheet: coolant flow [m3/s], inlet temperatures [K], air velocity at the face [m/s]."""
    built = vehicle(sheet)
    core, doubts, mix = built.core, built.doubts, (built.fill.concentrate, built.fill.glycol)
    T_coolant, T_air = T_coolant_in, T_air_in
    at = _round(built, flow, V_face, T_coolant, T_air, T_coolant_in, T_air_in)
    for _ in range(ROUNDS):
        T_coolant, T_air = T_coolant_in - 0.5 * at.heat / at.C_coolant, T_air_in + 0.5 * at.heat / at.C_air
        at = _round(built, flow, V_face, T_coolant, T_air, T_coolant_in, T_air_in)
    T_air_out = T_air_in + at.heat / at.C_air
    drop = AirPassage.of(core).pressure_drop(
        V_open=V_face / (1.0 - core.blocked_face),
        rho_in=air.density(T_air_in, BENCH_PRESSURE, 0.0),
        rho_out=air.density(T_air_out, BENCH_PRESSURE, 0.0),
        mu=air.viscosity(T_air),
        friction=doubts.air_friction,
    )
    rho, mu = coolant.density(T_coolant, *mix), coolant.viscosity(T_coolant, *mix)
    trip, full = doubts.transition_reynolds, doubts.transition_reynolds * 4000.0 / 2300.0
    regime = "laminar" if at.tube_reynolds < trip else "transition" if at.tube_reynolds < full else "turbulent"
    return CoreRating(
        heat=at.heat,
        T_coolant_out=T_coolant_in - at.heat / at.C_coolant,
        T_air_out=T_air_out,
        air_pressure_drop=float(drop),
        coolant_pressure_drop=float(CoolantPassage.of(core).pressure_drop(flow=flow, rho=rho, mu=mu)),
        conductance=at.UA,
        effectiveness=at.heat / (min(at.C_air, at.C_coolant) * (T_coolant_in - T_air_in)),
        air_share_of_resistance=at.air_share,
        tube_reynolds=at.tube_reynolds,
        regime=regime,
        depth=float(core.depth()),
    )


def _round(
    built: Vehicle, flow: float, V_face: float, T_coolant: float, T_air: float, T_coolant_in: float, T_air_in: float
) -> _Round:
    """One round with the properties at mean temperatures [K]."""
    core, doubts, mix = built.core, built.doubts, (built.fill.concentrate, built.fill.glycol)
    open_face = 1.0 - core.blocked_face
    rho_air, c_air = air.density(T_air_in, BENCH_PRESSURE, 0.0), air.heat_capacity(0.0)
    rho, c_p = coolant.density(T_coolant, *mix), coolant.heat_capacity(T_coolant, *mix)
    film = Film.of(mu=air.viscosity(T_air), k=air.conductivity(T_air), c_p=c_air)
    outside = AirPassage.of(core).conductance(
        film, V_open=V_face / open_face, rho=rho_air, heat_transfer=doubts.air_heat_transfer
    )
    inside, Re = CoolantPassage.of(core).conductance(
        flow=flow,
        rho=rho,
        mu=coolant.viscosity(T_coolant, *mix),
        k=coolant.conductivity(T_coolant, *mix),
        c_p=c_p,
        Re_transition=doubts.transition_reynolds,
        enhancement=doubts.tube_enhancement,
    )
    UA = float(outside * inside / (outside + inside) * open_face * core.face_area())
    C_air = float(rho_air * V_face * core.face_area() * c_air)
    C_coolant = float(flow * rho * c_p)
    used = crossflow(UA / C_air, C_air / (core.passes * C_coolant)) * C_air / (core.passes * C_coolant)
    share = -np.expm1(core.passes * np.log1p(-np.minimum(used, 1.0 - 1e-12)))
    heat = float(C_coolant * share * (T_coolant_in - T_air_in))
    return _Round(heat, C_air, C_coolant, UA, float(inside / (outside + inside)), float(Re))
