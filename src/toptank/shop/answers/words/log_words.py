"""What a log shows by itself, in sentences."""

from toptank.shop.answers.log_answers import Shown
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show


def shown_lines(shown: Shown, system: System) -> tuple[str, ...]:
    """What a log shows by itself, in sentences."""
    lines = [
        f"Settled {clock_words(one.begin)} to {clock_words(one.end)}: {show(one.temperature, TEMPERATURE, system)}."
        for one in shown.stretches
    ]
    for rate, word in ((shown.rise, "rise"), (shown.fall, "fall")):
        if rate is not None:
            where = "standing" if rate.standing else "driving"
            engine = "" if rate.running else ", engine off"
            change = show(abs(rate.change), TEMPERATURE_RISE, system, 0)
            lines.append(f"Fastest {word}: {change} in a minute from {clock_words(rate.begin)} on, {where}{engine}.")
    if shown.swings is not None:
        one = shown.swings
        lines.append(
            f"Swings of {show(one.height, TEMPERATURE_RISE, system, 0)} every {one.period:.0f} s from "
            f"{clock_words(one.begin)} to {clock_words(one.end)} while nothing changed: something comes and goes."
        )
    if shown.opening is not None:
        lines.append(
            f"The warm-up breaks off at {show(shown.opening, TEMPERATURE, system)}: there the thermostat opens."
        )
    return tuple(lines)


def worth_words(worth: float) -> str:
    """How many separate gauge readings a log is worth."""
    count = max(round(worth), 1)
    return "about one gauge reading" if count == 1 else f"about {count} separate gauge readings"


def clock_words(seconds: float) -> str:
    """Minutes and seconds, m:ss."""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"
