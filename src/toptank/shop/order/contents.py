"""What stands on the paper, gathered from the answers: words only, no choice and no model."""

from collections.abc import Sequence

from toptank.knowledge.sheet import Fact, Provenance
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.answers.summaries.summary import chances_in_ten, times_as_likely
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.invented_prices import invented_prices
from toptank.shop.answers.words.wording import ASSUMED, chance, degrees, gauge_band, sentence
from toptank.shop.answers.words.wording import mark as marked
from toptank.shop.job.job import Job
from toptank.shop.order.appendix import appendix
from toptank.shop.order.cautions import cautions
from toptank.shop.order.check_drive import CheckDrive, Expected, cuts_cooling
from toptank.shop.order.coolant_work import coolant_work
from toptank.shop.order.customer_page import customer_page
from toptank.shop.order.fit_lines import FitTold
from toptank.shop.order.head import customer_head, head
from toptank.shop.order.parts_list import part_lines, totals
from toptank.shop.order.record import CauseLine, Order, ReadingLine
from toptank.shop.order.steps import FOOTNOTE, coolant_went, steps
from toptank.shop.record.shop_settings import Shop
from toptank.studies.choose.coolant.cap_choice import MARGIN
from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.studies.diagnose.diagnosis import Diagnosis, Suspect
from toptank.units.conversion import System
from toptank.units.dialect import spoken
from toptank.units.dimension import GRADE, SPEED
from toptank.units.display import show

CAUSES_TOLD, VOICES_TOLD, NEXT_TOLD, POINTS_TOLD = 6, 3, 2, 2
"""Causes and reasons in the appendix; causes after the first and reasons for it on the bench's page."""

DUTIES_TOLD = 8
"""Conditions that the road test has room for."""

WORST_DAY, WORST_ASSUMED = " (worst day)", " (worst day, assumed)"

INVENTED = "Invented example: vehicle, figures and prices are made up."
"""What both pages say of an example."""


def contents(
    diagnosed: Diagnosed,
    chosen: Chosen,
    plan: WorstDayForecast,
    drive: CheckDrive,
    system: System,
    *,
    fit: FitTold,
    shop: Shop,
    driven: Sequence[str] = (),
) -> Order:
    """Gather the order; `driven` is what the check drive says to the customer."""
    job, found = chosen.job, diagnosed.diagnosis
    facts = job.sheet.facts
    confirmed = "" if job.confirmed is None else naming.causes(job.confirmed.causes, system)
    work = coolant_work(plan.remedies, facts, max(one.after.p90 for one in drive.duties), system)
    check = None if confirmed else chosen.decisive or found.first_check
    prices = tuple(filter(None, (invented_prices(plan.ids, chosen.book, system),)))
    went = coolant_went(job.evidence)
    todo = steps(plan.remedies, work, check, facts, fit, system, was_low=went)
    cost = totals(plan, chosen.book, shop.tax_share)
    return Order(
        plan=plan.ids,
        title=job.title,
        complaint=" ".join(job.complaint.split()),
        invented=INVENTED if job.invented else "",
        shop=shop.lines,
        head=head(job, system),
        customer_head=customer_head(job, system),
        found=confirmed,
        cause=confirmed or f"{naming.cause(found.suspects[0].cause, system)}, {chance(found.suspects[0].probability)}",
        why=_why(found, system),
        correction=_correction(chosen, plan, fit, system),
        parts=part_lines(plan.remedies, facts, chosen.book, system, fit),
        totals=cost,
        coolant=tuple(spoken(line, system) for line in work.recipe),
        steps=todo,
        time_note=FOOTNOTE,
        readings=_readings(drive, plan, system),
        stop=_stop(drive, plan, job, system),
        cautions=cautions(
            plan.remedies,
            facts,
            system,
            opened=work.drained or work.topped_up,
            check="" if check is None else naming.hazard(check.check, system),
            layout=work.cautions,
        ),
        causes=tuple(_cause(one, system) for one in found.suspects[:CAUSES_TOLD]),
        appendix=appendix(diagnosed, chosen, plan, drive, todo, work, system),
        customer=customer_page(
            chosen, plan, found, drive, system, prices, confirmed, cost=cost, misfit=bool(fit.misfit),
            driven=driven,
        ),
    )  # fmt: skip


