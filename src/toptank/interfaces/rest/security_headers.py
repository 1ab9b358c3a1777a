"""What is given out to be looked at: a drawing or a paper may run nothing and fetch nothing."""

from starlette.responses import Response

SHOWN = "default-src 'none'; style-src 'unsafe-inline'"


def drawn(drawing: str) -> Response:
    """Return a drawing that stands alone."""
    return Response(drawing, media_type="image/svg+xml", headers={"content-security-policy": SHOWN})
