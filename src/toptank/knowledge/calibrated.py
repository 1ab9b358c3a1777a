"""What measurements have taught of the constants that no paper fixes, and how far the right model may still be off.

Read from calibrated.toml, which `tools/calibrate.py` writes from all the evidence; docs/calibration.md shows it.
"""

import dataclasses
import functools
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib import resources

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from toptank.knowledge.sheet import Provenance, Sheet, declaration_of

Floats = NDArray[np.float64]

CALIBRATED = ", calibrated"
"""Ends the origin of a fact whose value and spread the calibration has set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """A constant: a factor on what typical sheets assume at its path.

    factor : middle of the factor [1]
    spread : how far one vehicle that nobody measured may be off that, one standard deviation of its logarithm [1]
    """

    factor: float
    spread: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """All constants, how they hang together, what remains, and what evidence they rest on.

    constants : by path
    correlation : between the constants in the order of their paths (constant, constant) [1]
    remains : what the right model of the right vehicle misses, by regime, one standard deviation [K]
    evidence : checksum of every file of evidence, by its name
    """

    constants: Mapping[str, Learnt]
    correlation: Floats
    remains: Mapping[str, float]
    evidence: Mapping[str, str]

    def sheet(self, sheet: Sheet) -> Sheet:
        """A sheet whose assumed facts have what is learnt of them; what is measured or read off a plate stays."""
        facts = dict(sheet.facts)
        for path, learnt in self.constants.items():
            fact = facts[path]
            if fact.how != Provenance.ASSUMED or fact.value == 0.0 or fact.origin.endswith(CALIBRATED):
                continue
            value = fact.value * learnt.factor
            spread = learnt.spread if declaration_of(path).relative else learnt.spread * abs(value)
            facts[path] = dataclasses.replace(fact, value=value, spread=spread, origin=fact.origin + CALIBRATED)
        return dataclasses.replace(sheet, facts=facts)

    def tied(self, paths: Sequence[str], samples: Mapping[str, Floats]) -> dict[str, Floats]:
        """Places of these constants among all that they may be, moved so that they hang together as they should.

        Parameters
        ----------
        paths : those of the constants that a sheet leaves open, as calibrated
        samples : independent places (draw,), by path [1]
        """
        if len(paths) < 2:
            return {}
        order = [place for place, path in enumerate(self.constants) if path in paths]
        names = [path for path in self.constants if path in paths]
        root = np.linalg.cholesky(self.correlation[np.ix_(order, order)])
        moved = ndtr(root @ ndtri(np.stack([samples[name] for name in names])))
        return dict(zip(names, moved, strict=True))


@functools.cache
def calibration() -> Calibration:
    """The calibration that the package ships."""
    text = resources.files("toptank.knowledge").joinpath("calibrated.toml").read_text(encoding="utf-8")
    return read_calibration(text)


def read_calibration(text: str) -> Calibration:
    """Read a calibration as `tools/calibrate.py` writes it."""
    document = tomllib.loads(text)
    constants = {
        one["path"]: Learnt(factor=float(one["factor"]), spread=float(one["spread"])) for one in document["constant"]
    }
    return Calibration(
        constants=constants,
        correlation=np.array(document["correlation"], float).reshape(len(constants), len(constants)),
        remains=document["remains"],
        evidence=document["evidence"],
    )
