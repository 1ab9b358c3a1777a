"""What REST answers: an answer as JSON, its texts worded in the units asked, or what is given out to be looked at."""

from starlette.responses import Response

from toptank.shop.door import Answer
from toptank.units.conversion import System

SHOWN = "default-src 'none'; style-src 'unsafe-inline'"
"""A drawing or a paper may run nothing and fetch nothing."""


def told(answer: Answer, system: System = "us", code: int = 200) -> Response:
    """Return an answer as JSON."""
    return Response(answer.json_text(system), code, media_type="application/json")


def drawn(drawing: str) -> Response:
    """Return a drawing that stands alone."""
    return Response(drawing, media_type="image/svg+xml; charset=utf-8", headers={"content-security-policy": SHOWN})


def file(kind: str) -> dict[str, str]:
    """Name the kind of file that an address answers with, for the document of this interface."""
    return {"x-file": kind}
