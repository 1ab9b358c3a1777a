"""Where a figure comes from, asked for under any name that an answer gives it."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import grimp
import pytest
from jsonschema import Draft202012Validator

from toptank.knowledge.sheet import duty_fields, fields, sections
from toptank.shop.answers.schemas import schemas
from toptank.shop.ask.explain import explained
from toptank.units.dialect import spoken

Say = Callable[..., Any]
ROOT = Path(__file__).parents[2] / "src" / "toptank"

ASKED = {"mix", "cap", "altitude", "limit", "draws", "seed", "share"}
"""What the person or the file said, by the first word of its key: nothing to explain."""


BANDS = ("Band", "OpenBand", "Statuses")


def _figures(properties: dict[str, Any]) -> Iterator[str]:
    """Every key of a table that holds a number, a band of three or a share for each word."""
    for key, kind in properties.items():
        forms = kind.get("anyOf", [kind])
        if any(one.get("type") == "number" or one.get("$ref", "").rpartition("/")[2] in BANDS for one in forms):
            yield key


def _keys() -> list[str]:
    found: dict[str, None] = {}
    for answer in ("answer-forecast", "answer-core", "answer-boil", "answer-freeze"):
        inside = {name: one for name, one in schemas()[answer].get("$defs", {}).items() if name not in BANDS}
        for table in (schemas()[answer], *inside.values()):
            found |= dict.fromkeys(_figures(table["properties"]))
    return [key for key in found if key.split("_")[0] not in ASKED]


def test_the_keys_that_are_asked_for_are_those_of_the_answers() -> None:
    assert {"gauge_degC", "chance_to_boil_pct", "face_velocity_m_per_s", "core_flow_L_per_min"} <= set(_keys())
    assert {"air_pressure_drop_Pa", "conductance_W_per_K", "tube_reynolds", "mean_gain_K_per_kPa"} <= set(_keys())


@pytest.mark.parametrize("key", _keys())
def test_every_figure_of_every_answer_is_explained_under_its_key(say: Say, key: str) -> None:
    answer = say("explain", key, "--json").record
    Draft202012Validator(schemas()["answer-explain"]).validate(answer)
    assert key.startswith(answer["name"])
    assert answer["means"]
    assert answer["equations"] or answer["assumptions"]
    assert answer["files"]
    assert all((ROOT / file).is_file() for file in answer["files"])


@pytest.fixture(scope="module")
def graph() -> grimp.ImportGraph:
    return grimp.build_graph("toptank")


@pytest.mark.parametrize("name", explained())
def test_what_a_figure_is_said_to_rest_on_is_called_by_the_files_it_names(name: str, graph: grimp.ImportGraph) -> None:
    told = explained()[name]
    called: set[str] = set()
    for file in told["files"]:
        module = "toptank." + file.removesuffix(".py").replace("/", ".")
        called |= {module, *graph.find_upstream_modules(module)}
    for layer in ("equations", "media"):
        assert {f"toptank.{layer}.{one}" for one in told.get(layer, [])} <= called


def test_every_equation_that_the_model_calls_is_told_of_by_some_figure(graph: grimp.ImportGraph) -> None:
    called = graph.find_upstream_modules("toptank.system.steady") | graph.find_upstream_modules("toptank.system.drive")
    told = {f"toptank.equations.{one}" for entry in explained().values() for one in entry["equations"]}
    assert {one for one in called if one.startswith("toptank.equations.")} <= told


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
        ("core.fin_thicknes", "did you mean 'core.fin_thickness'?"),
        ("fin_thickness", "did you mean 'core.fin_thickness'?"),
        ("colour", "name a figure of an answer, such as top_tank"),
        ("", "name a figure of an answer"),
    ],
)
def test_an_unknown_word_is_refused_in_one_sentence_with_what_is_near(say: Say, asked: str, told: str) -> None:
    answer = say("explain", asked)
    assert (answer.code, answer.out, answer.err.count("\n")) == (2, "", 1)
    assert answer.err.startswith("toptank: quantity = ")
    assert told in answer.err


def _paths() -> list[str]:
    return [path for path, _ in fields()] + [f"duty.{key}" for key in duty_fields()]


@pytest.mark.parametrize("units", ["us", "metric"])
def test_every_field_is_explained_under_its_path(say: Say, units: str) -> None:
    """`widest` names fields by their paths, so that whoever reads one can ask what it is."""
    check = Draft202012Validator(schemas()["answer-explain"])
    for path in _paths():
        answer = say("explain", path, "--units", units, "--json").record
        check.validate(answer)
        section, _, key = path.partition(".")
        declaration = duty_fields()[key] if section == "duty" else sections()[section][key]
        assert (answer["name"], answer["means"]) == (path, declaration.means)
        told = spoken(declaration.in_the_bay(), "us" if units == "us" else "metric")
        assert any(told in line for line in answer["assumptions"]), path
        assert all((ROOT / file).is_file() for file in answer["files"]), path


def test_a_field_is_told_in_the_units_of_the_shop(say: Say) -> None:
    # declared in parts/cap.py: 103421 Pa give or take 7000 Pa, from 0 to 206843 Pa
    answers = (say("explain", "cap.pressure", "--units", units) for units in ("us", "metric"))
    us, metric = (" ".join(answer.out.split()) for answer in answers)
    assert "taken as 15 psi, give or take 1.02 psi" in us
    assert "Possible: 0 psi to 30 psi" in us
    assert "taken as 103 kPa, give or take 7 kPa" in metric


def test_widest_is_explained(say: Say) -> None:
    assert "share of the variance" in say("explain", "widest", "--json").record["means"]


def test_an_equation_comes_with_its_source(say: Say) -> None:
    assert say("explain", "top_tank", "--json").record["sources"]
