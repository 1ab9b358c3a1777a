"""The next check: what it tells is worked by hand where that can be done, and safe and cheap ones come first."""

import dataclasses
from collections.abc import Callable, Mapping
from types import MappingProxyType

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES, NOTHING_BROKEN, NOTHING_TO_REPAIR
from toptank.catalogue.checks.check import MEASURED, Check, checks
from toptank.catalogue.repairs import REPAIRS
from toptank.knowledge.sheet import Provenance, with_rows_in_doubt
from toptank.knowledge.typical import typical_sheet
from toptank.studies.diagnose.asking import next_check
from toptank.studies.diagnose.asking import open_checks as checks_left
from toptank.studies.diagnose.asking.next_check import (
    EASY,
    information_of,
    repair_indicators,
    repairs_of,
    settle_at_idle_conditions,
    suggest,
)
from toptank.studies.diagnose.asking.open_checks import open_checks
from toptank.studies.diagnose.ensemble import drawn_conditions, drawn_vehicles, unsettled
from toptank.studies.diagnose.evidence import Changed, Finding, Reading
from toptank.studies.diagnose.posterior import PosteriorSample, Question, infer_posterior, resampled

Asked = Callable[..., Question]

ELECTRIC, BELTED = "wagon-1990s-v6-air", "saloon-1950s-six"
FOUR = np.full(4, 0.25)


def _chances(outcome: list[int], outcomes: int = 2) -> np.ndarray:
    return np.eye(outcomes)[outcome]


def test_a_check_whose_outcome_depends_on_nothing_tells_nothing() -> None:
    needed = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0], [0.0, 1.0]])
    assert information_of(np.full((4, 2), [0.3, 0.7]), needed, FOUR) == pytest.approx(0.0, abs=1e-12)


def test_a_perfect_check_tells_the_whole_entropy_of_its_repair() -> None:
    """One vehicle in four needs it: 0.25 log2 4 + 0.75 log2 (4/3) = 0.811278 bit, by hand."""
    needed = np.array([[1.0], [0.0], [0.0], [0.0]])
    assert information_of(_chances([0, 1, 1, 1]), needed, FOUR) == pytest.approx(0.811278, abs=1e-6)


def test_an_imperfect_check_tells_the_mutual_information() -> None:
    """One in two needs it, hit 0.8, false alarm 0.2: 1 - H(0.2) = 1 - 0.721928 = 0.278072 bit, by hand."""
    needed = np.array([[1.0], [1.0], [0.0], [0.0]])
    chances = np.array([[0.8, 0.2], [0.8, 0.2], [0.2, 0.8], [0.2, 0.8]])
    assert information_of(chances, needed, FOUR) == pytest.approx(0.278072, abs=1e-6)


def test_vehicles_count_by_their_weight() -> None:
    """Weights 1/2 and 1/2 on two of four: one bit; the other two, of no weight, could say anything."""
    needed = np.array([[1.0], [0.0], [1.0], [0.0]])
    weight = np.array([0.5, 0.5, 0.0, 0.0])
    assert information_of(_chances([0, 1, 1, 0]), needed, weight) == pytest.approx(1.0, abs=1e-9)


def test_a_check_that_only_tells_causes_of_one_repair_apart_tells_nothing() -> None:
    """Slipping or late, the clutch is replaced."""
    present = np.zeros((4, len(CAUSE_IDS)))
    slips, late, stat = (CAUSE_IDS.index(name) for name in ("fan_clutch_slips", "fan_clutch_late", "thermostat_stuck"))
    present[[0, 1, 2, 3], [slips, late, stat, stat]] = 1.0
    needed = repair_indicators(present)
    within = np.array([[1.0, 0.0], [0.0, 1.0], [0.5, 0.5], [0.5, 0.5]])
    assert information_of(within, needed, FOUR) == pytest.approx(0.0, abs=1e-9)
    assert information_of(_chances([0, 0, 1, 1]), needed, FOUR) == pytest.approx(2.0, abs=1e-9)  # a bit for each repair


def test_repairs_are_summed_over_causes_and_nothing_broken_needs_none() -> None:
    present = np.zeros((4, len(CAUSE_IDS)))
    for row, name in enumerate(("tubes_scaled", "tubes_blocked", "cap_weak", NOTHING_BROKEN)):
        present[row, CAUSE_IDS.index(name)] = 1.0
    chances = repairs_of(present, FOUR)
    assert chances["clean_core_tubes"] == pytest.approx(0.5)
    assert chances["replace_cap"] == pytest.approx(0.25)
    assert chances[NOTHING_TO_REPAIR] == pytest.approx(0.25)
    assert next(iter(chances)) == "clean_core_tubes"
    assert {cause.repair for cause in CAUSES} < set(REPAIRS)


