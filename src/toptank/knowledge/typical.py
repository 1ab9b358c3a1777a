"""Typical vehicles: what stands in for everything that nobody measured yet.

Each is one file beside this module. Its values are typical of the trade and of the era, not of one make; what a file
does not name is left to the declaration of the field.
"""

import dataclasses
import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from typing import cast

from toptank.knowledge.calibrated import calibration
from toptank.knowledge.consistency import refuse_what_cannot_be_built
from toptank.knowledge.sheet import DutySheet, Provenance, Sheet, declared_sheet, overlay
from toptank.knowledge.sheet_file import read_duty, read_tables
from toptank.units.conversion import System
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

_FOLDER = "typical"


@dataclass(frozen=True, slots=True, kw_only=True)
class Typical:
    """A typical vehicle.

    Parameters
    ----------
    name : its name in a job file, e.g. "pickup-1970s-v8-air"
    title : what it is, in words
    where : where its values come from
    sheet : its sheet; every fact is assumed
    usual : a duty that a healthy one does all day
    """

    name: str
    title: str
    where: str
    sheet: Sheet
    usual: DutySheet


@functools.cache
def typical_names() -> tuple[str, ...]:
    """Names of all typical vehicles, in order."""
    folder = resources.files("toptank.knowledge").joinpath(_FOLDER)
    return tuple(sorted(file.name.removesuffix(".toml") for file in folder.iterdir() if file.name.endswith(".toml")))


@functools.cache
def typical(name: str) -> Typical:
    """A typical vehicle by its name, with what measurements have taught of the constants that its file assumes."""
    told = as_told(name)
    return dataclasses.replace(told, sheet=calibration().sheet(told.sheet))


@functools.cache
def as_told(name: str) -> Typical:
    """Read a typical vehicle by its name, as its file tells it."""
    if name not in typical_names():
        raise _unknown(name)
    path = resources.files("toptank.knowledge").joinpath(_FOLDER, f"{name}.toml")
    document = tomllib.loads(path.read_text(encoding="utf-8"))
    title, where = str(document.pop("title")), str(document.pop("where"))
    system: System = "metric" if document.pop("units", "us") == "metric" else "us"
    usual = cast("Mapping[str, object]", document.pop("usual"))
    origin = f"typical {title}"
    read = read_tables(document, system=system, origin=origin, plain=Provenance.ASSUMED)
    declared = declared_sheet()
    sheet = overlay(Sheet(name=name, like=name, facts=declared.facts), read.facts)
    refuse_what_cannot_be_built(sheet, stated=read.facts, system=system)
    duty, _ = read_duty(usual, name="usual", system=system, origin=origin, plain=Provenance.ASSUMED, within="usual")
    return Typical(name=name, title=title, where=where, sheet=sheet, usual=duty)


def typical_sheet(name: str) -> Sheet:
    """Sheet of a typical vehicle by its name."""
    return typical(name).sheet


def _unknown(name: str) -> Refusal:
    fix = did_you_mean(name, typical_names(), "`toptank vehicles` lists them")
    return Refusal(field="vehicle.like", value=name, limit="is not a typical vehicle", fix=fix)
