"""What a complaint tells of figures, of heat and of what was tried, for a person to confirm; none counts before."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Provenance
from toptank.shop.answers.words import naming
from toptank.shop.ask.fitted import FAN_WORDS, fans_named
from toptank.shop.edit.heat_form import proposed_heats
from toptank.shop.edit.places_told import PLACE_WORDS, SOMEWHERE, added, at_place
from toptank.shop.edit.proposed_figure import ProposedFigure
from toptank.shop.job.write_up import PLATE as PLATE_WORDS
from toptank.studies.listen.changes import changes
from toptank.units.conversion import from_si, unit_of
from toptank.units.dimension import DISTANCE, TEMPERATURE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.shop.job.job import Job
    from toptank.studies.listen.figures import Figure
    from toptank.units.conversion import System

SAME = 2.0
"""What is written down already lies as near as this [K]."""


def proposed_figures(job: Job) -> tuple[ProposedFigure, ...]:
    """Return figures, readings in words and work tried that the complaint tells and that are not written down yet."""
    from toptank.studies.listen.figures import figures

    found = figures(job.complaint)
    read = (one for figure in found for one in _proposed(figure, job))
    return (*_plate(job), *_fan(job), *read, *proposed_heats(job), *_tried(job))


PLATE = re.compile(
    r"\b(?i:(?:licen[cs]e |number )?plate|reg(?:istration)?|rego|tag)\b(?i: (?:no|number|is|reads)\b)*[.:#,]? *"
    r"(?P<plate>(?=[A-Z0-9 -]*\d)[A-Z0-9]{1,4}(?:[ -]?[A-Z0-9]{2,4}){1,2})\b"
)
"""A plate after the word for it: capitals and at least one figure, as it is stamped."""


def _plate(job: Job) -> Iterator[ProposedFigure]:
    """What the plate says, where the words name it and its field is empty."""
    found = None if job.write_up.registration else PLATE.search(f"{job.title}. {job.complaint}")
    if found is not None:
        plate = found["plate"]
        told = f"{PLATE_WORDS.get(job.system, PLATE_WORDS['uk']).lower()}: {plate}"
        yield ProposedFigure(told=told, quote=found.group(), values=(("write_up.registration", plate, ""),))


def _tried(job: Job) -> Iterator[ProposedFigure]:
    """What was tried and what it did, of work that is not written down yet."""
    known = {one.part for one in job.evidence.changes}
    for one in changes(job.complaint):
        if one.part not in known:
            told = f"tried: {naming.work(one.part, job.system)}: {naming.EFFECT_WORDS[one.effect]}"
            row = ("changed", {"part": one.part, "effect": one.effect})
            yield ProposedFigure(told=told, quote=one.words, rows=(row,))


def _fan(job: Job) -> Iterator[ProposedFigure]:
    """The kind of fan that the words name, and only one, where the job has it from nothing but the kind of vehicle."""
    named = fans_named(f"{job.title}. {job.complaint}", job.sheet)
    if len(named) == 1:
        part = next(iter(named))
        yield ProposedFigure(
            told=f"fan: {FAN_WORDS[part]}", quote=named[part], values=(("fan.drive", FAN_WORDS[part], "measured"),)
        )


def _proposed(figure: Figure, job: Job) -> Iterator[ProposedFigure]:
    if figure.kind == "mileage":
        if job.evidence.history.distance is None and figure.low is not None:
            miles = _plain(float(from_si(figure.low, DISTANCE, unit_of(DISTANCE, job.system))))
            typed = f"{miles} {unit_of(DISTANCE, job.system)}"
            yield ProposedFigure(
                told=f"driven so far: {typed}", quote=figure.words, values=(("history.distance", typed, ""),)
            )
    elif figure.kind == "weather":
        yield from _weather(figure, job)
    elif not _known(figure, job):
        yield _reading(figure, job)


def _weather(figure: Figure, job: Job) -> Iterator[ProposedFigure]:
    """The air of every condition of which nobody has said it."""
    kelvin = _middle(figure)
    typed = f"{_degrees(kelvin, job.system)} {unit_of(TEMPERATURE, job.system)}"
    open_ = [
        place
        for place, duty in enumerate(job.duties)
        if (fact := duty.facts["ambient"]).how == Provenance.ASSUMED and abs(fact.value - kelvin) > SAME
    ]
    if open_:
        values = tuple((f"duty.{place}.ambient", typed, "assumed") for place in open_)
        yield ProposedFigure(told=f"air of {typed}, where none was told", quote=figure.words, values=values)


def _reading(figure: Figure, job: Job) -> ProposedFigure:
    """A reading at the condition that it was read at; one that the job has not is added."""
    name = at_place(figure.place, job) or PLACE_WORDS.get(figure.place, SOMEWHERE)
    rows, values = added(name, figure.place, job)
    gauge = _gauge(figure, job.system)
    fields = {"duty": name, "gauge": gauge}
    if figure.kind == "transmission":
        fields["thermometer"] = "transmission"
    what = "transmission fluid" if figure.kind == "transmission" else "gauge"
    return ProposedFigure(
        told=f"{what}: {gauge}, {name}",
        quote=figure.words,
        rows=(*rows, ("reading", fields)),
        values=values,
    )


def _known(figure: Figure, job: Job) -> bool:
    """Whether a reading of the job says the same already."""
    return any(
        (reading.place == "transmission") == (figure.kind == "transmission")
        and _near(reading.low, figure.low)
        and _near(reading.high, figure.high)
        for reading in job.evidence.readings
    )


def _near(one: float | None, other: float | None) -> bool:
    return one == other if one is None or other is None else abs(one - other) <= SAME


def _middle(figure: Figure) -> float:
    sides = [side for side in (figure.low, figure.high) if side is not None]
    return sum(sides) / len(sides)


def _gauge(figure: Figure, system: System) -> str:
    unit = unit_of(TEMPERATURE, system)
    if figure.low is None or figure.high is None:
        word = "over" if figure.high is None else "under"
        return f"{word} {_degrees(_middle(figure), system)} {unit}"
    low, high = (_degrees(side, system) for side in (figure.low, figure.high))
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def _degrees(kelvin: float, system: System) -> str:
    return _plain(float(from_si(kelvin, TEMPERATURE, unit_of(TEMPERATURE, system))))


def _plain(figure: float) -> str:
    return f"{round(figure):d}"
