"""Which plans are weighed: what goes with a better core is not pushed out by the many ways to a better core."""

from collections.abc import Sequence

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES, with_causes
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.studies.choose.decision import LossModel
from toptank.studies.choose.plans import choose
from toptank.studies.choose.worst_day_forecast import WorstDayCase, hottest
from toptank.system.condition_batch import Condition
from toptank.system.duty import Duty

N = 64
CLIMB = Duty(ambient=308.0, speed=20.1, grade=0.05, air_conditioning=1.0)
WORN = {"fins_loose": 0.4, "coolant_low": 0.4}
MONEY = {"core": 800.0, "load": 9.0}


def _case(limit: float) -> WorstDayCase:
    """A pickup short of coolant and with an old core: nine remedies then gain more than the air conditioning costs."""
    sound = draws(typical_sheet("pickup-1970s-v8-air"), N, 3)
    severity = np.zeros((N, len(CAUSES)))
    for column, cause in enumerate(CAUSES):
        severity[:, column] = WORN.get(cause.id, 0.0)
    days = {"climb": Condition.steady(CLIMB)}
    return WorstDayCase(with_causes(sound, severity), sound, severity, days, limit)


def _named(name: str) -> Remedy:
    return next(remedy for remedy in REMEDIES if remedy.id == name)


def _cost(remedies: Sequence[Remedy]) -> float:
    return sum(MONEY.get(remedy.group, 300.0) for remedy in remedies)


def test_a_better_radiator_with_the_air_conditioning_off_is_listed_where_either_alone_holds_too_little() -> None:
    radiator, off = _named("aluminium_radiator_2_row"), _named("air_conditioning_off")
    alone, both = hottest(_case(400.0), [(radiator,), (radiator, off)])
    assert np.median(alone - both) > 1.0
    limit = float(0.5 * (np.quantile(alone, 0.5) + np.quantile(both, 0.5)))
    found = choose(_case(limit), _cost, LossModel(500.0))
    together = [one for one in found.outlooks if one.concession and any(each.group == "core" for each in one.remedies)]
    assert together
    assert max(one.holds for one in together) >= float(np.mean(both < limit)) - 0.05


def test_a_part_that_nobody_can_order_is_in_no_plan_unless_somebody_names_it() -> None:
    pulley = _named("smaller_pump_pulley")
    nothing, turned = hottest(_case(400.0), [(), (pulley,)])
    assert np.median(nothing - turned) > 0.5  # it would cool: that is not why it is left
    found = choose(_case(float(np.median(nothing)) - 1.0), _cost, LossModel(500.0))
    assert all(pulley not in one.remedies for one in found.outlooks)
