"""Parts with sizes and prices. A size is told from the sheet, with its mark where nobody measured it.

Source   which measures a part is ordered by: common practice, no source
Range    every part of the price book
Scatter  none
"""

from collections import Counter
from collections.abc import Mapping, Sequence

from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact, declaration_of
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import money, time, told
from toptank.shop.job.price_book import PriceBook
from toptank.shop.order.fit_lines import FitTold
from toptank.shop.order.record import PartLine
from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.units.conversion import System

FACE = (("face", "core.face_width"), ("×", "core.face_height"), ("", "core.arrangement"))
FAN = (("fan", "fan.diameter"),)
SIZED_BY: Mapping[str, tuple[tuple[str, str], ...]] = {
    "copper_brass_core": (*FACE, ("rows", "core.rows"), ("fins", "core.fin_density")),
    "copper_brass_core_3_row": FACE,
    "copper_brass_core_4_row": FACE,
    "aluminium_radiator_2_row": FACE,
    "aluminium_radiator_plastic_tanks": FACE,
    "two_pass_core": FACE,
    "three_pass_core": FACE,
    "core_cleaning": FACE,
    "shroud": (*FACE[:2], *FAN, ("tip clearance", "shroud.tip_clearance")),
    "fan": FAN,
    "fan_clutch": FAN,
    "severe_duty_fan_clutch": FAN,
    "electric_fan": FAN,
    "thermostat": (("starts to open at", "thermostat.starts_opening"),),
    "cap": (("stamped", "cap.pressure"), ("", "cap.system")),
    "bottom_hose_with_spring": (("bore", "hoses.bottom_bore"),),
    "pulley": (("belt ratio now", "water_pump.belt_ratio"),),
}
"""Facts of the sheet by which a part is ordered: word before it, path."""

SAID: Mapping[str, str] = {
    "two_electric_fans": "2 of 14 in (356 mm), shroud to the face",
    "concentrate": "see Coolant",
    "distilled_water": "see Coolant",
    "fin_cleaner": "one can; for the metal of this core",
    "foam_and_rubber_seal": "by the gaps round the core",
    "shroud_flaps": "by the flat of the shroud",
    "fan_relay_and_wiring": "by the current of the fans",
    "transmission_cooler": "by the gearbox and the place for it",
    "transmission_cooler_with_fan": "by the gearbox and the place for it",
    "cooler_hose": "for hot oil; length by the route",
    "sender": "for this gauge",
    "head_gasket_set": "for this engine",
    "axle_gears": "12 % shorter than now",
}
"""Sizes that no fact tells."""

BY_THE_OLD_ONE = "by the old one: measure it"


def size_of(part: str, facts: Mapping[str, Fact], system: System) -> str:
    """Size of a part in words."""
    if part in SAID:
        return SAID[part]
    if part not in SIZED_BY:
        return BY_THE_OLD_ONE
    words = [f"{word} {told(path, facts, declaration_of(path), system)}".strip() for word, path in SIZED_BY[part]]
    return ", ".join(words).replace(", ×", " ×")


def part_lines(
    remedies: Sequence[Remedy], facts: Mapping[str, Fact], book: PriceBook, system: System, fit: FitTold
) -> tuple[PartLine, ...]:
    """Every part of a plan once, in the order of the work; the core as it is on offer, where one is."""
    counted = Counter(part for remedy in remedies for part in remedy.parts)
    cores = [part for remedy in remedies if fit.size and remedy.group == "core" for part in remedy.parts[:1]]
    return tuple(
        PartLine(
            part=_counted(number, naming.part(part, system)),
            size=fit.size if part in cores else size_of(part, facts, system),
            price=money(number * book.parts[part], book.currency),
        )
        for part, number in counted.items()
    )


def _counted(number: int, part: str) -> str:
    return part if number == 1 else f"{number} × {part}"


def totals(plan: WorstDayForecast, book: PriceBook, tax: float | None = None) -> tuple[PartLine, ...]:
    """What parts, work and both cost; with `tax` [1], that and the sum that is paid."""
    labour = book.labour * plan.minutes / 60.0
    lines = (
        PartLine(part="parts", size="", price=money(plan.cost - labour, book.currency)),
        PartLine(
            part="work",
            size=f"{time(plan.minutes)} at {money(book.labour, book.currency)} an hour",
            price=money(labour, book.currency),
        ),
    )
    if tax is None:
        return (*lines, PartLine(part="together", size="estimate, without tax", price=money(plan.cost, book.currency)))
    return (
        *lines,
        PartLine(part="tax", size=f"{100.0 * tax:g} %", price=money(plan.cost * tax, book.currency)),
        PartLine(part="together", size="estimate", price=money(plan.cost * (1.0 + tax), book.currency)),
    )
