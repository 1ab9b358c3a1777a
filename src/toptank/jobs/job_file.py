"""The job file: TOML with the complaint, the vehicle, the duties and the readings. Format in docs/job-file.md."""

from pathlib import Path
from typing import cast

from toptank.jobs.job import WORDS, Job, Reading
from toptank.jobs.toml_file import as_table, read_document, shortened, take_head, take_table, take_text
from toptank.knowledge.sheet import DutySheet, sections
from toptank.knowledge.sheet_file import read_duty, read_sheet
from toptank.knowledge.typical import typical_sheet
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

FORMAT = "toptank-job-1"
LIMIT = 380.4
"""Limit of a job that names none: 225 degF [K]."""

LOWEST_LIMIT, HIGHEST_LIMIT = 330.0, 430.0
MOST_DUTIES = 24
_OWN = ("job", "vehicle", "duty", "reading")
"""Sections that are no part of a vehicle."""


def read_job(path: Path) -> Job:
    """Read a job file; what it does not say is filled in from its typical vehicle and marked as assumed."""
    return job_of(read_document(path))


def job_of(document: dict[str, object]) -> Job:
    """Make a job of a parsed job file.

    Raises
    ------
    Refusal : in one sentence, for the first thing that cannot be used
    """
    document = dict(document)
    system = take_head(document, FORMAT, "a job file")
    head = take_table(document, "job")
    title = take_text(head, "title", within="job", otherwise="vehicle without a name")
    complaint = take_text(head, "complaint", within="job", otherwise="")
    invented = _yes(head.pop("invented", False))
    limit, limit_unit = _limit(head.pop("limit", None), system)
    _nothing_left(head, "job", ("title", "complaint", "invented", "limit"))

    vehicle = take_table(document, "vehicle", needed=True)
    like = take_text(vehicle, "like", within="vehicle")
    _nothing_left(vehicle, "vehicle", ("like",))
    duty_tables = _tables(document.pop("duty", []), "duty")
    reading_tables = _tables(document.pop("reading", []), "reading")
    _only_parts(document)
    sheet, read = read_sheet(document, like=typical_sheet(like), name=title, system=system)
    remarks, assumed_units = list(read.remarks), [*limit_unit, *read.assumed_units]
    duties = _duties(duty_tables, system, remarks, assumed_units)
    readings = tuple(_reading(table, [duty.name for duty in duties], system, assumed_units) for table in reading_tables)
    return Job(
        title=title,
        complaint=complaint,
        invented=invented,
        system=system,
        limit=limit,
        sheet=sheet,
        duties=tuple(duties),
        readings=readings,
        remarks=tuple(remarks),
        assumed_units=tuple(assumed_units),
    )


def _only_parts(document: dict[str, object]) -> None:
    known = (*_OWN, *sections())
    for section, table in document.items():
        if section not in sections():
            fix = did_you_mean(section, known, "the sections are " + ", ".join(known))
            raise Refusal(field=shortened(section), value=shortened(table), limit="is not a section of a job", fix=fix)


def _duties(
    tables: list[dict[str, object]], system: System, remarks: list[str], assumed_units: list[str]
) -> list[DutySheet]:
    """Read the duties; what is to be said of them is added to the two lists."""
    if not 1 <= len(tables) <= MOST_DUTIES:
        limit, fix = f"a job needs between 1 and {MOST_DUTIES} duties", "add [[duty]] tables, or split the job"
        raise Refusal(field="duty", value=str(len(tables)), limit=limit, fix=fix)
    duties: list[DutySheet] = []
    for table in tables:
        name = take_text(table, "name", within="duty")
        if not name.strip():
            fix = 'write what the vehicle does, such as name = "long grade"'
            raise Refusal(field="duty.name", value='""', limit="must not be empty", fix=fix)
        if name in [duty.name for duty in duties]:
            raise Refusal(field="duty.name", value=shortened(name), limit="is used twice", fix="rename one of them")
        duty, said = read_duty(table, name=name, system=system, within=f"duty {shortened(name)!r}")
        duties.append(duty)
        remarks += said.remarks
        assumed_units += said.assumed_units
    return duties


def _yes(value: object) -> bool:
    if not isinstance(value, bool):
        raise Refusal(
            field="job.invented", value=shortened(value), limit="must be true or false", fix="write true or false"
        )
    return value


def _limit(value: object, system: System) -> tuple[float, list[str]]:
    if value is None:
        return LIMIT, []
    kelvin, assumed = _temperature(value, "job.limit", system)
    if not LOWEST_LIMIT <= kelvin <= HIGHEST_LIMIT:
        limit = "must lie between 134 °F and 314 °F (57 and 157 °C)"
        raise Refusal(field="job.limit", value=shortened(value), limit=limit, fix="check the figure and its unit")
    return kelvin, assumed


def _temperature(value: object, field: str, system: System) -> tuple[float, list[str]]:
    if not isinstance(value, str | int | float):
        raise Refusal(field=field, value=shortened(value), limit="must be a temperature", fix='write "215 F"')
    parsed = parse(value, TEMPERATURE, system=system, field=field)
    return parsed.value, [f"{field} = {shortened(value)}: taken as {parsed.unit}"] if parsed.assumed else []


def _tables(value: object, key: str) -> list[dict[str, object]]:
    if not isinstance(value, list):
        fix = f"write it as [[{key}]], with two brackets"
        raise Refusal(field=key, value=shortened(value), limit="must be a list of tables", fix=fix)
    return [as_table(table, key) for table in cast("list[object]", value)]


def _reading(table: dict[str, object], duties: list[str], system: System, assumed_units: list[str]) -> Reading:
    duty = take_text(table, "duty", within="reading")
    if duty not in duties:
        fix = did_you_mean(duty, duties, "name a duty of this job")
        raise Refusal(field="reading.duty", value=shortened(duty), limit="is not a duty of this job", fix=fix)
    gauge: float | None = None
    if "gauge" in table:
        gauge, assumed = _temperature(table.pop("gauge"), "reading.gauge", system)
        assumed_units += assumed
        if not 230.0 <= gauge <= 480.0:
            limit = "must lie between -45 °F and 404 °F (-43 and 207 °C)"
            raise Refusal(field="reading.gauge", value=f"{gauge - 273.15:.0f} °C", limit=limit, fix="check its unit")
    words = take_text(table, "words", within="reading", otherwise="") or None
    if words is not None and words not in WORDS:
        limit = "must be one of: " + ", ".join(WORDS)
        raise Refusal(field="reading.words", value=shortened(words), limit=limit, fix="put anything else into note")
    note = take_text(table, "note", within="reading", otherwise="")
    _nothing_left(table, "reading", ("duty", "gauge", "words", "note"))
    return Reading(duty=duty, gauge=gauge, words=words, note=note)


def _nothing_left(table: dict[str, object], within: str, known: tuple[str, ...]) -> None:
    for key, value in table.items():
        fix = did_you_mean(key, known, "known here: " + ", ".join(known))
        raise Refusal(
            field=f"{within}.{shortened(key)}", value=shortened(value), limit="is not a known key here", fix=fix
        )
