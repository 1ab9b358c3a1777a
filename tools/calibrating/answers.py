"""Every figure of a source, as many possible vehicles would have shown it."""

import dataclasses

import numpy as np

from calibrating import asked
from calibrating.driven import readings
from calibrating.evidence import Floats, Source
from calibrating.scale import CYCLE, kind_of, unit_of
from toptank.knowledge.calibrated import Calibration, calibration
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import Sheet, vehicle
from toptank.system.vehicle import Vehicle

SEED = 20261130

HEAT_BY_FUEL = 0.75
"""Power with which the heat to the coolant grows with the fuel: film 0.7, friction none, exhaust the rest [1]."""

SHARED = 0.7
"""Share of what the model misses that all figures of one drive share; the rest is each figure's own [1]; judgement."""


def answers(
    source: Source, n: int, *, sheet: Sheet | None = None, learnt: Calibration | None = None, seed: int = SEED
) -> Floats:
    """What n possible vehicles of a source show (draw, figure).

    Parameters
    ----------
    source, n : the source, how many vehicles
    sheet : in place of its own, with the constants as loose as before any evidence: drives that no fit reads are then
        left out
    learnt : a calibration in place of the shipped one; what it says remains is added
    """
    loose = sheet is not None
    learnt = learnt or calibration()
    sheet = sheet or learnt.sheet(source.sheet)
    drawn, central = draws(sheet, n, seed, learnt, made_to_hold=not loose), vehicle(sheet)
    drawn = _burning(source, drawn, n, seed)
    own, shared = _noise(source, n, seed)
    early = 0.0 if loose else learnt.remains["warm-up"]
    columns = [
        np.full((n, len(drive.figures)), np.nan)
        if loose and not any(figure.fit for figure in drive.figures)
        else readings(drive, central, drawn, seed, early * shared[drive.name], times=not loose)
        for drive in source.drives
    ]
    shown = np.concatenate([*columns, asked.figures(source.asked, drawn)], axis=1)
    for place, (figure, name) in enumerate(zip(source.figures, source.drive_of, strict=True)):
        if figure.ask == "time to" or loose:
            continue
        off = learnt.remains[kind_of(figure)] * (SHARED**0.5 * shared[name] + (1.0 - SHARED) ** 0.5 * own[:, place])
        if figure.ask in CYCLE:
            shown[:, place] *= np.exp(off)
        else:
            shown[:, place] += off * unit_of(figure)
    return shown


def _burning(source: Source, drawn: Vehicle, n: int, seed: int) -> Vehicle:
    """Vehicles that burn more or less than was logged, as far as the fuel is uncertain, by what it does to the heat."""
    fuel = source.fuel_error * np.random.default_rng((seed, 7)).standard_normal(n)
    heat = np.asarray(drawn.doubts.coolant_heat, float) * np.exp(HEAT_BY_FUEL * fuel)
    return dataclasses.replace(drawn, doubts=dataclasses.replace(drawn.doubts, coolant_heat=heat))


def _noise(source: Source, n: int, seed: int) -> tuple[Floats, dict[str, Floats]]:
    """Standard normal numbers for every figure (draw, figure), and for all figures of a drive together (draw,)."""
    rng = np.random.default_rng((seed, 5))
    shared = {name: rng.standard_normal(n) for name in dict.fromkeys(source.drive_of)}
    return rng.standard_normal((n, len(source.figures))), shared
