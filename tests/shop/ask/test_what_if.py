"""What if it were hotter, steeper, faster: the answer follows the model, the same vehicles, and nothing stale."""

import dataclasses
import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, cast

import jax.monitoring
import numpy as np
import pytest
from jsonschema import Draft202012Validator

from toptank.interfaces.cli.main import main
from toptank.knowledge.model_discrepancy import missed_by_draw
from toptank.knowledge.sheet import overlay
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.shop.answers.answers import Diagnosed
from toptank.shop.answers.schemas import schemas
from toptank.shop.answers.what_if import what_if_answer
from toptank.shop.ask import diagnose, service
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.choice.worst_day import usual_worst_day
from toptank.shop.ask.what_if import Changes, dials, duties_of, what_if
from toptank.shop.cache import ensemble_cache
from toptank.shop.job.job import Job
from toptank.shop.job.job_file import job_of
from toptank.units.refusal import Refusal

ROUGH = 0.1
"""The same draws, one time settled roughly: some hundredths of a kelvin in all but odd ones [K]."""


@pytest.fixture(scope="module")
def job() -> Job:
    """The example with a tenth of a millimetre more of core: no other test has a diagnosis of it at hand."""
    example = service.demo_job()
    width = example.sheet.facts["core.face_width"]
    wider = {"core.face_width": dataclasses.replace(width, value=width.value + 1e-4)}
    return dataclasses.replace(example, sheet=overlay(example.sheet, wider))


def test_without_a_change_it_answers_what_the_forecast_answers(job: Job) -> None:
    asked = service.forecast(job, draws=ensemble_cache.DRAWS)
    for duty in asked.duties:
        answer = what_if(job, Changes(), duty=duty.name)
        assert answer.changed == ()
        assert np.allclose(answer.gauge, duty.bands.gauge, atol=ROUGH)
        assert np.allclose(answer.boiling_point, duty.bands.boiling_point, atol=ROUGH)
        assert answer.gauge_before == answer.gauge


def test_every_change_for_the_worse_raises_the_band(job: Job) -> None:
    usual = what_if(job, Changes(), duty="ridge climb")
    for worse in (Changes(ambient="105 F"), Changes(grade="7 %")):
        answer = what_if(job, worse, duty="ridge climb")
        assert all(hot > cool + 0.5 for hot, cool in zip(answer.gauge, usual.gauge, strict=True))
        assert answer.over_limit > usual.over_limit
        assert answer.gauge_before == usual.gauge
    off = what_if(job, Changes(air_conditioning="off"), duty="ridge climb")
    assert all(cool < hot - 0.5 for cool, hot in zip(off.gauge, usual.gauge, strict=True))
    assert off.changed == ("air_conditioning",)
    assert off.loop.condenser_heat == 0.0 < usual.loop.condenser_heat


def test_the_worst_day_can_be_asked_about_too(job: Job) -> None:
    """One that the customer named; what he complained of is among the job's own conditions already."""
    job = dataclasses.replace(job, worst_day=usual_worst_day(job))
    names = [duty.name for duty in duties_of(job)]
    assert names[: len(job.duties)] == [duty.name for duty in job.duties]
    assert len(names) > len(job.duties)
    assert what_if(job, Changes(), duty=names[-1]).duty.name == names[-1]


@pytest.mark.parametrize("like", typical_names())
def test_the_loop_of_every_typical_vehicle_sheds_what_it_takes_up(like: str, job: Job) -> None:
    other = dataclasses.replace(job, sheet=typical_sheet(like))
    answer = what_if(other, Changes(ambient="100 F"), duty="river road")  # a settled one: nothing goes into the masses
    loop = answer.loop
    if not loop.unbalanced:
        shed = loop.core_heat + loop.surface_heat + loop.heater_heat
        assert shed == pytest.approx(loop.engine_heat + loop.transmission_heat, rel=1e-5)
    assert loop.T_ambient <= loop.T_core_air_in < loop.T_core_air_out
    assert loop.T_bottom_hose < loop.T_engine_out
    assert loop.T_engine_in < loop.T_engine_out
    assert answer.gauge.p10 - 1.0 <= loop.T_gauge <= answer.gauge.p90 + 1.0


def test_a_changed_job_never_gets_the_vehicles_of_its_former_self(job: Job) -> None:
    first = ensemble_cache.ensemble_now(job)
    renamed = dataclasses.replace(job, title="the same one under another name")
    assert ensemble_cache.ensemble_now(renamed) is first
    smaller = dataclasses.replace(
        job, sheet=overlay(job.sheet, {"core.rows": dataclasses.replace(job.sheet.facts["core.rows"], value=2.0)})
    )
    assert ensemble_cache.ensemble_now(smaller) is not first
    assert what_if(smaller, Changes()).gauge.p50 > what_if(job, Changes()).gauge.p50


@pytest.fixture(scope="module")
def diagnosed(job: Job) -> Diagnosed:
    return diagnose.diagnose(job)


