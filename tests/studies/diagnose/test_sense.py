"""What a mechanic with good sense would conclude, in plain words; the pickup has a shroud and a viscous clutch.

Which trouble points where is common practice, no source; how strongly is not said there, so the tests ask for a
direction and for the lead, not for a figure.
"""

from collections.abc import Callable, Collection

import numpy as np
import pytest

from toptank.catalogue.causes.air import CAUSES_OF_AIR
from toptank.catalogue.causes.all_causes import CAUSE_IDS, NOTHING_BROKEN
from toptank.catalogue.causes.flow import CAUSES_OF_FLOW
from toptank.catalogue.causes.heat import CAUSES_OF_HEAT
from toptank.knowledge.typical import typical_sheet
from toptank.studies.diagnose.diagnosis import CONTRADICTION, diagnose, flags
from toptank.studies.diagnose.evidence import Changed, Finding, History, Reading
from toptank.studies.diagnose.posterior import PosteriorSample, Question, infer_posterior

Asked = Callable[..., Question]

PICKUP, ELECTRIC, SALOON = "pickup-1970s-v8-air", "wagon-1990s-v6-air", "saloon-1950s-six"
VEHICLES = (PICKUP, ELECTRIC, SALOON)
HOW_TOLD = ("words", "figures")
GAUGE = ("gauge_reads_high",)
CORE = ("core_too_small", "fins_loose", "fins_blocked", "tubes_scaled", "tubes_blocked")
FLOW = tuple(cause.id for cause in CAUSES_OF_FLOW if cause.id not in CORE)
HEAT = (*(cause.id for cause in CAUSES_OF_HEAT if cause.id not in GAUGE), NOTHING_BROKEN)
"""A duty beyond a healthy system is heat too."""

RAM_AIR = ("shroud_chokes_ram_air", "air_bypasses_core")
FAN = tuple(cause.id for cause in CAUSES_OF_AIR if cause.id not in (*CORE, *RAM_AIR))
STILL_AIR = (*FAN, "air_bypasses_core", "fins_blocked", "belt_slips")
"""What a standing vehicle misses air by; the belt drives the fan."""

NOT_LIFTED = ("coolant_low", "hose_off")
"""A low level must be lifted over the top, which a pump at idle no longer does: a hot idle points here too, after the
air. It tells itself on a climb as well, where the pump draws in air."""

LOSS = ("coolant_low", "head_gasket_leaks", "cap_weak")


def _kelvin(degrees: float) -> float:
    return (degrees + 459.67) / 1.8


def _words(idle: str, climb: str, flat: str) -> list[Reading]:
    said = {"idle": idle, "climb": climb, "flat": flat}
    return [Reading(duty=duty, words=words) for duty, words in said.items()]


def _gauge(**shown: float) -> list[Reading]:
    return [Reading(duty=duty, low=_kelvin(figure), high=_kelvin(figure)) for duty, figure in shown.items()]


def _over_thermostat(like: str, **above: float) -> list[Reading]:
    """The gauge so many kelvin above where the thermostat begins to open: what is hot depends on that."""
    start = typical_sheet(like).facts["thermostat.starts_opening"].value
    return [Reading(duty=duty, low=start + kelvin, high=start + kelvin) for duty, kelvin in above.items()]


def _below(duty: str, degrees: float) -> Reading:
    return Reading(duty=duty, high=_kelvin(degrees))


def _chance(weighed: PosteriorSample, cause: str) -> float:
    return float(weighed.weight @ flags(weighed)[:, CAUSE_IDS.index(cause)])


def _blame(weighed: PosteriorSample, causes: Collection[str]) -> float:
    """Share of causes in the trouble: those of one draw share alike, so that all shares sum to 1."""
    with_none = flags(weighed)
    share = weighed.weight @ (with_none / with_none.sum(axis=1, keepdims=True))
    return float(sum(share[CAUSE_IDS.index(cause)] for cause in set(causes)))


