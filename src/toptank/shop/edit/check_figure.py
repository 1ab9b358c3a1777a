"""The figure of a check as it is asked and as it is read: a cap tester shows a pressure, the sheet keeps a share of it.

Imports of the model stay inside.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.catalogue.checks.check import checks
from toptank.shop.answers.words import naming
from toptank.shop.files.toml_file import shortened
from toptank.units.conversion import unit_of
from toptank.units.dimension import PRESSURE
from toptank.units.display import show
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.job.job import Job

HELD = "cap.holds"
"""The field whose instrument reads another kind than the sheet keeps."""

MOST_HELD = 1.2
"""Share of the stamped pressure beyond which another cap was meant [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedFigure:
    """What is asked: what the figure tells, the unit of a bare number (empty where it must be named), an example."""

    tells: str
    unit: str
    example: str


def asked_figure(check: str, job: Job) -> AskedFigure:
    """Return what to read at a check that gives a figure."""
    one = checks()[check]
    if one.field == HELD:
        stamped = shown_pressure(job)
        return AskedFigure(
            tells=f"What it still holds of the stamped {stamped}.", unit="", example=f"{stamped} or 95 %"
        )
    unit = "" if one.dimension is None else unit_of(one.dimension, job.system)
    return AskedFigure(tells=naming.check(check, job.system).tells, unit="" if unit == "1" else unit, example="")


def shown_pressure(job: Job) -> str:
    """Return the pressure that is stamped on the cap of a job, or assumed."""
    return show(job.sheet.facts["cap.pressure"].value, PRESSURE, job.system)


def figure_kept(check: str, text: str, job: Job) -> str:
    """Return a figure as the job keeps it: the pressure that a cap held becomes the share of what is stamped on it.

    Raises
    ------
    Refusal : for a cap, where the unit is not said, or more is held than any cap lets by
    """
    if checks()[check].field != HELD:
        return text
    stamped = job.sheet.facts["cap.pressure"].value
    fix = f"write {shown_pressure(job)}, or 95 %"
    if text.strip().endswith("%"):
        return text
    read = parse(text, PRESSURE, system=job.system, field=check)
    if read.assumed:
        raise Refusal(field=check, value=shortened(text), limit="may be a pressure or a share", fix=fix)
    if stamped <= 0.0 or read.value > MOST_HELD * stamped:
        limit = f"is more than a cap of {shown_pressure(job)} lets by"
        raise Refusal(field=check, value=shortened(text), limit=limit, fix="write what is stamped on the cap first")
    return f"{100.0 * read.value / stamped:.0f} %"
