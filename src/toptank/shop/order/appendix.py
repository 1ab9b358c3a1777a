"""What stands behind the two pages, for whoever asks: other causes, notes to the steps, what the figures rest on."""

from collections.abc import Sequence

from toptank.knowledge.sheet import declaration_of, duty_fields
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import ASSUMED, chance, money, reached_outside, sentence, told
from toptank.shop.order.check_drive import CheckDrive
from toptank.shop.order.coolant_work import CoolantWork
from toptank.shop.order.record import Step
from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.units.conversion import System
from toptank.units.dialect import spoken
from toptank.units.sentence import said_each

ASSUMPTIONS_TOLD, REMARKS_TOLD = 5, 6
"""Lines that are told of each kind."""


def appendix(
    diagnosed: Diagnosed,
    chosen: Chosen,
    plan: WorstDayForecast,
    drive: CheckDrive,
    steps: Sequence[Step],
    work: CoolantWork,
    system: System,
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return headings with their lines; what has none is left out."""
    remarks = said_each((*chosen.remarks, *chosen.job.remarks, *diagnosed.diagnosis.remarks)[:REMARKS_TOLD], system)
    notes = tuple(
        f"{number}. {sentence(words)}" for number, step in enumerate(steps, start=1) for words in step.notes if words
    )
    sections: tuple[tuple[str, Sequence[str]], ...] = (
        ("Notes to the steps", notes),
        ("Coolant and water in detail", tuple(spoken(line, system) for line in work.lines)),
        ("Why this plan", (*_weighed(chosen, plan, system), *_left_in(chosen, plan, system))),
        ("What the figures rest on", (*_assumptions(chosen, drive, system), *remarks)),
    )
    return tuple((heading, tuple(lines)) for heading, lines in sections if lines)


def _weighed(chosen: Chosen, plan: WorstDayForecast, system: System) -> tuple[str, ...]:
    """By what the plan was picked, and the heat up to which it holds."""
    without = ""
    if plan.concession:
        price = money(chosen.book.gone_without, chosen.book.currency)
        without = f" and {price} for going without {naming.concession(plan.ids, system)}"
    lines = [
        f"The plan with the least whole cost, with {money(chosen.book.lost_day, chosen.book.currency)} for a worst day "
        f"that is not held{without}: figures of the price book, not measured.",
        f"The plan is picked for the worst day over all causes: it need not be the repair for the first. Hardest part "
        f"of that day: {plan.hardest}.",
    ]
    if plan.limiting_ambient is not None:
        ends = (plan.limiting_ambient.p10, plan.limiting_ambient.p90)
        lines.append(reached_outside(ends, "the limit", system))
    return tuple(filter(None, lines))


def _left_in(chosen: Chosen, plan: WorstDayForecast, system: System) -> tuple[str, ...]:
    """What may be broken and stays so; known of the recommended plan alone."""
    if plan is not chosen.recommended:
        return ()
    return tuple(
        f"It leaves what may be broken: {naming.repair(one.repair, system)}, needed in {chance(one.needed)} of them."
        for one in chosen.leaves_in
    )


def _assumptions(chosen: Chosen, drive: CheckDrive, system: System) -> tuple[str, ...]:
    """What was assumed and widens the band most, with how to measure it; then what the worst day rests on."""
    sheet, day = chosen.job.sheet.facts, drive.hardest.duty.facts
    lines: list[str] = []
    for path, share in drive.widest[:ASSUMPTIONS_TOLD]:
        section, _, key = path.partition(".")
        declaration = duty_fields()[key] if section == "duty" else declaration_of(path)
        value = told(key, day, declaration, system) if section == "duty" else told(path, sheet, declaration, system)
        lines.append(
            f"{sentence(declaration.means)}: {value}, {100.0 * share:.0f} % of the spread; {declaration.in_the_bay()}."
        )
    if not chosen.job.worst_day:
        lines.append(f"The worst day {ASSUMED}: the customer named none, so it is the complaint on a hot day.")
    lines.append(f"Nothing marked {ASSUMED} was measured or read off: measure it before parts are bought.")
    return tuple(lines)
