"""REST: the verbs of the command line for another program, told whole by its own document."""

import asyncio
import json
import re
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi import FastAPI
from jsonschema import Draft202012Validator

from toptank.interfaces import turns
from toptank.interfaces.rest.application import PLACE, api, register
from toptank.interfaces.rest.refusals import LARGEST, REFUSED
from toptank.interfaces.web.access.passphrase import new_door
from toptank.interfaces.web.application import application
from toptank.shop.answers.schemas import schemas

EXAMPLES = Path(__file__).parents[3] / "examples"
OURS = "http://127.0.0.1:8322"


class Client:
    """Asks an app as another program would ask the server, without a server."""

    def __init__(self, app: FastAPI) -> None:
        self.transport = httpx.ASGITransport(app)

    def ask(self, method: str, address: str, **more: Any) -> httpx.Response:
        async def asked() -> httpx.Response:
            async with httpx.AsyncClient(transport=self.transport, base_url=OURS) as client:
                return await client.request(method, address, **more)

        # A browser of the same session keeps a loop running on this thread; a thread has a loop of its own.
        with ThreadPoolExecutor(1) as worker:
            return worker.submit(asyncio.run, asked()).result()

    def get(self, address: str, **more: Any) -> httpx.Response:
        return self.ask("GET", address, **more)

    def post(self, address: str, **more: Any) -> httpx.Response:
        return self.ask("POST", address, **more)


@pytest.fixture(scope="module", autouse=True)
def _store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TOPTANK_STORE", str(tmp_path_factory.mktemp("rest") / "jobs.sqlite"))
        yield


@pytest.fixture(scope="module")
def client() -> Client:
    return Client(api())


def _fits(answer: Any, name: str) -> Any:
    Draft202012Validator(schemas()[name]).validate(answer)
    return answer


def _refusal(response: Any, code: int) -> dict[str, str]:
    assert response.status_code == code, response.text
    Draft202012Validator(REFUSED).validate(response.json())
    return response.json()


def test_a_job_goes_its_way_over_rest(client: Client) -> None:
    text = (EXAMPLES / "first-job.toml").read_text(encoding="utf-8")
    opened = client.post("/jobs", json={"file": text, "by": "Sam"})
    assert opened.status_code == 201
    number = _fits(opened.json(), "answer-job-revision")["number"]
    assert opened.json()["author"] == "Sam"
    duty = re.findall(r'\[\[duty\]\]\s+name = "(.*?)"', text)[0]
    read = client.post(f"/jobs/{number}/readings", json={"duty": duty, "gauge": "218 F", "by": "logger"})
    assert _fits(read.json(), "answer-job-revision")["revision"] == 2
    shown = _fits(client.get(f"/jobs/{number}").json(), "answer-job-show")
    assert 'gauge = "218 F"' in shown["text"]
    assert _fits(client.post(f"/jobs/{number}/notes", json={"text": "roars late"}).json(), "answer-job-note")
    after = client.post(f"/jobs/{number}/readings-after", json={"duty": duty, "gauge": "92", "units": "metric"})
    assert "92 °C" in _fits(after.json(), "answer-job-note")["text"]
    export = client.get(f"/jobs/{number}/file")
    assert export.headers["content-type"].startswith("application/toml")
    saved = client.ask("PUT", f"/jobs/{number}", json={"file": export.text.replace('"218 F"', '"219 F"')})
    assert saved.json()["revision"] == 3
    clash = _refusal(client.ask("PUT", f"/jobs/{number}", json={"file": export.text}), 409)
    assert clash["field"] == "based-on"
    closed = client.post(f"/jobs/{number}/close", json={"causes": ["fan clutch slips"], "how": "seen"})
    assert _fits(closed.json(), "answer-job-revision")["state"] == "closed"
    assert client.post(f"/jobs/{number}/reopen", json={}).json()["state"] == "open"
    assert client.post(f"/jobs/{number}/revert", json={"revision": 1}).json()["revision"] == 6
    assert len(_fits(client.get(f"/jobs/{number}/history").json(), "answer-job-history")["revisions"]) == 6
    assert number in [row["number"] for row in _fits(client.get("/jobs").json(), "answer-job-list")["jobs"]]
    assert client.get("/jobs", params={"search": "no such words anywhere"}).json() == {"jobs": []}


