"""The condenser ahead of the core: it takes pressure from the air and gives heat to it."""

from dataclasses import dataclass

from toptank.media.refrigerant import COLDEST_CONDENSING, cold_ratio_coefficients, rejection_ratio_coefficients
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


STATED_AT = 40.0
"""Engine speed at which the cooling asked is stated [1/s]."""

ALL_IT_CAN = 15.0
"""Engine speed at which the compressor, never switched off, just gives the cooling asked, condensing at 55 degC [1/s].

From memory: 0.16 L swept a turn, turned 1.25 times as fast as the engine, filled to 0.72 with R134a. By CoolProp that
gives 5 kW at 15 1/s. At idle it runs without a pause and gives less than is asked."""

FALL_PER_KELVIN = 0.015
"""Fall of what a compressor can do per kelvin of condensing temperature, over what it does at 55 degC [1/K].

The enthalpy that a kilogram can still take up falls by 1.1 % (CoolProp), the filling by some 0.4 % (no source)."""


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
        measure="not measured: 40 to 80 Pa at 4 m/s when clean, no source; look for mats of leaves between the two")
    conductance: Real = declare(
        "heat given to the air per kelvin at 2.5 m/s", CONDUCTANCE, hard=(20, 3000), plausible=(150, 1200),
        typical=450, spread=0.25, relative=True, measure="not measured; scales with size")
    refrigerant: Real = declare_choice(
        "refrigerant", ("R134a", "R12"), typical="R134a", doubt=0.1, measure="label; quick couplings are R134a")
    cooling_load: Real = declare(
        "cooling asked of the evaporator at 35 degC outside, high blower", HEAT, hard=(0, 25000),
        plausible=(2000, 12000), typical=5000, spread=0.2, relative=True,
        measure="not measured: 4 to 6 kW a row of seats and a half, roof units more; typical, no source")
    # fmt: on

    def load(self, *, T_ambient: Real, engine_speed: Real, air_conditioning: Real) -> Real:
        """The lesser of the cooling asked and of all that the compressor gives at 55 degC, without a corner [W].

        Parameters
        ----------
        T_ambient : air temperature outside [K]
        engine_speed : crankshaft speed [1/s]
        air_conditioning : 1 if switched on [1]
        """
        xp = namespace(T_ambient, engine_speed, self.present)
        pumping = 1.0 / xp.sqrt(1.0 + self._asked_over_all(T_ambient=T_ambient, engine_speed=engine_speed) ** 2)
        at_stated = STATED_AT / (STATED_AT * STATED_AT + ALL_IT_CAN * ALL_IT_CAN) ** 0.5
        return self.cooling_load * _weather(T_ambient) * (pumping / at_stated) * self.present * air_conditioning

    def _asked_over_all(self, *, T_ambient: Real, engine_speed: Real) -> Real:
        """Cooling asked over all that the compressor gives, condensing at 55 degC [1]."""
        xp = namespace(T_ambient, engine_speed)
        weather = _weather(T_ambient)
        # Asked for more than it can, it draws a denser gas from a warmer evaporator: makers' pressures rise so.
        return weather**0.5 * ALL_IT_CAN / xp.maximum(engine_speed, 1e-3)

    def balance(
        self, *, load: Real, T_ambient: Real, engine_speed: Real, C_air: Real, T_air_in: Real, V_face: Real
    ) -> tuple[Real, Real, Real]:
        """Heat given to the air [W], power taken from the engine [W], condensing temperature [K].

        A compressor that gives all it can gives less the hotter it must condense; one with speed to spare does not.
        Where the air cannot carry the heat below the limit temperature, the cooling falls short further.

        Parameters
        ----------
        load : the lesser of the cooling asked and of all that the compressor gives at 55 degC [W]
        T_ambient : air temperature outside [K]
        engine_speed : crankshaft speed [1/s]
        C_air : heat capacity rate of the air through the condenser [W/K]
        T_air_in : air temperature ahead of the condenser [K]
        V_face : air velocity at the condenser [m/s]
        """
        xp = namespace(load, C_air, T_air_in, V_face)
        warm = rejection_ratio_coefficients(T_EVAPORATING, self.refrigerant)
        cold = cold_ratio_coefficients(T_EVAPORATING, warm)
        conductance = self.conductance * xp.sqrt(xp.maximum(V_face, 1e-3) / CONDUCTANCE_AT)
        reach = C_air * -xp.expm1(-conductance / C_air)
        x_air, x_limit, x_cold = T_air_in - 328.15, T_CONDENSING_LIMIT - 328.15, COLDEST_CONDENSING - 328.15
        short = self._asked_over_all(T_ambient=T_ambient, engine_speed=engine_speed) ** 2
        fall = FALL_PER_KELVIN * short / (1.0 + short)

        at_limit = load * (1.0 - fall * x_limit) * (warm[0] + x_limit * (warm[1] + x_limit * warm[2]))
        at_cold = load * (1.0 - fall * x_cold) * (cold[0] + x_cold * cold[1])
        is_cold = reach * (x_cold - x_air) >= at_cold
        r_0, r_1 = (xp.where(is_cold, *pair) for pair in zip(cold, warm[:2], strict=True))
        r_2 = xp.where(is_cold, 0.0, warm[2])
        # reach (x - x_air) = load (1 - fall x) (r_0 + r_1 x + r_2 x^2), without the cube of x (2 % of the heat at the
        # limit): the smaller root, in the form without cancellation. Heat and cooling agree whatever it misses.
        a, b, c = load * (r_2 - fall * r_1), load * (r_1 - fall * r_0) - reach, load * r_0 + reach * x_air
        root = 2.0 * c / (-b + xp.sqrt(xp.maximum(b * b - 4.0 * a * c, 0.0)))
        cut_off = reach * (x_limit - x_air) <= at_limit
        x = xp.where(cut_off, x_limit, xp.minimum(root, x_limit))
        ratio = r_0 + x * (r_1 + x * r_2)
        heat = reach * xp.maximum(x - x_air, 0.0)
        # Where nothing is lifted, the refrigerant goes round by itself.
        return heat, heat * xp.maximum(1.0 - 1.0 / ratio, 0.0) / BELT_EFFICIENCY, x + 328.15


def _weather(T_ambient: Real) -> Real:
    """Cooling asked over that at 35 degC outside [1]: more on a hot day, none on a cold one; judgement."""
    xp = namespace(T_ambient)
    return xp.clip((T_ambient - 283.15) / 25.0, 0.1, 1.5)