def test_a_diagnosis_that_is_at_hand_is_gone_on_with(diagnosed: Diagnosed, job: Job) -> None:
    assert what_if(job, Changes(), duty="ridge climb").rests_on == "sheet"
    ensemble_cache.remember(diagnosed)
    answer = what_if(job, Changes(), duty="ridge climb")
    assert answer.rests_on == "diagnosis"
    # the vehicles that plans are weighed with: those that held this road before they broke
    possible = possible_vehicles(job, diagnosed.weighed, ensemble_cache.DRAWS, diagnosed.seed)
    grade = next(float(one.facts["grade"].value) for one in job.duties if one.name == "ridge climb")
    passage = possible.passages["ridge climb"]
    gauge = np.asarray(passage.end.T_gauge, float) + missed_by_draw(possible.n, 15.0, grade)
    ends = np.quantile(gauge, (0.1, 0.5, 0.9))
    # the days of the draws are drawn anew: thermometer and wind, a kelvin or so
    assert np.allclose(answer.gauge, ends, atol=1.5)
    checked = dataclasses.replace(job, evidence=dataclasses.replace(job.evidence, findings=()))
    assert what_if(checked, Changes(), duty="ridge climb").rests_on == "sheet"


@contextmanager
def _compilations() -> Iterator[list[str]]:
    seen: list[str] = []

    def note(event: str, *_: object, **__: object) -> None:
        if "backend_compile" in event:
            seen.append(event)

    jax.monitoring.register_event_duration_secs_listener(note)
    yield seen
    jax.monitoring.clear_event_listeners()


def test_once_warm_no_job_and_no_change_compiles_anything(job: Job) -> None:
    what_if(job, Changes())
    other = dataclasses.replace(job, sheet=typical_sheet("pickup-1970s-v8-air"), duties=job.duties[:1])
    with _compilations() as seen:
        for speed in (0, "35 mph", "60 km/h"):
            what_if(other, Changes(ambient="99 F", speed=speed, air_conditioning=False))
        assert seen == []


def test_every_answer_fits_its_schema(job: Job) -> None:
    record = what_if_answer(what_if(job, Changes(speed=30))).record("metric")
    check = Draft202012Validator(schemas()["answer-what-if"])
    check.validate(record)
    assert not check.is_valid({**record, "loop": {**cast("dict[str, Any]", record["loop"]), "cooler": "on the roof"}})
    assert record["assumed_units"] == ["speed = 30: taken as mph"]


def test_dials_stand_where_the_job_has_them_and_reach_as_far(job: Job) -> None:
    by_key = {dial.key: dial for dial in dials(job, duty="ridge climb", system="us")}
    assert [by_key[key].value for key in ("ambient", "grade", "speed")] == [92.0, 5.0, 35.0]
    hot = job_of({**TOO_HOT})
    (ambient, *_) = dials(hot)
    assert ambient.high == ambient.value == 136.0
    for dial in dials(job):
        assert what_if(job, Changes(**{dial.key: f"{dial.high} {dial.unit}"})).duty.facts[dial.key].spread == 0.0


TOO_HOT = {
    "format": "toptank-job-1",
    "vehicle": {"like": "pickup-1970s-v8-air"},
    "duty": [{"name": "desert", "ambient": "136 F"}],
}


@pytest.mark.parametrize(
    ("changes", "duty", "field", "word"),
    [
        (Changes(ambient="35 psi"), None, "ambient", "35 psi"),
        (Changes(ambient="300 F"), None, "ambient", "between"),
        (Changes(grade="80 %"), None, "grade", "between"),
        (Changes(speed="fast"), None, "speed", "fast"),
        (Changes(air_conditioning="maybe"), None, "air_conditioning", "yes or no"),
        (Changes(), "ridge clmb", "duty", "did you mean 'ridge climb'?"),
    ],
)
def test_what_cannot_be_asked_is_refused_in_one_sentence(
    changes: Changes, duty: str | None, field: str, word: str, job: Job
) -> None:
    with pytest.raises(Refusal) as refused:
        what_if(job, changes, duty=duty)
    assert refused.value.field == field
    assert word in str(refused.value)


def test_a_change_to_no_effect_is_told(job: Job) -> None:
    standing = what_if(job, Changes(grade="3 %"), duty="farm gate")
    assert standing.gauge == pytest.approx(standing.gauge_before, abs=0.05)
    assert any("grade changes nothing" in remark for remark in standing.remarks)
    bare = overlay(
        job.sheet, {"condenser.present": dataclasses.replace(job.sheet.facts["condenser.present"], value=0.0)}
    )
    answer = what_if(dataclasses.replace(job, sheet=bare), Changes(air_conditioning=True))
    assert any("no condenser" in remark for remark in answer.remarks)


def test_the_command_answers_draws_the_loop_and_refuses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def command(*words: str) -> tuple[object, str, str]:
        monkeypatch.setattr(sys, "argv", ["toptank", "what-if", "demo", *words])
        with pytest.raises(SystemExit) as left:
            main()
        said = capsys.readouterr()
        return left.value.code, said.out, said.err

    loop = tmp_path / "loop.svg"
    code, told, _ = command("--duty", "ridge climb", "--ambient", "105 F", "--out", str(loop))
    assert code in (0, None)
    assert "as in the job" in told
    assert "Chance of going over 225 °F: " in told
    assert loop.read_text(encoding="utf-8").startswith("<svg")
    code, told, _ = command("--duty", "ridge climb", "--ambient", "105 F", "--json")
    Draft202012Validator(schemas()["answer-what-if"]).validate(json.loads(told))
    assert command("--grade", "80 %")[::2][0] == 2
    assert "must end in .svg or .png" in command("--out", "loop.gif")[2]
