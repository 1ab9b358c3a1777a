"""How far the coolant may rise at a short stop beyond the limit of the road, from the sheet of the condition.

Source   common practice, no source: see `toptank.knowledge.stop_limit`
"""

from toptank.knowledge.sheet import DutySheet, kind_of_duty
from toptank.system.condition_batch import COLD

RISE_AT_A_STOP = 15.0 / 1.8
"""What the coolant may rise beyond the customer's limit at a short stop [K], as long as it does not boil."""

SHORT = 900.0
"""Longest stop that counts as short, in the middle [s]: by then a sound vehicle's gauge is back; common practice."""


def rise_allowed(sheet: DutySheet) -> float:
    """What a condition may rise beyond the limit of the road [K], from its sheet."""
    short = kind_of_duty(sheet.facts) == "stop" and sheet.facts["for"].value <= SHORT and sheet.after != COLD
    return RISE_AT_A_STOP if short else 0.0
