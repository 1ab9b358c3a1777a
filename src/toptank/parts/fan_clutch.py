"""The viscous fan clutch, judged as in the bay: fan speed over shaft speed, cold and hot."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice, declare_yes_no
from toptank.units.dimension import FRACTION, ROTATION, TEMPERATURE, TEMPERATURE_RISE, TIME


@dataclass(frozen=True, slots=True, kw_only=True)
class FanClutch:
    """A clutch that lets the fan slip while the air on its coil is cool. Without meaning for other drives."""

    # fmt: off
    kind: Real = declare_choice(
        "kind of clutch", ("standard", "heavy-duty", "severe-duty"), typical="heavy-duty",
        measure="part number or parts list; hot, a standard one turns the fan at 50 to 60 % of the shaft, a heavy-duty "
        "one at 80 %, a severe-duty one at 90 %; common practice, no source")
    engaged_ratio: Real = declare(
        "fan speed over shaft speed, engaged", FRACTION, hard=(0.02, 0.99), plausible=(0.4, 0.95), typical=0.8,
        spread=0.08, measure="optical tachometer, hot, at the reference shaft speed")
    released_ratio: Real = declare(
        "fan speed over shaft speed, released", FRACTION, hard=(0.02, 0.99), plausible=(0.08, 0.4), typical=0.22,
        spread=0.05, measure="optical tachometer, cold after a minute of running")
    reference_speed: Real = declare(
        "shaft speed at which the two ratios were read", ROTATION, hard=(8, 100), plausible=(15, 60), typical=40,
        spread=3.0, measure="tachometer on the pulley; 2,400 rpm is usual")
    engages: Real = declare(
        "air temperature at the coil at which it begins to engage", TEMPERATURE, hard=(303, 383),
        plausible=(325, 365), typical=345, spread=3, measure="thermometer through a small hole in the shroud")
    engaging_range: Real = declare(
        "further rise of the air until fully engaged", TEMPERATURE_RISE, hard=(1, 60), plausible=(3, 25), typical=8,
        spread=2.0, measure="same thermometer: from first to full roar")
    lag: Real = declare(
        "time in which coil and fluid follow two thirds of a change of the air", TIME, hard=(0.5, 300),
        plausible=(8, 90), typical=25, spread=0.35, relative=True,
        measure="watch: from unblocking the core until the roar is two thirds gone; judgement")
    hysteresis: Real = declare(
        "how much cooler the air must be to release it again", TEMPERATURE_RISE, hard=(0.0, 30), plausible=(3, 20),
        typical=10, spread=3.0,
        measure="thermometer through the shroud: roar and release; some 20 degF, common practice, no source")
    snaps: Real = declare_yes_no(
        "it snaps in and out instead of engaging by and by", typical=False, doubt=0.05,
        measure="listen on a steady climb: does the roar come and go at once, or swell?")
    # fmt: on

    def ratio(self, *, T_coil: Real) -> Real:
        """Driven over driving speed at the reference speed [1] for an air temperature at the coil [K]."""
        xp = namespace(T_coil, self.engages)
        x = xp.clip((T_coil - self.engages) / self.engaging_range, 0.0, 1.0)
        engaged = xp.maximum(self.engaged_ratio, self.released_ratio)
        return self.released_ratio + (engaged - self.released_ratio) * x

    def set_temperature(self, *, T_coil: Real, stood: Real) -> Real:
        """Air temperature at which it stands engaged [K], from that at its coil and from where it stood [K].

        It follows rising air at once and falling air only once the hysteresis is used up; one that snaps knows only the
        two ends.
        """
        xp = namespace(T_coil, stood, self.engages)
        full = self.engages + self.engaging_range
        off = xp.where(T_coil < self.engages - self.hysteresis, self.engages, stood)
        snapped = xp.where(T_coil > full, full, off)
        return xp.where(self.snaps > 0.5, snapped, xp.clip(stood, T_coil, T_coil + self.hysteresis))
