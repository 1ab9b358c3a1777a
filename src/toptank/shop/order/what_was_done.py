"""What was done on a job, what it was to cost and what the gauge showed after it: for whoever reads it after years."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import money, sentence
from toptank.shop.ask.choice.offered_prices import as_offered
from toptank.shop.order.ticks import ticked
from toptank.shop.record import own_prices
from toptank.shop.record.store.kinds import About, reading_of
from toptank.units.conversion import unit_of
from toptank.units.dimension import TEMPERATURE

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.shop.record.store.record import JobRecord


def what_was_done(job: Job, record: JobRecord) -> tuple[str, ...]:
    """Return the work that was ordered with its estimate, the steps that were ticked, the readings after it."""
    return (*_ordered(job), *_steps(record), *_seen(job, record))


def _ordered(job: Job) -> tuple[str, ...]:
    if job.plan_taken is None:
        return ()
    book = as_offered(own_prices.read(), job.fit)
    work = [remedy for remedy in REMEDIES if remedy.id in job.plan_taken]
    named = sentence(naming.plan(job.plan_taken, job.system))
    return (f"Ordered: {named}. Estimate by today's prices, without tax: {money(book.cost(work), book.currency)}.",)


def _steps(record: JobRecord) -> tuple[str, ...]:
    done = [note.subject for note in record.notes if note.kind == "step_done" and note.subject in ticked(record)]
    return tuple(f"Done: {words}" for words in dict.fromkeys(done))


def _seen(job: Job, record: JobRecord) -> tuple[str, ...]:
    """The last reading of every condition that was driven after the work."""
    last: dict[str, str] = {}
    for note in record.notes:
        if note.kind == "gauge_after":
            duty, gauge = reading_of(About(note.kind, note.subject))
            last[duty] = gauge
    unit = unit_of(TEMPERATURE, job.system)
    return tuple(
        f"After the work, {duty}: the gauge showed {gauge}{'' if '°' in gauge or gauge[-1:].isalpha() else f' {unit}'}."
        for duty, gauge in last.items()
    )
