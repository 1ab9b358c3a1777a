"""Where the vehicles of a fleet come from: a folder of job files, the record, a table (CSV or Parquet)."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import polars as pl

from toptank.knowledge.sheet import duty_fields, sections
from toptank.shop.ask.fleet.item import FleetItem
from toptank.shop.files.read_bytes import content, shortened
from toptank.shop.files.toml_file import document_of
from toptank.shop.record import job_verbs
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

RECORD = "record"
"""The word that stands for the stored jobs."""

MOST, LARGEST = 2_000_000, 2**30
"""Most vehicles of a fleet, and largest table that is read [byte]."""

OWN = ("id", "title", "like", "limit", "units")
"""Heads of a table beside the fields of a vehicle and of its hill."""

_WITH_UNIT = re.compile(r"\s*(.*?)\s*[\[(]([^\[\]()]+)[\])]\s*")

Read = "tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]"
"""Vehicles, those that cannot be used with what is wrong, and remarks."""


def read_source(source: str, path: Path) -> tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]:
    """Read all vehicles of a source.

    Returns
    -------
    vehicles, those that cannot be used with what is wrong, remarks on the whole source

    Raises
    ------
    Refusal : where the source as a whole cannot be used
    """
    if source == RECORD:
        return _of_record()
    if path.is_dir():
        return _of_folder(path)
    kind = path.suffix.lower()
    if kind in (".csv", ".parquet"):
        return _of_table(path, kind)
    if kind == ".toml":
        return _of_files([path])
    fix = 'name a folder of job files, a table (.csv, .parquet), or "record"'
    raise Refusal(field="source", value=shortened(source), limit="holds no vehicles that can be read", fix=fix)


def _of_folder(folder: Path) -> tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]:
    paths = sorted(folder.glob("*.toml"))
    if not paths:
        fix = "name a folder with job files in it (.toml)"
        raise Refusal(field="source", value=shortened(folder), limit="holds no job file", fix=fix)
    return _of_files(paths)


def _of_files(paths: Sequence[Path]) -> tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]:
    items: list[FleetItem] = []
    bad: list[tuple[FleetItem, Refusal]] = []
    for path in paths:
        bare = FleetItem(identity=path.stem, file=path.name, line=0, kind="job", told={})
        try:
            large = Refusal(field="file", value=path.name, limit="is larger than 256 KiB", fix="is it another file?")
            raw = content(path, largest=256 * 1024, too_large=large, missing="check the name")
            told = document_of(raw, path.name)
        except Refusal as refusal:
            bad.append((bare, refusal))
        else:
            items.append(FleetItem(identity=path.stem, file=path.name, line=0, kind="job", told=told))
    return items, bad, ()


def _of_record() -> tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]:
    items: list[FleetItem] = []
    bad: list[tuple[FleetItem, Refusal]] = []
    for row in job_verbs.listed():
        name = f"job {row.number}"
        try:
            told = document_of(job_verbs.record(row.number).shown.text.encode("utf-8"), name)
        except Refusal as refusal:
            bad.append((FleetItem(identity=name, file=RECORD, line=row.number, kind="job", told={}), refusal))
        else:
            items.append(FleetItem(identity=name, file=RECORD, line=row.number, kind="job", told=told))
    if not items and not bad:
        fix = "store one with `toptank job add FILE`"
        raise Refusal(field="source", value=RECORD, limit="holds no job", fix=fix)
    return items, bad, ()


def _of_table(path: Path, kind: str) -> tuple[list[FleetItem], list[tuple[FleetItem, Refusal]], tuple[str, ...]]:
    table = _table(path, kind)
    heads = {head: _head(head) for head in table.columns}
    unused = [head for head, (key, _) in heads.items() if not _is_known(key)]
    used = {head: told for head, told in heads.items() if head not in unused}
    if "like" not in [key for key, _ in used.values()]:
        fix = "add a column like, with a name that `toptank vehicles` lists"
        raise Refusal(field=f"{path.name}, column like", value="(missing)", limit="is needed", fix=fix)
    items: list[FleetItem] = []
    bad: list[tuple[FleetItem, Refusal]] = []
    seen: set[str] = set()
    for number, row in enumerate(table.iter_rows(named=True)):
        told = _cells(row, used)
        # The head of a CSV file is its first line; a Parquet file has none.
        line = number + (2 if kind == ".csv" else 1)
        identity = str(told.pop("id", "") or f"row {line}").strip()
        item = FleetItem(identity=identity, file=path.name, line=line, kind="row", told=told)
        if identity in seen:
            fix = "give every vehicle an id of its own"
            bad.append((item, Refusal(field="id", value=shortened(identity), limit="is used twice", fix=fix)))
        else:
            items.append(item)
        seen.add(identity)
    remark = f"These columns are not used: {', '.join(shortened(head, 30) for head in unused[:20])}."
    return items, bad, (remark,) if unused else ()


def _table(path: Path, kind: str) -> pl.DataFrame:
    large = Refusal(field="source", value=path.name, limit="is larger than 1 GiB", fix="split it")
    raw = content(path, largest=LARGEST, too_large=large, missing="check the name")
    try:
        if kind == ".parquet":
            table = pl.read_parquet(raw)
        else:
            comma = raw[:4096].partition(b"\n")[0]
            separator = ";" if comma.count(b";") > comma.count(b",") else ","
            table = pl.read_csv(raw, infer_schema=False, separator=separator, encoding="utf8")
    except (pl.exceptions.PolarsError, UnicodeDecodeError, OSError) as error:
        fix = f"the reader says: {shortened(error, 120)}; save it anew"
        raise Refusal(field="source", value=path.name, limit="is not such a table", fix=fix) from error
    if table.height == 0 or table.height > MOST:
        limit = f"must hold between 1 and {MOST:,} rows"
        raise Refusal(field="source", value=path.name, limit=limit, fix=f"it holds {table.height:,}; split or fill it")
    return table


def _head(head: str) -> tuple[str, str]:
    """Key and unit of a head: "fan.diameter [in]" gives ("fan.diameter", "in")."""
    match = _WITH_UNIT.fullmatch(head)
    key, unit = (match[1], match[2]) if match else (head, "")
    return key.strip().removeprefix("duty."), unit.strip()


def _is_known(key: str) -> bool:
    """Whether a head is a field; one that seems to be meant as a field is refused where it is none."""
    section, dot, field = key.partition(".")
    if key in OWN or key in duty_fields():
        return True
    if not dot or section not in sections():
        return False
    if field not in sections()[section]:
        fix = did_you_mean(field, tuple(sections()[section]), f"[{section}] has {', '.join(sections()[section])}")
        raise Refusal(field="column", value=shortened(key), limit="is not a field of a vehicle", fix=fix)
    return True


def _cells(row: dict[str, Any], used: dict[str, tuple[str, str]]) -> dict[str, Any]:
    """The filled cells of a row by their keys; a bare figure takes the unit of its head."""
    told: dict[str, Any] = {}
    for head, (key, unit) in used.items():
        cell = row[head]
        if cell is None or not str(cell).strip():
            continue
        cell = cell if isinstance(cell, bool) else str(cell).strip()
        bare = isinstance(cell, str) and unit and re.fullmatch(r"[-+]?[\d.,]+([eE][-+]?\d+)?", cell)
        told[key] = f"{cell} {unit}" if bare else cell
    return told
