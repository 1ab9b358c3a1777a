"""The shop's price book: read as written, refused in one sentence, summed to what a plan costs."""

import tomllib
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import declared_sheet, vehicle
from toptank.shop.answers.choice import prices_answer
from toptank.shop.answers.schemas import schemas
from toptank.shop.ask.choice import choose
from toptank.shop.job.price_book import HIGHEST, built_in, known_parts, read_prices
from toptank.studies.choose.worst_day_forecast import forced
from toptank.units.refusal import Refusal

SOUND = vehicle(declared_sheet())
HEAD = 'format = "toptank-prices-1"\n'


def _read(folder: Path, text: str) -> Any:
    path = folder / "prices.toml"
    path.write_text(text, encoding="utf-8")
    return read_prices(path)


def test_the_built_in_book_prices_every_part_that_a_remedy_asks_for() -> None:
    book = built_in()
    assert set(book.parts) == set(known_parts())
    assert all(0.0 < price < HIGHEST for price in book.parts.values())
    assert book.labour > 0.0


def test_a_plan_costs_its_parts_and_its_minutes_and_what_it_forces() -> None:
    """Built-in book by hand: cap 16 + 5 min of 110 an hour; clutch 120 + 60 min; rods 160 + 240 min, then 48 + 60."""
    book, named = built_in(), {remedy.id: remedy for remedy in REMEDIES}
    assert book.cost(()) == 0.0
    assert book.cost((named["replace_cap"],)) == pytest.approx(16 + 110 * 5 / 60)
    cap_and_clutch = (named["replace_cap"], named["replace_fan_clutch"])
    assert book.cost(cap_and_clutch) == pytest.approx(136 + 110 * 65 / 60)
    rodded = forced((named["rod_core"],), SOUND)
    assert book.cost(rodded) == pytest.approx(160 + 40 + 8 + 110 * 300 / 60)


def test_a_book_of_one_price_keeps_the_built_in_ones_for_the_rest(tmp_path: Path) -> None:
    book = _read(tmp_path, HEAD + 'currency = "€"\nlabour = 80\n[parts]\n"cap" = 0\n"fan" = 101.5\n')
    assert (book.currency, book.labour, book.parts["cap"], book.parts["fan"]) == ("€", 80.0, 0.0, 101.5)
    assert {part: book.parts[part] for part in known_parts() if part not in ("cap", "fan")} == {
        part: price for part, price in built_in().parts.items() if part not in ("cap", "fan")
    }


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("labour = 110", "format"),
        ('format = "toptank-job-1"\nlabour = 110', "price book"),
        (HEAD, "labour"),
        (HEAD + "labour = -1", "between 0 and 100,000"),
        (HEAD + "labour = 100001", "between 0 and 100,000"),
        (HEAD + "labour = true", "figure"),
        (HEAD + 'labour = "$110"', "without a sign of money"),
        (HEAD + "labour = nan", "between 0 and 100,000"),
        (HEAD + "labour = inf", "between 0 and 100,000"),
        (HEAD + "labour = 110\ncurrency = 3", "currency"),
        (HEAD + 'labour = 110\ncurrency = "doubloons"', "currency"),
        (HEAD + "labour = 110\nlabor = 3", "labour"),
        (HEAD + "labour = 110\nparts = 3", "parts"),
        (HEAD + 'labour = 110\n[parts]\n"fan cluch" = 3', "fan clutch"),
        (HEAD + 'labour = 110\n[parts]\n"cap" = -3', "parts.cap"),
        (HEAD + 'labour = 110\n[parts]\n"cap" = [3]', "parts.cap"),
    ],
)
def test_what_cannot_be_a_price_is_told_with_the_field_and_the_fix(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(Refusal) as refused:
        _read(tmp_path, text)
    assert told in str(refused.value)
    assert "\n" not in str(refused.value)


def _valid(schema: str, document: Any) -> bool:
    return Draft202012Validator(schemas()[schema]).is_valid(document)


def test_the_price_book_and_what_is_shown_of_it_fit_their_schemas() -> None:
    text = resources.files("toptank.shop.job").joinpath("price_book.toml").read_text(encoding="utf-8")
    assert _valid("prices", tomllib.loads(text))
    assert _valid("answer-prices", prices_answer(choose.prices()).record())
    for spoilt in ({"labour": -1}, {"currency": ""}, {"parts": {"flux capacitor": 3}}, {"format": "toptank-prices-9"}):
        assert not _valid("prices", {**tomllib.loads(text), **spoilt})
