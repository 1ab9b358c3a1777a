"""Requests made from the OpenAPI document, alone and one after another: each answer is as the document tells it."""

import itertools
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.stateful import run_state_machine_as_test
from schemathesis.core.result import Ok
from schemathesis.specs.openapi.checks import negative_data_rejection, positive_data_acceptance

from toptank.interfaces.rest.application import PLACE, register

SLOW = ("/diagnosis", "/choice", "/order.", "/trade-off.", "/forecast", "/drive", "/log", "/verify")
"""Addresses whose answers take seconds; test_api.py asks them."""

EXAMPLES_OF_EACH, WAYS, STEPS = 8, 12, 12
# "positive data" is left out: a text that fits its schema need not be a temperature, and is then refused with the fix

JOB = """format = "toptank-job-2"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""
FAIR = (HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large)
"""What says no more than that this machine is busy, or that a figure is hard to hit upon."""


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("TOPTANK_STORE", str(tmp_path_factory.mktemp("shop") / "jobs.sqlite"))
        yield


def _told() -> Any:
    server = FastAPI(openapi_url=None)
    register(server)
    return schemathesis.openapi.from_asgi(f"{PLACE}/openapi.json", server)


@pytest.mark.usefixtures("record")
def test_no_request_breaks_it_and_no_answer_is_untold() -> None:
    """Requests made from the document, good ones and bad ones; every answer must be as the document tells it."""
    asked = 0
    for found in _told().get_all_operations():
        assert isinstance(found, Ok)  # the document tells nothing that cannot be read
        operation = found.ok()
        if any(part in operation.path for part in SLOW):
            continue

        @given(case=operation.as_strategy())
        @settings(
            max_examples=EXAMPLES_OF_EACH,
            deadline=None,
            phases=[Phase.explicit, Phase.generate],
            suppress_health_check=FAIR,
            database=None,
        )
        def ask(case: Any) -> None:
            case.call_and_validate(excluded_checks=[positive_data_acceptance], timeout=60)

        ask()
        asked += 1
    assert asked > 15


def test_no_row_of_requests_breaks_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A job is opened, written to, closed, opened again, gone back in, with good and bad figures, in any order."""
    quick = _told().exclude(lambda context: any(part in context.operation.path for part in SLOW))
    reached, begun = set[str](), itertools.count()

    class Way(quick.as_state_machine()):
        def setup(self) -> None:
            """Begin with an empty record: numbers of jobs are the same again."""
            monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / f"{next(begun)}.sqlite"))

        def before_call(self, case: Any) -> None:
            """Make a job of a text that is to be one: of random ones nobody could go on."""
            if isinstance(case.body, dict) and "file" in case.body and case.body["file"] is not None:
                case.body["file"] = JOB

        def validate_response(self, response: Any, case: Any, additional_checks: Any = None, **more: Any) -> None:
            if response.status_code < 400:
                reached.add(case.operation.label)
            case.validate_response(
                response, additional_checks=additional_checks,
                # the text that is put in before a call is a good one, whatever was there
                excluded_checks=[positive_data_acceptance, negative_data_rejection],
                transport_kwargs=more,
            )  # fmt: skip

    with_links = settings(
        max_examples=WAYS,
        stateful_step_count=STEPS,
        deadline=None,
        suppress_health_check=FAIR,
        database=None,
        derandomize=True,
    )
    run_state_machine_as_test(Way, settings=with_links)
    assert len({one for one in reached if "{number}" in one}) >= 5, reached  # of a job that was opened on the way