def _check(name: str, *, hit: float, bare_hands: bool = True, hazards: tuple[str, ...] = ()) -> Check:
    shown = MappingProxyType({"thermostat_stuck": (hit,)})
    return dataclasses.replace(
        checks()["inspect_cap"], id=name, minutes=4.0, bare_hands=bare_hands, hazards=hazards, outcomes=("bad", "good"),
        false_alarm=(0.05,), shown_by=shown, only_on="",
    )  # fmt: skip


def _only(known: Mapping[str, Check], monkeypatch: pytest.MonkeyPatch) -> None:
    for module in (next_check, checks_left):
        monkeypatch.setattr(module, "checks", lambda: known)
    monkeypatch.setattr(checks_left, "_facts", lambda _sheet: iter(()))


@pytest.fixture(scope="module")
def hot(asked: Asked) -> tuple[Question, PosteriorSample]:
    question = asked([Reading(duty="climb", words="hot"), Reading(duty="flat", words="hot")])
    return question, infer_posterior(question, 3)


def _named(question: Question, weighed: PosteriorSample) -> list[str]:
    return [one.check for one in suggest(question, weighed, 3)[0]]


def test_a_safe_free_check_comes_before_one_a_little_better_but_with_a_hazard(
    hot: tuple[Question, PosteriorSample], monkeypatch: pytest.MonkeyPatch
) -> None:
    pair = {
        "safe": _check("safe", hit=0.80),
        "risky": _check("risky", hit=0.84, hazards=("level_cold",), bare_hands=False),
    }
    _only(pair, monkeypatch)
    informations = {one.check: one.information for one in suggest(*hot, 3)[0]}
    assert informations["safe"] < informations["risky"] < EASY * informations["safe"], "they must be close for this"
    assert _named(*hot) == ["safe", "risky"]


def test_a_much_better_check_comes_first_in_spite_of_its_hazard(
    hot: tuple[Question, PosteriorSample], monkeypatch: pytest.MonkeyPatch
) -> None:
    _only({"safe": _check("safe", hit=0.3), "risky": _check("risky", hit=0.95, hazards=("level_cold",))}, monkeypatch)
    assert _named(*hot) == ["risky", "safe"]


def test_of_two_equal_checks_the_shorter_comes_first(
    hot: tuple[Question, PosteriorSample], monkeypatch: pytest.MonkeyPatch
) -> None:
    long = dataclasses.replace(_check("long", hit=0.8), minutes=40.0)
    _only({"long": long, "short": _check("short", hit=0.8)}, monkeypatch)
    assert _named(*hot) == ["short", "long"]


