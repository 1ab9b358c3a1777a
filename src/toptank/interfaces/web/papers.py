"""Papers of a job by their address: the order as PDF and as a page to look at, the job as a file."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import FastAPI
from starlette.responses import PlainTextResponse, Response

from toptank.interfaces.rest.refusals import code_of
from toptank.interfaces.rest.shapes import Asker
from toptank.interfaces.turns import LONG
from toptank.interfaces.web.upload import as_file
from toptank.shop.door import Order, Size, answer_cache, checklist_pdf, export_verbs, job_verbs
from toptank.shop.door import order_pdf as pdf
from toptank.shop.door import order_web_page as web_page
from toptank.units.refusal import Refusal

SHOWN = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; frame-ancestors 'self'"
"""An order to look at may run nothing and fetch nothing."""


def register(app: FastAPI) -> None:
    """Put the routes on the app."""

    @app.get("/job/{number}/order.pdf", include_in_schema=False)
    def pdf(number: int, asker: Asker, of: str = "", appendix: bool = False) -> Response:
        return _told(lambda: _pdf(asker, number, of, appendix=appendix))

    @app.get("/job/{number}/customer.pdf", include_in_schema=False)
    def customer_pdf(number: int, asker: Asker, of: str = "") -> Response:
        return _told(lambda: _pdf(asker, number, of, alone=True))

    @app.get("/job/{number}/customer.html", include_in_schema=False)
    def customer_page(number: int, asker: Asker, of: str = "") -> Response:
        return _told(lambda: _page(asker, number, of, alone=True))

    @app.get("/job/{number}/order.html", include_in_schema=False)
    def page(number: int, asker: Asker, of: str = "") -> Response:
        return _told(lambda: _page(asker, number, of))

    @app.get("/job/{number}/checks.pdf", include_in_schema=False)
    def checks(number: int, asker: Asker) -> Response:
        return _told(lambda: _checks(asker, number))

    @app.get("/job/{number}/job.toml", include_in_schema=False)
    def file(number: int) -> Response:
        return _told(
            lambda: as_file(export_verbs.export(number).encode("utf-8"), f"job-{number}.toml", "application/toml")
        )


def _told(make: Callable[[], Response]) -> Response:
    try:
        return make()
    except Refusal as refusal:
        return PlainTextResponse(str(refusal), code_of(refusal))


def _order(asker: str, number: int, plan: str) -> tuple[Order, Size]:
    job = job_verbs.stored_job(number)
    paper: Size = "letter" if job.system == "us" else "a4"
    order = answer_cache.cached_order(job, plan or None)
    if order is None:
        order = LONG.answer(asker, lambda: answer_cache.order(job, plan or None))
    return order, paper


def _pdf(asker: str, number: int, plan: str, *, appendix: bool = False, alone: bool = False) -> Response:
    order, paper = _order(asker, number, plan)
    name = f"{'customer' if alone else 'order'}-{number}.pdf"
    return as_file(pdf(order, paper, appendix=appendix, alone=alone), name, "application/pdf", shown=True)


def _checks(asker: str, number: int) -> Response:
    job = job_verbs.stored_job(number)
    paper: Size = "letter" if job.system == "us" else "a4"
    found = LONG.answer(asker, lambda: answer_cache.checklist(job))
    return as_file(checklist_pdf(found, paper), f"checks-{number}.pdf", "application/pdf", shown=True)


def _page(asker: str, number: int, plan: str, *, alone: bool = False) -> Response:
    order, paper = _order(asker, number, plan)
    return Response(
        web_page(order, paper, alone=alone), media_type="text/html", headers={"content-security-policy": SHOWN}
    )