def _first(weighed: PosteriorSample) -> str:
    return CAUSE_IDS[int(np.argmax(weighed.weight @ flags(weighed)))]


def _first_broken(weighed: PosteriorSample) -> str:
    chances = weighed.weight @ flags(weighed)
    chances[CAUSE_IDS.index(NOTHING_BROKEN)] = 0.0
    return CAUSE_IDS[int(np.argmax(chances))]


@pytest.mark.parametrize("like", VEHICLES)
@pytest.mark.parametrize("told", HOW_TOLD)
def test_hot_at_idle_only_points_to_air_flow(like: str, told: str, asked: Asked) -> None:
    in_words, in_figures = _words("hot", "fine", "fine"), _over_thermostat(like, idle=27.0, climb=6.0, flat=4.0)
    readings = in_words if told == "words" else in_figures
    answer, before = infer_posterior(asked(readings, like=like), 1), infer_posterior(asked(like=like), 1)
    # An old six without a shroud may read 210 °F in traffic and be sound: of what can be broken, air stands first.
    assert _first_broken(answer) in (*STILL_AIR, *NOT_LIFTED)
    assert like == SALOON or _first(answer) != NOTHING_BROKEN
    broken = 1.0 - _chance(answer, NOTHING_BROKEN)
    assert _blame(answer, (*STILL_AIR, *NOT_LIFTED)) > 0.5 * broken
    assert _blame(answer, STILL_AIR) > _blame(answer, NOT_LIFTED)
    assert _blame(answer, STILL_AIR) > 1.4 * _blame(before, STILL_AIR)
    spoilt = set(CORE) - set(STILL_AIR) - {"core_too_small"}
    assert _blame(answer, spoilt) < 0.5 * _blame(before, spoilt)
    # A core that never was large enough is short of margin wherever air is scarce, and "fine" on a climb in words rules
    # it out less than it does a core that was spoilt since.
    assert _blame(answer, spoilt | {"core_too_small"}) < 0.6 * _blame(before, spoilt | {"core_too_small"})


@pytest.mark.parametrize("like", VEHICLES)
@pytest.mark.parametrize("told", HOW_TOLD)
def test_hot_on_the_climb_only_points_to_core_flow_or_heat(like: str, told: str, asked: Asked) -> None:
    """A duty beyond a healthy vehicle is heat too; the fan is blamed far less than for a hot idle."""
    in_words, in_figures = _words("fine", "hot", "fine"), _over_thermostat(like, idle=4.0, climb=27.0, flat=6.0)
    readings = in_words if told == "words" else in_figures
    answer, at_idle = (infer_posterior(asked(seen, like=like), 1) for seen in (readings, _words("hot", "fine", "fine")))
    pointed = {*CORE, *FLOW, *HEAT}
    assert _first(answer) in pointed
    assert _blame(answer, pointed) > 0.7
    assert _blame(answer, FAN) < 0.5 * _blame(at_idle, FAN)


@pytest.mark.parametrize("like", VEHICLES)
@pytest.mark.parametrize("told", HOW_TOLD)
def test_hot_everywhere_at_once_and_suddenly_points_to_flow_loss_or_gauge(like: str, told: str, asked: Asked) -> None:
    in_words, in_figures = _words("hot", "hot", "hot"), _over_thermostat(like, idle=29.0, climb=32.0, flat=29.0)
    readings = in_words if told == "words" else in_figures
    answer = infer_posterior(asked(readings, history=History(onset="suddenly"), like=like), 1)
    pointed = {*FLOW, *LOSS, *GAUGE}
    assert _first(answer) in pointed
    assert _blame(answer, pointed) > 0.6
    assert _blame(answer, CORE) < _blame(infer_posterior(asked(like=like), 1), CORE)


