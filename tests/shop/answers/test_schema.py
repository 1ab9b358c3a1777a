"""The schema of the files takes what the readers take, and refuses what they refuse."""

import contextlib
import dataclasses
import hashlib
import json
import sys
import tomllib
from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import Any, cast

import pytest
from jsonschema import Draft202012Validator

from toptank.interfaces.cli.main import main
from toptank.knowledge.typical import typical_names
from toptank.shop.answers.answers import Chosen
from toptank.shop.answers.checks_and_causes import causes_answer, checks_answer
from toptank.shop.answers.choice import choice_answer
from toptank.shop.answers.file_schemas import SYSTEMS
from toptank.shop.answers.fit import fit_answer
from toptank.shop.answers.fluids.mix import mix_answer
from toptank.shop.answers.schemas import ANSWERS, schemas
from toptank.shop.ask import boiling, diagnose, service
from toptank.shop.ask import fit as fit_verbs
from toptank.shop.ask.choice import choose
from toptank.shop.ask.coolant import mix as mix_verbs
from toptank.shop.ask.explain import explain
from toptank.shop.job import starting_file
from toptank.shop.job.job_file import job_of
from toptank.units.refusal import Refusal

EXAMPLES = Path(__file__).parents[3] / "examples"


def _valid(schema: str, document: Any) -> bool:
    return Draft202012Validator(schemas()[schema]).is_valid(document)


@pytest.mark.parametrize("file", sorted(EXAMPLES.rglob("*.toml")), ids=lambda file: file.stem)
def test_every_example_file_fits_its_schema(file: Path) -> None:
    document = tomllib.loads(file.read_text(encoding="utf-8"))
    assert _valid(document["format"].split("-")[1], document)


def test_the_built_in_example_fits_the_schema() -> None:
    text = resources.files("toptank.shop.job").joinpath("demo.toml").read_text(encoding="utf-8")
    assert _valid("job", tomllib.loads(text))


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("like", typical_names())
def test_every_starting_file_fits_the_schema(like: str, system: Any) -> None:
    assert _valid("job", tomllib.loads(starting_file.new_sheet(like, system=system)))


TOLD = """
format = "toptank-job-2"
[vehicle]
like = "pickup-1970s-v8-air"
vague = true
[[duty]]
name = "grade"
[[reading]]
duty = "grade"
gauge = "210 to 215 F"
needle = "red"
thermometer = "second"
[[check]]
name = "cap_tester"
outcome = "60 %"
decisive = true
[[check]]
name = "combustion_leak_test"
outcome = "stays_blue"
note = "twice"
[[changed]]
part = "thermostat"
effect = "none"
[history]
onset = "crept up"
after_work = ["coolant"]
doubtful = []
renewed = ["cap"]
distance = "80000 mi"
[log]
columns = ["Water = coolant °F", "T = time s", "x = ignore"]
decimal = "comma"
[confirmed]
causes = ["cap_weak"]
contributing = ["coolant_too_weak"]
how = "seen"
"""


def _without(key: str) -> Callable[[dict[str, Any]], None]:
    return lambda job: job.pop(key)


@pytest.mark.parametrize(
    "spoil",
    [
        _without("format"),
        _without("vehicle"),
        _without("duty"),
        lambda job: job.update(format="toptank-job-9"),
        lambda job: job.update(units="si"),
        lambda job: job.update(weather={}),
        lambda job: job["core"].update(rwos=2),
        lambda job: job["core"].update(rows=[2]),
        lambda job: job["cap"]["pressure"].update(how="guessed"),
        lambda job: job["cap"]["pressure"].pop("value"),
        lambda job: job["duty"][0].pop("name"),
        lambda job: job["reading"][0].update(words="scary"),
        lambda job: job["vehicle"].update(like="spaceship"),
    ],
)
def test_a_spoilt_job_does_not_fit_the_schema(spoil: Callable[[dict[str, Any]], None]) -> None:
    job = tomllib.loads((EXAMPLES / "first-job.toml").read_text(encoding="utf-8"))
    assert _valid("job", job)
    spoil(job)
    assert not _valid("job", job)


def _spoil(section: str, **values: Any) -> Callable[[dict[str, Any]], None]:
    """Write values into a section of a file, into the first one of a list."""

    def spoil(job: dict[str, Any]) -> None:
        table = job[section][0] if isinstance(job[section], list) else job[section]
        table.update(values)

    return spoil


