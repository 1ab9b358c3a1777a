"""Which rows of a record go forward in time, where a clock jumped, was set back or wrote a wrong figure."""

from bisect import bisect_right

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.drives.track import Floats


def in_order(time: Floats) -> NDArray[np.intp]:
    """Index of the most rows whose times never fall: one wrong time among right ones is left out, wherever it lies.

    Parameters
    ----------
    time : (row,), finite [s]
    """
    if len(time) < 2 or bool(np.all(np.diff(time) >= 0.0)):
        return np.arange(len(time))
    ends: list[float] = []  # least last time of a chain of each length
    last: list[int] = []
    before = np.full(len(time), -1)
    for row, moment in enumerate(time.tolist()):
        place = bisect_right(ends, moment)
        before[row] = last[place - 1] if place else -1
        if place == len(ends):
            ends.append(moment)
            last.append(row)
        else:
            ends[place] = moment
            last[place] = row
    chain: list[int] = []
    row = last[-1]
    while row >= 0:
        chain.append(row)
        row = int(before[row])
    return np.array(chain[::-1])