def test_what_crept_up_points_to_what_wears_and_what_came_suddenly_to_what_breaks(asked: Asked) -> None:
    hot = _gauge(climb=240.0, flat=230.0)
    sudden, crept = (infer_posterior(asked(hot, history=History(onset=onset)), 2) for onset in ("suddenly", "crept up"))
    for worn in ("tubes_scaled", "tubes_blocked", "fins_blocked"):
        assert _chance(crept, worn) > 1.5 * _chance(sudden, worn), worn
    for broken in ("thermostat_stuck", "coolant_low", "belt_slips"):
        assert _chance(sudden, broken) > 1.5 * _chance(crept, broken), broken


def test_a_cool_reading_narrows_too(asked: Asked) -> None:
    """Hot at idle, and "never above 195 on the flat": what also heats it on the flat is cleared."""
    hot = [Reading(duty="idle", words="hot")]
    without, with_it = infer_posterior(asked(hot), 3), infer_posterior(asked([*hot, _below("flat", 195.0)]), 3)
    for cleared in ("tubes_blocked", "thermostat_stuck", "gauge_reads_high"):
        assert _chance(with_it, cleared) < 0.6 * _chance(without, cleared), cleared
    assert _blame(with_it, STILL_AIR) > _blame(without, STILL_AIR)


def _bad(weighed: PosteriorSample, cause: str) -> float:
    """Probability of a cause at more than half of its worst: less of it hardly shows, whatever is read."""
    return float(weighed.weight @ (weighed.possible.severity[:, CAUSE_IDS.index(cause)] > 0.5))


def test_a_needle_that_stays_at_the_thermostat_everywhere_clears_the_gauge_and_a_bad_core(asked: Asked) -> None:
    """191 °F on the climb, where the middle of sound pickups is 211 and one in ten is below 198.

    A core that lacks a little may still read so, a bad one may not.
    """
    at_thermostat = _over_thermostat(PICKUP, idle=2.0, climb=4.0, flat=1.0)
    cool, before = infer_posterior(asked(at_thermostat), 3), infer_posterior(asked(), 3)
    for cleared in ("tubes_blocked", "core_too_small", "fins_blocked"):
        assert _bad(cool, cleared) < 0.6 * _bad(before, cleared), cleared
    assert _chance(cool, "gauge_reads_high") < 0.3 * _chance(before, "gauge_reads_high")
    assert _chance(cool, NOTHING_BROKEN) > 1.5 * _chance(before, NOTHING_BROKEN)


def test_a_needle_that_jumps_within_seconds_points_to_the_gauge(asked: Asked) -> None:
    """Iron and coolant cannot heat within seconds: it would take megawatts."""
    jump = [Finding(check="needle_movement", outcome="jumps")]
    answer = infer_posterior(asked([Reading(duty="flat", words="hot")], jump), 1)
    creeps = [Finding(check="needle_movement", outcome="creeps")]
    assert _first(answer) == "gauge_reads_high"
    assert _chance(answer, "gauge_reads_high") > 3.0 * _chance(
        infer_posterior(asked([Reading(duty="flat", words="hot")], creeps), 1), "gauge_reads_high"
    )


@pytest.mark.parametrize("degrees", [290.0, 305.0, 318.0])
def test_a_needle_beyond_what_coolant_can_reach_points_to_the_gauge(degrees: float, asked: Asked) -> None:
    """Coolant under a 16 psi cap boils near 265 °F (50 % glycol, any table); whatever is above, the gauge invents."""
    answer = infer_posterior(asked(_gauge(flat=degrees)), 1)
    others = max(_chance(answer, cause) for cause in CAUSE_IDS if cause != "gauge_reads_high")
    assert _chance(answer, "gauge_reads_high") > (2.0 if degrees > 300.0 else 1.2) * others


def test_a_second_thermometer_that_reads_cool_convicts_the_gauge(asked: Asked) -> None:
    second = Reading(duty="flat", low=_kelvin(193.0), high=_kelvin(197.0), place="second")
    answer = infer_posterior(asked([*_gauge(flat=245.0), second]), 1)
    assert _first(answer) == "gauge_reads_high"
    assert _chance(answer, "gauge_reads_high") > 0.8


def _second(duty: str, degrees: float) -> Reading:
    return Reading(duty=duty, low=_kelvin(degrees - 2.0), high=_kelvin(degrees + 2.0), place="second")


