"""The constants that are calibrated, with their priors, and a sheet with them loosened."""

import dataclasses
import tomllib
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from calibrating.evidence import Floats
from toptank.knowledge.sheet import Provenance, Sheet, declaration_of
from toptank.system.vehicle import Vehicle

PLACE = Path(__file__).parents[2] / "calibration" / "constants.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant:
    """A factor on what sheets assume at a path; see calibration/constants.toml."""

    path: str
    population: float
    between: float
    lowest: float
    highest: float
    source: str

    @property
    def spread(self) -> float:
        """How far one vehicle that nobody measured may be off what is assumed, before any evidence."""
        return float(np.hypot(self.population, self.between))


def constants(place: Path = PLACE) -> tuple[Constant, ...]:
    """All constants, in the order of the file."""
    document = tomllib.loads(place.read_text(encoding="utf-8"))
    return tuple(Constant(**one) for one in document["constant"])


def loosened(sheet: Sheet, wanted: tuple[Constant, ...]) -> tuple[Sheet, tuple[int, ...]]:
    """The sheet with its constants as uncertain as before any evidence, and which of them it leaves open."""
    facts, open_ones = dict(sheet.facts), list[int]()
    for place, constant in enumerate(wanted):
        fact = facts[constant.path]
        if fact.how != Provenance.ASSUMED or fact.value == 0.0:
            continue
        spread = constant.spread * (1.0 if declaration_of(constant.path).relative else abs(fact.value))
        facts[constant.path] = dataclasses.replace(fact, spread=spread)
        open_ones.append(place)
    return dataclasses.replace(sheet, facts=facts), tuple(open_ones)


def log_factors(sheet: Sheet, drawn: Vehicle, wanted: tuple[Constant, ...]) -> Floats:
    """Logarithm of every constant's factor in every draw (draw, constant); 0 where a sheet leaves it no room."""
    columns: list[Floats] = []
    for constant in wanted:
        section, key = constant.path.split(".")
        values = np.asarray(getattr(getattr(drawn, section), key), float)
        stated = sheet.facts[constant.path].value
        columns.append(np.log(np.maximum(values / stated, 1e-3)) if stated else np.zeros(len(values)))
    return np.stack(columns, axis=1)
