"""Fields that must agree with each other: what no shop could have built is refused."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from toptank.knowledge.sheet import Fact, Sheet, declaration_of
from toptank.units.conversion import System
from toptank.units.display import show
from toptank.units.refusal import Refusal

Values: TypeAlias = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """A rule between two fields.

    Parameters
    ----------
    first, second : paths of the two fields
    rule : the rule in words, with {first} and {second} for the two values
    holds : whether it holds
    """

    first: str
    second: str
    rule: str
    holds: Callable[[Values], bool]


def _more(first: str, second: str, rule: str, *, equal: bool = False, times: float = 1.0) -> Agreement:
    def holds(values: Values) -> bool:
        a, b = values[first], times * values[second]
        return a >= b if equal else a > b

    return Agreement(first=first, second=second, rule=rule, holds=holds)


AGREEMENTS = (
    _more("core.tube_pitch", "core.tube_thickness", "tubes are further apart ({first}) than they are thick ({second})"),
    _more("core.tube_width", "core.tube_thickness", "a flat tube is wider ({first}) than it is thick ({second})"),
    _more("core.tube_thickness", "core.tube_wall", "a tube ({first}) is thicker than its two walls ({second} each)",
          times=2.0),
    Agreement(
        first="core.row_pitch", second="core.tube_width",
        rule="rows are further apart ({first}) than a tube is wide ({second})",
        holds=lambda v: v["core.rows"] < 1.5 or v["core.row_pitch"] >= v["core.tube_width"],
    ),
    _more("fan.switch_on", "fan.switch_off", "a fan switch goes on ({first}) above where it goes off ({second})"),
    _more("fan_clutch.engaged_ratio", "fan_clutch.released_ratio",
          "an engaged clutch ({first}) turns the fan no slower than a released one ({second})", equal=True),
    _more("thermostat.largest_opening", "thermostat.smallest_opening",
          "the largest opening of a thermostat ({first}) is not below the smallest ({second})", equal=True),
    _more("drivetrain.second_ratio", "drivetrain.top_ratio",
          "the next lower gear ({first}) has a higher ratio than the highest gear ({second})"),
    _more("drivetrain.third_ratio", "drivetrain.second_ratio",
          "the gear below that ({first}) has a higher ratio than the next lower gear ({second})"),
    _more("engine.top_speed", "engine.idle_speed", "an engine's top speed ({first}) is above its idle ({second})"),
    _more("drivetrain.stall_speed", "engine.idle_speed", "a converter stalls ({first}) above idle ({second})"),
)  # fmt: skip
"""Rules that the equations rest on."""


def refuse_what_cannot_be_built(sheet: Sheet, *, stated: Mapping[str, Fact], system: System) -> None:
    """Refuse a sheet whose central values contradict each other; a stated field is blamed before an assumed one."""
    values = {path: fact.value for path, fact in sheet.facts.items()}
    for agreement in AGREEMENTS:
        if agreement.holds(values):
            continue
        paths = (agreement.first, agreement.second)
        first, second = (show(values[path], declaration_of(path).dimension, system) for path in paths)
        blamed, other = paths if agreement.first in stated else (agreement.second, agreement.first)
        if blamed not in stated:
            blamed, other = other, blamed
        raise Refusal(
            field=blamed,
            value=first if blamed == agreement.first else second,
            limit="must hold: " + agreement.rule.format(first=first, second=second),
            fix=f"check {blamed} and {other}" + ("" if other in stated else f", of which {other} is assumed"),
        )