CONTRADICTIONS = {
    "two figures of one gauge at one duty": _gauge(flat=185.0) + _gauge(flat=250.0),
    "ice cold by a thermometer in the coolant and boiling on the same road": [
        *(_second(duty, 150.0) for duty in ("flat", "climb")),
        *_words("boiled", "boiled", "boiled"),
    ],
    "a gauge that is right on the climb and 70 degrees low on the flat": [
        *_gauge(flat=180.0, climb=245.0),
        _second("flat", 250.0),
        _second("climb", 243.0),
    ],
    "a gauge that is 60 degrees high on the flat and 60 low on the climb": [
        *_gauge(flat=250.0, climb=190.0),
        _second("flat", 190.0),
        _second("climb", 250.0),
    ],
}
"""What no cause makes; a gauge is off by as much everywhere."""


@pytest.mark.parametrize("kind", CONTRADICTIONS)
def test_contradictory_readings_raise_the_unknown_and_say_so(kind: str, asked: Asked) -> None:
    answer = diagnose(asked(CONTRADICTIONS[kind]), 1)
    assert answer.unknown > CONTRADICTION
    assert any("does not go together" in remark for remark in answer.remarks)


READS_TOO_LITTLE = {
    "ice cold and boiling on the same road": [
        *_gauge(flat=150.0, climb=150.0),
        *_words("boiled", "boiled", "boiled"),
    ],
    "a second thermometer far above the gauge": [*_gauge(flat=180.0), _second("flat", 250.0)],
}


@pytest.mark.parametrize("kind", READS_TOO_LITTLE)
def test_a_gauge_far_below_what_is_seen_has_failed_or_its_sender_stands_in_steam(kind: str, asked: Asked) -> None:
    """Common practice: with coolant gone the needle falls while it boils. No contradiction: one of the two is there."""
    answer = infer_posterior(asked(READS_TOO_LITTLE[kind]), 1)
    explained = flags(answer)[:, [CAUSE_IDS.index(cause) for cause in ("gauge_reads_low", *NOT_LIFTED)]].max(axis=1)
    assert float(answer.weight @ explained) > 0.8
    assert answer.unknown < CONTRADICTION


def test_readings_that_go_together_leave_the_unknown_alone(asked: Asked) -> None:
    answer = diagnose(asked(_words("hot", "fine", "fine")), 1)
    assert answer.unknown < CONTRADICTION
    assert not any("does not go together" in remark for remark in answer.remarks)


def test_no_readings_at_all_give_the_prior_and_the_first_three_checks(asked: Asked) -> None:
    answer = diagnose(asked(), 1)
    for suspect in answer.suspects:
        assert suspect.probability == pytest.approx(suspect.before, abs=0.01), suspect.cause
        assert suspect.voices == ()
    assert len(answer.checks) >= 3
    for check in answer.checks[:3]:
        assert len(check.outcomes) >= 2
        assert sum(outcome.chance for outcome in check.outcomes) == pytest.approx(1.0, abs=1e-6)
    assert answer.settled == ""


def test_the_same_seed_gives_the_same_answer(asked: Asked) -> None:
    question = asked(_words("hot", "hot", "hot"), changes=[Changed(part="thermostat", effect="none")])
    first, again = diagnose(question, 4), diagnose(question, 4)
    assert first == again
    assert first != diagnose(question, 5)


STEADY = {
    "hot at idle only, pickup": (PICKUP, _words("hot", "fine", "fine"), None),
    "hot on climb and flat, suddenly, wagon": (ELECTRIC, _gauge(climb=240.0, flat=230.0), History(onset="suddenly")),
    "hot at idle only in figures, saloon": (SALOON, _gauge(idle=235.0, climb=200.0, flat=195.0), None),
}