@pytest.fixture(scope="module")
def number(client: Client) -> int:
    """The number of a job like the built-in example."""
    text = (EXAMPLES / "orchard-minibus.toml").read_text(encoding="utf-8")
    return client.post("/jobs", json={"file": text}).json()["number"]


@pytest.mark.parametrize("units", ["us", "metric"])
def test_answers_to_a_job_fit_the_schemas_of_the_command_line(units: str, client: Client, number: int) -> None:
    for path, name, more in (
        ("forecast", "answer-forecast", {"draws": 50}),
        ("diagnosis", "answer-diagnose", {}),
        ("fit", "answer-fit", {}),
        ("cap", "answer-cap", {"bottle": "2 qt", "part": ["hoses, old or unknown"]}),
        ("what-if", "answer-what-if", {"ambient": "40 C", "air_conditioning": "off", "duty": "ridge climb"}),
    ):
        answer = client.get(f"/jobs/{number}/{path}", params={"units": units, **more})
        assert answer.status_code == 200, answer.text
        _fits(answer.json(), name)
    answer = client.get(f"/jobs/{number}/what-if", params={"ambient": "40 C", "duty": "ridge climb"}).json()
    assert answer["ambient_degC"] == pytest.approx(40.0)
    assert answer["rests_on"] == "diagnosis"  # the one that was just made is gone on with


def test_the_order_and_the_drawings_come_as_files(client: Client, number: int) -> None:
    order = client.get(f"/jobs/{number}/order.pdf")
    assert order.content.startswith(b"%PDF")
    assert order.headers["content-type"] == "application/pdf"
    assert "<h1>" in client.get(f"/jobs/{number}/order.html", params={"paper": "a4"}).text
    assert _fits(client.get(f"/jobs/{number}/choice").json(), "answer-choose")["plans"]
    for path in ("trade-off.svg", "loop.svg"):
        drawing = client.get(f"/jobs/{number}/{path}")
        assert drawing.headers["content-type"] == "image/svg+xml; charset=utf-8"
        assert drawing.text.startswith("<svg")
    road = {"legs": "3 miles up 6 % at 45 mph, then idle 5 min", "ambient": "98 F"}
    driven = _fits(client.get(f"/jobs/{number}/drive", params=road).json(), "answer-drive")
    strip = client.get(f"/jobs/{number}/drive.svg", params=road)
    # The ring stands on the middle curve; `peak_degC` is the band of each vehicle's own peak, and not all are hottest
    # at the same moment.
    hottest = max(driven["along"]["gauge_p50_degC"])
    assert f"peak {1.8 * hottest + 32.0:.0f} °F" in strip.text
    assert _refusal(client.get(f"/jobs/{number}/drive", params={"legs": "somewhere far"}), 422)["field"] == "legs"
    unknown = _refusal(client.get(f"/jobs/{number}/order.pdf", params={"plan": "paint it red"}), 422)
    assert unknown["field"] == "plan"


DRIVE = """clock, gauge, speed, grade, A/C
14:00, 195 F, 50 mph, 0 %, on
14:06, 196 F, 35 mph, 5 %, on
14:10, 228 F, 35 mph, 5 %, on
14:15, 244 F, 0 mph, 0 %, on
14:20, 255 F, 0 mph, 0 %, on
"""
"""Hot at the stop; the air outside is not in it."""


def test_a_log_that_cannot_be_used_is_refused_and_not_kept(client: Client, number: int) -> None:
    """Logs that can be used are sent in test_logs_on_page.py, to a server that has the answers at hand."""
    before = _fits(client.get(f"/jobs/{number}/attachments").json(), "answer-attachments")
    for more, field, code in (
        ({"text": DRIVE}, "log", 422),  # nobody says how warm the air was
        ({"text": DRIVE, "ambient": "/somewhere/hosts.txt"}, "ambient", 422),
        ({"text": DRIVE, "log": "0" * 64, "ambient": "92 F"}, "log", 422),
        ({"log": "0" * 64, "ambient": "92 F"}, "checksum", 404),
        ({"text": "a,b\n1,2\n", "ambient": "92 F"}, "log _.csv", 422),
    ):
        answer = _refusal(client.post(f"/jobs/{number}/log", json={"name": "<.csv", **more}), code)
        assert answer["field"] == field, answer
    assert client.get(f"/jobs/{number}/attachments").json() == before


