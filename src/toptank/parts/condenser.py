"""The condenser ahead of the core: it takes pressure from the air and gives heat to it."""

from dataclasses import dataclass

from toptank.media.refrigerant import rejection_ratio_coefficients
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice, declare_yes_no
from toptank.units.dimension import CONDUCTANCE, FRACTION, HEAT, NUMBER

T_EVAPORATING = 278.15
"""Evaporating temperature of a cabin at work [K]: 3 to 8 degC in makers' idle figures."""

T_CONDENSING_LIMIT = 358.15
"""Condensing temperature at which the compressor is cut off or can no longer lift [K]; judgement."""

CONDUCTANCE_AT = 2.5
"""Air velocity at which the conductance of a condenser is stated [m/s]."""

BELT_EFFICIENCY = 0.9
"""Work at the compressor's shaft over power taken from the engine [1]; from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condenser:
    """Condenser and refrigerant cycle of the air conditioning, or its absence."""

    # fmt: off
    present: Real = declare_yes_no(
        "air conditioning with a condenser ahead of the core", typical=True, measure="look through the grille")
    coverage: Real = declare(
        "share of the face behind the condenser", FRACTION, hard=(0.0, 1.0), plausible=(0.3, 1.0), typical=0.85,
        spread=0.08, measure="tape: area of the condenser over area of the face")
    loss_coefficient: Real = declare(
        "loss of the condenser, in dynamic heads of the air", NUMBER, hard=(0.0, 100.0), plausible=(2.0, 25.0),
        typical=5.5, spread=0.3, relative=True,
        measure="not measured: 40 to 80 Pa at 4 m/s when clean, from memory; look for mats of leaves between the two")
    conductance: Real = declare(
        "heat given to the air per kelvin at 2.5 m/s", CONDUCTANCE, hard=(20, 3000), plausible=(150, 1200),
        typical=450, spread=0.25, relative=True, measure="not measured; scales with size")
    refrigerant: Real = declare_choice(
        "refrigerant", ("R134a", "R12"), typical="R134a", doubt=0.1, measure="label; quick couplings are R134a")
    cooling_load: Real = declare(
        "cooling asked of the evaporator at 35 degC outside, high blower", HEAT, hard=(500, 25000),
        plausible=(2000, 12000), typical=5000, spread=0.2, relative=True,
        measure="not measured: 4 to 6 kW a row of seats and a half, roof units more; from memory")
    # fmt: on

    def load(self, *, T_ambient: Real, engine_speed: Real, air_conditioning: Real) -> Real:
        """Cooling that the cabin asks for [W]: more on a hot day, less from a slow compressor; judgement.

        Parameters
        ----------
        T_ambient : air temperature outside [K]
        engine_speed : crankshaft speed [1/s]
        air_conditioning : 1 if switched on [1]
        """
        xp = namespace(T_ambient, engine_speed, self.present)
        weather = xp.clip((T_ambient - 283.15) / 25.0, 0.1, 1.5)
        pumping = 1.15 * engine_speed / (engine_speed + 6.0)
        return self.cooling_load * weather * pumping * self.present * air_conditioning

    def balance(self, *, load: Real, C_air: Real, T_air_in: Real, V_face: Real) -> tuple[Real, Real, Real]:
        """Heat given to the air [W], power taken from the engine [W], condensing temperature [K].

        Where the air cannot carry the heat below the limit temperature, the cooling falls short instead.

        Parameters
        ----------
        load : cooling that the cabin asks for [W]
        C_air : heat capacity rate of the air through the condenser [W/K]
        T_air_in : air temperature ahead of the condenser [K]
        V_face : air velocity at the condenser [m/s]
        """
        xp = namespace(load, C_air, T_air_in, V_face)
        r_0, r_1, r_2 = rejection_ratio_coefficients(T_EVAPORATING, self.refrigerant)
        conductance = self.conductance * xp.sqrt(xp.maximum(V_face, 1e-3) / CONDUCTANCE_AT)
        reach = C_air * -xp.expm1(-conductance / C_air)
        x_air, x_limit = T_air_in - 328.15, T_CONDENSING_LIMIT - 328.15
        ratio_limit = r_0 + x_limit * (r_1 + x_limit * r_2)
        most = reach * xp.maximum(x_limit - x_air, 0.0) / ratio_limit
        cooling = xp.minimum(load, most)
        # reach (x - x_air) = cooling (r_0 + r_1 x + r_2 x^2): the smaller root, in the form without cancellation
        a, b, c = cooling * r_2, cooling * r_1 - reach, cooling * r_0 + reach * x_air
        x = 2.0 * c / (-b + xp.sqrt(xp.maximum(b * b - 4.0 * a * c, 0.0)))
        ratio = r_0 + x * (r_1 + x * r_2)
        return cooling * ratio, cooling * (ratio - 1.0) / BELT_EFFICIENCY, x + 328.15
