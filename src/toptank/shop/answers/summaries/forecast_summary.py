"""What a forecast says first: where it gets hottest, whether it boils there, and what to measure first."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from toptank.shop.answers.summaries.summary import ShortAnswer
from toptank.shop.answers.words.wording import band, chance, degrees
from toptank.system.balance import Status

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast
    from toptank.shop.answers.answers import Forecast
    from toptank.units.conversion import System

BOILING = (Status.BOILS, Status.NO_BALANCE)
"""How a balance ends that the coolant does not survive."""


def forecast_summary(answer: Forecast, system: System) -> ShortAnswer:
    """Say where the gauge stands highest and how often it boils there, and which figure would tell more."""
    worst = max(answer.duties, key=_hottest)
    gauge = worst.bands.gauge
    first = (
        f"Hottest on {worst.name!r}: the gauge most likely reads {degrees(gauge.p50, system)} "
        f"({band((gauge.p10, gauge.p90), system)}), {_boils(worst)}."
    )
    return ShortAnswer(answer=first, lines=(*_limit(worst, answer.job.limit, system), *_measure(answer)))


def boils_share(duty: DutyForecast) -> float:
    """Return the chance that it boils at a condition [1]."""
    return sum(share for status, share in duty.shares.items() if status in BOILING)


def _hottest(duty: DutyForecast) -> float:
    return duty.bands.gauge.p50


def _boils(duty: DutyForecast) -> str:
    share = boils_share(duty)
    return "it does not boil" if share < 0.005 else f"{chance(share)} chance that it boils"


def _limit(duty: DutyForecast, limit: float, system: System) -> list[str]:
    """The air outside at which it reaches the limit there."""
    outside = duty.bands.limiting_ambient
    if any(map(math.isnan, outside)):
        return []
    reached = f"{degrees(outside.p50, system)} outside ({band((outside.p10, outside.p90), system)})"
    return [f"There it reaches {degrees(limit, system)} when it is about {reached}."]


def _measure(answer: Forecast) -> list[str]:
    """What a mechanic can measure that tightens the range most."""
    asked = {one.means: one for widest in answer.widest for one in widest if one.measurable}
    if not asked:
        return []
    most = max(asked.values(), key=lambda one: one.share)
    return [f"Measure first: {most.means} ({most.measure})."]
