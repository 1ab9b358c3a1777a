"""The core file: the [core] table of a job file alone, with the [fill] that runs through it."""

from pathlib import Path

from toptank.knowledge.sheet import Sheet, declared_sheet
from toptank.knowledge.sheet_file import read_sheet
from toptank.shop.files.toml_file import read_document, shortened, take_head
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal
from toptank.units.sentence import Text

FORMAT = "toptank-core-1"
SECTIONS = ("core", "fill", "doubts")


def read_core(path: Path) -> tuple[Sheet, tuple[Text, ...], tuple[str, ...]]:
    """Read a core file: its sheet, remarks, and bare numbers with the unit they were taken in."""
    document = read_document(path)
    system = take_head(document, FORMAT, "a core file")
    for section in document:
        if section not in SECTIONS:
            fix = did_you_mean(section, SECTIONS, "known: " + ", ".join(SECTIONS))
            raise Refusal(field=shortened(section), value="[...]", limit="is not a section of a core file", fix=fix)
    if "core" not in document:
        raise Refusal(field="core", value="(missing)", limit="is needed", fix="add a section [core]")
    sheet, read = read_sheet(document, like=declared_sheet(), name=path.stem, system=system)
    return sheet, read.remarks, read.assumed_units
