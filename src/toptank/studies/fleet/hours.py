"""The temperature outside by the hour: from the hottest and the coolest of a clear summer's day.

Source   shares of the daily range by hour as handbooks of air conditioning print them for design days; the values are
         from memory and not checked against a printed table
Range    clear days of settled weather; a front or a sea breeze goes its own way
Scatter  an hour early or late, by place and season: 1 to 2 K in the morning, when it changes fastest; judgement
"""

import numpy as np

BELOW_HOTTEST = (
    0.82, 0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23,
    0.13, 0.05, 0.00, 0.00, 0.06, 0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75,
)  # fmt: skip
"""How far below the hottest it is at 0, 1, ... 23 o'clock by the sun, over the range of the day [1]."""

USUAL_RANGE = 11.0
"""Hottest less coolest of a day of which only the hottest is told [K]: 20 degF; judgement."""

HOUR = 3600.0


def below_hottest(hour: float, *, lasts: float, day_range: float) -> float:
    """How far below the hottest of the day the air stays while a drive lasts [K].

    Parameters
    ----------
    hour : of leaving, by the clock of the sun [h]
    lasts : how long [s]
    day_range : hottest less coolest [K]
    """
    times = np.append(np.arange(hour, hour + lasts / HOUR, 0.25), hour + lasts / HOUR)
    shares = np.interp(times % 24.0, np.arange(25), (*BELOW_HOTTEST, BELOW_HOTTEST[0]))
    return float(shares.min()) * day_range
