"""Every figure of a source, as many possible vehicles would have shown it."""

import numpy as np

from calibration import asked
from calibration.driven import readings
from calibration.evidence import Floats, Source
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import Sheet, vehicle

SEED = 20261130


def answers(source: Source, n: int, *, sheet: Sheet | None = None, seed: int = SEED) -> Floats:
    """What n possible vehicles of a source show (draw, figure); `sheet` in place of its own."""
    sheet = sheet or source.sheet
    drawn, central = draws(sheet, n, seed), vehicle(sheet)
    columns = [readings(drive, central, drawn, seed) for drive in source.drives]
    return np.concatenate([*columns, asked.figures(source.asked, drawn)], axis=1)