def test_files_are_sent_limited_and_driven_along(client: Client, number: int) -> None:
    route = (EXAMPLES / "demo-climb.gpx").read_bytes()
    kept = client.post(f"/jobs/{number}/attachments", params={"name": "climb.gpx"}, content=route)
    assert kept.status_code == 201
    checksum = _fits(kept.json(), "answer-job-attach")["checksum"]
    back = client.get(f"/jobs/{number}/attachments/{checksum[:8]}")
    assert back.content == route
    assert back.headers["content-disposition"].startswith("attachment")
    asked = {"route": checksum, "ambient": "98 F", "air_conditioning": "off"}
    driven = _fits(client.get(f"/jobs/{number}/drive", params=asked).json(), "answer-drive")
    assert driven["distance_km"] == pytest.approx(
        1.609344 * (6.0 + 1400 / 0.05 / 5280), abs=0.16
    )  # as tools/write_demo_climb.py says
    assert not any(one["air_conditioning_off"] for one in driven["what_would_ease_it"])  # it is off already
    small = _refusal(client.post(f"/jobs/{number}/attachments", params={"name": "x.html"}, content=b"<html>"), 415)
    assert small["field"] == "name"
    large = b"1" * (32 * 1024**2 + 1)
    assert _refusal(client.post(f"/jobs/{number}/attachments", params={"name": "x.csv"}, content=large), 413)
    entity = b"<?xml version='1.0'?><!DOCTYPE gpx [<!ENTITY a 'b'>]><gpx>&a;</gpx>"
    bad = client.post(f"/jobs/{number}/attachments", params={"name": "x.gpx"}, content=entity)
    if bad.status_code == 201:  # kept as it is, never opened as a route
        _refusal(client.get(f"/jobs/{number}/drive", params={"route": bad.json()["checksum"]}), 422)


def test_what_needs_no_job_fits_its_schema_too(client: Client) -> None:
    for path, name in (
        ("/mix?capacity=16 qt&now=30 %&want=50 %", "answer-mix"),
        ("/boil?cap=15 psi", "answer-boil"),
        ("/freeze?mix=40 %&units=metric", "answer-freeze"),
        ("/water?kind=tap&analysis=chloride=30&analysis=pH=7.4", "answer-water"),
        ("/bleed", "answer-bleed"),
        ("/vehicles", "answer-vehicles"),
        ("/causes", "answer-causes"),
        ("/checks", "answer-checks"),
        ("/prices", "answer-prices"),
        ("/explain/top_tank", "answer-explain"),
    ):
        _fits(client.get(path).json(), name)
    # the check value of the issue: 16 qt from 30 to 50 % with concentrate drains 4.57 qt
    recipe = client.get("/mix?capacity=16 qt&now=30 %&want=50 %").json()["counted_as_pure"]
    assert recipe["drain_L"] / 0.946352946 == pytest.approx(4.57, abs=0.005)


