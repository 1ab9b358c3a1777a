"""What a test rig would report of a core: conductances, pressure drops and heat at given flows."""

from toptank.equations.core_loss import contraction_loss, core_pressure_drop, expansion_loss
from toptank.equations.duct import friction_developing, friction_rectangular, nusselt_developing, nusselt_rectangular
from toptank.equations.fin import fin_efficiency
from toptank.equations.fouling import fouling_resistance
from toptank.equations.louvered_fin import colburn_j_louvered, fanning_f_louvered
from toptank.equations.tube import friction_darcy, nusselt_tube
from toptank.media.metal import fin_conductivity, tube_conductivity
from toptank.parts.core import Core
from toptank.units.arrays import Real, namespace

ROUND_TUBE_FRICTION = 16.0
"""Fanning factor times Reynolds number of laminar flow in a round tube [1]."""

TANK_LOSS = 1.5
"""Dynamic heads lost where the coolant enters and leaves the tubes of one pass [1]: sharp entry 0.5, exit 1.0."""


def air_pressure_drop(core: Core, *, V_open: Real, rho_in: Real, rho_out: Real, mu: Real, friction: Real) -> Real:
    """Pressure drop of the air through the core [Pa].

    Parameters
    ----------
    core : the core
    V_open : velocity of the air just ahead of the open part of the face [m/s]
    rho_in, rho_out : density of the air ahead of and behind the core [kg/m3]
    mu : viscosity of the air [Pa s]
    friction : doubt of the friction relation, 1 as published [1]
    """
    xp = namespace(V_open, rho_in, core.fin_density)
    sigma, D_h = core.free_area_ratio(), core.channel_hydraulic_diameter()
    G = V_open * (rho_in / sigma)
    height, width = core.channel()
    louvered = fanning_f_louvered(
        Re_Lp=G * (core.louver_pitch / mu),
        theta=core.louver_angle,
        F_p=core.fin_pitch(),
        L_p=core.louver_pitch,
        F_l=core.fin_height(),
        F_d=core.depth(),
        L_l=core.louver_share * core.fin_height(),
        T_p=core.tube_pitch,
        delta_f=core.fin_thickness,
        D_m=core.tube_pitch - core.fin_height(),
    )
    Re = xp.maximum(G * (D_h / mu), 1.0)
    aspect = xp.minimum(height, width) / xp.maximum(height, width)
    plain = friction_developing(friction_rectangular(aspect), core.depth() / (D_h * Re)) / Re
    is_plain = core.fin_kind > 0.5
    f = xp.where(is_plain, plain, louvered) * friction
    K_d = xp.where(is_plain, 1.2, 1.0)
    return core_pressure_drop(
        G=G,
        rho_1=rho_in,
        rho_2=rho_out,
        sigma=sigma,
        K_c=contraction_loss(sigma, K_d),
        K_e=expansion_loss(sigma, K_d),
        f=f,
        A_over_A_c=4.0 * core.depth() / D_h,
    )


def air_conductance(core: Core, *, V_open: Real, rho: Real, mu: Real, k: Real, c_p: Real, heat_transfer: Real) -> Real:
    """Conductance from the tube walls to the air, per square metre of open face [W/(m2 K)].

    A fin beside a blocked tube is twice as long; a fin without bond carries nothing.

    Parameters
    ----------
    core : the core
    V_open : velocity of the air just ahead of the open part of the face [m/s]
    rho, mu, k, c_p : density, viscosity, conductivity, heat capacity of the air [kg/m3, Pa s, W/(m K), J/(kg K)]
    heat_transfer : doubt of the heat transfer relation, 1 as published [1]
    """
    xp = namespace(V_open, rho, core.fin_density)
    sigma, D_h = core.free_area_ratio(), core.channel_hydraulic_diameter()
    G = V_open * (rho / sigma)
    Pr = mu * c_p / k
    j = colburn_j_louvered(
        Re_Lp=xp.maximum(G * (core.louver_pitch / mu), 1.0),
        theta=core.louver_angle,
        F_p=core.fin_pitch(),
        L_p=core.louver_pitch,
        F_l=core.fin_height(),
        T_d=core.depth(),
        L_l=core.louver_share * core.fin_height(),
        T_p=core.tube_pitch,
        delta_f=core.fin_thickness,
    )
    louvered = j * G * c_p * xp.exp(-2.0 / 3.0 * xp.log(Pr))
    height, width = core.channel()
    aspect = xp.minimum(height, width) / xp.maximum(height, width)
    x_star = core.depth() / (D_h * Pr) / xp.maximum(G * (D_h / mu), 1.0)
    plain = nusselt_developing(nusselt_rectangular(aspect), x_star, Pr) * k / D_h
    h = xp.where(core.fin_kind > 0.5, plain, louvered) * heat_transfer

    area, fin_share = core.air_area()
    k_f = fin_conductivity(core.material)
    eta = fin_efficiency(h=h, k_f=k_f, delta_f=core.fin_thickness, L_f=core.fin_height() / 2.0)
    eta_long = fin_efficiency(h=h, k_f=k_f, delta_f=core.fin_thickness, L_f=core.fin_height())
    live, dead = 1.0 - core.blocked_tubes, core.blocked_tubes
    eta_fin = (live * live * eta + 2.0 * live * dead * eta_long) * (1.0 - core.loose_fins)
    bare = (1.0 - fin_share) * live
    return h * area * (fin_share * eta_fin + bare)


