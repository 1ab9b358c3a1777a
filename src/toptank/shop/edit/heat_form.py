"""How hot the complaint says that it ran, as readings in words that a person may confirm; none counts before."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.edit.places_told import COOLED_WORDS, PLACE_WORDS, SOMEWHERE, added, at_place, cooled_of, kind_of
from toptank.shop.edit.proposed_figure import ProposedFigure
from toptank.studies.listen.figures import figures
from toptank.studies.listen.heats import heats

if TYPE_CHECKING:
    from collections.abc import Iterator

    from toptank.shop.job.job import Job
    from toptank.studies.listen.heats import Heat

MOST_QUOTED = 60
"""Letters of a clause that are shown; judgement."""


def proposed_heats(job: Job) -> Iterator[ProposedFigure]:
    """Readings in words that the complaint tells and that are not written down yet.

    Nothing is proposed of a condition that has a reading, nor of a heat without a condition where the job has any.
    """
    read = {reading.duty for reading in job.evidence.readings}
    kinds = {(kind_of(duty), cooled_of(duty)) for duty in job.duties if duty.name in read}
    kinds |= {(one.place, None) for one in figures(job.complaint) if one.kind == "gauge"}
    for heat in heats(job.complaint):
        if (heat.place, heat.cooled) not in kinds and (heat.place or not read):
            name = _name(heat, job)
            if name not in read:
                rows, values = added(name, heat.place, job, cooled=heat.cooled)
                quote = (
                    heat.words
                    if len(heat.words) <= MOST_QUOTED
                    else f"{heat.words[:MOST_QUOTED].rsplit(' ', 1)[0]} ..."
                )
                reading = ("reading", {"duty": name, "words": heat.state})
                yield ProposedFigure(told=f"{heat.state}, {name}", quote=quote, rows=(*rows, reading), values=values)


def _name(heat: Heat, job: Job) -> str:
    """The condition of the job that is meant; where none was named, the one that the job has."""
    if heat.cooled is not None:
        place = PLACE_WORDS[heat.place] if heat.place else SOMEWHERE
        return at_place(heat.place, job, cooled=heat.cooled) or f"{place}, {COOLED_WORDS[heat.cooled]}"
    if heat.place:
        return at_place(heat.place, job) or PLACE_WORDS[heat.place]
    return job.duties[0].name if len(job.duties) == 1 else SOMEWHERE
