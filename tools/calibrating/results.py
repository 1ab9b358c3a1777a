"""What a calibration has found: as the package reads it, and as the page shows it."""

import json
from typing import Any

import numpy as np

from calibrating.constants import Constant
from calibrating.counting import Row
from calibrating.emulator import Emulator
from calibrating.evidence import Source
from calibrating.population import Posterior
from toptank.knowledge.calibrated import Calibration, Learnt

HEAD = """\
# Written by tools/calibrate.py (`uv run poe calibrate`); do not edit. docs/calibration.md shows it beside the priors.
#
# factor : middle of a factor on what typical sheets assume at the path
# spread : how far a vehicle that nobody measured may be off it; population, between: of the middle, between vehicles
# correlation : between the constants, in their order
# remains : what the right model of the right vehicle misses, one standard deviation: [K]; of "fan cycle" the
#   logarithm; of "effects" and "engine" shares
# evidence : the files that it rests on, with their checksums
"""


def learnt_of(posterior: Posterior, wanted: tuple[Constant, ...], evidence: tuple[Source, ...]) -> Calibration:
    """The calibration of a posterior: what may be said of a vehicle that is not among the evidence."""
    rng = np.random.default_rng(5)
    z = rng.standard_normal((8, *posterior.population.shape))
    one = (posterior.population + posterior.between * z).reshape(-1, len(wanted))
    middle = posterior.population.mean(axis=0)
    spread = one.std(axis=0)
    constants = {
        constant.path: Learnt(factor=float(np.exp(middle[place])), spread=float(spread[place]))
        for place, constant in enumerate(wanted)
    }
    return Calibration(
        constants=constants,
        correlation=np.asarray(np.corrcoef(one.T), np.float64),
        remains={kind: float(np.sqrt(np.mean(sd**2))) for kind, sd in posterior.remains.items()},
        evidence={source.name.split("/")[0]: source.checksum for source in evidence},
    )


def calibration_text(learnt: Calibration, posterior: Posterior, wanted: tuple[Constant, ...]) -> str:
    """The file that the package reads."""
    lines = [HEAD, "[evidence]"]
    lines += [f'{name} = "{checksum}"' for name, checksum in learnt.evidence.items()]
    lines += ["", "[remains]", *(f'"{kind}" = {sd:.3f}' for kind, sd in learnt.remains.items())]
    for place, (path, one) in enumerate(learnt.constants.items()):
        lines += [
            "",
            "[[constant]]",
            f'path = "{path}"',
            f"factor = {one.factor:.4f}",
            f"spread = {one.spread:.4f}",
            f"population = {posterior.population[:, place].std():.4f}",
            f"between = {posterior.between[:, place].mean():.4f}",
        ]
    # a table cannot be left again: what belongs to the document stands in front of the first one
    rows = ",\n".join("    [" + ", ".join(f"{value:.3f}" for value in row) + "]" for row in learnt.correlation)
    lines.insert(1, f"correlation = [\n{rows},\n]\n")
    return "\n".join(lines) + "\n"


def results_of(
    posterior: Posterior,
    learnt: Calibration,
    wanted: tuple[Constant, ...],
    evidence: tuple[Source, ...],
    emulators: tuple[Emulator, ...],
    inside: list[Row],
    left_out: list[Row],
) -> dict[str, Any]:
    """All that the page shows, so that it can be written without sampling anew."""
    return {
        "evidence": {source.name.split("/")[0]: source.checksum for source in evidence},
        "sources": [
            {"name": source.name, "title": source.title, "where": source.where, "trust": source.trust,
             "told": source.told, "figures": len(source.figures)}
            for source in evidence
        ],
        "sampling": {"r_hat": round(posterior.worst_r_hat, 4), "effective": round(posterior.least_effective)},
        "emulators": {one.source.name: round(one.error, 3) for one in emulators},
        "constants": [
            {"path": one.path, "source": one.source, "prior_population": one.population, "prior_between": one.between,
             "lowest": one.lowest, "highest": one.highest,
             "factor": round(float(np.exp(posterior.population[:, place].mean())), 4),
             "population": round(float(posterior.population[:, place].std()), 4),
             "between": round(float(posterior.between[:, place].mean()), 4)}
            for place, one in enumerate(wanted)
        ],
        "vehicles": {name: [round(float(x), 3) for x in values] for name, values in posterior.vehicles.items()},
        "left_by_fit": {kind: round(float(np.sqrt(np.mean(sd**2))), 4) for kind, sd in posterior.remains.items()},
        "remains": {kind: round(sd, 4) for kind, sd in learnt.remains.items()},
        "inside": [_row(row) for row in inside],
        "left_out": [_row(row) for row in left_out],
    }  # fmt: skip


def _row(row: Row) -> dict[str, Any]:
    figure = row.figure
    return {
        "source": row.source, "drive": row.drive, "ask": figure.ask, "regime": figure.regime, "value": figure.value,
        "of": {word: value for word, value in figure.of.items() if isinstance(value, float | int | str)},
        "share": figure.by_share, "fit": figure.fit,
        "low": round(row.low, 3), "middle": round(row.middle, 3), "high": round(row.high, 3),
    }  # fmt: skip


def results_text(found: dict[str, Any]) -> str:
    """The results as a file: a line a row, so that a difference can be read."""
    parts: list[str] = []
    for name, value in found.items():
        if isinstance(value, list):
            rows = ",\n".join(f"  {json.dumps(row)}" for row in value)
            parts.append(f" {json.dumps(name)}: [\n{rows}\n ]")
        else:
            parts.append(f" {json.dumps(name)}: {json.dumps(value)}")
    return "{\n" + ",\n".join(parts) + "\n}\n"
