"""The job file: TOML with the complaint, the vehicle, the duties and the readings. Format in docs/job-file.md."""

from pathlib import Path
from typing import cast

from toptank.knowledge.conditions import refuse_wrong_order
from toptank.knowledge.sheet import DutySheet, sections, widened
from toptank.knowledge.sheet_file import read_duty, read_sheet
from toptank.knowledge.typical import typical_sheet
from toptank.shop.files.toml_file import (
    as_table,
    nothing_left,
    read_document,
    shortened,
    take_head,
    take_table,
    take_text,
    take_yes,
)
from toptank.shop.job.evidence_file import take_confirmed, take_evidence
from toptank.shop.job.fit_file import FIT_SECTIONS, take_fit
from toptank.shop.job.job import Job
from toptank.shop.job.write_up import take_write_up
from toptank.shop.log.log_mapping import take_log_mapping
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal
from toptank.units.sentence import Text

FORMAT = "toptank-job-2"
"""Format that is written: what the catalogue holds is named by ids."""

FORMER = ("toptank-job-1",)
"""Formats that are read too; in the first, causes, checks and parts stand by what they were called."""

LIMIT = 380.4
"""Limit of a job that names none: 225 degF [K]."""

LOWEST_LIMIT, HIGHEST_LIMIT = 330.0, 430.0
MOST_DUTIES = 24
VAGUE = 1.5
"""How much wider the spreads of a vehicle are that was told of in a few words only [1]; judgement."""

TROUBLE = ("reading", "symptom", "check", "changed", "history", "confirmed")
_OWN = ("job", "write_up", "vehicle", "duty", "worst_day", "log", *FIT_SECTIONS, *TROUBLE)
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
    system = take_head(document, FORMAT, "a job file", former=FORMER)
    head = take_table(document, "job")
    title = take_text(head, "title", within="job", otherwise="vehicle without a name")
    complaint = take_text(head, "complaint", within="job", otherwise="")
    invented = take_yes(head, "invented", within="job")
    limit_said = "limit" in head
    limit, limit_unit = _limit(head.pop("limit", None), system)
    nothing_left(head, "job", ("title", "complaint", "invented", "limit"))

    write_up = take_write_up(take_table(document, "write_up"))
    vehicle = take_table(document, "vehicle", needed=True)
    like = take_text(vehicle, "like", within="vehicle")
    vague = take_yes(vehicle, "vague", within="vehicle")
    nothing_left(vehicle, "vehicle", ("like", "vague"))
    duty_tables = _tables(document.pop("duty", []), "duty")
    worst_tables = _tables(document.pop("worst_day", []), "worst_day")
    trouble = {key: document.pop(key) for key in TROUBLE if key in document}
    bay = {key: document.pop(key) for key in FIT_SECTIONS if key in document}
    log = take_log_mapping(take_table(document, "log"))
    _only_parts(document)
    typical = widened(typical_sheet(like), VAGUE) if vague else typical_sheet(like)
    sheet, read = read_sheet(document, like=typical, name=title, system=system)
    remarks, assumed_units = list(read.remarks), [*limit_unit, *read.assumed_units]
    duties = _duties(duty_tables, "duty", system, remarks, assumed_units)
    worst_day = _duties(worst_tables, "worst_day", system, remarks, assumed_units) if worst_tables else []
    refuse_wrong_order(duties, "duty")
    refuse_wrong_order(worst_day, "worst_day", duties)
    evidence = take_evidence(trouble, [duty.name for duty in duties], system, assumed_units)
    fit = take_fit(bay, system, assumed_units)
    return Job(
        title=title,
        complaint=complaint,
        invented=invented,
        system=system,
        limit=limit,
        limit_said=limit_said,
        sheet=sheet,
        duties=tuple(duties),
        worst_day=tuple(worst_day),
        fit=fit,
        evidence=evidence,
        log=log,
        confirmed=take_confirmed(trouble),
        remarks=(*remarks, *fit.remarks),
        assumed_units=tuple(assumed_units),
        write_up=write_up,
    )


def _only_parts(document: dict[str, object]) -> None:
    known = (*_OWN, *sections())
    for section, table in document.items():
        if section not in sections():
            fix = did_you_mean(section, known, "the sections are " + ", ".join(known))
            value = f"[{shortened(section)}]" if isinstance(table, dict | list) else shortened(table)
            raise Refusal(field="section", value=value, limit="is not a section of a job", fix=fix)


def _duties(
    tables: list[dict[str, object]], key: str, system: System, remarks: list[Text], assumed_units: list[str]
) -> list[DutySheet]:
    """Read the duties; what is to be said of them is added to the two lists."""
    if not 1 <= len(tables) <= MOST_DUTIES:
        limit, fix = f"a job needs between 1 and {MOST_DUTIES} duties", f"add [[{key}]] tables, or split the job"
        raise Refusal(field=key, value=str(len(tables)), limit=limit, fix=fix)
    duties: list[DutySheet] = []
    for table in tables:
        name = take_text(table, "name", within=key)
        if not name.strip():
            fix = 'write what the vehicle does, such as name = "long grade"'
            raise Refusal(field=f"{key}.name", value='""', limit="must not be empty", fix=fix)
        if name in [duty.name for duty in duties]:
            raise Refusal(field=f"{key}.name", value=shortened(name), limit="is used twice", fix="rename one of them")
        duty, said = read_duty(table, name=name, system=system, within=f"{key} {shortened(name)!r}")
        duties.append(duty)
        remarks += said.remarks
        assumed_units += said.assumed_units
    return duties


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
