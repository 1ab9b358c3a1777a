"""What is to be said beside the figures: where no figure was found, and where one rests on more than is known."""

import math
from collections.abc import Iterator, Sequence

from toptank.knowledge.forecast import DutyForecast
from toptank.media.coolant import freeze_point
from toptank.media.fit import HIGHEST
from toptank.shop.job.job import Job
from toptank.system.margins import COLDEST
from toptank.units.conversion import System
from toptank.units.dimension import FRACTION, TEMPERATURE
from toptank.units.display import show

TENTHS = {1: "1 in 10", 2: "5 in 10", 3: "9 in 10"}
"""Share of the vehicles drawn at the first, second and third percentile of a band."""


def on_forecast(job: Job, duties: Sequence[DutyForecast], system: System) -> tuple[str, ...]:
    """Remarks on a forecast, those of the job first."""
    remarks = list(job.remarks)
    concentrate, glycol = (job.sheet.facts[f"fill.{key}"].value for key in ("concentrate", "glycol"))
    for duty in duties:
        remarks += _at_any_ambient(job, duty, system)
        remarks += _ice(
            f"duty {duty.name!r}: the bottom hose, at", float(duty.central.T_bottom_hose), concentrate, glycol, system
        )
    return tuple(remarks)


def on_core(
    *, T_coolant_in: float, T_coolant_out: float, concentrate: float, glycol: float, system: System
) -> tuple[str, ...]:
    """Remarks on a core on the bench."""
    remarks: list[str] = []
    if T_coolant_in > HIGHEST:
        hot, most = (show(T, TEMPERATURE, system) for T in (T_coolant_in, HIGHEST))
        remarks.append(
            f"coolant-in, at {hot}, is hotter than the {most} up to which the properties of coolant are known here; "
            f"they are taken as at {most}."
        )
    if _freezes(T_coolant_in, concentrate, glycol):
        remarks += _ice("coolant-in, at", T_coolant_in, concentrate, glycol, system)
    else:
        remarks += _ice("coolant-out, at", T_coolant_out, concentrate, glycol, system)
    return tuple(remarks)


def _at_any_ambient(job: Job, duty: DutyForecast, system: System) -> Iterator[str]:
    """Say where no ambient temperature looked at is cold enough."""
    does = {
        "air_to_boil": "it boils",
        "limiting_ambient": f"it goes beyond the limit of {show(job.limit, TEMPERATURE, system)}",
    }
    for name, what in does.items():
        missing = sum(map(math.isnan, getattr(duty.bands, name)))
        if missing:
            yield (
                f"duty {duty.name!r}: with {TENTHS[missing]} or more of the vehicles drawn {what} at any ambient "
                f"temperature, even at {show(COLDEST, TEMPERATURE, system)}, the coldest looked at; {name} has no "
                f"figure there."
            )


def _ice(what: str, T: float, concentrate: float, glycol: float, system: System) -> Iterator[str]:
    if _freezes(T, concentrate, glycol):
        ice = show(float(freeze_point(concentrate, glycol)), TEMPERATURE, system)
        mix = f"a mix of {show(concentrate, FRACTION, system)} concentrate" if concentrate > 0.0 else "plain water"
        yield (
            f"{what} {show(T, TEMPERATURE, system)}, is below the {ice} at which {mix} begins to freeze: ice stops the "
            f"flow, and the figures reckon with liquid."
        )


def _freezes(T: float, concentrate: float, glycol: float) -> bool:
    return float(freeze_point(concentrate, glycol)) > T
