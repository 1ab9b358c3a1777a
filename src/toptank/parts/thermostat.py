"""The thermostat: a valve that opens over a range, and what it does to the bypass."""

from dataclasses import dataclass

from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_yes_no
from toptank.units.dimension import AREA, FRACTION, TEMPERATURE, TEMPERATURE_RISE, TIME

TIGHT = 2e-4
"""Opening over full that is left of a thermostat however tight [1]: the flow through the core never quite ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thermostat:
    """A wax thermostat in the engine outlet with a bypass back to the pump."""

    # fmt: off
    starts_opening: Real = declare(
        "temperature at which it begins to open (the figure stamped on it)", TEMPERATURE, hard=(313, 383),
        plausible=(340, 370), typical=355.4, spread=1.5, measure="stamped on the flange; pan of water and thermometer")
    opening_range: Real = declare(
        "further rise until fully open", TEMPERATURE_RISE, hard=(1, 40), plausible=(7, 18), typical=12, spread=2,
        measure="pan of water: from first crack to full lift")
    largest_opening: Real = declare(
        "opening it really reaches, over full", FRACTION, hard=(0.0, 1.0), plausible=(0.3, 1.0), typical=1.0,
        spread=0.0, measure="pan of water: lift must reach 8 to 10 mm")
    smallest_opening: Real = declare(
        "opening left when cold, over full", FRACTION, hard=(0.0, 1.0), plausible=(0.0, 0.3), typical=0.002,
        spread=0.0015, measure="look: jiggle pin, drilled hole, or stuck ajar; 1 if it was taken out")
    port_area: Real = declare(
        "clear area when fully open, loss of one dynamic head", AREA, hard=(5e-5, 5e-3), plausible=(2e-4, 2e-3),
        typical=5e-4, spread=0.2, relative=True, measure="valve circumference times lift, less a third")
    bypass_area: Real = declare(
        "clear area of the bypass, loss of one dynamic head", AREA, hard=(0.0, 2e-3), plausible=(1e-5, 5e-4),
        typical=9e-5, spread=0.25, relative=True, measure="bore of the bypass hose or drilling")
    closes_bypass: Real = declare_yes_no(
        "the valve shuts the bypass as it opens", typical=False, doubt=0.2,
        measure="second disc or sleeve under the valve; it must fit the housing")
    lag: Real = declare(
        "time in which the wax follows two thirds of a change of the coolant", TIME, hard=(0.5, 200),
        plausible=(4, 40), typical=12, spread=0.3, relative=True,
        measure="hot water, thermometer and watch: time from dipping it to two thirds of its lift; typical, no source")
    hysteresis: Real = declare(
        "how much cooler it must be to close again by as much as it opened", TEMPERATURE_RISE, hard=(0.0, 20),
        plausible=(0.5, 8), typical=1.5, spread=0.5,
        measure="pan of water: thermometer at first crack, and again where it shuts as it cools; driven: 1 to 2 K")
    # fmt: on

    def opening(self, *, T: Real) -> Real:
        """Opening over full [1] at a coolant temperature [K]."""
        xp = namespace(T, self.starts_opening)
        x = xp.clip((T - self.starts_opening) / self.opening_range, 0.0, 1.0)
        least = xp.maximum(xp.minimum(self.smallest_opening, self.largest_opening), TIGHT)
        most = xp.maximum(self.largest_opening, least)
        return least + (most - least) * x

    def set_temperature(self, *, T_wax: Real, stood: Real) -> Real:
        """Temperature at which it stands open [K], from that of its wax and from where it stood [K].

        Half of the hysteresis lies to either side: rising wax opens it by so much later, falling wax closes it by so
        much later than in the middle, where a steady balance has it.
        """
        play = 0.5 * self.hysteresis
        return namespace(T_wax, stood).clip(stood, T_wax - play, T_wax + play)

    def bypass(self, *, opening: Real) -> Real:
        """Clear area of the bypass [m2] at an opening [1]."""
        xp = namespace(opening, self.bypass_area)
        return xp.maximum(self.bypass_area, 1e-7) * (1.0 - 0.97 * self.closes_bypass * opening)
