"""A core on the bench: fixed flows and inlet temperatures, everything else from the geometry."""

import numpy as np

from toptank.equations.effectiveness import crossflow
from toptank.jobs.answers import CoreRating
from toptank.knowledge.sheet import Sheet, vehicle
from toptank.media import air, coolant
from toptank.parts.core_rating import air_conductance, air_pressure_drop, coolant_conductance, coolant_pressure_drop

BENCH_PRESSURE = 101325.0
"""Pressure of the air on the bench [Pa]."""

PASSES_OVER_TEMPERATURE = 6
"""Rounds on the mean temperatures at which the properties are taken; each gains a digit."""


def rate(
    sheet: Sheet,
    *,
    flow: float,
    T_coolant_in: float,
    T_air_in: float,
    V_face: float,
    remarks: tuple[str, ...] = (),
    assumed_units: tuple[str, ...] = (),
) -> CoreRating:
    """Rate the core of a sheet: coolant flow [m3/s], inlet temperatures [K], air velocity at the face [m/s]."""
    built = vehicle(sheet)
    core, fill, doubts = built.core, built.fill, built.doubts
    mix = (fill.concentrate, fill.glycol)
    open_face = 1.0 - core.blocked_face
    V_open = V_face / open_face
    rho_air = air.density(T_air_in, BENCH_PRESSURE, 0.0)
    c_air = air.heat_capacity(0.0)
    heat, C_coolant = 0.0, 1.0
    for _ in range(PASSES_OVER_TEMPERATURE):
        C_air = rho_air * V_face * core.face_area() * c_air
        T_c = T_coolant_in - 0.5 * heat / C_coolant
        T_a = T_air_in + 0.5 * heat / C_air
        rho, mu = coolant.density(T_c, *mix), coolant.viscosity(T_c, *mix)
        k, c_p = coolant.conductivity(T_c, *mix), coolant.heat_capacity(T_c, *mix)
        outside = air_conductance(
            core,
            V_open=V_open,
            rho=rho_air,
            mu=air.viscosity(T_a),
            k=air.conductivity(T_a),
            c_p=c_air,
            heat_transfer=doubts.air_heat_transfer,
        )
        inside, Re = coolant_conductance(
            core,
            flow=flow,
            rho=rho,
            mu=mu,
            k=k,
            c_p=c_p,
            Re_transition=doubts.transition_reynolds,
            enhancement=doubts.tube_enhancement,
        )
        per_area = outside * inside / (outside + inside)
        C_coolant = flow * rho * c_p
        C_r = C_air / (core.passes * C_coolant)
        epsilon = crossflow(per_area * open_face * core.face_area() / C_air, C_r)
        used = np.clip(epsilon * C_air / (core.passes * C_coolant), 0.0, 1.0 - 1e-12)
        heat = float(C_coolant * -np.expm1(core.passes * np.log1p(-used)) * (T_coolant_in - T_air_in))
    T_air_out = T_air_in + heat / float(C_air)
    rho_out = air.density(T_air_out, BENCH_PRESSURE, 0.0)
    drop = air_pressure_drop(
        core, V_open=V_open, rho_in=rho_air, rho_out=rho_out, mu=air.viscosity(T_a), friction=doubts.air_friction
    )
    trip, full = doubts.transition_reynolds, doubts.transition_reynolds * 4000.0 / 2300.0
    return CoreRating(
        name=sheet.name,
        heat=heat,
        T_coolant_out=T_coolant_in - heat / float(C_coolant),
        T_air_out=T_air_out,
        air_pressure_drop=float(drop),
        coolant_pressure_drop=float(coolant_pressure_drop(core, flow=flow, rho=rho, mu=mu)),
        conductance=float(per_area * open_face * core.face_area()),
        effectiveness=heat / (min(float(C_air), float(C_coolant)) * (T_coolant_in - T_air_in)),
        air_share_of_resistance=float(inside / (outside + inside)),
        tube_reynolds=float(Re),
        regime="laminar" if Re < trip else "transition" if Re < full else "turbulent",
        depth=float(core.depth()),
        remarks=remarks,
        assumed_units=assumed_units,
    )