def test_every_refusal_names_field_value_limit_and_fix(client: Client, number: int) -> None:
    hot = _refusal(client.get(f"/jobs/{number}/what-if", params={"ambient": "35 psi"}), 422)
    assert (hot["field"], hot["value"]) == ("ambient", "35 psi")
    assert _refusal(client.get("/jobs/99999"), 404)["field"] == "job"
    assert _refusal(client.get(f"/jobs/{number}", params={"revision": 77}), 404)["field"] == "revision"
    assert _refusal(client.get("/jobs/0"), 422)["field"] == "number"
    assert _refusal(client.get("/nowhere"), 404)["field"] == "address"
    assert _refusal(client.ask("DELETE", "/jobs"), 405)["value"].endswith("/jobs")
    assert _refusal(client.post("/jobs", json={}), 422)["field"] == "file"
    assert _refusal(client.post("/jobs", json={"file": "rows = ["}), 422)["limit"] == "is not TOML"
    assert _refusal(client.post("/jobs", content=b'{"file": "\\ud800"}'), 422)["field"] == "body"
    json_kind = {"content-type": "application/json"}
    assert _refusal(client.post("/jobs", content=b"\xff", headers=json_kind), 422)["limit"] == "is no text in UTF-8"
    bad = _refusal(client.post("/jobs", content=b'{"like" 3}', headers=json_kind), 422)
    assert (bad["field"], bad["value"]) == ("body", '{"like" 3}')
    assert bad["limit"].startswith("is no JSON: ")
    assert _refusal(client.post("/jobs", content=b"{"), 422)["limit"] == "was not sent as JSON"
    assert _refusal(client.post(f"/jobs/{number}/notes", json={"txt": "?"}), 422)["field"] in ("text", "txt")
    near = _refusal(client.post(f"/jobs/{number}/close", json={"causes": ["fan clutch slip"]}), 422)
    assert "fan clutch slipping" in near["fix"]
    lost = _refusal(client.post(f"/jobs/{number}/readings", json={"duty": "ridge clmb", "gauge": "218 F"}), 422)
    assert "ridge" in lost["says"]
    large = client.post("/jobs", content=b" " * (LARGEST + 1), headers={"content-type": "application/json"})
    assert _refusal(large, 413)["field"] == "body"