@pytest.mark.parametrize("kind", STEADY)
def test_seeds_agree_within_three_points(kind: str, asked: Asked) -> None:
    """On every cause above 5 %, between any two of four seeds."""
    like, readings, history = STEADY[kind]
    question = asked(readings, history=history, like=like)
    answers = [infer_posterior(question, seed) for seed in (11, 12, 13, 14)]
    chances = np.array([one.weight @ flags(one) for one in answers])
    apart = chances.max(axis=0) - chances.min(axis=0)
    counted = chances.max(axis=0) > 0.05
    worst = int(np.argmax(np.where(counted, apart, 0.0)))
    assert apart[worst] <= 0.03, (
        CAUSE_IDS[worst],
        chances[:, worst],
    )


def test_work_that_needs_a_refill_speaks_a_little_against_low_coolant(asked: Asked) -> None:
    """Who changes a core fills and bleeds afterwards: common practice, no source. A changed cap tells nothing of it."""
    low = CAUSE_IDS.index("coolant_low")

    def chance(*parts: str) -> float:
        weighed = infer_posterior(
            asked(_words("hot", "hot", "warm"), changes=[Changed(part=part, effect="none") for part in parts]), 3
        )
        return float((weighed.weight @ flags(weighed))[low])

    assert chance("radiator") < 0.9 * chance("cap")
    assert chance("radiator") > 0.3 * chance("cap")
    assert chance("radiator", "water_pump") < 0.9 * chance("radiator")


@pytest.mark.parametrize(
    ("part", "cause"),
    [("thermostat", "thermostat_stuck"), ("water_pump", "pump_worn"), ("fan_clutch", "fan_clutch_slips")],
)
def test_a_part_changed_without_effect_speaks_against_its_cause(part: str, cause: str, asked: Asked) -> None:
    hot = _words("hot", "hot", "hot")
    before = infer_posterior(asked(hot), 6)
    answer = diagnose(asked(hot, changes=[Changed(part=part, effect="none")]), 6)
    suspect = next(one for one in answer.suspects if one.cause == cause)
    assert suspect.probability < 0.6 * _chance(before, cause)
    voice = next(one for one in suspect.voices if one.evidence == Changed(part=part, effect="none"))
    assert voice.factor < 0.6


def test_a_part_that_cured_it_speaks_for_its_cause(asked: Asked) -> None:
    cured = infer_posterior(asked(_words("hot", "hot", "hot"), changes=[Changed(part="thermostat", effect="cured")]), 6)
    assert _first(cured) == "thermostat_stuck"


@pytest.mark.parametrize(
    ("check", "outcome", "cause"),
    [
        ("thermostat_in_pan", "does_not_open", "thermostat_stuck"),
        ("gauge_at_key_on", "reads_high", "gauge_reads_high"),
        ("turn_pulley_by_hand", "belt_gone", "belt_slips"),
    ],
)
def test_a_decisive_finding_settles_it(check: str, outcome: str, cause: str, asked: Asked) -> None:
    """Somebody saw the defect itself: its cause comes first, likely, and no other check would change the repair."""
    seen = [Finding(check=check, outcome=outcome, decisive=True)]
    answer = diagnose(asked(_words("hot", "hot", "hot"), seen), 7)
    assert answer.suspects[0].cause == cause
    assert answer.suspects[0].probability > 0.85
    assert answer.settled == answer.suspects[0].repair


def test_two_causes_at_once_are_told_as_a_pair(asked: Asked) -> None:
    """Two defects seen by two decisive checks."""
    seen = [
        Finding(check="thermostat_in_pan", outcome="does_not_open", decisive=True),
        Finding(check="between_condenser_and_core", outcome="packed", decisive=True),
    ]
    answer = diagnose(asked(_words("hot", "hot", "hot"), seen), 8)
    assert {*answer.pairs[0][:2]} == {"thermostat_stuck", "fins_blocked"}


def test_what_is_not_fitted_is_not_suspected(asked: Asked) -> None:
    answer = diagnose(asked(_words("hot", "fine", "fine"), like=ELECTRIC), 1)
    assert not any("clutch" in suspect.cause for suspect in answer.suspects)
