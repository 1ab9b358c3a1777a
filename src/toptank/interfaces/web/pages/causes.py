"""Causes and the next check: what it may be, what speaks for and against it, what to look at next."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.check_card import check_card, findings
from toptank.interfaces.web.elements.log_place import Question, log_place
from toptank.interfaces.web.elements.log_verdict_view import moved
from toptank.interfaces.web.elements.say_first import dimmed, say_first
from toptank.interfaces.web.elements.symptom_list import ask_first, heard_first
from toptank.interfaces.web.elements.tags import link, tag
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import (
    answer_cache,
    chance,
    diagnosis_summary,
    first_check,
    kept_logs,
    last_answers,
    log_verdicts,
    minutes_words,
    naming,
    similar_jobs,
    times_as_likely,
)
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import CauseAnswer, DiagnosisAnswer
    from toptank.units.cancellation import CancelCheck
    from toptank.units.conversion import System

USUAL = 12.0
"""How long a diagnosis takes [s]."""

USUAL_OF_A_LOG = 25.0
"""How long possible vehicles take along a log [s]."""

SHOWN, IN_WORDS, VOICES = 8, 3, 3
LEAST = 2.0
"""Percentage from which a cause is listed."""

AMONG = 4
"""Causes up to which it is said that one of them is there: of more it says nothing."""
DOUBTED = 50.0
"""Percentage for none of the causes from which that is said first."""


async def build(page: JobPage) -> None:
    """Build the page; the answer is worked out if it is not at hand."""
    with tag("div", classes="lead"):
        tag("h1", "What it may be, and what to look at next")
        seen = page.job.evidence
        tag(
            "p",
            f"Weighed from {_count(len(seen.readings), 'reading')}, {_count(len(seen.findings), 'check')} and "
            f"{_count(len(seen.changes), 'change')}. Probabilities, not findings.",
            "quiet",
        )
    if not seen.readings and not seen.findings:
        tag("div", "Nothing was seen yet: write down on the first page what the gauge showed.", "note warn")
    if page.job.confirmed is not None:
        tag("div", f"Confirmed: {naming.causes(page.job.confirmed.causes, page.job.system)}.", "note good")
    else:
        alike = await asyncio.to_thread(similar_jobs.similar_to, page.number, page.job)
        if told := naming.experience(alike, page.job.system):
            tag("p", told)
    heard_first(page)
    _diagnosis(page)
    findings(page)
    logs = kept_logs.said_of(page.record, "log")
    moved(page, logs)
    log_place(page, _question(page), folded=not logs)


def _diagnosis(page: JobPage) -> None:
    """The answer; while it is worked out anew the one before stands there dimmed, and what the press had announced."""
    place, job, stop = tag("div", classes="stack"), page.job, Stop()
    ready = answer_cache.cached_diagnosis(job)
    before = None if ready is not None else page.last_diagnosis
    kept = last_answers.last_diagnosis(page.record, job) if ready is None and before is None else None
    if kept is not None:
        before = kept.answer
    old = tag("div", classes="stack")
    if before is not None:
        with old:
            announced(page)
            with dimmed(kept is None or not kept.holds):
                _answer(page, before)

    def show(answer: DiagnosisAnswer) -> None:
        page.last_diagnosis, page.announced = answer, None
        old.clear()
        _answer(page, answer)

    record = page.record

    def ask() -> DiagnosisAnswer:
        answer = answer_cache.diagnosis(job, stop.go_on)
        last_answers.keep(record, job, answer)
        return answer

    what, room = "Trying each fault on this vehicle", "page" if before is None else "none"
    work(place, what, USUAL, ask, show, ready=ready, stop=stop, room=room)


def announced(page: JobPage) -> None:
    """Show at once what was announced for the outcome that was pressed; it is worked out exactly meanwhile."""
    if page.announced is None:
        return
    told, then = page.announced
    with tag("section", classes="sheet", aria_label="what that outcome means"):
        tag("h2", f"{told}: then it is")
        with tag("ul", classes="bars"):
            for name, share_pct in then:
                with tag("li"):
                    bar(name, share_pct, before=None)
        tag("p", "As announced; being worked out exactly.", "small quiet")


def _question(page: JobPage) -> Question:
    def ask(checksum: str, told: Mapping[str, str], go_on: CancelCheck) -> object:
        return log_verdicts.evidence(
            page.number, checksum, ambient=told["ambient"], grade=told["grade"], load=told["load"], go_on=go_on
        )

    return Question(
        heading="Was a drive logged before the work?",
        purpose="before the work",
        press="Let it speak of the causes",
        doing="Driving the log",
        usual=USUAL_OF_A_LOG,
        ask=ask,
        instead=("It was driven after the work", "drive"),
    )


def _count(number: int, what: str) -> str:
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"


def _answer(page: JobPage, answer: DiagnosisAnswer) -> None:
    system = page.job.system
    say_first(diagnosis_summary(answer, system))
    if page.job.confirmed is None and (first := first_check(answer, system)) is not None:
        tag("p", first.do_this_first)
    with tag("div", classes="wide-narrow"):
        with tag("section", classes="sheet", aria_labelledby="may-be"):
            tag("h2", "It may be", id="may-be")
            if answer.none_of_these_pct >= DOUBTED:
                told = "Probably none of these: read the figures again, and hold a second thermometer to the gauge."
                tag("div", told, "note bad")
            shown = [one for one in answer.causes if one.probability_pct >= LEAST][:SHOWN]
            _bars(shown, answer.none_of_these_pct, system)
            among = naming.causes(answer.likely, system)
            few = "" if len(answer.likely) == 1 else "at least one of "
            if len(answer.likely) <= AMONG:
                tag("p", f"8 in 10: {few}{among}.", "small quiet")
            for pair in answer.pairs:
                one, other = (naming.cause(cause, system) for cause in pair.causes)
                tag("p", f"Together: {one} and {other}, {percent(pair.probability_pct)}.", "small quiet")
            _more(shown, system)
        with tag("div", classes="stack"):
            _checks(page, answer)
    for remark in said_each(answer.remarks, system):
        tag("div", remark, "note warn")


def percent(share_pct: float) -> str:
    """Write a probability that is given in percent."""
    return chance(share_pct / 100.0)


def _bars(shown: Sequence[CauseAnswer], none_of_these_pct: float, system: System) -> None:
    with tag("ul", classes="bars"):
        for place, one in enumerate(shown):
            with tag("li"):
                name = said(one.name, system)
                bar(name, one.probability_pct, before=one.before_pct)
                if place < IN_WORDS:
                    tag("p", said(one.reason, system), "small")
                if one.says:
                    with tag("details"):
                        tag("summary", "for and against", "small", aria_label=f"for and against: {name}")
                        _voices(one, system)
        with tag("li"):
            bar("none of these", none_of_these_pct, before=None)
    tag("p", "The upright line in a bar is where it stood before anything was seen of this vehicle.", "small quiet")


def _voices(one: CauseAnswer, system: System) -> None:
    with tag("ul", classes="speaks"):
        for voice in one.says[:VOICES]:
            label, factor = said(voice.evidence, system), voice.odds_factor
            tag("li", f"{label} ({times_as_likely(factor)})", "for" if factor >= 1.0 else "against")


def bar(name: str, share_pct: float, *, before: float | None, classes: str = "") -> None:
    """Put a bar here: its name, its figure, its length, and where it stood before."""
    with tag("div", classes="bar"):
        tag("b", name)
        tag("span", percent(share_pct), "share")
        with tag("div", classes="measure", aria_hidden="true"):
            tag("i", classes=classes, style=f"width:{share_pct:.1f}%")
            if before is not None:
                tag("u", style=f"left:{before:.1f}%")


def _more(shown: Sequence[CauseAnswer], system: System) -> None:
    with tag("details"):
        tag("summary", "The repair, and how bad it is")
        with tag("div", classes="scroll"), tag("table", classes="roll"):
            with tag("thead"), tag("tr"):
                for head in ("cause", "repair", "how far gone (100 %: useless)"):
                    tag("th", head, scope="col")
            with tag("tbody"):
                for one in shown:
                    bad = one.severity_pct
                    with tag("tr"):
                        tag("td", said(one.name, system))
                        tag("td", naming.repair(one.repair, system))
                        tag("td", "" if bad is None else f"{bad.p10:.0f} to {bad.p90:.0f} %")


def _checks(page: JobPage, answer: DiagnosisAnswer) -> None:
    if not answer.next_checks:
        tag("p", "No check on the list would tell more.", "quiet")
    if answer.next_checks:
        with tag("div", classes="in-view"):
            check_card(page, answer.next_checks[0], sure=bool(answer.settled))
    ask_first(page, answer)
    for check in answer.next_checks[1:]:
        with tag("details", classes="sheet folded"):
            name = said(check.name, page.job.system)
            tag("summary", f"Or: {name}, {minutes_words(check.minutes)}")
            check_card(page, check, first=False)
    if answer.next_checks:
        with tag("div", classes="line-up not-on-paper"):
            link("Print the next checks", f"/job/{page.number}/checks.pdf", "press plain", target="_blank")
