"""Whatever is asked in one system of units is told in that one: figures in fixed units, sentences in those asked."""

import asyncio
import re
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from httpx import ASGITransport, AsyncClient, Response

from toptank.interfaces.rest.application import api

EXAMPLES = Path(__file__).parents[3] / "examples"

OF_ONE_SYSTEM = {"us": r"°F|psi|mph|mi|qt|gal|gpm|inH2O|ft|in|lb|fpi|hp", "metric": r"°C|kPa|km/h|km|L|L/min|mm|kg|kW"}
"""Units as figures are told in them."""

ANSWERED = (
    "/jobs/{number}/forecast?draws=50",
    "/jobs/{number}/diagnosis?seed=1",
    "/jobs/{number}/choice?draws=200",
    "/jobs/{number}/fit?",
    "/jobs/{number}/cap?at=100 C",
    "/jobs/{number}/what-if?duty=ridge climb&speed=30 mph",
    "/jobs/{number}/drive?legs=3 miles up 6 %25 at 45 mph&ambient=98 F",
    "/mix?capacity=16 qt&now=30 %25&want=65 %25",
    "/boil?cap=15 psi&altitude=2000 ft",
    "/freeze?mix=68 %25",
    "/explain/cap.pressure?",
    "/explain/core.face_width?",
)

ASKED_OR_NAMED = {"title", "assumed_units", "parts", "name", "plan", "recommended", "does_not_go_in", "limits", "note"}
"""Keys of what people wrote, and of what the catalogue calls its things."""


Ask = Callable[[str], Response]


@pytest.fixture(scope="module")
def ask(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ask]:
    """Ask an interface whose record holds one job, written in US units, that no remedy cures."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TOPTANK_STORE", str(tmp_path_factory.mktemp("record") / "jobs.sqlite"))
        transport = ASGITransport(api())

        async def answered(method: str, address: str, **body: Any) -> Response:
            async with AsyncClient(transport=transport, base_url="http://127.0.0.1") as client:
                return await client.request(method, address, **body)

        text = (EXAMPLES / "orchard-minibus.toml").read_text(encoding="utf-8")
        for was, becomes in (('limit = "220 F"', 'limit = "160 F"'), ('"25 1/4 in"', '"60 in"')):
            assert was in text
            text = text.replace(was, becomes)
        with ThreadPoolExecutor(1) as worker:  # a thread has a loop of its own
            opened = worker.submit(asyncio.run, answered("POST", "/jobs", json={"file": text})).result()
            assert opened.status_code == 201
            yield lambda address: worker.submit(asyncio.run, answered("GET", address)).result()


def test_every_address_that_takes_units_is_tried(ask: Ask) -> None:
    taking = {
        path
        for path, verbs in ask("/openapi.json").json()["paths"].items()
        for one in verbs.get("get", {}).get("parameters", [])
        if one["name"] == "units" and not path.endswith(".svg")
    }
    tried = {re.sub(r"^/explain/.*", "/explain/{quantity}", one.partition("?")[0]) for one in ANSWERED}
    assert taking == tried


@pytest.mark.parametrize("address", ANSWERED)
def test_figures_are_the_same_in_both_systems_and_sentences_are_told_in_the_one_that_was_asked(
    address: str, ask: Ask
) -> None:
    told = {units: ask(f"{address.format(number=1)}&units={units}") for units in OF_ONE_SYSTEM}
    assert {one.status_code for one in told.values()} == {200}
    for units, other in (("us", "metric"), ("metric", "us")):
        theirs, ours = (rf"(?<![\w.])\d[\d.,]*\s?(?:{OF_ONE_SYSTEM[one]})(?![\w/°])" for one in (other, units))
        texts = [one for one in _texts(told[units].json()) if re.search(theirs, one)]
        assert [one for one in texts if not re.search(ours, one)] == [], "a figure told both ways is read by all"
    assert _without_texts(told["us"].json()) == _without_texts(told["metric"].json())


def test_a_remark_on_the_job_is_told_in_the_units_asked(ask: Ask) -> None:
    """The file says 60 in; who asks in metric units reads of 1520 mm."""
    us, metric = (" ".join(ask(f"/jobs/1/choice?draws=200&units={one}").json()["remarks"]) for one in OF_ONE_SYSTEM)
    assert "60 in" in us
    assert "160 °F" in us
    assert "1524 mm" in metric or "1520 mm" in metric
    assert "71 °C" in metric


def _texts(value: Any, key: str = "") -> Iterator[str]:
    if isinstance(value, dict):
        for name, one in value.items():
            yield from _texts(one, name)
    elif isinstance(value, list):
        for one in value:
            yield from _texts(one, key)
    elif isinstance(value, str) and key not in ASKED_OR_NAMED:
        yield value


def _without_texts(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _without_texts(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_without_texts(one) for one in value]
    return "" if isinstance(value, str) else value