def _why(found: Diagnosis, system: System) -> str:
    """What points to the likeliest cause, and what comes next, in a line."""
    first, others = found.suspects[0], found.suspects[1 : 1 + NEXT_TOLD]
    points = [naming.evidence(voice.evidence, system) for voice in first.voices if voice.factor > 1.0][:POINTS_TOLD]
    told = [f"Points to it: {'; '.join(points)}."] if points else []
    after = [f"{naming.cause(one.cause, system)} {chance(one.probability)}" for one in others]
    return " ".join((*told, f"Then: {', '.join(after)}." if after else "")).strip()


def _cause(one: Suspect, system: System) -> CauseLine:
    said = [(naming.evidence(voice.evidence, system), voice.factor) for voice in one.voices]
    voices = [f"{label} ({times_as_likely(factor)})" for label, factor in said if factor > 1.0]
    against = [f"{label} ({times_as_likely(factor)})" for label, factor in said if factor < 1.0]
    parts = (("Points to it: ", voices[:VOICES_TOLD]), ("Points away: ", against[:VOICES_TOLD]))
    return CauseLine(
        cause=naming.cause(one.cause, system),
        chance=chance(one.probability),
        repair=naming.repair(one.repair, system),
        speaks=" ".join(f"{told}{', '.join(lines)}." for told, lines in parts if lines),
    )


def _correction(chosen: Chosen, plan: WorstDayForecast, fit: FitTold, system: System) -> tuple[str, ...]:
    as_it_is = chances_in_ten(chosen.outlooks[0].holds)
    held = f"Stays cool on the worst day: {chances_in_ten(plan.holds)}; as it is: {as_it_is}"
    return (
        f"{sentence(naming.plan(plan.ids, system).replace(' + ', '; '))}.",
        *((fit.misfit,) if fit.misfit else ()),
        f"{held}.",
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
    # Where all of a day is assumed, one word says so: the paper has no room for a mark behind each figure.
    assumed = one.worst and all(facts[key].how == Provenance.ASSUMED for key in ("ambient", "speed", "grade"))

    def mark(fact: Fact) -> str:
        return "" if assumed else marked(fact)

    day = [f"{degrees(facts['ambient'].value, system)}{mark(facts['ambient'])}"]
    if facts["speed"].value > 0.0:
        day.append(f"{show(facts['speed'].value, SPEED, system, 0)}{mark(facts['speed'])}")
    else:
        day.append("standing")
    if facts["grade"].value:
        day.append(f"{show(facts['grade'].value, GRADE, system)} grade{mark(facts['grade'])}")
    if facts["air_conditioning"].value > 0.5 and not without_cooling:
        day.append(f"air conditioning on{mark(facts['air_conditioning'])}")
    return ReadingLine(
        duty=f"{one.duty.name}{(WORST_ASSUMED if assumed else WORST_DAY) if one.worst else ''}",
        day=", ".join(day),
        after=gauge_band(one.after.p10, one.after.p90, one.boils_after.p50, system),
        before=gauge_band(one.before.p10, one.before.p90, one.boils_before.p50, system),
    )


def _stop(drive: CheckDrive, plan: WorstDayForecast, job: Job, system: System) -> tuple[str, ...]:
    boils = min(one.boils_after.p10 for one in drive.duties)
    near_boiling = boils - MARGIN[0]
    highest = min(job.limit, near_boiling)
    at_stops = min(job.limit + max(one.limit for one in drive.duties) - job.judged_by, near_boiling)
    limit = "the customer's limit" if job.limit_said else f"the limit {ASSUMED}, as the customer named none"
    why = limit if highest == job.limit else "the least margin to boiling"
    words = [
        f"Pull over at {degrees(highest, system)} on the gauge ({why}; it may boil from {degrees(boils, system)}), at "
        "steam, a smell of coolant, a knock, or a heater that turns cold.",
        "Hotter than its range (8 chances in 10): not cured. Look for trapped air, a stuck thermostat, a fan that does "
        "not come in.",
    ]
    if at_stops > highest:
        words.insert(1, f"At a short stop after a drive it may rise to {degrees(at_stops, system)} for minutes.")
    if cuts_cooling(plan):
        words.append("A/C off throughout: with it on the gauge reads higher.")
    if any(one.after.p90 > min(one.limit, near_boiling) for one in drive.duties):
        words.append("On a day like that you may still have to pull over, even with everything working.")
    return tuple(words)
