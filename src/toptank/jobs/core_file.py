"""The core file: the [core] table of a job file alone, with the [fill] that runs through it."""

from pathlib import Path

from toptank.jobs.toml_file import read_document, take_text
from toptank.knowledge.sheet import Sheet, declared_sheet
from toptank.knowledge.sheet_file import read_sheet
from toptank.units.refusal import Refusal

FORMAT = "toptank-core-1"
SECTIONS = ("core", "fill", "doubts")


def read_core(path: Path) -> tuple[Sheet, tuple[str, ...], tuple[str, ...]]:
    """Read a core file: its sheet, remarks, and bare numbers with the unit they were taken in."""
    document = read_document(path)
    written = take_text(document, "format", within="file")
    if written != FORMAT:
        fix = f'the first line must be format = "{FORMAT}"'
        raise Refusal(field="format", value=written[:40], limit="is not a core file", fix=fix)
    units = take_text(document, "units", within="file", otherwise="us")
    if units not in ("us", "metric"):
        raise Refusal(field="units", value=units[:40], limit='must be "us" or "metric"', fix="write one of the two")
    for section in document:
        if section not in SECTIONS:
            limit = "is not a section of a core file"
            raise Refusal(field=section, value="[...]", limit=limit, fix="known: " + ", ".join(SECTIONS))
    if "core" not in document:
        raise Refusal(field="core", value="(missing)", limit="is needed", fix="add a section [core]")
    system = "us" if units == "us" else "metric"
    sheet, read = read_sheet(document, like=declared_sheet(), name=path.stem, system=system)
    return sheet, read.remarks, read.assumed_units
