"""What stands on the paper, gathered from the answers: words only, no choice and no model."""

from collections.abc import Sequence

from toptank.knowledge.sheet import declaration_of, duty_fields
from toptank.shop.answers import naming
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.summaries.summary import times_as_likely
from toptank.shop.answers.wording import ASSUMED, band, chance, degrees, gauge_band, mark, money, sentence, told
from toptank.shop.job.job import Job
from toptank.shop.job.price_book import built_in
from toptank.shop.order.cautions import cautions
from toptank.shop.order.check_drive import CheckDrive, Expected, cuts_cooling
from toptank.shop.order.coolant_work import coolant_work
from toptank.shop.order.customer_page import customer_page
from toptank.shop.order.fit_lines import FitTold
from toptank.shop.order.parts_list import part_lines, totals
from toptank.shop.order.record import CauseLine, Order, ReadingLine
from toptank.shop.order.steps import FOOTNOTE, steps
from toptank.studies.choose.coolant.cap_choice import MARGIN
from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.studies.diagnose.diagnosis import Diagnosis, Suspect
from toptank.units.conversion import System
from toptank.units.dimension import GRADE, SPEED
from toptank.units.display import show
from toptank.units.sentence import said_each

CAUSES_TOLD, VOICES_TOLD = 3, 1
DUTIES_TOLD, ASSUMPTIONS_TOLD, REMARKS_TOLD = 8, 3, 3
"""Lines that a page has room for."""

INVENTED = "Invented example: vehicle, figures and prices are made up."
"""What both pages say of an example."""

BUILT_IN_PRICES = "Prices are invented examples of the built-in price book, not yet the shop's own."


def contents(
    diagnosed: Diagnosed,
    chosen: Chosen,
    plan: WorstDayForecast,
    drive: CheckDrive,
    system: System,
    *,
    fit: FitTold,
    driven: Sequence[str] = (),
) -> Order:
    """Gather the order; `driven` is what the check drive says to the customer."""
    job, found = chosen.job, diagnosed.diagnosis
    facts = job.sheet.facts
    confirmed = "" if job.confirmed is None else naming.causes(job.confirmed.causes, system)
    hottest = max(one.after.p90 for one in drive.duties)
    work = coolant_work(plan.remedies, facts, hottest, system)
    asked = found.checks[0] if found.checks and not found.settled else None
    check = None if confirmed else chosen.decisive or asked
    prices = (BUILT_IN_PRICES,) if chosen.book == built_in() else ()
    weighed_by = (
        f"The plan is taken for the least whole cost, with {money(chosen.book.lost_day, chosen.book.currency)} for a "
        f"worst day that is not held{_without(chosen, plan, system)}: the price book's, not measured."
    )
    remarks = said_each((*chosen.remarks, *job.remarks, *found.remarks)[:REMARKS_TOLD], system)
    return Order(
        title=job.title,
        complaint=" ".join(job.complaint.split()),
        invented=INVENTED if job.invented else "",
        found=confirmed,
        causes=tuple(_cause(one, system) for one in found.suspects[:CAUSES_TOLD]),
        cause_note=_cause_note(found),
        correction=(
            *_correction(chosen, plan, fit, system),
            *_left_in(chosen, plan, system),
        ),
        parts=part_lines(plan.remedies, facts, chosen.book, system, fit),
        totals=totals(plan, chosen.book),
        coolant=work.lines,
        steps=steps(plan.remedies, work, check, facts, fit, system),
        time_note=FOOTNOTE,
        readings=_readings(drive, plan, system),
        stop=_stop(drive, plan, job, system),
        cautions=cautions(plan.remedies, work.cautions),
        assumptions=_assumptions(chosen, drive, system),
        remarks=(*prices, weighed_by, *remarks),
        customer=customer_page(
            chosen, plan, found.suspects, drive, system, prices, confirmed, misfit=bool(fit.misfit), driven=driven
        ),
    )


def _without(chosen: Chosen, plan: WorstDayForecast, system: System) -> str:
    """The price of what a plan asks the customer to go without."""
    if not plan.concession:
        return ""
    price = money(chosen.book.gone_without, chosen.book.currency)
    return f" and {price} for going without {naming.concession(plan.ids, system)}"


def _cause(one: Suspect, system: System) -> CauseLine:
    said = [(naming.evidence(voice.evidence, system), voice.factor) for voice in one.voices]
    voices = [f"{label} ({times_as_likely(factor)})" for label, factor in said if factor > 1.0]
    against = [f"{label} ({times_as_likely(factor)})" for label, factor in said if factor < 1.0]
    parts = (("for it: ", voices[:VOICES_TOLD]), ("against it: ", against[:VOICES_TOLD]))
    return CauseLine(
        cause=naming.cause(one.cause, system),
        chance=chance(one.probability),
        repair=naming.repair(one.repair, system),
        speaks="; ".join(f"{head}{', '.join(lines)}" for head, lines in parts if lines),
    )


