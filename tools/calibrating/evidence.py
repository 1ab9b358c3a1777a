"""Evidence: what was measured on vehicles, as figures that the model can be asked, read from calibrating/evidence/."""

import hashlib
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.sheet import Provenance, Sheet, overlay
from toptank.knowledge.sheet_file import read_tables
from toptank.knowledge.typical import as_told

FOLDER = Path(__file__).parents[2] / "calibration" / "evidence"

REGIMES = ("warm-up", "hot idle", "moving", "climb", "air", "engine")
"""The first four are temperatures of a whole vehicle; "air" and "engine" are effects and shares, without a needle."""

TIMES = ("time to", "fan period", "fan on for")
"""What is a length of time: its errors are shares of it."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure that somebody measured.

    ask : what is asked of the model; `of` holds the words of the question, in the units of the evidence file
    value, error : measured, one standard deviation of the measurement, in the units of the file
    regime : one of REGIMES
    fit : whether the calibration reads it; a figure that another one says already is for the count only
    """

    ask: str
    of: dict[str, Any]
    value: float
    error: float
    regime: str
    fit: bool

    @property
    def by_share(self) -> bool:
        """Whether its errors are shares of it."""
        return self.ask in TIMES or self.regime in ("air", "engine")


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """A drive as a few legs, and what was read on it.

    start : "stood" (the whole engine at one temperature) or "settled" (at what the first leg asks)
    legs : a row a leg: s, km/h, 1/min, share running, grade %, fuel kW (0: what the road asks)
    """

    name: str
    start: str
    start_degC: float
    ambient_degC: float
    ambient_error: float
    heater: float
    air_conditioning: float
    in_gear: float
    among_cars: float
    step: float
    legs: Floats
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One vehicle of which something was measured.

    sheet : that of the nearest typical vehicle, scaled by what the card tells
    asked : figures beside the drives: of the engine alone, of the air, of steady conditions
    fuel_error : one standard deviation of the logged fuel, as a share [1]
    told : common practice rather than a measurement: weak evidence
    """

    name: str
    title: str
    where: str
    trust: str
    checksum: str
    sheet: Sheet
    drives: tuple[Drive, ...]
    asked: tuple[Figure, ...]
    fuel_error: float
    told: bool
    document: dict[str, Any]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All of them, in the order in which the model answers."""
        return tuple(figure for drive in self.drives for figure in drive.figures) + self.asked

    @property
    def drive_of(self) -> tuple[str, ...]:
        """Name of the drive that each figure belongs to; of the others their own."""
        named = [drive.name for drive in self.drives for _ in drive.figures]
        return (*named, *(f"asked {number}" for number, _ in enumerate(self.asked)))


def sources(folder: Path = FOLDER, names: tuple[str, ...] = ()) -> tuple[Source, ...]:
    """All evidence, or that of the names, in the order of the names of the files."""
    paths = sorted(folder.glob("*.toml"))
    return tuple(source for path in paths if not names or path.stem in names for source in read(path))


def read(path: Path) -> tuple[Source, ...]:
    """Read a file of evidence: one vehicle, or several under [[vehicles]]."""
    text = path.read_bytes()
    document = tomllib.loads(text.decode())
    checksum = hashlib.sha256(text).hexdigest()[:16]
    several = document.pop("vehicles", None)
    if several is None:
        return (_source(path.stem, document, checksum),)
    return tuple(_source(f"{path.stem}/{one['name']}", {**document, **one}, checksum) for one in several)


def _source(name: str, document: dict[str, Any], checksum: str) -> Source:
    tables = document.get("vehicle", {})
    found = read_tables(tables, system="metric", origin="evidence", plain=Provenance.PLATE)
    drives = tuple(_drive(one, document) for one in document.get("drive", ()))
    return Source(
        name=name,
        title=document["title"],
        where=document["where"],
        trust=document["trust"],
        checksum=checksum,
        sheet=overlay(as_told(document["like"]).sheet, found.facts),
        drives=drives,
        asked=tuple(_figure(one) for one in document.get("figure", ())),
        fuel_error=float(document.get("fuel_error", 0.0)),
        told=bool(document.get("told", False)),
        document=document,
    )


def _drive(one: dict[str, Any], document: dict[str, Any]) -> Drive:
    return Drive(
        name=one["name"],
        start=one["start"],
        start_degC=float(one.get("start_C", one["ambient_C"])),
        ambient_degC=float(one["ambient_C"]),
        ambient_error=float(one.get("ambient_error", document.get("ambient_error_C", 1.0))),
        heater=float(one.get("heater", 0.0)),
        air_conditioning=float(one.get("air_conditioning", False)),
        in_gear=float(one.get("in_gear", False)),
        among_cars=float(one.get("among_cars", False)),
        step=float(one.get("step_s", 2.0)),
        legs=np.array(one["legs"], float),
        figures=tuple(_figure(figure) for figure in one["figures"]),
    )


def _figure(one: dict[str, Any]) -> Figure:
    words = dict(one)
    return Figure(
        ask=words.pop("ask"),
        value=float(words.pop("value")),
        error=float(words.pop("error")),
        regime=words.pop("regime"),
        fit=bool(words.pop("fit", True)),
        of=words,
    )
