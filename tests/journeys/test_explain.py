"""Where a figure comes from, asked for under any name that an answer gives it."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.jobs.explanations import explained
from toptank.jobs.schema import schemas

Say = Callable[..., Any]
ROOT = Path(__file__).parents[2] / "src" / "toptank"

ASKED = {"mix", "cap", "altitude", "limit", "draws", "seed", "share"}
"""What the person or the file said, by the first word of its key: nothing to explain."""


def _figures(properties: dict[str, Any]) -> Iterator[str]:
    """Every key of an answer that holds a number, a band of three or a share for each word."""
    for key, kind in properties.items():
        inner = kind.get("items", kind).get("properties", {})
        numbers = inner and all(one.get("type") == "number" for one in inner.values())
        if kind.get("type") in ("number", ["number", "null"]) or (numbers and "items" not in kind):
            yield key
        else:
            yield from _figures(inner)


def _keys() -> list[str]:
    answers = ("answer-forecast", "answer-core", "answer-boil", "answer-freeze")
    forms = [form for answer in answers for form in schemas()[answer]["oneOf"]]
    keys = dict.fromkeys(key for form in forms for key in _figures(form["properties"]))
    return [key for key in keys if key.split("_")[0] not in ASKED]


def test_the_keys_that_are_asked_for_are_those_of_the_answers() -> None:
    assert {"gauge_degF", "gauge_degC", "chance_to_boil_pct", "face_velocity_ft_per_min", "core_flow_L_per_min"} <= set(
        _keys()
    )
    assert {"air_pressure_drop_inH2O", "conductance_W_per_K", "tube_reynolds", "mean_gain_degC_per_kPa"} <= set(_keys())


@pytest.mark.parametrize("key", _keys())
def test_every_figure_of_every_answer_is_explained_under_its_key(say: Say, key: str) -> None:
    answer = say("explain", key, "--json").record
    Draft202012Validator(schemas()["answer-explain"]).validate(answer)
    assert key.startswith(answer["name"])
    assert answer["means"]
    assert answer["equations"] or answer["assumptions"]
    assert answer["files"]
    assert all((ROOT / file).is_file() for file in answer["files"])


@pytest.mark.parametrize("name", explained())
def test_every_explanation_can_be_read_on_the_screen(say: Say, name: str) -> None:
    answer = say("explain", name)
    assert (answer.code, answer.err) == (0, "")
    assert explained()[name]["means"][:20] in " ".join(answer.out.split())


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        ("Air-To-Boil_degF", "air_to_boil"),
        ("air to boil", "air_to_boil"),
        ("chance_to_boil", "chance_to_boil"),
        ("gauge_degc", "gauge"),
        ("coolant_pressure_drop_kPa", "coolant_pressure_drop"),
        ("regime", "regime"),
    ],
)
def test_capitals_hyphens_and_units_do_not_matter(say: Say, asked: str, name: str) -> None:
    assert say("explain", asked, "--json").record["name"] == name


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("air_to_biol_degF", "did you mean 'air_to_boil'?"),
        ("efectiveness", "did you mean 'effectiveness'?"),
        ("boiling", "open_boiling_point"),
        ("fan", "fan_speed"),
        ("colour", "name a figure of an answer, such as top_tank"),
        ("", "name a figure of an answer"),
    ],
)
def test_an_unknown_word_is_refused_in_one_sentence_with_what_is_near(say: Say, asked: str, told: str) -> None:
    answer = say("explain", asked)
    assert (answer.code, answer.out, answer.err.count("\n")) == (2, "", 1)
    assert answer.err.startswith("toptank: quantity = ")
    assert told in answer.err


def test_an_equation_comes_with_its_source(say: Say) -> None:
    assert say("explain", "top_tank", "--json").record["sources"]