def test_the_level_is_looked_at_before_anything_that_costs_money(
    hot: tuple[Question, PosteriorSample], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Common practice: two minutes before an hour, though the hour would tell more a minute."""
    costly = dataclasses.replace(_check("taken_out", hit=0.95), minutes=2.0, group="taken_apart")
    level = dataclasses.replace(_check("level_cold", hit=0.4), minutes=4.0)
    _only({"taken_out": costly, "level_cold": level}, monkeypatch)
    assert _named(*hot) == ["level_cold", "taken_out"]
    _only({"taken_out": costly, "other": dataclasses.replace(level, id="other")}, monkeypatch)
    assert _named(*hot) == ["taken_out", "other"]


@pytest.mark.parametrize(("check", "before"), [("cap_tester", "level_cold"), ("paper_test", "electric_fan_hot")])
def test_who_takes_the_cap_off_sees_the_level_and_who_holds_paper_sees_the_fan_run(
    check: str, before: str, hot: tuple[Question, PosteriorSample], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Common practice, no source: the look comes first though the check tells more a minute."""
    telling = dataclasses.replace(_check(check, hit=0.95), minutes=1.0)
    _only({check: telling, before: _check(before, hit=0.4)}, monkeypatch)
    assert _named(*hot) == [before, check]


def test_a_repair_that_is_nearly_sure_is_confirmed_before_its_part_is_bought(
    asked: Asked, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of two checks one tells more of everything else, the other whether it is the thermostat: that one comes first."""
    question = asked(
        [Reading(duty="climb", words="hot"), Reading(duty="flat", words="hot")],
        [Finding(check="thermostat_in_pan", outcome="does_not_open")],
    )
    weighed = infer_posterior(question, 3)
    sure = dict(suspects_of(weighed))["thermostat_stuck"]
    assert next_check.CONFIRMED_FROM < sure < next_check.CERTAIN
    others = {cause: (0.8,) for cause in CAUSE_IDS[:-1] if cause != "thermostat_stuck"}
    broad = dataclasses.replace(_check("broad", hit=0.0), shown_by=MappingProxyType(others))
    confirming = dataclasses.replace(_check("confirming", hit=0.9), minutes=10.0)
    _only({"broad": broad, "confirming": confirming}, monkeypatch)
    told = suggest(question, weighed, 3)[0]
    assert [one.check for one in told] == ["confirming", "broad"]
    a_minute = [one.information / (one.minutes + next_check.OVERHEAD) for one in told]
    assert a_minute[1] > a_minute[0], "else the order would be the same without"


def suspects_of(weighed: PosteriorSample) -> list[tuple[str, float]]:
    """Probability of every cause."""
    chances = weighed.weight @ next_check.cause_indicators(weighed.possible)
    return list(zip(CAUSE_IDS, chances.tolist(), strict=True))


def test_a_check_that_was_made_is_not_offered_again(asked: Asked) -> None:
    hot = [Reading(duty="idle", words="hot"), Reading(duty="flat", words="hot")]
    offered = [one.check for one in suggest(asked(hot), infer_posterior(asked(hot), 3), 3)[0]]
    first = next(name for name in offered if name in checks() and checks()[name].outcomes)
    sound = checks()[first].outcomes[-1]
    after = asked(hot, [Finding(check=first, outcome=sound)])
    assert first not in _named(after, infer_posterior(after, 3))


def test_nothing_is_settled_while_the_first_repair_hangs_on_a_check(hot: tuple[Question, PosteriorSample]) -> None:
    suggestions, is_settled = suggest(*hot, 3)
    assert not is_settled
    repairs = {outcome.repair for outcome in suggestions[0].outcomes}
    assert len(repairs) > 1 or len(suggestions) > 1


def test_it_is_settled_once_one_repair_is_certain(asked: Asked) -> None:
    """The belt was seen to be gone, and a new one cured it."""
    question = asked(
        [Reading(duty="flat", words="boiled")],
        [Finding(check="turn_pulley_by_hand", outcome="belt_gone", decisive=True)],
        [Changed(part="belt", effect="cured")],
    )
    suggestions, is_settled = suggest(question, infer_posterior(question, 3), 3)
    assert is_settled
    for suggestion in suggestions:
        often = [outcome for outcome in suggestion.outcomes if outcome.chance > 0.03]
        assert {outcome.repair for outcome in often} == {"replace_belt"}, suggestion.check


def test_what_each_outcome_would_mean_adds_up_to_what_is_believed_now(hot: tuple[Question, PosteriorSample]) -> None:
    """Law of total probability: the causes after each outcome, weighed by its chance, are those before it."""
    question, weighed = hot
    present = next_check.cause_indicators(resampled(weighed, next_check.SAMPLE, 3))
    now = dict(zip(CAUSE_IDS, present.mean(axis=0), strict=True))
    for suggestion in suggest(question, weighed, 3)[0]:
        assert sum(outcome.chance for outcome in suggestion.outcomes) == pytest.approx(1.0, abs=1e-9)
        told = [dict(outcome.causes) for outcome in suggestion.outcomes]
        for cause in set.intersection(*(set(one) for one in told)):
            total = sum(outcome.chance * one[cause] for outcome, one in zip(suggestion.outcomes, told, strict=True))
            assert total == pytest.approx(float(now[cause]), abs=1e-9), (suggestion.check, cause)


def _offered(like: str, question: Question) -> set[str]:
    sheet = with_rows_in_doubt(typical_sheet(like))  # as a question does
    sound = drawn_vehicles(sheet, 256, 2)
    days = drawn_conditions(sheet, question.duties, 256, 2)
    possible = settle_at_idle_conditions(unsettled(sound, sound, np.zeros((256, len(CAUSES))), days, "idle"))
    return {check.id for check, _, _ in open_checks(sheet, possible, set())}


def test_checks_are_only_offered_for_what_is_fitted(asked: Asked) -> None:
    question = asked()
    electric, belted = _offered(ELECTRIC, question), _offered(BELTED, question)
    assert {"electric_fan_hot", "fan_control"} <= electric
    assert not {"electric_fan_hot", "fan_control"} & belted
    assert not {"spin_fan", "fan_roar_hot"} & (electric | belted)
    assert "air_conditioning_off" not in belted
    assert "spin_fan" in _offered("pickup-1970s-v8-air", question)
    assert "timing_light" not in _offered("pickup-1990s-diesel-air", question)


@pytest.mark.parametrize("path", ["core.fin_density", "core.rows", "fan.belt_ratio"])
def test_an_assumed_fact_of_the_sheet_that_matters_is_itself_a_check(path: str, asked: Asked) -> None:
    """Fins per inch, rows and pulley ratio, which the requirement names, where nobody has counted them yet."""
    assert typical_sheet(BELTED).facts[path].how == Provenance.ASSUMED
    assert f"{MEASURED}{path}" in _offered(BELTED, asked())
