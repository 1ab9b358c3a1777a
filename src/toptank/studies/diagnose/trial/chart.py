"""A fixed chart of the trade: what a page on the wall would name first, from the same facts. A rival to be better than.

First the gauge, then the level and its loss, belt and fan, then where it is hot. Source: common practice, no source.
"""

from collections.abc import Iterable

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.catalogue.checks.check import checks
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.evidence import Evidence, Reading
from toptank.studies.diagnose.posterior import Question

NAMED = 0.8
"""Probability that the chart gives to the causes it names; the rest goes by the shares [1]; judgement."""

EACH_LESS = 0.6
"""Share of each cause named over that of the one named before it [1]; judgement."""

SEES = 0.8
"""Chance from which an outcome of a check is taken as seeing the defect [1]."""

SLOW, CLIMBING = 3.0, 0.025
"""Road speed below which a vehicle counts as standing [m/s], grade from which it counts as climbing [1]."""

TOLD_OF = (
    (("hot_before_it_can_be", "needle_moves_with_electrics", "needle_jumps"), ("gauge_reads_high",)),
    (("hose_came_off", "lost_coolant_suddenly"), ("hose_off", "coolant_low")),
    (("white_smoke", "milky_oil", "hoses_hard_cold", "loses_without_leak"), ("head_gasket_leaks",)),
    (("charge_lamp", "belt_squeals", "belt_loose_or_gone"), ("belt_slips",)),
    (("heater_cold", "heater_cold_at_idle", "heater_makes_worse"), ("coolant_low", "pump_worn")),
    (("uses_coolant", "found_low", "puddle", "gurgle"), ("coolant_low", "head_gasket_leaks")),
    (("bubbles",), ("head_gasket_leaks", "coolant_low")),
    (("pushes_coolant_out", "gurgles_after_stop"), ("cap_weak", "head_gasket_leaks")),
    (("fan_never_runs",), ("electric_fan_weak", "fan_switch_dead")),
    (("fan_spins_freely", "fan_never_roars"), ("fan_clutch_slips",)),
    (("fan_blows_forward",), ("electric_fan_reversed",)),
    (("shroud_absent",), ("shroud_missing",)),
    (("lower_hose_flat",), ("lower_hose_collapses",)),
    (("dirt_outside", "dusty_work"), ("fins_blocked",)),
    (("top_hot_bottom_cold", "hose_after_thermostat_cold"), ("thermostat_stuck", "pump_worn")),
    (("pump_noise_or_weep",), ("pump_worn",)),
    (("rust_or_mud", "core_old_or_plugged"), ("tubes_blocked", "tubes_scaled")),
    (("transmission_signs",), ("transmission_heat",)),
    (("brake_signs",), ("brakes_drag",)),
)
"""In the order of the chart: if one of these is told, these are named."""

STANDING = {
    "viscous clutch": ("fan_clutch_slips", "shroud_missing", "fins_blocked"),
    "electric": ("electric_fan_weak", "fan_switch_dead", "fins_blocked"),
    "bolted": ("shroud_missing", "fan_too_weak", "fins_blocked"),
}
AT_SPEED = ("tubes_blocked", "tubes_scaled", "lower_hose_collapses", "core_too_small")
ON_HILLS = ("tubes_blocked", "tubes_scaled", "core_too_small", "ignition_late")
ANYWHERE = ("thermostat_stuck", "coolant_low", "pump_worn")
"""What the chart names where it is hot standing only, at speed only, on hills only, and otherwise."""


def by_chart(question: Question) -> Floats:
    """Probability of every cause by the chart, none the last [1]."""
    usual = np.append(question.shares / question.shares.sum(), 0.1)
    usual = usual / usual.sum()
    named = [name for name in _named(question) if name in CAUSE_IDS]
    weight = np.array([EACH_LESS**place for place in range(len(named))])
    answer = (1.0 - NAMED) * usual
    for name, share in zip(named, weight / weight.sum(), strict=True):
        answer[CAUSE_IDS.index(name)] += NAMED * share
    return answer


def _named(question: Question) -> tuple[str, ...]:
    seen = tuple(_seen(question.evidence))
    if seen:
        return seen
    told = {one.symptom for one in question.evidence.symptoms if not one.denied}
    for symptoms, causes in TOLD_OF:
        if told & set(symptoms):
            return causes
    hot = {place_of(question, one) for one in question.evidence.readings if is_hot(one)}
    if hot == {"standing"}:
        return STANDING[_drive(question)]
    if hot == {"moving"}:
        return AT_SPEED
    return ON_HILLS if hot == {"climbing"} else ANYWHERE


def _seen(evidence: Evidence) -> Iterable[str]:
    """Causes whose defect a check has seen."""
    for finding in evidence.findings:
        check = checks()[finding.check]
        if finding.outcome in check.abnormal:
            place = check.abnormal.index(finding.outcome)
            yield from (cause for cause, rates in check.shown_by.items() if rates[place] >= SEES)


def _drive(question: Question) -> str:
    """What drives the fan, as the sheet has it."""
    return ("viscous clutch", "bolted", "electric")[round(question.sheet.facts["fan.drive"].value)]


def place_of(question: Question, reading: Reading) -> str:
    """Where a reading was taken: standing, moving or climbing."""
    facts = next(duty.facts for duty in question.duties if duty.name == reading.duty)
    if facts["speed"].value < SLOW:
        return "standing"
    return "climbing" if facts["grade"].value >= CLIMBING else "moving"


def is_hot(reading: Reading) -> bool:
    """Whether a reading tells of heat, in words or by the needle."""
    return reading.words in ("hot", "boiled") or reading.needle in ("three quarters", "red")
