"""Files of the order: both places looked at before any work, both set before either is written, each whole."""

from pathlib import Path

from toptank.shop.files.atomic_write import check_place, write_whole
from toptank.shop.files.toml_file import shortened
from toptank.shop.order.record import Order
from toptank.shop.order.setting.pdf import Paper, pdf
from toptank.shop.order.setting.web_page import web_page
from toptank.units.refusal import Refusal

ENDINGS = {"pdf": (".pdf",), "html": (".html", ".htm")}


def check_places(pdf_file: Path | None, html_file: Path | None, *, replace: bool) -> None:
    """Refuse files that cannot be written.

    Raises
    ------
    Refusal : if none is named, an ending is wrong, or a place is taken
    """
    if pdf_file is None and html_file is None:
        fix = "name a file with --pdf, with --html, or with both"
        raise Refusal(field="pdf", value="none", limit="the order needs a file to be written to", fix=fix)
    for kind, file in (("pdf", pdf_file), ("html", html_file)):
        if file is None:
            continue
        if file.suffix.lower() not in ENDINGS[kind]:
            limit = f"must end in {' or '.join(ENDINGS[kind])}"
            raise Refusal(field=kind, value=shortened(file), limit=limit, fix="name the file so")
        check_place(file, replace=replace)


def write_files(
    order: Order,
    paper: Paper,
    *,
    pdf_file: Path | None = None,
    html_file: Path | None = None,
    replace: bool,
    appendix: bool = False,
    alone: bool = False,
) -> None:
    """Write the order to the files that are named.

    With `appendix` what is behind its two pages; with `alone` the customer's page and nothing else.
    """
    check_places(pdf_file, html_file, replace=replace)
    contents: list[tuple[Path, bytes]] = []
    if pdf_file is not None:
        contents.append((pdf_file, pdf(order, paper, appendix=appendix, alone=alone)))
    if html_file is not None:
        contents.append((html_file, web_page(order, paper, appendix=appendix, alone=alone).encode("utf-8")))
    for file, content in contents:
        write_whole(file, content, replace=replace)
