"""Write made_to_hold.toml: along which ways the sound vehicles of every kind differ from any that its sheet allows.

`uv run poe hold` (some minutes), after a change of a typical vehicle, of its list (sound_readings.toml) or of the
calibration. `--show` prints what the ties do, kind by kind, and writes nothing.

Vehicles are drawn from a sheet without ties and taken through the conditions of its list. Each counts as far as it is
sound: fully up to the upper end of every range, less beyond it (8 °F, one standard deviation). Where makers print at
which pressure its air conditioning idles, that counts on both sides: the air that cools the engine cools the condenser.
The ways are those across the fields that the temperatures follow; along them the counted vehicles have a middle and a
spread. Of what is of one kind or another the kinds have the shares that the counted vehicles have.
"""

import argparse
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri
from scipy.stats import rankdata

from toptank.knowledge.draws import doubtful, steps, unit_samples, vehicle_at
from toptank.knowledge.made_to_hold import Way, ends_of_kinds
from toptank.knowledge.sheet import duty
from toptank.knowledge.sound_readings import CONDENSING, DOUBT, conditions_of, sound_readings
from toptank.knowledge.typical import typical, typical_names
from toptank.system.condition_batch import go_through

Floats = NDArray[np.float64]

PLACE = Path(__file__).parents[1] / "src" / "toptank" / "knowledge" / "made_to_hold.toml"

DRAWS, SEED = 8192, 17

READ_TO = 2.0
"""How far a makers' figure of condensing may be off, one standard deviation [K]: read off charts in steps of 10 psi,
1.4 K, blower and humidity untold; judgement."""

SMALL = 0.04
"""Share of a way below which a field is left out of it [1]: within the scatter of so many draws."""

ALIKE = 0.08
"""How little middle and spread of a way may differ from 0 and 1 for it to be left out [1]."""

RARER = 0.01
"""How little the shares of kinds may differ from those of a sheet for them to be left out [1]."""

HEAD = """# Written by tools/made_to_hold.py (`uv run poe hold`); do not edit. What it means: made_to_hold.py.
#
# along : how far each field goes along a way, in its own spreads; middle, spread : of sound vehicles along it, where
#   any vehicle that the sheet allows has 0 and 1
# kinds : of what is of one kind or another, the share of sound vehicles that have what the sheet says, and each other
"""


def main() -> None:
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("names", nargs="*", default=typical_names())
    words.add_argument("--show", action="store_true")
    asked = words.parse_args()
    pieces = [HEAD]
    for name in asked.names:
        pieces += _text(name, *ties(name))
    if not asked.show:
        PLACE.write_text("\n".join(pieces), encoding="utf-8")


def ties(name: str) -> tuple[list[Way], dict[str, list[float]]]:
    """The ways of a typical vehicle, and the shares of kinds."""
    sheet = typical(name).sheet
    open_ones = doubtful(sheet)
    smooth = [path for path, declaration in open_ones.items() if not steps(declaration)]
    chances = unit_samples(open_ones, DRAWS, SEED)
    scores = np.asarray(ndtri(np.stack([chances[path] for path in smooth])), float)
    vehicles = vehicle_at(sheet, chances, DRAWS, made_to_hold=False)
    conditions, highest = conditions_of(name, duty(typical(name).usual))
    passages = go_through(vehicles, conditions)
    read = {place: np.asarray(passages[place].end.T_engine_out, float) for place in highest}
    counts = _sound(read, highest)
    if (makers := sound_readings(name).condensing) is not None:
        read[CONDENSING] = np.asarray(passages[CONDENSING].end.T_condensing, float)
        counts *= _as_printed(read[CONDENSING], makers)
    print(f"{name}: {counts.mean():.2f} of the draws count", flush=True)
    kinds: dict[str, list[float]] = {}
    for path in open_ones:
        if path not in smooth:
            ends = ends_of_kinds(sheet.facts[path], len(open_ones[path].choices))
            shares = np.histogram(chances[path], bins=np.array([0.0, *ends]), weights=counts)[0] / counts.sum()
            if abs(shares[0] - ends[0]) > RARER:
                kinds[path] = [round(float(share), 3) for share in shares]
    return _along(smooth, scores, np.stack(list(read.values())), counts), kinds


def _sound(read: Mapping[str, Floats], highest: Mapping[str, float]) -> Floats:
    """How far each draw counts as sound (draw,) [1]."""
    over = np.stack([np.maximum(read[place] - most, 0.0) / DOUBT for place, most in highest.items()])
    return np.asarray(np.exp(-0.5 * np.sum(over * over, axis=0)), np.float64)


def _as_printed(condenses: Floats, makers: tuple[float, float]) -> Floats:
    """How far each draw counts as one that condenses where makers print it (draw,) [1]."""
    off = np.maximum(np.maximum(makers[0] - condenses, condenses - makers[1]), 0.0) / READ_TO
    return np.asarray(np.exp(-0.5 * off * off), np.float64)


def _along(paths: list[str], scores: Floats, read: Floats, counts: Floats) -> list[Way]:
    """Ways across the scores (path, draw) that the temperatures follow (condition, draw)."""
    ranks = np.asarray(ndtri((rankdata(read, axis=1) - 0.5) / read.shape[1]), float)
    slopes = np.linalg.lstsq(scores.T, ranks.T, rcond=None)[0]
    across, size, _ = np.linalg.svd(slopes, full_matrices=False)
    basis = across[:, size > 0.1]
    at = basis.T @ scores
    weight = counts / counts.sum()
    before = np.linalg.cholesky(np.atleast_2d(np.cov(at)))
    white = np.linalg.solve(before, at - at.mean(axis=1, keepdims=True))
    middle = white @ weight
    spread = (white - middle[:, None]) * weight @ (white - middle[:, None]).T
    squares, turned = np.linalg.eigh(spread)
    found: list[Way] = []
    for place, square in enumerate(squares):
        direction, along_it, scatter = basis @ turned[:, place], float(middle @ turned[:, place]), float(square**0.5)
        if abs(along_it) < ALIKE and abs(scatter - 1.0) < ALIKE:
            continue
        kept = np.where(np.abs(direction) < SMALL, 0.0, direction)
        kept = kept / np.sqrt(kept @ kept)
        along = {path: round(float(share), 3) for path, share in zip(paths, kept, strict=True) if share != 0.0}
        found.append(Way(along=along, middle=round(along_it, 3), spread=round(min(scatter, 1.0), 3)))
    return found


def _text(name: str, ways: list[Way], kinds: Mapping[str, list[float]]) -> list[str]:
    pieces = (
        [f"[{name}.kinds]\n" + "".join(f'"{path}" = {shares}\n' for path, shares in kinds.items())] if kinds else []
    )
    for way in ways:
        along = "\n".join(f'"{path}" = {share}' for path, share in way.along.items())
        head = f"[[{name}.ways]]\nmiddle = {way.middle}\nspread = {way.spread}"
        pieces.append(f"{head}\n[{name}.ways.along]\n{along}\n")
    return pieces


if __name__ == "__main__":
    main()
