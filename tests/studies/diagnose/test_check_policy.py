"""The simulated search makes the same must-dos as the tool offers: level and true temperature before money."""

import numpy as np

from toptank.catalogue.checks.check import Check, checks
from toptank.studies.diagnose.asking.next_check import COSTLY
from toptank.studies.diagnose.trial.check_policy import most_telling

FOUR = np.full(4, 0.25)
NEEDED = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0], [0.0, 1.0]])
TELLS_ALL = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0], [0.0, 1.0]])
TELLS_LITTLE = np.array([[0.6, 0.4], [0.6, 0.4], [0.4, 0.6], [0.4, 0.6]])
TELLS_NOTHING = np.full((4, 2), 0.5)


def _costly() -> Check:
    return next(check for check in checks().values() if check.group in COSTLY)


def test_the_level_is_looked_at_before_what_costs_money_though_it_tells_less() -> None:
    """It tells 0.029 bit (1 - H(0.4), by hand) against a whole one."""
    left = [(_costly(), TELLS_ALL), (checks()["level_cold"], TELLS_LITTLE)]
    assert left[most_telling(left, NEEDED, FOUR) or 0][0].id == "level_cold"


def test_a_level_that_can_say_nothing_any_more_holds_nothing_up() -> None:
    left = [(checks()["level_cold"], TELLS_NOTHING), (_costly(), TELLS_ALL)]
    assert most_telling(left, NEEDED, FOUR) == 1


def test_what_is_cheap_waits_for_no_level() -> None:
    cheap = next(check for check in checks().values() if check.group not in COSTLY and check.id != "level_cold")
    left = [(checks()["level_cold"], TELLS_NOTHING), (cheap, TELLS_ALL)]
    assert most_telling(left, NEEDED, FOUR) == 1


def test_of_no_check_none_is_chosen() -> None:
    assert most_telling([], NEEDED, FOUR) is None
