"""From which temperatures on a driver says warm and hot.

Source   judgement: sound vehicles stand within 20 degF of the start of their thermostat and nobody complains
"""

import numpy as np

from toptank.studies.diagnose.cause_sets import Floats

FINE_TO_WARM, WARM_TO_HOT = 11.0, 20.0
"""Where "warm" and "hot" begin above the start of the thermostat [K]; judgement."""

WARM_AT_MOST, HOT_AT_MOST = 372.0, 380.0
"""Where they begin at the latest: 210 and 225 degF [K]; judgement."""


def hot_from(start: Floats) -> tuple[Floats, Floats]:
    """Temperatures from which a driver says warm and hot [K], for the start of the thermostat [K]."""
    warm = np.minimum(start + FINE_TO_WARM, WARM_AT_MOST)
    return np.asarray(warm, float), np.asarray(np.minimum(start + WARM_TO_HOT, HOT_AT_MOST), float)