@pytest.mark.parametrize(
    "spoil",
    [
        _spoil("vehicle", vague="a little"),
        _spoil("reading", gauge=["210 F", "215 F"]),
        _spoil("reading", needle="seven eighths"),
        _spoil("reading", thermometer="oil"),
        _spoil("check", name="cap testar"),
        _spoil("check", name="combustion_leak_test", outcome="turns green"),
        _spoil("check", outcome=True),
        _spoil("check", seen=True),
        _spoil("check", decisive="yes"),
        _spoil("changed", part="bonnet"),
        _spoil("changed", effect="perhaps"),
        lambda job: job["check"][0].pop("outcome"),
        lambda job: job["changed"][0].pop("effect"),
        _spoil("history", onset="yesterday"),
        _spoil("history", after_work="coolant"),
        _spoil("history", renewed=["bonnet"]),
        _spoil("history", weather="dry"),
        _spoil("log", columns="Water = coolant °F"),
        _spoil("log", columns=["Water"]),
        _spoil("log", decimal="dot"),
        _spoil("log", unit="F"),
        _spoil("confirmed", causes=[]),
        _spoil("confirmed", causes=["gremlins"]),
        _spoil("confirmed", contributing=["gremlins"]),
        _spoil("confirmed", sure=True),
        lambda job: job["confirmed"].pop("causes"),
    ],
)
def test_the_schema_and_the_reader_take_a_told_case_and_refuse_a_spoilt_one(
    spoil: Callable[[dict[str, Any]], None],
) -> None:
    job_of(tomllib.loads(TOLD))
    assert _valid("job", tomllib.loads(TOLD))
    spoilt = tomllib.loads(TOLD)
    spoil(spoilt)
    assert not _valid("job", spoilt)
    with pytest.raises(Refusal):
        job_of(spoilt)


def test_the_lists_of_checks_and_causes_fit_their_schemas() -> None:
    checks, causes = checks_answer(diagnose.checks()).record(), causes_answer(diagnose.causes()).record()
    assert _valid("answer-checks", checks)
    assert _valid("answer-causes", causes)
    (first, *_) = cast("list[dict[str, Any]]", checks["checks"])
    assert not _valid("answer-checks", {"checks": [{**first, "minutes": -1}]})
    assert not _valid("answer-causes", {"causes": [{**first, "share_pct": 101}]})


@pytest.fixture(scope="module")
def chosen() -> Chosen:
    """Return remedies for the built-in example, weighed with few draws."""
    return choose.choose(service.demo_job(), draws=200, seed=3)


def test_every_answer_of_choosing_fits_its_schema_and_no_key_may_be_missing(chosen: Chosen) -> None:
    weak = mix_verbs.mix(capacity="16 qt", now="30 %", want="50 %", drainable="80 %", glycol="ethylene", system="us")
    water = mix_verbs.mix(capacity="16 qt", now="0", want="65 %", drainable="20 %", glycol="propylene", system="us")
    fitted = fit_answer(fit_verbs.fit_job(service.demo_job()))
    found = {"choose": [choice_answer(chosen)], "fit": [fitted], "mix": [mix_answer(weak), mix_answer(water)]}
    for name, each in found.items():
        for one in each:
            record = one.record("metric")
            Draft202012Validator(schemas()[f"answer-{name}"]).validate(record)
            for key in record:
                assert not _valid(f"answer-{name}", {other: value for other, value in record.items() if other != key})


def test_a_spoilt_answer_of_choosing_does_not_fit(chosen: Chosen) -> None:
    answer = choice_answer(chosen).record()
    (plan, *_) = cast("list[dict[str, Any]]", answer["plans"])
    assert _valid("answer-choose", {**answer, "plans": [plan]})
    for spoilt in ({"holds_pct": 101.0}, {"cost": -1.0}, {"duties": []}, {"limiting_ambient_degC": "hot"}):
        assert not _valid("answer-choose", {**answer, "plans": [{**plan, **spoilt}]})
    fit = fit_answer(fit_verbs.fit_job(service.demo_job())).record()
    (one,) = cast("list[dict[str, Any]]", fit["fits"])
    assert _valid("answer-fit", {**fit, "fits": [one]})
    assert not _valid("answer-fit", {**fit, "fits": [{**one, "verdict": "perhaps"}]})
    assert not _valid("answer-fit", {**fit, "fits": [{**one, "items": [{**one["items"][0], "length": "wide"}]}]})


def test_figures_are_the_same_whoever_asks_and_words_are_in_the_units_asked() -> None:
    """No figure of a choice for a metric shop is told in °F, whatever the job was written in."""
    cold = dataclasses.replace(service.demo_job(), limit=345.0)  # below where its thermostat opens: nothing holds
    answer = choice_answer(choose.choose(cold, draws=200, seed=3))
    us, metric = answer.record("us"), answer.record("metric")
    assert _without_texts(us) == _without_texts(metric)
    seen = {system: json.dumps(record, ensure_ascii=False) for system, record in (("us", us), ("metric", metric))}
    assert "°F" in seen["us"]
    assert "°F" not in seen["metric"]