def _cause_note(found: Diagnosis) -> str:
    return (
        f"Chances, not findings; others are less likely, something else: {chance(found.unknown)}. The plan is picked "
        "for the worst day over all of them: it need not be the repair for the first."
    )


def _correction(chosen: Chosen, plan: WorstDayForecast, fit: FitTold, system: System) -> tuple[str, ...]:
    chances = f"stays cool on the worst day: {chance(plan.holds)}"
    nothing = chance(chosen.outlooks[0].holds)
    lines = [
        f"{sentence(naming.plan(plan.ids, system).replace(' + ', '; '))}.",
        *((fit.misfit,) if fit.misfit else ()),
        f"As forecast it {chances}; doing nothing: {nothing}. Hardest: {plan.hardest}.",
    ]
    if plan.limiting_ambient is not None:
        reach = band((plan.limiting_ambient.p10, plan.limiting_ambient.p90), system)
        lines.append(f"At that duty the limit is reached at {reach} outside.")
    return tuple(lines)


def _left_in(chosen: Chosen, plan: WorstDayForecast, system: System) -> tuple[str, ...]:
    """What may be broken and stays so; known of the recommended plan alone."""
    if plan is not chosen.recommended:
        return ()
    return tuple(
        f"It leaves what may be broken: {naming.repair(one.repair, system)}, needed in {chance(one.needed)} of them."
        for one in chosen.leaves_in
    )


def _readings(drive: CheckDrive, plan: WorstDayForecast, system: System) -> tuple[ReadingLine, ...]:
    """The duties, the hottest kept where there are too many, in the order of the job."""
    kept = sorted(drive.duties, key=_heat, reverse=True)[:DUTIES_TOLD]
    off = cuts_cooling(plan)
    return tuple(_reading(one, off, system) for one in drive.duties if one in kept)


def _heat(one: Expected) -> float:
    return one.after.p90


def _reading(one: Expected, without_cooling: bool, system: System) -> ReadingLine:
    facts = one.duty.facts
    day = [f"{degrees(facts['ambient'].value, system)}{mark(facts['ambient'])}"]
    if facts["speed"].value > 0.0:
        day.append(f"{show(facts['speed'].value, SPEED, system, 0)}{mark(facts['speed'])}")
    else:
        day.append("standing")
    if facts["grade"].value:
        day.append(f"grade {show(facts['grade'].value, GRADE, system)}{mark(facts['grade'])}")
    if facts["air_conditioning"].value > 0.5 and not without_cooling:
        day.append(f"air conditioning on{mark(facts['air_conditioning'])}")
    return ReadingLine(
        duty=f"{one.duty.name}{' (worst day)' if one.worst else ''}",
        day=", ".join(day),
        after=gauge_band(one.after.p10, one.after.p90, one.boils_after.p50, system),
        before=gauge_band(one.before.p10, one.before.p90, one.boils_before.p50, system),
    )


def _stop(drive: CheckDrive, plan: WorstDayForecast, job: Job, system: System) -> tuple[str, ...]:
    boils = min(one.boils_after.p10 for one in drive.duties)
    near_boiling = boils - MARGIN[0]
    highest = min(job.limit, near_boiling)
    at_stops = min(max(one.limit for one in drive.duties), near_boiling)
    limit = "the customer's limit" if job.limit_said else f"the limit {ASSUMED}, as the customer named none"
    why = limit if highest == job.limit else "the least margin to boiling"
    words = [
        f"Pull over at {degrees(highest, system)} on the gauge ({why}; it may boil from {degrees(boils, system)}), at "
        "steam, a smell of coolant, a knock, a warning light, or a heater that turns cold.",
        "Hotter than its range: the repair is not working. Look for trapped air, a stuck thermostat, a fan clutch not "
        "coming in. Ranges cover 8 chances in 10.",
    ]
    if at_stops > highest:
        words.insert(1, f"At a short stop after a drive it may rise to {degrees(at_stops, system)} for minutes.")
    if cuts_cooling(plan):
        words.append("A/C off in every condition, as the ranges assume; with it on the gauge reads higher.")
    if any(one.after.p90 > min(one.limit, near_boiling) for one in drive.duties):
        words.append("On a day like that you may still have to pull over, even with everything working.")
    return tuple(words)


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
        lines.append(f"The worst day {ASSUMED}: the customer named none, the one that is offered was taken.")
    lines.append(f"Nothing marked {ASSUMED} was measured or read off: measure it before parts are bought.")
    return tuple(lines)
