"""What is to be said beside the figures: where no figure was found, and where one rests on more than is known."""

import math
from collections.abc import Iterator, Sequence

from toptank.knowledge.forecast import DutyForecast
from toptank.media.coolant import freeze_point
from toptank.media.fit import HIGHEST
from toptank.shop.job.job import Job
from toptank.system.margins import COLDEST
from toptank.units.dimension import FRACTION, TEMPERATURE
from toptank.units.display import show
from toptank.units.sentence import Quantity, Sentence, Text, sentence

TENTHS = {1: "1 in 10", 2: "5 in 10", 3: "9 in 10"}
"""Share of the vehicles drawn at the first, second and third percentile of a band."""


def on_forecast(job: Job, duties: Sequence[DutyForecast]) -> tuple[Text, ...]:
    """Remarks on a forecast, those of the job first."""
    remarks = list(job.remarks)
    concentrate, glycol = (job.sheet.facts[f"fill.{key}"].value for key in ("concentrate", "glycol"))
    for duty in duties:
        remarks += _at_any_ambient(job, duty)
        hose = f"duty {duty.name!r}: the lower hose"
        remarks += _ice(hose, float(duty.central.T_bottom_hose), concentrate, glycol)
    return tuple(remarks)


def on_core(*, T_coolant_in: float, T_coolant_out: float, concentrate: float, glycol: float) -> tuple[Text, ...]:
    """Remarks on a core on the bench."""
    remarks: list[Text] = []
    if T_coolant_in > HIGHEST:
        remarks.append(
            sentence(
                "coolant-in, at {hot}, is hotter than the {most} up to which the properties of coolant are known here; "
                "they are taken as at {most}.",
                {"hot": Quantity(T_coolant_in, TEMPERATURE), "most": Quantity(HIGHEST, TEMPERATURE)},
            )
        )
    if _freezes(T_coolant_in, concentrate, glycol):
        remarks += _ice("coolant-in", T_coolant_in, concentrate, glycol)
    else:
        remarks += _ice("coolant-out", T_coolant_out, concentrate, glycol)
    return tuple(remarks)


def _at_any_ambient(job: Job, duty: DutyForecast) -> Iterator[Sentence]:
    """Say where no ambient temperature looked at is cold enough."""
    does = {
        "air_to_boil": "it boils",
        "limiting_ambient": sentence(
            "it goes beyond the limit of {limit}", {"limit": Quantity(duty.limit, TEMPERATURE)}
        ),
    }
    for name, what in does.items():
        missing = sum(map(math.isnan, getattr(duty.bands, name)))
        if missing:
            yield sentence(
                "duty {duty}: in {share} or more of the simulations {what} at any ambient temperature, even at "
                "{coldest}, the coldest looked at; {name} has no figure there.",
                {
                    "duty": repr(duty.name),
                    "share": TENTHS[missing],
                    "what": what,
                    "coldest": Quantity(COLDEST, TEMPERATURE),
                    "name": name,
                },
            )


def _ice(what: str, T: float, concentrate: float, glycol: float) -> Iterator[Sentence]:
    if _freezes(T, concentrate, glycol):
        # a share reads alike in every system
        mix = f"a mix of {show(concentrate, FRACTION, 'us')} concentrate" if concentrate > 0.0 else "plain water"
        yield sentence(
            "{what}, at {T}, is below the {ice} at which {mix} begins to freeze: ice stops the flow, and the figures "
            "do not count that.",
            {
                "what": what,
                "T": Quantity(T, TEMPERATURE),
                "ice": Quantity(float(freeze_point(concentrate, glycol)), TEMPERATURE),
                "mix": mix,
            },
        )


def _freezes(T: float, concentrate: float, glycol: float) -> bool:
    return float(freeze_point(concentrate, glycol)) > T