def _without_texts(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _without_texts(one) for key, one in value.items()}
    return (
        [_without_texts(one) for one in value] if isinstance(value, list) else "" if isinstance(value, str) else value
    )


MEASURED = """
format = "toptank-job-2"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "grade"
[[worst_day]]
name = "pass in August"
ambient = "104 F"
grade = "7 %"
[fit]
saddle_width = "3 in"
mount = "saddles"
cap_vacuum_valve = true
weight_limit = { value = "50 lb", how = "plate", spread = "5 %" }
hose_route = "past the coil"
[[offer]]
name = "deep one"
parts = "radiator"
price = "240"
core_depth = { value = "3 in", how = "plate" }
passes = 2
"""


@pytest.mark.parametrize(
    "spoil",
    [
        _spoil("worst_day", grad="7 %"),
        lambda job: job["worst_day"][0].pop("name"),
        _spoil("fit", sadle_width="3 in"),
        _spoil("fit", saddle_width=["3 in"]),
        _spoil("fit", saddle_width={"how": "plate"}),
        _spoil("fit", saddle_width={"value": "3 in", "how": "guessed"}),
        _spoil("fit", hose_route=3),
        _spoil("offer", core_dept="2 in"),
        _spoil("offer", price=240),
        _spoil("offer", remedy="replace_cap"),
        _spoil("offer", core_depth=True),
        lambda job: job["offer"][0].pop("name"),
        lambda job: job.update(offer={"name": "x"}),
        lambda job: job.update(offer=[{"name": str(number)} for number in range(13)]),
    ],
)
def test_the_schema_and_the_reader_take_a_measured_bay_and_refuse_a_spoilt_one(
    spoil: Callable[[dict[str, Any]], None],
) -> None:
    job_of(tomllib.loads(MEASURED))
    assert _valid("job", tomllib.loads(MEASURED))
    spoilt = tomllib.loads(MEASURED)
    spoil(spoilt)
    assert not _valid("job", spoilt)
    with pytest.raises(Refusal):
        job_of(spoilt)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_short_answer_fits_its_schema(system: Any) -> None:
    boil = boiling.boil(cap="15", glycol="ethylene", mix="50", altitude="0", system=system)
    freeze = boiling.freeze(glycol="propylene", mix="40 %", system=system)
    core = service.core_rating(
        EXAMPLES / "bench-core.toml",
        coolant_flow="40 gpm",
        coolant_in="200 F",
        air_in="90 F",
        face_velocity="4 m/s",
        system=system,
    )
    found = {
        "answer-boil": boil,
        "answer-freeze": freeze,
        "answer-core": core,
        "answer-vehicles": service.vehicles(),
        "answer-explain": explain("top_tank"),
    }
    for name, answer in found.items():
        assert _valid(name, answer.record(system))
        assert not _valid(name, {**answer.record(system), "units": system})


def test_every_answer_of_the_record_of_jobs_fits_its_schema(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """From complaint to restore, in the order in which a shop would do it."""
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    photo, out, backup = tmp_path / "fins.png", tmp_path / "job.toml", tmp_path / "all.zip"
    whole = tmp_path / "whole.zip"
    photo.write_bytes(b"fins")
    checksum = hashlib.sha256(b"fins").hexdigest()
    steps = [
        ("revision", ("new", EXAMPLES / "first-job.toml")),
        ("note", ("note", 1, "roars late")),
        ("attach", ("attach", 1, photo)),
        ("answer", ("forecast", 1, "--draws", 50)),
        ("export", ("export", 1, "--out", out)),
        ("revision", ("save", 1, out)),
        ("revision", ("revert", 1, "--to", 1)),
        ("revision", ("close", 1, "--cause", "fan clutch slips")),
        ("list", ("list",)),
        ("similar", ("similar", 1)),
        ("show", ("show", 1)),
        ("history", ("history", 1)),
        ("fetch", ("fetch", 1, checksum[:8], "--out", tmp_path / "back.png")),
        ("backup", ("backup", backup)),
        ("revision", ("reopen", 1)),
        ("revision", ("import", out)),
        ("export", ("export", 1, "--out", whole)),
        ("import", ("import", whole)),
        ("restore", ("restore", backup, "--force")),
    ]
    told: dict[str, Any] = {}
    for name, words in steps:
        monkeypatch.setattr(sys, "argv", ["toptank", "job", *map(str, words), "--json"])
        with contextlib.suppress(SystemExit):
            main()
        told[name] = json.loads(capsys.readouterr().out)
        Draft202012Validator(schemas()[f"answer-job-{name}"]).validate(told[name])
    assert {name for name in ANSWERS if name.startswith("job-")} == {f"job-{name}" for name in told}
    for name, answer in told.items():
        for key in answer:
            assert not _valid(f"answer-job-{name}", {one: value for one, value in answer.items() if one != key})
