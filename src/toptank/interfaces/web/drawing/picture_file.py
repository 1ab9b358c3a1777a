"""A drawing as a file: SVG that needs nothing else, or PNG set by typst."""

from pathlib import Path

import typst

from toptank.interfaces.web.drawing.svg import standing_alone
from toptank.shop.door import check_place, write_whole
from toptank.units.refusal import Refusal

KINDS = (".svg", ".png")
DOTS_AN_INCH = 144


def check_picture_file(out: Path, *, replace: bool) -> None:
    """Refuse a file that cannot be written, before any work is done."""
    if out.suffix.lower() not in KINDS:
        raise Refusal(field="out", value=str(out), limit="must end in .svg or .png", fix="name the file so")
    check_place(out, replace=replace)


def write_picture(drawing: str, out: Path, *, replace: bool) -> None:
    """Write a drawing, whole or not at all."""
    alone = standing_alone(drawing).encode("utf-8")
    write_whole(out, alone if out.suffix.lower() == ".svg" else png(alone), replace=replace)


def png(alone: bytes) -> bytes:
    """Return a drawing that stands alone as PNG.

    Raises
    ------
    Refusal : if it cannot be set
    """
    page = '#set page(width: auto, height: auto, margin: 0pt)\n#image(bytes(sys.inputs.drawing), format: "svg")'
    try:
        content = typst.compile(
            page.encode(), format="png", ppi=DOTS_AN_INCH, sys_inputs={"drawing": alone.decode("utf-8")}
        )
    except typst.TypstError as error:
        limit = f"could not be set ({' '.join(error.message.split())})"
        raise Refusal(field="out", value="picture", limit=limit, fix="write it as .svg, and report this") from error
    if not isinstance(content, bytes):  # pyright: ignore[reportUnnecessaryIsInstance]  # of many pages it is a list
        raise Refusal(field="out", value="picture", limit="came to more than one page", fix="write it as .svg")
    return content
