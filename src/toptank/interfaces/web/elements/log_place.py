"""The place for the log of a drive: upload it or note it, say what its columns are, ask about it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web import changes
from toptank.interfaces.web.elements.noted_lines import noted_lines
from toptank.interfaces.web.elements.tags import heard, link, press, tag
from toptank.interfaces.web.pages.record import when
from toptank.interfaces.web.upload import upload
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import answer_cache, kept_logs, meanings
from toptank.units.dimension import MASS
from toptank.units.display import show
from toptank.units.refusal import Refusal, without_options

if TYPE_CHECKING:
    from toptank.interfaces.web.elements.tags import Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import LogLook, Looked, Meaning

FEW = 6
"""Kept logs that are offered."""

READING = 2.0
"""How long a large log is read [s]."""

LEAVE = "leave it out"
Ask = Callable[[str, Mapping[str, str], Callable[[], None]], object]
"""Asks about a log: its checksum, air outside, grade and load as typed, what may stop it; in a thread."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked of a log.

    Parameters
    ----------
    heading, purpose : over the place, and the name of a log that is noted in it
    press : on the button
    doing, usual : what is done, and how long that usually takes [s]
    ask : does it, and keeps the answer with the job
    instead : words and step of the page that asks something else of the same log
    """

    heading: str
    purpose: str
    press: str
    doing: str
    usual: float
    ask: Ask
    instead: tuple[str, str]


def log_place(page: JobPage, question: Question, *, folded: bool = False) -> None:
    """Put the place here: for the log that the address names, or to give one; folded until there is one."""
    checksum = page.query.get("log", "")
    kind = "details" if folded and not checksum else "section"
    with tag(kind, classes="sheet", aria_labelledby="log"):
        tag("summary" if kind == "details" else "h2", question.heading, id="log")
        if not checksum:
            _give(page, question)
            return
        _look(page, question, checksum)


def _look(page: JobPage, question: Question, checksum: str) -> None:
    """Read the log, and ask what is still to be asked of it."""
    job, stop = page.job, Stop()

    def ask() -> LogLook | Refusal:
        try:
            return answer_cache.look(page.number, job, checksum, stop.go_on)
        except Refusal as refusal:
            return refusal

    def show(seen: LogLook | Refusal) -> None:
        if isinstance(seen, Refusal):
            tag("div", without_options(seen), "note bad", role="alert")
            _give(page, question)
        else:
            _chosen(page, question, checksum, seen)

    ready = answer_cache.cached_look(page.number, job, checksum)
    place = tag("div", classes="stack")
    work(place, "Reading the log", READING, ask, show, ready=ready, stop=stop, brief=True, room="lines")


def _give(page: JobPage, question: Question) -> None:
    onward = page.address(page.step, of=page.asked, log="-").removesuffix("-")
    takes = ",".join(kept_logs.LOG_ENDINGS)
    upload(page.number, label="A logger's file: CSV or text, up to 32 MB", takes=takes, onward=onward, log=True)
    kept = kept_logs.logs_of(page.record)
    if kept:
        with tag("div", classes="line-up"):
            tag("span", "Kept with the job:", "small quiet")
            for one in kept[:FEW]:
                address = page.address(page.step, of=page.asked, log=one.checksum)
                link(f"{one.name}, {when(one.at)}", address)
    noted_lines(page, question.purpose, opened=not kept)


def _chosen(page: JobPage, question: Question, checksum: str, seen: LogLook) -> None:
    size = "" if seen.rows is None else f": {seen.rows:,} rows, {seen.minutes:.0f} minutes"
    with tag("div", classes="line-up apart"):
        tag("p", f"{seen.name}{size}")
        link("Another log", page.address(page.step, of=page.asked), "press plain")
    if seen.refused:
        tag("div", f"It cannot be used yet. {seen.refused}", "note bad", role="alert")
    for remark in seen.remarks:
        tag("p", remark, "small quiet")
    _Columns(page, checksum, seen).put()
    if seen.refused:
        return
    told = {"ambient": "", "grade": "", "load": _likely_load(page)}
    with tag("div", classes="fields"):
        if seen.needs_ambient:
            _box(told, "ambient", "Air outside", "92, or 88 F to 95 F", "no column says it")
        if seen.needs_grade:
            _box(told, "grade", "Grade of the road", "0 % where it was flat", "no column says height or grade")
        if told["load"]:
            _load(page, told)
    place = tag("div", classes="stack")
    loop, stop = asyncio.get_running_loop(), Stop()

    def ask() -> None:
        question.ask(checksum, told, stop.go_on)
        loop.call_soon_threadsafe(changes.noted, page.number)  # every page that shows the job shows the answer

    def begin() -> None:
        if lacking := seen.lacks(told["ambient"], told["grade"]):
            place.clear()
            with place:
                tag("div", without_options(lacking), "note bad", role="alert")
            return
        work(place, question.doing, question.usual, ask, _say_kept, stop=stop, room="lines")

    with tag("div", classes="line-up"):
        press(question.press, begin, "main")
        words, step = question.instead
        link(words, page.address(step, log=checksum), "press plain")


def _likely_load(page: JobPage) -> str:
    """The condition that a drive was most likely loaded as: the heaviest trailer; empty where none was ever pulled."""
    heaviest = max(page.job.duties, key=lambda one: one.facts["trailer_mass"].value)
    return heaviest.name if heaviest.facts["trailer_mass"].value > 0.0 else ""


def _load(page: JobPage, told: dict[str, str]) -> None:
    """Ask whether the trailer was on: it is the whole complaint where one was pulled."""
    with tag("div", classes="field"):
        with tag("label", "Trailer and load as at", for_="log-load"):
            tag("small", " no log says it")
        with tag("select", id="log-load") as box:
            for duty in page.job.duties:
                mass = duty.facts["trailer_mass"].value
                pulled = f"trailer {show(mass, MASS, page.job.system)}" if mass > 0.0 else "no trailer"
                words = f"{duty.name} ({pulled})"
                tag("option", words, value=duty.name, selected=(duty.name == told["load"]) or None)
    heard(box, lambda text: told.update(load=text))


def _say_kept(_: None) -> None:
    tag("p", "Kept with the job.", role="status")


def _box(told: dict[str, str], key: str, name: str, hint: str, why: str) -> None:
    with tag("div", classes="field"):
        with tag("label", name, for_=f"log-{key}"):
            tag("small", f" {why}")
        box = tag("input", id=f"log-{key}", autocomplete="off", maxlength=80, placeholder=hint, data_draft="")
    heard(box, lambda text: told.update({key: text}))


AT_ONCE = 40
"""Columns that are shown: those that ask first, then those that were understood. Loggers write hundreds."""


class _Columns:
    """What each column is: as it was understood, and asked for where it was not."""

    def __init__(self, page: JobPage, checksum: str, seen: LogLook) -> None:
        self.page, self.checksum, self.seen = page, checksum, seen
        self.meanings: dict[str, Meaning] = {one.key: one for one in meanings()}
        self.told: list[list[str]] = [[one.head, one.key, one.unit] for one in seen.columns]
        self.decimal = seen.decimal

    def put(self) -> None:
        """Put the table here, open where something is to be asked."""
        asked = bool(self.seen.refused)
        with tag("details", open=asked or None):
            tag("summary", f"{len(self.seen.columns)} columns: what each is taken as")
            with tag("div", classes="stack"):
                filled = [place for place, one in enumerate(self.seen.columns) if one.head or one.cells]
                first = sorted(filled, key=self._matters_less)[:AT_ONCE]
                with tag("ul", classes="columns") as rows:
                    for place in sorted(first):
                        self._column(place, self.seen.columns[place])
                if len(filled) > len(first):
                    self._further(rows, [place for place in filled if place not in first])
                self._signs()
                wrong = tag("div", "", "says", role="alert")
                press("Read it like this", lambda: self._save(wrong), "main" if asked else "")
                tag("p", "Kept with the job: its next log from the same logger is read alike.", "small quiet")

    def _further(self, rows: Tag, rest: list[int]) -> None:
        """Columns that are left out until one of them is picked."""
        with tag("div", classes="field"):
            tag("label", f"{len(rest)} further columns are left out; one of them counts:", for_="further")
            with tag("select", id="further") as box:
                tag("option", "none", value="")
                for place in sorted(rest, key=lambda place: self.seen.columns[place].head.lower()):
                    one = self.seen.columns[place]
                    tag("option", f"{one.head or f'column {place + 1}'}: {', '.join(one.cells)}", value=str(place))

        def picked(value: str) -> None:
            if value and int(value) in rest:
                rest.remove(int(value))
                with rows:
                    self._column(int(value), self.seen.columns[int(value)])

        heard(box, picked)

    def _matters_less(self, place: int) -> tuple[bool, bool, int]:
        one = self.seen.columns[place]
        return not one.asks, not one.key, place

    def _column(self, place: int, one: Looked) -> None:
        with tag("li", classes="asks" if one.asks else ""):
            with tag("div"):
                tag("b", one.head or f"column {place + 1}")
                tag("span", ", ".join(one.cells) or "empty", "small quiet")
                if one.asks:
                    tag("span", f"! {one.asks}", "small remark")
            with tag("select", id=f"means-{place}", aria_label=f"what {one.head} is") as means:
                for key, words in (("", LEAVE), *((key, told.means) for key, told in self.meanings.items())):
                    tag("option", words, value=key, selected=(key == one.key) or None)
            with tag("select", id=f"unit-{place}", aria_label=f"unit of {one.head}") as unit:
                self._units(place, one.key)

            def meant(key: str) -> None:
                self.told[place][1:] = [key, ""]
                unit.clear()
                with unit:
                    self._units(place, key)

            def measured(word: str) -> None:
                self.told[place][2] = word

            heard(means, meant)
            heard(unit, measured)

    def _units(self, place: int, key: str) -> None:
        known = self.meanings[key].units if key in self.meanings else ()
        otherwise = "as written" if known else "none"
        here = self.told[place][2]
        words = ["", *known]
        for word in words if here in words else [*words, here]:
            tag("option", word or otherwise, value=word, selected=(word == here) or None)

    def _signs(self) -> None:
        with tag("div", classes="field"):
            tag("label", "Sign before decimals", for_="decimal")
            with tag("select", id="decimal") as box:
                for value, words in (("", "as the file shows it"), ("comma", "comma: 80,5"), ("point", "point: 80.5")):
                    tag("option", words, value=value, selected=(value == self.decimal) or None)

        def chosen(value: str) -> None:
            self.decimal = value

        heard(box, chosen)

    async def _save(self, wrong: Tag) -> None:
        told = [(head, key, unit) for head, key, unit in self.told if head]
        say_columns = kept_logs.say_columns
        try:
            await asyncio.to_thread(say_columns, self.page.number, self.checksum, told, decimal=self.decimal)
        except Refusal as refusal:
            wrong.classes("wrong")
            wrong.set_text(f"{refusal.value}: {refusal.limit}; {refusal.fix}")
            return
        ui.navigate.to(self.page.address(self.page.step, of=self.page.asked, log=self.checksum))