def test_a_rush_of_long_answers_is_told_to_come_back(
    client: Client, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(turns, "PATIENCE", 0.05)
    fresh = client.post("/jobs", json={"like": "pickup-1970s-v8-air", "title": "Never asked before"}).json()["number"]
    page = Client(application(warm=False))
    over = threading.Event()
    busy = [turns.LONG.submit("somebody else", over.wait) for _ in range(2)]
    try:
        for paper in ("order.pdf", "order.html"):
            late = page.get(f"/job/{fresh}/{paper}")
            assert (late.status_code, "ask again in a minute" in late.text) == (503, True)
        rush = _refusal(client.get(f"/jobs/{number}/forecast", params={"draws": 50}), 503)
        assert "again" in rush["fix"]
        assert client.get("/vehicles").status_code == 200
        assert client.get(f"/jobs/{number}/what-if").status_code == 200  # what takes a moment has a lane of its own
    finally:
        over.set()
    assert all(one.result() for one in busy)
    assert client.get(f"/jobs/{number}/forecast", params={"draws": 50}).status_code == 200


def test_what_was_typed_is_never_markup(client: Client, number: int) -> None:
    nasty = "<img src=x onerror=alert(1)>"
    job = client.post("/jobs", json={"like": "pickup-1970s-v8-air", "title": nasty, "complaint": nasty}).json()
    drawing = client.get(f"/jobs/{job['number']}/loop.svg")
    assert "<img" not in drawing.text
    assert drawing.headers["content-security-policy"].startswith("default-src 'none'")
    answer = client.get(f"/jobs/{number}/what-if", params={"duty": nasty})
    assert answer.headers["content-type"] == "application/json"


class _Addresses(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.tags: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.found += [value or "" for name, value in attrs if name in ("href", "src", "action", "srcset", "data")]


def test_the_documentation_tells_every_address_and_fetches_nothing(client: Client) -> None:
    shown, document = client.get("/docs").text, client.get("/openapi.json").json()
    for path, verbs in document["paths"].items():
        for verb in verbs:
            assert f"<b>{verb.upper()}</b> {path}" in shown
    seen = _Addresses()
    seen.feed(shown)
    assert not seen.tags & {"script", "link", "img", "iframe", "object", "embed"}
    assert all(address.startswith(("#", PLACE)) for address in seen.found)
    assert not re.search(r"url\(|@import", shown)


def test_the_document_holds_the_schemas_of_the_answers(client: Client) -> None:
    document = client.get("/openapi.json").json()
    known = document["components"]["schemas"]
    refs = set(re.findall(r'"#/components/schemas/([^"]+)"', json.dumps(document)))
    assert refs <= set(known)
    assert '"#/$defs' not in json.dumps(document)
    assert known["WhatIfAnswer"]["properties"].keys() == schemas()["answer-what-if"]["properties"].keys()
    assert {"ForecastAnswer", "DiagnosisAnswer", "ChoiceAnswer", "MixAnswer", "JobAnswer"} <= set(known)
    for path, verbs in document["paths"].items():
        for operation in verbs.values():
            (content,) = next(iter(operation["responses"].values()))["content"].values()
            assert content["schema"] not in ({}, None), f"{path} does not say what it answers"


def test_on_the_server_other_sites_and_strangers_stay_out(tmp_path: Path) -> None:
    alone = Client(application(warm=False))
    assert alone.get("/look/nothing.css").text.startswith("Nothing has this address")
    assert alone.get(f"{PLACE}/vehicles").status_code == 200
    assert alone.get(f"{PLACE}/docs").headers["content-security-policy"].startswith("default-src 'none'")
    body = {"like": "pickup-1970s-v8-air"}
    assert alone.post(f"{PLACE}/jobs", json=body, headers={"origin": "http://elsewhere.example"}).status_code == 403
    assert alone.get(f"{PLACE}/vehicles", headers={"host": "elsewhere.example"}).status_code == 421
    assert alone.post(f"{PLACE}/jobs", json=body, headers={"origin": OURS}).status_code == 201
    shared = Client(application(door=new_door(tmp_path / "door", "orchard gate 7"), warm=False))
    assert shared.get(f"{PLACE}/vehicles").status_code == 401
    assert shared.get(f"{PLACE}/openapi.json").status_code == 401
    known = {"authorization": "Bearer orchard gate 7"}
    assert shared.get(f"{PLACE}/vehicles", headers=known).status_code == 200
    assert shared.get(f"{PLACE}/vehicles", headers={"authorization": "Bearer orchard gate 8"}).status_code == 401


def test_an_address_with_the_end_of_a_line_in_it_is_refused_like_any_other() -> None:
    server = FastAPI(openapi_url=None)
    register(server)
    assert _refusal(Client(server).get(f"{PLACE}/explain/%C2%87%0A%23"), 422)["field"] == "quantity"


def test_who_came_with_what_is_written_and_lists_are_asked_by_it(client: Client) -> None:
    number = client.post("/jobs", json={"like": "pickup-1970s-v8-air", "title": "Fleet no. 8"}).json()["number"]
    said = {"customer": "A. Ortega", "registration": "KB 90-11", "waiting_for": "parts", "by": "Sam"}
    saved = client.post(f"/jobs/{number}/write-up", json=said)
    assert _fits(saved.json(), "answer-job-revision")["author"] == "Sam"
    listed = client.get("/jobs", params={"search": "kb9011", "state": "waiting_for_parts"})
    (row,) = _fits(listed.json(), "answer-job-list")["jobs"]
    assert (row["number"], row["customer"], row["stands"]) == (number, "A. Ortega", "waiting_for_parts")
    assert client.get("/jobs", params={"search": "kb9011", "state": "in_work"}).json()["jobs"] == []
    client.post(f"/jobs/{number}/write-up", json={"waiting_for": ""})
    (row,) = client.get("/jobs", params={"search": "kb9011", "state": "in_work"}).json()["jobs"]
    assert row["customer"] == "A. Ortega"  # what is not sent stays
    _refusal(client.post(f"/jobs/{number}/write-up", json={"waiting_for": "rain"}), 422)
    _refusal(client.get("/jobs", params={"state": "lost"}), 422)


def test_what_closed_jobs_like_one_were_is_asked_over_rest(client: Client) -> None:
    text = 'format = "toptank-job-2"\n[vehicle]\nlike = "roadster-1960s-four"\n[[duty]]\nname = "usual"\n'
    first, second = (client.post("/jobs", json={"file": text}).json()["number"] for _ in range(2))
    client.post(f"/jobs/{first}/close", json={"causes": ["fan_clutch_slips"]})
    found = _fits(client.get(f"/jobs/{second}/similar").json(), "answer-job-similar")
    assert (first, ["fan_clutch_slips"]) in [(one["number"], one["causes"]) for one in found["jobs"]]
    assert first in next(one["jobs"] for one in found["causes"] if one["cause"] == "fan_clutch_slips")
    _refusal(client.get("/jobs/99999/similar"), 404)
