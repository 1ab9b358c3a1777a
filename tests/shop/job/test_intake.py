"""A job from what is asked at the counter: it says what was said, marks what was not, and can be diagnosed."""

from toptank.knowledge.sheet import Provenance
from toptank.shop.job.intake import PRESETS, Intake, Seen, intake_text
from toptank.shop.job.job_file import job_of
from toptank.shop.record.store.document import parsed


def _seen(name: str, needle: str, **typed: str) -> Seen:
    usual = next(one for one in PRESETS if one.name == name).figures["us"]
    return Seen(name=name, figures={**usual, **typed}, needle=needle)


def test_three_conditions_become_three_duties_with_a_reading_each() -> None:
    seen = (_seen("idle", "half"), _seen("highway", "half"), _seen("hill", "red", grade="8 %"))
    told = Intake(
        like="pickup-1970s-v8-air", system="us", complaint='It "boils"\non the pass.', seen=seen, loss="none_lost",
        replaced=("thermostat", "cap"), distance="92000", write_up={"customer": "A. Grower", "registration": "ABC 123"},
    )  # fmt: skip
    job = job_of(parsed(intake_text(told)))
    assert [duty.name for duty in job.duties] == ["idle", "highway", "hill"]
    assert [(one.duty, one.needle) for one in job.evidence.readings] == [
        ("idle", "half"), ("highway", "half"), ("hill", "red"),
    ]  # fmt: skip
    assert {one.part for one in job.evidence.changes} == {"thermostat", "cap"}
    assert [(one.check, one.outcome) for one in job.evidence.findings] == [("coolant_loss", "none_lost")]
    assert (job.write_up.customer, job.write_up.registration) == ("A. Grower", "ABC 123")
    assert job.evidence.history.distance is not None


def test_a_figure_that_nobody_typed_is_assumed_with_a_spread_and_one_that_was_is_not() -> None:
    hill = _seen("hill", "red", grade="8 %")
    told = Intake(like="pickup-1970s-v8-air", system="us", seen=(hill,))
    (duty,) = job_of(parsed(intake_text(told))).duties
    assert duty.facts["ambient"].how == Provenance.ASSUMED
    assert duty.facts["ambient"].spread > 0.0
    assert duty.facts["grade"].how != Provenance.ASSUMED
    assert duty.facts["grade"].value == 0.08


def test_air_conditioning_that_was_on_is_told_where_there_is_one() -> None:
    idle = Seen(name="idle", figures={"ambient": "85 F"}, needle="red", cooled=True)
    for like, told in (("wagon-1990s-v6-air", 1.0), ("tractor-1960s-diesel", 0.0)):
        (duty,) = job_of(parsed(intake_text(Intake(like=like, system="us", seen=(idle,))))).duties
        assert duty.facts["air_conditioning"].value == told


def test_every_preset_can_be_read_in_both_systems() -> None:
    for system in ("us", "metric"):
        seen = [Seen(name=one.name, figures=one.figures[system], needle="half") for one in PRESETS]
        job = job_of(parsed(intake_text(Intake(like="van-1980s-diesel", system=system, seen=seen))))
        assert len(job.duties) == len(PRESETS)
        assert not job.assumed_units


def test_where_nobody_named_a_condition_there_is_one_to_be_filled_in() -> None:
    job = job_of(parsed(intake_text(Intake(like="van-1980s-diesel", system="metric"))))
    assert [duty.name for duty in job.duties] == ["where it runs hot"]
    assert job.evidence.readings == ()