def coolant_conductance(
    core: Core, *, flow: Real, rho: Real, mu: Real, k: Real, c_p: Real, Re_transition: Real, enhancement: Real
) -> tuple[Real, Real]:
    """Conductance from the coolant through film, scale and wall, per square metre of face, and the tubes' Reynolds.

    Scale adds its resistance to the film of the clean bore, the convention of fouling factors: a real deposit is
    rough and uneven, and its narrowing is felt as lost flow, not as a better film.

    Parameters
    ----------
    core : the core
    flow : coolant through the whole core [m3/s]
    rho, mu, k, c_p : properties of the coolant [kg/m3, Pa s, W/(m K), J/(kg K)]
    Re_transition : Reynolds number at which the tubes leave laminar flow [1]
    enhancement : gain of real tubes (dimples, seams, sharp entries) over smooth ones [1]

    Returns
    -------
    conductance : per square metre of face [W/(m2 K)]
    Re : Reynolds number in the live tubes [1]
    """
    area, perimeter, aspect = core.bore()
    D_h = 4.0 * area / perimeter
    live = core.tubes() * (1.0 - core.blocked_tubes)
    Re = rho * (flow * core.passes / live / area) * D_h / mu
    Nu = nusselt_tube(Re=Re, Pr=mu * c_p / k, alpha=aspect, D_h=D_h, L=core.tube_length(), Re_tr=Re_transition)
    film = D_h / (Nu * k * enhancement)
    scale = fouling_resistance(core.scale_thickness, core.scale_conductivity)
    wall = core.tube_wall / tube_conductivity(core.material)
    wetted = perimeter * core.tube_length() * live
    return wetted / (film + scale + wall) / core.face_area(), Re


def coolant_pressure_drop(core: Core, *, flow: Real, rho: Real, mu: Real) -> Real:
    """Pressure drop of the coolant through the core, all passes [Pa]; scale narrows the bore.

    Parameters
    ----------
    core : the core
    flow : coolant through the whole core [m3/s]
    rho, mu : density and viscosity of the coolant [kg/m3, Pa s]
    """
    xp = namespace(flow, rho, core.scale_thickness)
    area, perimeter, aspect = core.bore()
    clean_gap = core.tube_thickness - 2.0 * core.tube_wall
    narrowing = xp.maximum(1.0 - 2.0 * core.scale_thickness / clean_gap, 0.15)
    area = area * narrowing
    D_h = 4.0 * area / perimeter
    U = flow * core.passes / (core.tubes() * (1.0 - core.blocked_tubes) * area)
    # A flat tube rubs harder than a round one of its hydraulic diameter: Jones (1976) scales the Reynolds number so
    # that the laminar friction is that of the duct.
    flat_to_round = ROUND_TUBE_FRICTION / friction_rectangular(aspect)
    Re = xp.maximum(rho * xp.abs(U) * D_h / mu * flat_to_round, 1.0)
    heads = friction_darcy(Re, 0.0) * core.tube_length() / D_h + TANK_LOSS
    return core.passes * heads * 0.5 * rho * U * xp.abs(U)
